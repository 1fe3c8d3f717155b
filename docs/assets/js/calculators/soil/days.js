// Days of the year and ranges of them in words; a day is 0 to 364.

const YEAR = 2001; // any without a 29 February

const formatters = new Map(); // making one takes longer than a hundred dates

function formatter(month) {
  if (!formatters.has(month)) formatters.set(month, new Intl.DateTimeFormat(undefined, { day: "numeric", month, timeZone: "UTC" }));
  return formatters.get(month);
}

const dateOf = (day) => new Date(Date.UTC(YEAR, 0, 1 + day));

/** "12 April" in the reader's own form; with "short" "12 Apr". */
export function dayText(day, month = "long") {
  return formatter(month).format(dateOf(day));
}

/** "3–28 Apr"; over the new year both days in full. */
export function shortRange([first, last]) {
  if (first === last) return dayText(first, "short");
  if (last < first) return `${dayText(first, "short")} – ${dayText(last, "short")}`;
  return formatter("short").formatRange(dateOf(first), dateOf(last)).replace(/\s*–\s*/, (dash) => (dash.trim() === dash ? dash : " – "));
}

/** "between 3 and 28 April" */
export function betweenText([first, last]) {
  if (first === last) return `about ${dayText(first)}`;
  const parts = formatter("long").formatToParts(dateOf(first));
  const dayFirst = parts[0].type === "day";
  const sameMonth = dateOf(first).getUTCMonth() === dateOf(last).getUTCMonth() && first < last;
  if (!sameMonth) return `between ${dayText(first)} and ${dayText(last)}`;
  const day = (place) => String(dateOf(place).getUTCDate());
  return dayFirst ? `between ${day(first)} and ${dayText(last)}` : `between ${dayText(first)} and ${day(last)}`;
}

/** ISO date as "12 April 2026". */
export function fullDate(iso) {
  const [year, month, day] = iso.split("-").map(Number);
  return new Intl.DateTimeFormat(undefined, { dateStyle: "long", timeZone: "UTC" }).format(new Date(Date.UTC(year, month - 1, day)));
}
