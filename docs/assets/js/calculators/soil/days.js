// Days of the year and ranges of them in words; a day is 0 to 364.

import { dayAndMonth } from "../../date_words.js";

const YEAR = 2001; // any without a 29 February

// [month, day of the month]
function dateOf(day) {
  const date = new Date(Date.UTC(YEAR, 0, 1 + day));
  return [date.getUTCMonth() + 1, date.getUTCDate()];
}

/** "12 April"; with "short" "12 Apr". */
export function dayText(day, form = "long") {
  return dayAndMonth(...dateOf(day), form);
}

/** "3–28 Apr"; in two months both in full. */
export function shortRange([first, last]) {
  if (first === last) return dayText(first, "short");
  const [month, day] = dateOf(first);
  return first < last && month === dateOf(last)[0] ? `${day}–${dayText(last, "short")}` : `${dayText(first, "short")} – ${dayText(last, "short")}`;
}

/** "between 3 and 28 April" */
export function betweenText([first, last]) {
  if (first === last) return `about ${dayText(first)}`;
  const [month, day] = dateOf(first);
  return `between ${first < last && month === dateOf(last)[0] ? day : dayText(first)} and ${dayText(last)}`;
}
