// Calendar dates as ISO text: reading them with a remedy for every other form, and adding months.
// Twin of build_tools/lots/dates.py.

import { addMonths, daysInMonth, iso, todayIso } from "../dates.js";
import { quoted } from "../words.js";

export { addMonths, todayIso };

const ISO = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/;
const YEAR = /^[0-9]{4}$/;
const YEAR_MONTH = /^([0-9]{4})-([0-9]{2})$/;
const WITH_TIME = /^([0-9]{4}-[0-9]{2}-[0-9]{2})[T ][\s\S]*$/;
const YEAR_FIRST = /^([0-9]{4})[./ -]([0-9]{1,2})[./ -]([0-9]{1,2})$/;
const YEAR_LAST = /^([0-9]{1,2})[./ -]([0-9]{1,2})[./ -]([0-9]{4})$/;
const DAY_NUMBER = /^[0-9]{5}([.,][0-9]*)?$/;
const FAR_YEARS = 60; // a harvest or test longer ago is taken for a slip of the pen
const LIKE = "Write year, month and day: 2026-03-12.";
const GOOD = ["", ""];

/** Is there such a day in the calendar? */
export function isDay(year, month, day) {
  return year >= 1 && month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
}

/** ["", ""] when `text` is an ISO day not after `today` and not far off, else [message, hint]. */
export function checkDay(text, today) {
  const found = ISO.exec(text);
  if (!found) return otherForm(text);
  if (!isDay(...found.slice(1).map(Number))) return [`${quoted(text)} is no day of the calendar.`, LIKE];
  return timeOf(text, today);
}

/** As `checkDay`, for a year, a month or a day. */
export function checkHarvest(text, today) {
  if (YEAR.test(text)) return timeOf(text, today);
  const month = YEAR_MONTH.exec(text);
  if (month) {
    if (!(Number(month[2]) >= 1 && Number(month[2]) <= 12)) {
      return [`${quoted(text)} is no month of the calendar.`, "Write year and month: 2025-09."];
    }
    return timeOf(text, today);
  }
  const [message, hint] = checkDay(text, today);
  return [message, hint === LIKE ? "Write the year, the month or the day: 2025, 2025-09 or 2025-09-20." : hint];
}

// Not in the future and not far off, at the precision of the text.
function timeOf(text, today) {
  if (text > today.slice(0, text.length)) {
    return [`${text} is in the future; today is ${today}.`, "Check the year, month and day."];
  }
  if (Number(text.slice(0, 4)) < Number(today.slice(0, 4)) - FAR_YEARS) {
    return [`${text} is more than ${FAR_YEARS} years ago.`, "Check the year."];
  }
  return GOOD;
}

// What is wrong with a date in another form than ISO, and how to write it.
function otherForm(text) {
  const message = `${quoted(text)} is not a date written year first.`;
  const withTime = WITH_TIME.exec(text);
  if (withTime) return [`${quoted(text)} has a time of day in it.`, `Write the day alone: ${withTime[1]}.`];
  const first = YEAR_FIRST.exec(text)?.slice(1).map(Number);
  if (first && isDay(...first)) {
    return [`${quoted(text)} is not written with hyphens and two digits.`, `Write ${iso(...first)}.`];
  }
  const last = YEAR_LAST.exec(text);
  if (last) {
    const [a, b, year] = last.slice(1).map(Number);
    const days = [[a, b], [b, a]].filter(([day, month]) => isDay(year, month, day));
    const readings = [...new Set(days.map(([day, month]) => iso(year, month, day)))].sort();
    if (readings.length === 2) {
      return [`${quoted(text)} can be read as ${readings[0]} or as ${readings[1]}.`,
        `Write the one you mean, year first: ${readings[0]} or ${readings[1]}.`];
    }
    if (readings.length === 1) return [message, `Write ${readings[0]}.`];
  }
  if (DAY_NUMBER.test(text)) {
    return [`${quoted(text)} looks like a spreadsheet’s own day number.`,
      "Show the column as dates written 2026-03-12 before you save it as CSV."];
  }
  return [message, LIKE];
}
