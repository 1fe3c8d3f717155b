// The answer in words, dates and a picture.

import { element, list, numbers, parts, pictureSlot, table } from "../element.js";
import { dateText } from "../../date_words.js";
import { temperatureText } from "../format.js";
import { curvePicture, niceTicks } from "../pictures.js";
import { differenceText, temperatureRange } from "../temperature.js";
import { bandWords, daysText, timesText, usualTexts } from "../warmth_words.js";
import { counted } from "../../words.js";
import { dateAfter } from "./answer.js";
import { MOST_GAP } from "./entry.js";

const FEW = 40;
const percent = (share) => `${Math.round(share * 100)} %`;

function doneText({ done }) {
  const [least, most] = [Math.min(1, done.least), Math.min(1, done.most)];
  return percent(least) === percent(most) ? `about ${percent(most)}` : `${Math.round(least * 100)} to ${percent(most)}`;
}

function headline(answer) {
  const { crop, values, now, day, measured } = answer;
  const date = (days) => dateText(dateAfter(values.sown, days));
  if (!measured && day.late === null) return `${crop.name}: no published days to emergence were found, so no date is given.`;
  if (!measured) return `${crop.name}, sown ${dateText(values.sown)}: look from ${date(Math.max(1, day.early))} to ${date(day.late)}, by the printed days alone.`;
  const share = now === 0 ? "" : `${doneText(answer)} of the way after ${daysText(now)}; `;
  if (day.early === null) return `${crop.name}: ${share}at such temperatures no seedlings are to be expected.`;
  if (day.late === null) return `${crop.name}: ${share}part of it is too cold or too hot to say; seedlings at the soonest on ${date(day.early)}.`;
  if (now >= day.give_up) return `${crop.name}: it has had ${timesText(answer.data.give_up.value)} its time. Give it up, or dig for the seed.`;
  if (now >= day.late) return `${crop.name}: overdue. Seedlings were to be expected by ${date(day.late)}.`;
  return `${crop.name}: ${share}seedlings between ${date(day.early)} and ${date(day.late)}, most likely about ${date(day.likely)}.`;
}

function trust(answer) {
  const { crop, values, measured, gaps, outside_hours: outside, all, data } = answer;
  if (!measured) return crop.usual.length > 0 ? `Printed are ${usualTexts([answer.usual], values.unit)[0]}. There is no table by temperature for this crop, so the log does not move the dates${answer.usual.low === answer.usual.high ? "; the range is a third either way" : ""}.` : "Nothing is worked out from nothing: keep it in its best range and look every day.";
  const sentences = [`From the days measured for ${crop.name} at steady temperatures (${crop.days.source}); the range is a third either way, which held nine of ten tested temperatures left out (n = ${data.held_out.n}).`];
  if (gaps > 0) sentences.push(`${counted(gaps, "day")} of ${all.length} had no reading and ${gaps === 1 ? "is" : "are"} filled from the days beside ${gaps === 1 ? "it" : "them"}${gaps * 3 > all.length ? ": too many for much trust" : ""}.`);
  const hours = all.length * 24;
  if (outside > 0) sentences.push(`For ${outside} of ${hours} hours the tray was outside the tested ${temperatureRange(crop.days.curve.knots[0], crop.days.curve.knots.at(-1), values.unit)}: the early date counts them as at the nearest tested temperature (as nothing where none came), the late date as nothing.`);
  sentences.push("A thermometer in the air over the tray can differ from the mix by several degrees; a sine through the day’s ends is within about a tenth.");
  return sentences.join(" ");
}

function look({ values, day, next, measured }) {
  const date = (days) => dateText(dateAfter(values.sown, days));
  if (day.early === null) return ["There is no date to look for at this warmth. Find a warmer (or cooler) place first."];
  const words = [`Every day from ${date(Math.max(1, day.early))} on; keep the mix moist, not wet.`];
  if (measured && values.next === null) words.push(`From now on the tray is taken to stay as in the last days: ${temperatureRange(next.low, next.high, values.unit)}. Type what you expect if it will not.`);
  return words;
}

function giveUp({ values, day, data }) {
  if (day.give_up === null) return ["Not by the calendar: at such temperatures seed may lie for weeks. Move it to its best range and begin a new log."];
  return [
    `About ${dateText(dateAfter(values.sown, day.give_up))}, ${timesText(data.give_up.value)} the late end (our own rule, no source).`,
    "Then dig up a few seeds. Firm and pale inside: alive, wait or make it warmer. Soft, hollow or mouldy: dead.",
    "Dry mix, seed too deep, light where dark was wanted, mice: look for these before you blame the seed.",
    element("span", "", "Sow again, thicker; and ", link("../../calculator/", "test what is left of the packet"), "."),
  ];
}

function link(address, text) {
  const made = element("a", "", text);
  made.href = address;
  return made;
}

function warnings(answer) {
  const { crop, values, hot, frost, mean, percent: share } = answer;
  const words = [];
  const band = bandWords(crop.band, mean);
  if (band) words.push(`The mean so far, ${temperatureText(mean, values.unit)}, is ${band}.`);
  if (hot > 0) words.push(`On ${counted(hot, "day")} the highest was above the crop’s published maximum of ${temperatureText(crop.band.maximum_c, values.unit)}: seed may have been harmed.`);
  if (frost > 0) words.push(`On ${counted(frost, "day")} it froze. Dry seed minds little; seed that has begun to sprout may be dead.`);
  if (typeof share === "number" && share < FEW) words.push(`At a steady ${temperatureText(mean, values.unit)} only about ${Math.round(share)} % of good seed comes up.`);
  if (values.notCounted > 0) words.push(`${counted(values.notCounted, "line")} of the log ${values.notCounted === 1 ? "is" : "are"} of the sowing day or before it and not counted.`);
  return words;
}

/** What mountCalculator shows of an answer. */
export function show(found, data, level) {
  const answer = { ...found, data };
  const { crop, values, day, measured, now } = answer;
  const date = (days) => (days === null ? "no date at such temperatures" : dateText(dateAfter(values.sown, days)));
  const told = warnings(answer);
  const dates = [["Look from", day.early === null ? null : Math.max(1, day.early)], ...(measured ? [["Most likely", day.likely]] : []), ["Late", day.late], ["Give up", day.give_up]];
  return {
    title: `A tray’s progress, ${crop.name}`,
    headline: headline(answer),
    trust: trust(answer),
    line: `${crop.name}, sown ${dateText(values.sown)}: ${dates.map(([name, days]) => `${name.toLowerCase()} ${date(days)}`).join(", ")}.`,
    rest: [
      table("Dates", ["What", "When", "Days after sowing"], dates.map(([name, days]) => [name, date(days), days === null ? "–" : String(days)])),
      numbers([
        measured && now > 0 && ["Share of development done", doneText(answer)],
        measured && ["Share a day from now on", perDay(answer)],
        measured && now > 0 && answer.degree_days !== null && ["Degree-days above the published minimum", degreeDaysText(answer)],
        now > 0 && ["Days logged", answer.gaps === 0 ? String(now) : `${now - answer.gaps} of ${now}`],
      ].filter(Boolean)),
      measured && day.early !== null && pictureSlot((width) => picture(answer, width)),
      parts(level, [["When to look", list(look(answer))], ["When to give up, and what then", list(giveUp(answer))], told.length > 0 ? ["Mind", list(told)] : null]),
    ],
    workings: workings(answer),
  };
}

function perDay({ after }) {
  const [least, most] = [after.least * 100, after.most * 100].map((share) => Math.round(share * 10) / 10);
  return least === most ? `${most} %` : `${least} to ${most} %`;
}

function degreeDaysText({ degree_days: sum, crop, values }) {
  const shown = Math.round(values.unit === "f" ? sum * 1.8 : sum);
  return `${shown} ${values.unit === "f" ? "°F" : "°C"}·days above ${temperatureText(crop.band.minimum_c, values.unit)} (single sine)`;
}

function picture(answer, width) {
  const { progress, now, day, after, values } = answer;
  const end = Math.max(now + 1, day.late ?? day.likely ?? day.early);
  const [done] = progress.slice(-1);
  const rate = (after.least + after.most) / 2;
  const top = 1.4;
  const ahead = [[now, done]];
  for (let n = now + 1; n <= end; n += 1) ahead.push([n, done + rate * (n - now)]);
  const within = (points) => points.filter(([, y], i) => i === 0 || y <= top).map(([x, y]) => [x, Math.min(top, y)]);
  const logged = within(progress.map((y, x) => [x, y]));
  const coming = within(ahead);
  const ticks = niceTicks(0, end);
  return curvePicture({
    title: "Share of development done, by days since sowing",
    description: `${now > 0 ? `Logged for ${daysText(now)}: ${doneText(answer)} done. ` : ""}Seedlings are due when the line reaches 100 %${day.likely === null ? "" : `, about day ${day.likely}, ${dateText(dateAfter(values.sown, day.likely))}`}.`,
    xTicks: ticks, xLabel: String, xName: "days since sowing",
    yTicks: [0, 0.5, 1, top], yLabel: (tick) => (tick === top ? "" : percent(tick)),
    lines: [
      ...(now > 0 ? [{ kind: "main", points: logged, name: "logged", nameAt: Math.floor(logged.length / 2), shift: -8 }] : []),
      ...(coming.length > 1 ? [{ kind: "second", points: coming, name: "if it stays so", nameAt: coming.length - 1, shift: -10 }] : []),
    ],
    dots: logged.length > 1 && logged.length < 60 ? logged.slice(1) : [],
    marks: day.likely !== null && day.likely <= ticks.at(-1) ? [{ x: day.likely, name: "most likely" }] : [],
  }, width);
}

function workings({ measured }) {
  if (!measured) return [["The dates", "The printed days, counted from the sowing day; where one number alone is printed, divided and multiplied by 1.3."]];
  return [
    ["A day’s share", "Temperature is taken as a sine between the day’s lowest and highest. For each of 24 hours the rate 1/days is read from the smooth curve through the measured days; their mean is the share of development of that day. The sowing day itself is not counted."],
    ["The dates", "Likely: when the shares add up to 1. Early: when the most they can be adds up to 1/1.3. Late: when the least they can be adds up to 1.3."],
    ["Outside the tested temperatures", "There the rate is not known: the least is nothing, the most that of the nearest tested temperature; where the test found no seedlings, and beyond, both are nothing."],
    ["Days without a reading", `Filled by a straight line between the days beside them, at most ${MOST_GAP} in a row (our own limit).`],
    ["Days to come", "The mean lowest and highest of the last seven days, unless you type what you expect."],
    ["Degree-days", `Area under the sine above the published minimum, as the University of California IPM counts them; a degree-day is a sum of differences, so a step of ${differenceText(10 / 1.8, "c")} is ${differenceText(10 / 1.8, "f")}. Shown for comparison; the dates do not rest on it.`],
  ];
}
