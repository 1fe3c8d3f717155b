// Calendar days as ISO text, "2026-03-12".

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

export function daysInMonth(year, month) {
  const leap = month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return MONTH_DAYS[month - 1] + (leap ? 1 : 0);
}

/** ISO text of a year, month (1 to 12) and day. */
export function iso(year, month, day) {
  const digits = (number, length) => String(number).padStart(length, "0");
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}`;
}

const DAY = 86400000; // ms; days are counted in UTC, where none is shorter

/** Whole days since 1970-01-01 of an ISO date that exists. */
export function dayNumber(date) {
  return Math.round(Date.parse(date) / DAY);
}

/** The ISO date of a day number. */
export function dateOfDay(number) {
  return new Date(number * DAY).toISOString().slice(0, 10);
}

/** Today as the reader's calendar has it. */
export function todayIso() {
  const now = new Date();
  return iso(now.getFullYear(), now.getMonth() + 1, now.getDate());
}

/** The day `months` calendar months after an ISO date; the month's last day where it has no such day. */
export function addMonths(date, months) {
  const [year, month, day] = date.split("-").map(Number);
  const all = month - 1 + months;
  const [toYear, toMonth] = [year + Math.floor(all / 12), (all % 12) + 1];
  return iso(toYear, toMonth, Math.min(day, daysInMonth(toYear, toMonth)));
}
