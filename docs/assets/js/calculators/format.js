// Numbers as readers see them: percentages, ranges, chances, dates.

import { addMonths, todayIso } from "../dates.js";
import {
  chanceInWords, chanceText as chanceDigits, grouped, percentDigits, percentInWords,
} from "../words.js";

export { addMonths, percentDigits, percentInWords as percentOfCount, todayIso };

const SMALL_NUMBERS = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine",
  "Ten", "Eleven", "Twelve"];

/** "49–94 %" */
export function percentRange([low, high], n) {
  return `${percentDigits(low, n)}–${percentDigits(high, n)} %`;
}

/** "17 %"; near certainty in words. */
export function chanceText(chance) {
  return chanceInWords(chanceDigits(chance));
}

/** Percentage points: whole, or one decimal where needed. */
export function pointsText(points) {
  const rounded = Math.round(points * 10) / 10;
  return `${rounded} ${rounded === 1 ? "percentage point" : "percentage points"}`;
}

/** A difference of fractions in percentage points with its sign: "+30 points", "−8 points", "0 points". */
export function signedPoints(fraction) {
  const points = Math.round(fraction * 100);
  const sign = points > 0 ? "+" : points < 0 ? "−" : "";
  return `${sign}${Math.abs(points)} ${Math.abs(points) === 1 ? "point" : "points"}`;
}

/** "−8 to +60 points" */
export function pointsRange(low, high) {
  return `${signedPoints(low).split(" ")[0]} to ${signedPoints(high)}`;
}

/** "Ten seeds", "50 seeds", "One seed": to begin a sentence with. */
export function seedsInWords(n) {
  return `${SMALL_NUMBERS[n] ?? grouped(n)} ${n === 1 ? "seed" : "seeds"}`;
}

/** 21.5 as "21.5 °C", or in °F when that was typed. */
export function temperatureText(celsius, unit) {
  const shown = unit === "f" ? Math.round((celsius * 9) / 5 + 32) : Math.round(celsius * 10) / 10;
  return `${String(shown).replace("-", "−")} ${unit === "f" ? "°F" : "°C"}`;
}

/** "8 months", "2 years and 3 months" */
export function monthsText(months) {
  const [years, rest] = [Math.floor(months / 12), months % 12];
  const parts = [];
  if (years > 0) parts.push(`${years} ${years === 1 ? "year" : "years"}`);
  if (rest > 0 || years === 0) parts.push(`${rest} ${rest === 1 ? "month" : "months"}`);
  return parts.join(" and ");
}
