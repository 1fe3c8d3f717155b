// Numbers of a store in words: times, years, percentages, moisture.

import { monthsText, percentRange } from "../format.js";
import { MOST_YEARS } from "./entry.js";

const COARSE = 100; // what is expected is never worth decimals
const MOST_TIMES = 100;

/** "12 %"; near none or all in words. */
export function percentText(fraction) {
  if (fraction < 0.005) return "less than 1 %";
  return fraction > 0.995 ? "more than 99 %" : `${Math.round(fraction * 100)} %`;
}

/** "40–88 %" */
function rangeText({ low, high }) {
  return percentRange([low, high], COARSE);
}

/** "67 % (40–88 %)"; one text where the whole range reads the same. */
export function expectedText(found) {
  const [from, to] = [percentText(found.low), percentText(found.high)];
  return from === to ? from : `${percentText(found.mid)} (${rangeText(found)})`;
}

/** A span of years: months below two, no more than two digits, and no more years than anybody has followed. */
export function yearsText(years) {
  if (years > MOST_YEARS) return `more than ${MOST_YEARS} years`;
  if (years === 0) return "now";
  if (years < 1 / 24) return "less than a month";
  if (years < 2 && years !== 1) return monthsText(Math.round(years * 12));
  const shown = years >= 10 ? Math.round(years) : Math.round(years * 10) / 10;
  return `${shown} ${shown === 1 ? "year" : "years"}`;
}

/** "4 years (1.5 years to 9 years)" */
export function untilText({ low, mid, high }) {
  const [from, middle, to] = [low, mid, high].map(yearsText);
  if (from === to) return from;
  return `${middle} (${from} to ${to})`;
}

/** "12–16 times", "about 2.5 times": two digits at most. */
export function timesText([low, high]) {
  const one = (times) => (times > MOST_TIMES ? `more than ${MOST_TIMES}` : times >= 10 ? String(Math.round(times)) : times >= 0.95 ? times.toFixed(1) : times.toPrecision(2));
  const [from, to] = [one(low), one(high)];
  if (from === to) return `${from} times`;
  return to.startsWith("more") ? `${from} to ${to} times` : `${from}–${to} times`;
}

/** "about 12–16 times"; "about" only before a figure. */
export function aboutTimes(span) {
  const text = timesText(span);
  return text.startsWith("more") ? text : `about ${text}`;
}

/** The span turned so that it is above 1 where it can be: how many times as long in the better store. */
export function oriented([low, high], better) {
  return better === 0 ? [1 / high, 1 / low] : [low, high];
}

/** "9.3 %" */
export function moistureText(moisture) {
  return moisture === null ? "not known" : `about ${moisture.toFixed(1)} %`;
}
