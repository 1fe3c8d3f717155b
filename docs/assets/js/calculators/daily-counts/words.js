// Days and numbers as the answer says them.

import { dateOfDay, dayNumber } from "../../dates.js";
import { dateText } from "../../date_words.js";

/** A count day as typed, at most two decimals: "5", "5.5". */
export function dayText(day) {
  return String(Math.round(day * 100) / 100);
}

/** An estimated day or length of time: one decimal, two below 2. */
export function fineDay(days) {
  const scale = days < 2 ? 100 : 10;
  return String(Math.round(days * scale) / scale);
}

/** "5.4 days", "1 day" */
export function lengthText(days) {
  const text = fineDay(days);
  return `${text} ${text === "1" ? "day" : "days"}`;
}

/** Three figures that say something: "6.28", "0.025", "13.8". */
export function figures(value) {
  return String(Number(value.toPrecision(3)));
}

/** The date of a day after the start, ISO; null without a start. */
export function dateOf(start, day) {
  if (start === null) return null;
  return dateOfDay(dayNumber(start) + Math.floor(day));
}

/** The date of a day in short, for tables: "18 Mar 2027". */
export function shortDate(start, day) {
  return dateText(dateOf(start, day), "short");
}

/** "day 6", or "day 6 (18 March 2027)" where the start is known. */
export function dayAndDate(day, start) {
  return `day ${dayText(day)}${start === null ? "" : ` (${dateText(dateOf(start, day))})`}`;
}

/** What dayOfCount() found: "day 5.4", "day 3 or earlier", "not reached". */
export function foundText({ kind, day }) {
  if (kind === "none") return "not reached";
  return kind === "by-first-count" ? `day ${dayText(day)} or earlier` : `day ${fineDay(day)}`;
}
