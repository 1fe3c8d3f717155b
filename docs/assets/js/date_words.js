// Dates in the words of the page's language. The browser's own formatter would write them in that of the device, in the middle of an English
// sentence, and takes longer to wake than a slow phone has for a whole answer.

const MONTHS = {
  long: ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"],
  short: ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sept", "Oct", "Nov", "Dec"],
};
const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];

/** The name of a month, 1 to 12; `form` is "long", "short" or "narrow". */
export function monthName(month, form = "long") {
  return form === "narrow" ? MONTHS.long[month - 1][0] : MONTHS[form][month - 1];
}

/** The name of a day of the week, 0 (Sunday) to 6; "short" for three letters. */
export function weekdayName(day, form = "long") {
  return form === "short" ? WEEKDAYS[day].slice(0, 3) : WEEKDAYS[day];
}

/** "12 April" */
export function dayAndMonth(month, day, form = "long") {
  return `${day} ${monthName(month, form)}`;
}

/** An ISO date as "12 April 2026", or with "short" "12 Apr 2026". */
export function dateText(iso, form = "long") {
  const [year, month, day] = iso.split("-").map(Number);
  return `${dayAndMonth(month, day, form)} ${year}`;
}

/** A pair of ISO dates as "8–14 May 2027", "28 April – 3 May 2027" or "28 December 2026 – 3 January 2027"; one where they are the same. */
export function dateRange([first, last], form = "long") {
  const [from, to] = [first, last].map((iso) => iso.split("-").map(Number));
  if (first === last) return dateText(first, form);
  if (from[0] !== to[0]) return `${dateText(first, form)} – ${dateText(last, form)}`;
  return from[1] === to[1] ? `${from[2]}–${dateText(last, form)}` : `${dayAndMonth(from[1], from[2], form)} – ${dateText(last, form)}`;
}
