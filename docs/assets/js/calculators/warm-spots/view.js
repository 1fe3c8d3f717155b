// The answer in words, a picture of the places, and a matrix of crops and places to print.

import { element, list, numbers, parts, pictureSlot } from "../element.js";
import { temperatureText } from "../format.js";
import { intervalsPicture } from "../pictures.js";
import { differenceText, temperatureRange } from "../temperature.js";
import { daysRange, usualTexts } from "../warmth_words.js";
import { counted, listed } from "../../words.js";
import { matrix } from "./matrix.js";

const TICKS_C = [0, 10, 20, 30, 40];
const WORDS = {
  good: "in the best range", cool: "cooler than best", warm: "warmer than best",
  cold: "too cold", hot: "too hot", unknown: "no published range",
};

/** "7–12 days", or why there are none. */
export function daysWords({ days, measured, rating }) {
  if (!measured) return "days not measured";
  if (days.late !== null) return daysRange(days.early, days.late);
  return days.early === null ? "none come" : rating === "cold" || rating === "hot" ? "hardly any come" : "days not tested";
}

// A name that fits beside its figures on a phone.
function short(name) {
  return name.length > 20 ? `${name.slice(0, 19).trim()}…` : name;
}

function spotWords(spot) {
  const share = spot.percent === null ? "" : `, about ${Math.round(spot.percent)} % at the mean`;
  return `${WORDS[spot.rating]}; ${daysWords(spot)}${share}`;
}

function countGood(crops, i) {
  return crops.filter(({ spots }) => spots[i].rating === "good").length;
}

function headline({ values, crops, chosen, best }) {
  if (chosen === null) {
    const sums = values.places.map((place, i) => `${place.name} ${countGood(crops, i)}`);
    return `Crops in their best range, of ${crops.filter(({ spots }) => spots[0].rating !== "unknown").length} with a published range: ${listed(sums)}.`;
  }
  const { crop, spots } = chosen;
  if (best === null) {
    return spots.every((spot) => spot.rating === "unknown") ? `${crop.name} has no published range; the days may still tell.`
      : `${crop.name}: none of these places will do.`;
  }
  const { days } = spots[best];
  return `${crop.name}: best in ${values.places[best].name}, ${WORDS[spots[best].rating]}${days?.late ? `, seedlings in ${daysRange(days.early, days.late)}` : ""}.`;
}

function trust({ chosen, values, held_out: errors }) {
  const spread = "A place is judged by the mean of its lowest and highest against the crop’s published range, and by its highest against the published maximum. Days are added up over the hours of a day";
  const miss = errors === null ? "." : `, a third either way, which held nine of ten tested temperatures left out (n = ${errors.n}).`;
  const wide = values.places.some(({ low, high }) => high - low > 20) ? " A place that swings more than 20 °C (36 °F) is hard on seedlings whatever its mean." : "";
  const usual = chosen !== null && !chosen.spots[0].measured && chosen.crop.usual.length > 0 ? ` Printed for ${chosen.crop.name} are ${usualTexts(chosen.crop.usual, values.unit)[0]}.` : "";
  return `${spread}${miss}${wide}${usual}`;
}

function matWords({ chosen, values, mat }) {
  if (values.rise === null || chosen === null) return null;
  const raised = differenceText(values.rise, values.unit);
  const close = Math.abs(values.rise - mat.value) < 0.06;
  return values.places.map((place, i) => {
    const [now, then] = [chosen.spots[i], chosen.mats[i]];
    const warmer = temperatureRange(place.low + values.rise, place.high + values.rise, values.unit);
    return `${place.name}, then ${warmer}: ${spotWords(then)}${spotWords(now) === spotWords(then) ? ", as without" : ""}.`;
  }).concat(close ? [`${raised} more is a magazine’s figure over the room; readings lie between ${differenceText(2, values.unit)} and ${differenceText(11, values.unit)}. Measure your own mat, with its tray on it.`] : []);
}

/** What mountCalculator shows of an answer. */
export function show(found, data, level) {
  const answer = { ...found, held_out: data.held_out };
  const { values, crops, chosen } = answer;
  const told = crops.filter(({ spots }) => spots.some((spot) => spot.rating !== "unknown" || spot.measured));
  const untold = crops.filter((one) => !told.includes(one)).map(({ crop }) => crop.name);
  const mat = matWords(answer);
  const single = chosen === null ? null : numbers(values.places.map((place, i) => [`${place.name}, ${temperatureRange(place.low, place.high, values.unit)}`, spotWords(chosen.spots[i])]));
  return {
    title: chosen === null ? "Warm spots" : `Warm spots, ${chosen.crop.name}`,
    headline: headline(answer),
    trust: trust(answer),
    line: `${headline(answer)} ${values.places.map((place) => `${place.name} ${temperatureRange(place.low, place.high, values.unit)}`).join("; ")}.`,
    rest: [
      single,
      pictureSlot((width) => picture(answer, width)),
      mat && parts(level, [["With a heat mat", list(mat)]]),
      element(`h${level}`, "answer-heading", `${counted(told.length, "crop")} and ${counted(values.places.length, "place")}`),
      matrix({ ...answer, crops: told }, WORDS, daysWords),
      element("p", "field-hint", "Good, cool, warm: by the crop’s published best range. Cold: the mean lies below the published minimum, or none came. Hot: the highest lies above the published maximum. Days are for good seed at the depth tested; “days not measured”: no table has the crop."),
      untold.length > 0 && element("p", "field-hint", `No range and no days are published here for ${listed(untold)}.`),
    ],
    workings: [
      ["The rating", "The mean of lowest and highest against the crop’s published minimum and best range; the highest against its published maximum. Where the percentage at the mean is under 40 %, a place is not called good."],
      ["The days", "A sine between the lowest and the highest; for each of 24 hours the rate 1/days from the smooth curve through measured days; the mean rate gives the days, divided and multiplied by 1.3. Hours outside the tested temperatures count as nothing at the late end; when that leaves nothing, no days are given."],
      ["A heat mat", "Adds the same difference to the lowest and the highest. A thermostat cuts the highest off: then type its setting as the highest of a place of its own."],
    ],
  };
}

function picture({ values, chosen }, width) {
  const band = chosen?.crop.band ?? {};
  const marks = [["minimum", band.minimum_c], ["best from", band.optimum_low_c], ["best to", band.optimum_high_c], ["maximum", band.maximum_c]]
    .filter(([, celsius]) => celsius !== null && celsius !== undefined).map(([name, celsius]) => ({ at: celsius, name: `${name} ${temperatureText(celsius, values.unit)}` }));
  const rows = values.places.map((place) => ({ name: `${short(place.name)}: ${temperatureRange(place.low, place.high, values.unit)}`, low: place.low, high: place.high, at: (place.low + place.high) / 2 }));
  return intervalsPicture({
    title: "Lowest, mean and highest of each place",
    description: `${rows.map((row) => row.name).join(". ")}.${marks.length > 0 ? ` Marked for ${chosen.crop.name}: ${marks.map((mark) => mark.name).join(", ")}.` : ""}`,
    ticks: TICKS_C, label: (tick) => (tick === 40 ? temperatureText(tick, values.unit) : temperatureText(tick, values.unit).split(" ")[0]), rows, marks,
  }, width);
}
