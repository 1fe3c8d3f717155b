// One entry: a crop, the day it was sown, and a log of the tray's lowest and highest temperatures.

import { longestGap } from "../../science/day_course.js";
import { dateOfDay, dayNumber } from "../../dates.js";
import { problemsText, readDayLog } from "../day_log.js";
import { dateText } from "../../date_words.js";
import { todayIso } from "../format.js";
import { oneOf, readDate, reader } from "../reading.js";
import { inUnit, preferredUnit, readTemperature, TEMPERATURE_UNITS } from "../temperature.js";
import { counted } from "../../words.js";

export const FIELDS = ["crop", "unit", "sown", "log", "nextlow", "nexthigh"];
export const LINES = ["log"];
const TRAY = { least: -15, most: 50, what: "a tray or bed with seed in it" };
const MOST_DAYS = 400;
export const MOST_GAP = 7; // days without a reading that are filled; our own limit
const EXAMPLE_LOG_C = [[14.5, 20], [15, 21.5], [15, 22], [13.5, 19], [16, 23]];

/** The entry a reader finds first: sown six days ago, five days logged. */
export function example(crop, data, unit = preferredUnit()) {
  const log = EXAMPLE_LOG_C.map((day) => day.map((celsius) => inUnit(celsius, unit)).join(" ")).join("\n");
  return { example: true, crop: crop || data.example_crop, unit, sown: dateOfDay(dayNumber(todayIso()) - EXAMPLE_LOG_C.length), log, nextlow: "", nexthigh: "" };
}

/**
 * {values, messages}. `days` are those after the sowing day up to the last logged one: {date, low, high}, null without a
 * reading; `next` is {low, high} when typed, else null; `notCounted` lines of the log lie on the sowing day or before it.
 */
export function readEntry(entry, data) {
  const { note, done, messages } = reader();
  const unit = oneOf(entry.unit, TEMPERATURE_UNITS);
  const sown = note("sown", readDate(entry.sown));
  if (sown === null && !messages.has("sown")) messages.set("sown", "Choose the day of sowing: everything is counted from it.");
  const [low, high] = ["nextlow", "nexthigh"].map((name) => note(name, readTemperature(entry[name], unit, { ...TRAY, what: `the temperature of ${TRAY.what}`, empty: null })));
  if ((low === null) !== (high === null) && !messages.has("nextlow") && !messages.has("nexthigh")) {
    messages.set(low === null ? "nextlow" : "nexthigh", "Type both, the lowest and the highest expected from now on, or leave both empty.");
  }
  if (low !== null && high !== null && high < low) messages.set("nexthigh", `${entry.nexthigh.trim()} is below ${entry.nextlow.trim()}. The lowest comes first.`);
  const next = low === null || high === null ? null : { low, high };
  const { days, notCounted } = sown === null ? { days: [], notCounted: 0 } : readLog(entry.log, unit, sown, next, messages);
  return done({ crop: entry.crop in data.crops ? entry.crop : data.example_crop, unit, sown, days, next, notCounted });
}

function readLog(text, unit, sown, next, messages) {
  const start = dayNumber(sown) + 1;
  const log = readDayLog(text, unit, {
    ...TRAY, mostRows: MOST_DAYS, pair: true, start: dateOfDay(start),
    tooMany: "A sowing takes weeks, not years: keep the days since this one was sown.",
  });
  const since = log.days.filter((day) => dayNumber(day.date) >= start);
  const notCounted = log.days.length - since.length;
  if (log.problems.length > 0) {
    messages.set("log", problemsText(log.problems));
    return { days: [], notCounted };
  }
  if (since.length === 0) {
    if (next === null || log.days.length > 0) {
      messages.set("log", log.days.length > 0 ? `All ${counted(log.days.length, "line")} ${log.days.length === 1 ? "is" : "are"} of the sowing day, ${dateText(sown)}, or before it. Check the dates, or the day of sowing.`
        : "Nothing to go by yet. Type a line for each day, its lowest and its highest; or, below, what you expect from now on.");
    }
    return { days: [], notCounted };
  }
  const last = dayNumber(since.at(-1).date);
  if (last - start >= MOST_DAYS) {
    messages.set("log", `The log ends on ${dateText(since.at(-1).date)}, more than ${MOST_DAYS} days after sowing. Check the day of sowing and the dates.`);
    return { days: [], notCounted };
  }
  const byDay = new Map(since.map((day) => [dayNumber(day.date), day]));
  const days = Array.from({ length: last - start + 1 }, (_, i) => byDay.get(start + i) ?? null);
  if (longestGap(days) > MOST_GAP) messages.set("log", `${longestGap(days)} days in a row have no reading, and at most ${MOST_GAP} are filled from the days beside them. Type those days roughly.`);
  return { days, notCounted };
}
