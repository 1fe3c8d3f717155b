// The answer in words, numbers, a picture and the tables.

import { element, list, numbers, parts, pictureSlot } from "../element.js";
import { grouped } from "../fields.js";
import { differenceText, temperatureRange } from "../temperature.js";
import { temperatureText } from "../format.js";
import { listed } from "../../words.js";
import { THERMOMETER, everyCrop, measuredDepth, wayOf } from "./answer.js";
import { coverNodes, together } from "./covers.js";
import { dateText } from "../../date_words.js";
import { LONG_LOG, MONTHS } from "./entry.js";
import { picture } from "./picture.js";
import { cropTables } from "./tables.js";
import { MOST_TOLD, briefSpells, cellText, depthText, mainWindows, minimumText, seasonName, shortEnd, shortStart, windowsText } from "./words.js";
import { workings } from "./workings.js";

const POOR_FIT = { least: 1.5, share: 0.2 }; // °C, and part of the swing, that a month may lie off the yearly wave: our own choice
const LONGEST_LINKED = 20000; // characters of a field that an address takes

function span({ full, first, last }) {
  return full || first === undefined ? "" : `, ${dateText(first)} to ${dateText(last)}`;
}

function headline(answer) {
  const { chosen, soil, values: { series, unit } } = answer;
  const told = { seasons: soil.seasons, full: series.full };
  if (chosen === null) return `Soil at ${depthText(answer.values)} is ${extremes(answer)}. Choose a crop above, or read the tables below.`;
  const { crop, minimum, best } = chosen;
  const start = span(series);
  const said = [];
  if (minimum !== null) said.push(`${crop.name}${start}: soil holds what it needs at least (${minimumText(crop, unit)}) ${windowsText(minimum, told)}.`);
  if (best !== null) said.push(`${minimum === null ? `${crop.name}${start}: s` : "S"}oil is in its best range (${temperatureRange(crop.low, crop.high, unit)}) ${windowsText(best, told)}.`);
  if (said.length === 0) {
    const only = crop.best === undefined ? "" : ` The one temperature named as best is ${temperatureText(crop.best, unit)}.`;
    return `${crop.name}: neither a minimum nor a best range is published here, so no dates can be given.${only} Soil at ${depthText(answer.values)} is ${extremes(answer)}.`;
  }
  if (minimum === null) said.push("No minimum is published here.");
  if (best === null) said.push(`No best range is published here${crop.best === undefined ? "" : `; the one temperature named as best is ${temperatureText(crop.best, unit)}`}.`);
  return said.join(" ");
}

function extremes({ soil: { year, band }, values: { unit, series } }) {
  const known = [...year.keys()].filter((day) => year[day] !== null);
  const at = (day) => temperatureRange(year[day] + band.low[day], year[day] + band.high[day], unit);
  const coldest = known.reduce((a, b) => (year[b] < year[a] ? b : a));
  const warmest = known.reduce((a, b) => (year[b] > year[a] ? b : a));
  return `${at(coldest)} ${series.full ? "at the coldest time of the year" : "on its coldest day of the record"} and ${at(warmest)} ${series.full ? "at the warmest" : "on its warmest"}`;
}

/** How far to trust the dates; that the months are an example stands there as well. */
function trust(answer, data) {
  return [placeNote(answer.values, data), waveNote(answer.values), knownError(answer, data)].filter(Boolean).join(" ");
}

function knownError({ values: { series, unit, depth } }, { station }) {
  const way = wayOf(series.kind);
  if (way === null) {
    return `From your own readings of the soil, ${grouped(series.days)} days. Each range of dates allows a thermometer that is ${differenceText(THERMOMETER, unit)} out (our own guess, no source). They are the dates of that bed and that time: another year may be weeks apart.`;
  }
  const { rmse, held: [hits, tried], missed, misses } = station[way];
  const off = `${differenceText(rmse[measuredDepth(depth, station[way])], unit)} off (root mean square, spring)`;
  const where = `at the station where both were measured (${station.name}, grass, ${station.years} springs)`;
  const ranges = `Each range here is made to hold eight times in ten; there it held ${hits} of ${tried} measured dates.`;
  if (way === "days") {
    return `From the air day by day: ${where} soil estimated so was ${off}; first dates came ${Math.abs(misses.bias)} days early on average, half of them missed by ${misses.median} or less, nine in ten by ${Math.round(misses.most)} or less. ${ranges} They are the dates of that year: there one year’s first date lay ${station.spread[0]}–${station.spread[1]} days from another’s (standard deviation).`;
  }
  const from = series.kind === "average" ? `From the average of up to ${series.repeats} years of daily air` : "From monthly averages of the air";
  return `${from}: ${where} soil estimated so was ${off}, and first dates missed by ${missed[0]}–${missed[1]} days on average, about as far as one spring lies from another. ${ranges}`;
}

// One row for each end of each window.
function windowRows(name, found, seasons, full) {
  if (found === null) return [];
  if (found.state !== "windows") return [[name, cellText(found, full)]];
  const main = mainWindows(found);
  return main.slice(0, MOST_TOLD).flatMap((window) => {
    const season = main.length > 1 ? seasonName(window, seasons) : "";
    const title = season ? `${name}, ${season}` : name;
    return [[`${title}: from`, shortStart(window)], [`${title}: until`, shortEnd(window)]];
  });
}

function placeNote({ series, ownMonths }, { place }) {
  if (series.kind !== "months" || ownMonths) return null;
  return place.invented ? `The months are those of ${place.name}, no real place: type your own.` : `The months are those of ${place.name}.`;
}

// Where the year has two hot times or a long even one, a single wave is a poor picture of it.
function waveNote({ series: { kind, misfit, harmonic }, unit }) {
  if (kind !== "months" || misfit.size < Math.max(POOR_FIT.least, POOR_FIT.share * harmonic.amplitude)) return null;
  return `One yearly wave fits these months badly: in ${MONTHS[misfit.month]} it lies ${differenceText(misfit.size, unit)} off the mean you typed, so the dates may be further out than their ranges say. Use daily air, or a thermometer.`;
}

function readNotes(answer, data) {
  const { chosen, values, values: { series, unit, depthFrom, hold } } = answer;
  const from = { typed: "", crop: ", as advised for the crop", plain: ", taken since none is typed or published" }[depthFrom];
  const said = [`Depth: ${depthText(values)}${from}. “Holds” means ${hold} days in a row.`];
  const brief = chosen === null ? [] : [["minimum", chosen.minimum], ["best range", chosen.best]].flatMap(([name, found]) => briefSpells(found).map((days) => `${days} (${name})`));
  if (brief.length > 0) said.push(`Spells of at most ${data.short_days} days that the estimate shows and its error leaves in doubt are not told above: ${brief.slice(0, 6).join(", ")}${brief.length > 6 ? " and more" : ""}. Breaks as short and as doubtful are bridged.`);
  if (series.kind !== "readings" && series.year.some((value) => value !== null && value < 0)) {
    said.push(`Below ${temperatureText(0, unit)} the estimate is too cold: water that freezes, and snow, keep the soil from following the air. At the station soil at 5 cm never fell below ${temperatureText(data.station.coldest[1], unit)}, while the air’s mean fell to ${temperatureText(data.station.coldest[0], unit)}.`);
  }
  if (series.kind === "months") return [...said, "Monthly averages know no cold or warm spell of a single year."];
  const many = series.repeats > 1 ? `; up to ${series.repeats} years fall on one date and are averaged into one year` : "";
  said.push(`Read: ${grouped(series.days)} days from ${dateText(series.first)} to ${dateText(series.last)}${many}. 29 February counts with the 28th.`);
  if (series.kind === "readings") {
    said.push(`Smoothed: each day is the mean of itself and the days beside it.${series.single > 0 ? ` ${grouped(series.single)} days have one reading (or two alike): one taken in the morning is about the coldest of the day, so dates made of it are on the late, safe side.` : ""}`);
  } else said.push("The first six days, and six days after each long gap, only start the exponential mean off.");
  if (series.missing > 0) said.push(`${grouped(series.missing)} ${series.missing === 1 ? "day is" : "days are"} missing between the first and the last: up to seven in a row are bridged, ${series.longGaps > 0 ? `${series.longGaps} longer ${series.longGaps === 1 ? "gap is" : "gaps are"} left open` : "and no gap was longer"}${series.repeats > 1 ? " unless another year fills it" : ""}.`);
  if (series.without > 0) said.push(`${grouped(series.without)} ${series.without === 1 ? "line has" : "lines have"} a date and no reading: taken as missing.`);
  if (series.reversed) said.push("The newest day stood first; the order was turned round.");
  if (values.logLength > LONG_LOG) said.push("A printed sheet leaves out the log and its link: they would fill pages.");
  if (values.logLength > LONGEST_LINKED) said.push("The log is too long for a link or a reload of the page: open the file again then.");
  if (!series.full) said.push(`The record covers ${answer.days} days of the year; nothing is said of the others.${values.hemisphereKnown ? "" : " It can’t tell its hemisphere: north is taken; choose south if that is where you are."}`);
  return said;
}

function elsewhere({ values: { unit, series } }, { facts: { shade, desert } }) {
  const said = [
    `In shade soil stays colder: in a forest it was ${differenceText(-shade.value, unit)} colder than the air in spring (${shade.source}; ${shade.note}). Under trees, or in the shade of a wall, expect later dates than these.`,
    `Dry bare ground under desert sun peaks far above its mean in the afternoon (${desert.source}: ${desert.fact}). The dates here are of the day’s mean.`,
    "Wet and heavy soil warms later, a raised bed or a slope to the sun sooner (common practice, no source).",
  ];
  if (series.kind !== "readings") said.push("Nothing beats a thermometer at sowing depth, read in the morning for several days: its readings can be typed here too.");
  return said;
}

const FROST = [
  "Warm soil is no promise against frost: seedlings of tender crops die above soil that suits their seed.",
  "Sowing dates counted from the last frost stand on a page of their own.",
];

function frostNode() {
  const link = element("a", "", "Sowing calendar");
  link.href = "../sowing-times/";
  return element("div", "", list(FROST), element("p", "", link));
}

function cropDoubts({ chosen }) {
  const names = { minimum: "Minimum", low: "Best range, low end", high: "Best range, high end", best: "Best temperature", maximum: "Maximum" };
  const said = Object.entries(chosen.crop.notes).map(([key, text]) => `${names[key]}: ${text}`);
  const link = element("a", "", `What the sources say of ${chosen.crop.name}`);
  link.href = `../../crops/${chosen.id}/`;
  return element("div", "screen-only", said.length > 0 ? list(said) : null, element("p", "", link));
}

function* below(answer, data, level) {
  const { chosen, soil, values } = answer;
  const { series } = values;
  yield numbers([
    ...(chosen === null ? [] : [...windowRows("Minimum held", chosen.minimum, soil.seasons, series.full), ...windowRows("Best range held", chosen.best, soil.seasons, series.full)]),
    [`Soil at ${depthText(values)}, coldest and warmest`, listed(extremesShort(answer))],
  ]);
  yield pictureSlot((width) => picture(answer, width));
  if (chosen !== null && (chosen.minimum !== null || chosen.best !== null)) {
    yield element(`h${level}`, "answer-heading", "Under a cover");
    yield together(coverNodes(answer, data));
  }
  yield parts(level, [
    ["Frost is another matter", frostNode()],
    ["Where it is colder or warmer than this", list(elsewhere(answer, data))],
    ["What this rests on", list(readNotes(answer, data))],
    chosen === null ? null : [`How sure ${chosen.crop.name}’s temperatures are`, cropDoubts(answer)],
  ]);
  yield cropTables(yield* everyCrop(answer, data.crops), values, level);
}

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { chosen } = answer;
  return {
    title: chosen === null ? "Soil by date" : `Soil by date: ${chosen.crop.name}`,
    headline: headline(answer),
    trust: trust(answer, data),
    line: line(answer),
    rest: below(answer, data, level),
    workings: workings(answer, data),
  };
}

function extremesShort({ soil: { year, band }, values: { unit } }) {
  const known = [...year.keys()].filter((day) => year[day] !== null);
  const at = (day) => temperatureRange(year[day] + band.low[day], year[day] + band.high[day], unit);
  return [known.reduce((a, b) => (year[b] < year[a] ? b : a)), known.reduce((a, b) => (year[b] > year[a] ? b : a))].map(at);
}

function line(answer) {
  const { chosen, values: { unit, series } } = answer;
  if (chosen === null) return `Soil at ${depthText(answer.values)}: ${listed(extremesShort(answer))} at its coldest and warmest (estimate).`;
  const { crop, minimum, best } = chosen;
  const told = [minimum && `at least ${temperatureText(crop.minimum, unit)} ${cellText(minimum, series.full)}`, best && `best ${temperatureRange(crop.low, crop.high, unit)} ${cellText(best, series.full)}`].filter(Boolean);
  return `${crop.name}, soil at ${depthText(answer.values)}: ${told.length > 0 ? told.join(". ") : "no minimum or best range published"}.`;
}
