// The clock on the wall: a moment is a whole number of minutes since 1 January 1970 by the reader's own clock and
// calendar. Days have 24 hours here; whether the clocks are changed in between is asked of the browser and said apart.

import { addMonths, iso } from "../../dates.js";
import { dateText, dayAndMonth, weekdayName } from "../../date_words.js";

const HOUR = 60;
const DAY = 24 * HOUR;
export const MINUTES = { minutes: 1, hours: HOUR, days: DAY, weeks: 7 * DAY };

/** The moment of an ISO date and minutes since its midnight. */
export function moment(date, minutes) {
  const [year, month, day] = date.split("-").map(Number);
  return Date.UTC(year, month - 1, day) / 60000 + minutes;
}

/** {date: ISO, minutes: since midnight} of a moment. */
export function parts(at) {
  const shown = new Date(at * 60000);
  return {
    date: iso(shown.getUTCFullYear(), shown.getUTCMonth() + 1, shown.getUTCDate()),
    minutes: shown.getUTCHours() * HOUR + shown.getUTCMinutes(),
  };
}

/** The moment so many minutes, hours, days, weeks or calendar months later. */
export function later(at, amount, unit) {
  if (unit !== "months") return at + amount * MINUTES[unit];
  const { date, minutes } = parts(at);
  return moment(addMonths(date, amount), minutes);
}

/** "14:30" */
export function clockText(at) {
  const { minutes } = parts(at);
  return `${String(Math.floor(minutes / HOUR)).padStart(2, "0")}:${String(minutes % HOUR).padStart(2, "0")}`;
}

/** "Tuesday" */
export function weekday(at, form = "long") {
  return weekdayName(new Date(at * 60000).getUTCDay(), form);
}

/** "12 March"; with the year when asked. */
export function dayText(at, year = false) {
  const { date } = parts(at);
  return year ? dateText(date) : dayAndMonth(...date.split("-").slice(1).map(Number));
}

/** "12 Mar" */
export function shortDay(at) {
  return dayAndMonth(...parts(at).date.split("-").slice(1).map(Number), "short");
}

/** "Tuesday 14:30"; from a week after `start` on, where the weekday would not do, with the date. */
export function whenText(at, start) {
  const far = Math.abs(at - start) >= 6 * DAY;
  return far ? `${weekday(at)} ${dayText(at)}, ${clockText(at)}` : `${weekday(at)} ${clockText(at)}`;
}

/** "between Wednesday 02:30 and 14:30", "Tuesday 15:00"; days alone when the window is counted in days. */
export function windowText([from, to], start, wholeDays = false) {
  if (wholeDays) {
    const day = (at) => `${weekday(at)} ${dayText(at)}`;
    return from === to ? day(from) : `between ${day(from)} and ${day(to)}`;
  }
  if (from === to) return whenText(from, start);
  const sameDay = parts(from).date === parts(to).date;
  return `between ${whenText(from, start)} and ${sameDay ? clockText(to) : whenText(to, start)}`;
}

/** Minutes by which the reader's clocks are put forward (above 0) or back between two moments. */
export function clockShift(from, to) {
  const local = (at) => {
    const { date, minutes } = parts(at);
    const [year, month, day] = date.split("-").map(Number);
    return new Date(year, month - 1, day, 0, minutes).getTimezoneOffset();
  };
  return local(from) - local(to) + 0;
}

/** Now by the reader's clock, rounded up to the next quarter of an hour. */
export function nextQuarter(now = new Date()) {
  const date = iso(now.getFullYear(), now.getMonth() + 1, now.getDate());
  return parts(moment(date, Math.ceil((now.getHours() * HOUR + now.getMinutes()) / 15) * 15));
}

/** Does the window lie wholly in the night, from 22:00 to 06:00? */
export function inTheNight([from, to]) {
  if (to - from >= 8 * HOUR) return false;
  const evening = Math.floor((from - 6 * HOUR) / DAY) * DAY + 22 * HOUR; // of the waking day that `from` belongs to
  return from >= evening && to <= evening + 8 * HOUR;
}
