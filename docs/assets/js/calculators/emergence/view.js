// The answer in words, numbers and two pictures.

import { element, list, numbers, parts, pictureSlot, table } from "../element.js";
import { temperatureText } from "../format.js";
import { temperatureRange } from "../temperature.js";
import { bandWords, cellText, daysRange, daysText, timesText, usualTexts, whyNone } from "../warmth_words.js";
import { daysPicture, percentPicture } from "./picture.js";

const FEW = 40; // percent under which it is hardly worth sowing
const whole = (value) => `${Math.round(value)} %`;
const span = (low, high) => (Math.round(low) === Math.round(high) ? whole(low) : `${Math.round(low)}–${whole(high)}`);
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function warmth({ values, steady }) {
  return steady ? `at ${temperatureText(values.low, values.unit)}` : `between ${temperatureText(values.low, values.unit)} and ${temperatureText(values.high, values.unit)} each day`;
}

function reason({ crop, values, steady, mean, days }) {
  const inside = whyNone(crop.days, steady ? values.low : mean, values.unit, "days");
  return inside ?? (days.most === 0 ? "none came at such temperatures" : "part of the day lies where nothing was tested");
}

function headline(answer) {
  const { crop, days, percent } = answer;
  const start = `${crop.name} ${warmth(answer)}: `;
  const share = percent === null || percent.at === null ? "" : percent.high < 1 ? "; but hardly any seed comes up" : `; about ${whole(percent.at)} of good seed comes up${answer.steady ? "" : ` at the mean of ${temperatureText(answer.mean, answer.values.unit)}`}`;
  if (days === null) {
    return crop.usual.length > 0 ? `${crop.name}: days were not measured by temperature. Printed are ${usualTexts(crop.usual, answer.values.unit)[0]}.`
      : `${crop.name}: no published days to emergence were found.`;
  }
  if (days.early === null) return `${start}expect no seedlings; ${reason(answer)}.`;
  if (days.late === null) return `${start}no figure for the days: ${reason(answer)}${share}.`;
  return `${start}seedlings in ${daysRange(days.early, days.late)}${share}.`;
}

function trust(answer) {
  const { crop, days, percent, values } = answer;
  if (days === null && crop.usual.length > 0) return "That is one source’s figure for its own warmth. There is no table by temperature, so nothing is worked out for yours.";
  if (days === null) return "So nothing is worked out. Keep the seed in the crop’s best range if one is published, and look every day.";
  const { held_out: errors } = answer;
  const sentences = [`From one published table (${crop.days.source}); how many seeds were sown is not printed.`];
  if (days.late !== null) sentences.push(`Left out of it in turn, nine tested temperatures in ten come within a factor of ${errors.nine_in_ten.toFixed(2)} (n = ${errors.n}); hence the range. Old or poor seed takes longer.`);
  if (days.outside_hours > 0 && days.outside_hours < 24) {
    const [first, last] = [crop.days.curve.knots[0], crop.days.curve.knots.at(-1)];
    sentences.push(`For ${days.outside_hours} of 24 hours the seed is outside the tested ${temperatureRange(first, last, values.unit)}: the early end counts them as at the nearest tested temperature (as nothing where none came), the late end as nothing.`);
  }
  if (percent !== null && percent.at !== null && percent.near.length > 0) sentences.push(`Percentages are of normal seedlings: ${percent.near.map(([celsius, , share]) => `${share} % at ${temperatureText(celsius, values.unit)}`).join(", ")}.`);
  return sentences.join(" ");
}

function doing({ days, percent, crop, values, mean, steady }, data) {
  const words = [];
  const band = bandWords(crop.band, mean);
  if (band) words.push(`${steady ? "This" : `The mean, ${temperatureText(mean, values.unit)},`} is ${band}.`);
  if (percent !== null && percent.at !== null && percent.at < FEW) words.push("Few come up at this warmth. Find a place nearer the best range, or wait.");
  const harm = steady ? undefined : percent?.near.find(([celsius, , share]) => celsius > mean && celsius <= values.high && share < FEW);
  if (harm) words.push(`The day’s highest is a danger: at a steady ${temperatureText(harm[0], values.unit)} only ${harm[2]} % came.`);
  if (days?.late) {
    words.push(`Look every day from day ${Math.max(1, Math.floor(days.early))} on.`);
    words.push(`Give up about day ${Math.round(days.late * data.give_up.value)}, ${timesText(data.give_up.value)} the late end (our own rule, no source). Then dig up a few seeds: firm ones may still come, soft ones will not.`);
  } else if (days !== null) {
    const best = crop.band.optimum_low_c === null ? crop.days.curve.knots : [crop.band.optimum_low_c, crop.band.optimum_high_c];
    words.push(`Tested were ${temperatureRange(crop.days.curve.knots[0], crop.days.curve.knots.at(-1), values.unit)}; best are ${temperatureRange(best[0], best.at(-1), values.unit)}.`);
  } else if (crop.usual.length > 1) {
    words.push(...usualTexts(crop.usual, values.unit).slice(1).map((text) => `Elsewhere: ${text}.`));
  }
  return words;
}

/** What mountCalculator shows of an answer. */
export function show(found, data, level) {
  const answer = { ...found, held_out: data.held_out };
  const { crop, values, days, percent, mean } = answer;
  const { band } = crop;
  const told = doing(answer, data);
  const published = [["Published minimum", band.minimum_c], ["Published maximum", band.maximum_c]].map(([name, celsius]) => (celsius === null ? null : [name, temperatureText(celsius, values.unit)]));
  return {
    title: `Days to emergence, ${crop.name}`,
    headline: headline(answer),
    trust: trust(answer),
    line: headline(answer),
    rest: [
      numbers([
        days && ["Days to emergence", days.late === null ? capital(reason(answer)) : `${daysRange(days.early, days.late)} (curve: ${daysText(Math.round(days.likely * 10) / 10)})`],
        percent && ["Normal seedlings", percent.at === null ? capital(whyNone(crop.percent, mean, values.unit, "percentages") ?? "not measured") : `${whole(percent.at)} (${percent.near.length === 1 ? "as measured" : `${span(percent.low, percent.high)} at the tested temperatures around it`})`],
        ...published,
        band.optimum_low_c !== null && ["Published best range", temperatureRange(band.optimum_low_c, band.optimum_high_c, values.unit)],
      ].filter(Boolean)),
      element("div", "side-by-side",
        crop.days && pictureSlot((width) => daysPicture(answer, width)), crop.percent && pictureSlot((width) => percentPicture(answer, width))),
      element("div", "side-by-side", told.length > 0 && parts(level, [["What to do", list(told)]]), measuredTable(answer)),
    ],
    workings: workings(answer),
  };
}

function measuredTable({ crop, values }) {
  const kinds = [["Days to emergence", crop.days, ""], ["Normal seedlings", crop.percent, "%"]].filter(([, measured]) => measured !== null);
  if (kinds.length === 0) return null;
  const temperatures = [...new Set(kinds.flatMap(([, measured]) => measured.cells.map((cell) => cell[0])))].sort((a, b) => a - b);
  const cell = (measured, celsius, unit) => {
    const found = measured.cells.find((one) => one[0] === celsius);
    return found ? cellText(found, unit) : "not printed";
  };
  return table(`${crop.name}, as measured (${[...new Set(kinds.map(([, measured]) => measured.source))].join("; ")})`, ["Soil", ...kinds.map(([name]) => name)],
    temperatures.map((celsius) => [temperatureText(celsius, values.unit), ...kinds.map(([, measured, unit]) => cell(measured, celsius, unit))]));
}

function workings({ crop, steady }) {
  return [
    ["Between tested temperatures", "A smooth curve (PCHIP, Fritsch and Carlson 1980) through the logarithm of the days, or through the percentages, on °C. It runs through every measured point and never swings beyond two neighbours. Outside the coldest and the warmest temperature at which seedlings came there is no figure."],
    ["The range", "From the curve’s days divided by 1.3 to the days times 1.3. That is what nine of ten tested temperatures keep to when they are left out in turn; the errors of this and other models stand under the calculator."],
    steady ? null : ["A day that warms and cools", "Temperature is taken as a sine between the lowest and the highest; for each of 24 hours the rate 1/days is read from the curve, and the mean rate gives the days."],
    crop.percent === null ? null : ["Percentages", "Normal seedlings of good seed, as printed; they say nothing about your lot. Multiply by what your own test gave."],
  ].filter(Boolean);
}

