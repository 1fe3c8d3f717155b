// One entry: temperatures typed in one of three ways, the depth of sowing, and how long soil has to hold.

import { monthName } from "../../date_words.js";
import { problemsText, readDayLog } from "../day_log.js";
import { readDecimal } from "../fields.js";
import { temperatureText } from "../format.js";
import { oneOf, reader } from "../reading.js";
import { TEMPERATURE_UNITS, inUnit, readTemperature } from "../temperature.js";
import { grouped } from "../../words.js";
import { yearFromAir, yearFromMonths, yearFromReadings } from "./year.js";

export const MONTHS = Array.from({ length: 12 }, (_, i) => monthName(i + 1));
const MONTH_FIELDS = MONTHS.map((_, i) => `m${i + 1}`);
export const FIELDS = ["crop", "source", "unit", "depth", "depthunit", "hold", "hemisphere", "cover", ...MONTH_FIELDS, "log", "readings"];
export const SOURCES = ["months", "daily", "readings"];
export const LONG_LOG = 450; // characters; a longer one would fill the printed sheet with itself and its link
const DEEPEST = 200; // mm; estimates were compared with measured soil down to here
const MOST_ROWS = 40000; // a century of days
const FEWEST_DAYS = 14;
const NO_AVERAGE = 43; // °C; no place's air is that hot for weeks on average (from memory), nor is its soil at sowing depth
const JUMP = 25; // °C between one month and the next
const CLEAR_SWING = 3; // °C by which summer must pass the year's mean before it tells a hemisphere
const NO_GARDEN = 5; // °C; a warmest month below it is more likely another unit

/** The months as the form shows them. */
export function monthTexts(months, unit) {
  return Object.fromEntries(months.map((celsius, i) => [`m${i + 1}`, inUnit(celsius, unit)]));
}

/** The months half a year off, as on the other side of the equator. */
export function turned(months) {
  return [...months.slice(6), ...months.slice(0, 6)];
}

/** Whether the months are still those given. */
export function sameMonths(entry, texts) {
  return MONTH_FIELDS.every((name) => entry[name] === texts[name]);
}

/** {values, messages}; values.series is the year of the soil. */
export function readEntry(entry, data) {
  const { note, done } = reader();
  const unit = oneOf(entry.unit, TEMPERATURE_UNITS);
  const source = oneOf(entry.source, SOURCES);
  const crop = data.crops[entry.crop] ?? null;
  const typed = note("depth", readDepth(entry.depth, oneOf(entry.depthunit, ["mm", "cm"])));
  const depth = typed ?? (crop?.depth ? (crop.depth[0] + crop.depth[1]) / 2 : data.plain_depth);
  const series = { months: ofMonths, daily: ofLog, readings: ofReadings }[source](entry, unit, depth, note);
  const chosen = oneOf(entry.hemisphere, ["auto", "north", "south"]);
  const seen = series === null ? null : hemisphereOf(series);
  if (seen !== null && chosen !== "auto" && chosen !== seen) note("hemisphere", { value: null, message: contradiction(chosen, series) });
  return done({
    example: entry.example, unit, source, crop, cropId: crop ? entry.crop : "", series, depth, hold: Number(oneOf(entry.hold, ["5", "3", "7"])),
    depthFrom: typed !== null ? "typed" : crop?.depth ? "crop" : "plain",
    cover: data.covers.soil.find(({ key }) => key === entry.cover) ?? null,
    logLength: { months: 0, daily: entry.log.length, readings: entry.readings.length }[source],
    ownMonths: ![data.place.months, turned(data.place.months)].some((months) => sameMonths(entry, monthTexts(months, unit))),
    south: (seen ?? chosen) === "south", hemisphereKnown: seen !== null || chosen !== "auto",
  });
}

function readDepth(text, unit) {
  const size = unit === "cm" ? 10 : 1;
  const read = readDecimal(text.trim(), {
    empty: null,
    check: (value, seen) => {
      if (value >= 0 && value * size <= DEEPEST) return null;
      if (value < 0) return `${seen} ${unit} is above the ground. Type 0 or more.`;
      const meant = unit === "cm" && value <= DEEPEST ? " If it is in mm, choose mm." : "";
      return `${seen} ${unit} is deeper than this page goes: at most ${DEEPEST / size} ${unit}.${meant}`;
    },
  });
  return { ...read, value: read.value === null ? null : read.value * size };
}

function ofMonths(entry, unit, depth, note) {
  const months = MONTHS.map((name, i) => note(MONTH_FIELDS[i], readTemperature(entry[MONTH_FIELDS[i]], unit, {
    least: -45, most: 40, what: `the mean air temperature of ${name}`, empty: `Nothing typed. Type the mean air temperature of ${name}.`,
  })));
  if (months.includes(null)) return null;
  months.forEach((celsius, i) => {
    const before = months[(i + 11) % 12];
    const after = months[(i + 1) % 12];
    if (Math.abs(celsius - before) > JUMP && Math.abs(celsius - after) > JUMP) {
      note(MONTH_FIELDS[i], { value: null, message: `${temperatureText(celsius, unit)} in ${MONTHS[i]} lies far from the months beside it. Check the decimal point and the sign.` });
    }
  });
  const warmest = Math.max(...months);
  if (unit === "f" && warmest < NO_GARDEN) {
    note(MONTH_FIELDS[months.indexOf(warmest)], { value: null, message: `The warmest month is ${temperatureText(warmest, "f")}: nothing could be sown. If these are °C, choose °C.` });
  }
  return yearFromMonths(months, depth);
}

function ofLog(entry, unit, depth, note) {
  return ofText("log", entry.log, unit, note, { what: "outdoor air", least: -60, most: 55, pair: true, make: yearFromAir, empty: "Nothing typed or opened. Type or paste a line a day, date, low and high, or open a file." });
}

function ofReadings(entry, unit, depth, note) {
  return ofText("readings", entry.readings, unit, note, { what: "garden soil", least: -25, most: 55, pair: false, make: yearFromReadings, empty: "Nothing typed or opened. Type a line for each day: date, and one or two readings of the soil." });
}

let last = { key: null }; // a long log is read once, not at every change of another field

function ofText(field, text, unit, note, { what, least, most, pair, make, empty }) {
  if (text.trim() === "") {
    note(field, { value: null, message: empty });
    return null;
  }
  if (last.key !== `${field} ${unit} ${text}`) {
    const log = readDayLog(text, unit, { what, least, most, pair, mostRows: MOST_ROWS, tooMany: "Leave out the oldest years.", start: null, halfMissing: pair });
    last = { key: `${field} ${unit} ${text}`, log, series: log.days.length >= FEWEST_DAYS ? { ...make(log.days), without: log.without.length, reversed: log.reversed } : null };
  }
  const { log, series } = last;
  if (log.problems.length > 0) note(field, { value: null, message: problemsText(log.problems) });
  else if (series === null) note(field, { value: null, message: `${log.days.length === 0 ? "No day with a reading" : grouped(log.days.length) + (log.days.length === 1 ? " day" : " days")}: too few to say anything. Type at least ${FEWEST_DAYS} days.` });
  else if (wrongUnit(log.days, unit) !== null) note(field, { value: null, message: wrongUnit(log.days, unit) });
  else if (series.year.every((value) => value === null)) note(field, { value: null, message: "The days are too scattered: each stretch is shorter than a week. Fill the gaps, or type monthly averages." });
  else return series;
  return null;
}

// Readings that pass one by one and cannot be so as a whole, in °C or in °F; else null.
function wrongUnit(days, unit) {
  const means = days.map(({ low, high }) => (low + high) / 2);
  const average = means.reduce((sum, mean) => sum + mean, 0) / means.length;
  const warmest = means.reduce((a, b) => Math.max(a, b));
  if (unit === "c" && average > NO_AVERAGE) return `These days average ${temperatureText(average, "c")}: hotter than soil or air is for weeks anywhere. If they were read in °F, choose °F.`;
  if (unit === "f" && warmest < 0) return `The warmest of these days has a mean of ${temperatureText(warmest, "f")}: nothing could be sown. If they were read in °C, choose °C.`;
  return null;
}

// "north" or "south" by the warmest time of a whole year; null where that can't be told.
function hemisphereOf({ full, harmonic }) {
  if (!full || harmonic === null || harmonic.amplitude < CLEAR_SWING) return null;
  return harmonic.warmest_day >= 90 && harmonic.warmest_day < 273 ? "north" : "south";
}

function contradiction(chosen, { harmonic }) {
  const other = chosen === "south" ? "north" : "south";
  const month = MONTHS[Math.floor((harmonic.warmest_day / 365.25) * 12) % 12];
  return `These temperatures are warmest about ${month}, as they are ${other} of the equator. Choose ${other}, or check that the dates and months are right: January comes first.`;
}
