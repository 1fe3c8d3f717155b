// From what was typed to a year of soil temperatures at the depth of the seed.

import { dayNumber } from "../../dates.js";
import {
  TIME_CONSTANT, annualHarmonic, annualWave, averageYear, centredMean, exponentialMean, monthlyMeans,
} from "../../science/soil_temperature.js";

export const LONGEST_GAP = 7; // days bridged by a straight line
const SETTLING = 6; // days after which the exponential mean knows enough of the past
const REACH = 1; // days before and after that a reading is smoothed with
const BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];

/** 0 to 364 of an ISO date; 29 February is with the 28th. */
export function placeInYear(date) {
  const [, month, day] = date.split("-").map(Number);
  return BEFORE_MONTH[month - 1] + (month === 2 ? Math.min(day, 28) : day) - 1;
}

/**
 * {kind, year, harmonic, full, ...}: `harmonic` is null where months are missing. `kind` is "months", "average" (of
 * several years), "days" (one year's air) or "readings" (of the soil).
 */
export function yearFromMonths(months, depth) {
  const harmonic = annualHarmonic(months);
  return { kind: "months", year: annualWave(harmonic, depth), harmonic, full: true, misfit: misfitOf(months, harmonic) };
}

// The month that lies furthest off the wave of the air, {month: 0 to 11, size: °C}.
function misfitOf(months, harmonic) {
  const air = monthlyMeans(annualWave(harmonic, 0));
  return months.map((celsius, month) => ({ month, size: Math.abs(celsius - air[month]) })).reduce((a, b) => (b.size > a.size ? b : a));
}

/** Of a log of the air, low and high each day. */
export function yearFromAir(days) {
  const numbers = days.map(({ date }) => dayNumber(date));
  const means = days.map(({ low, high }) => (low + high) / 2);
  return ofRecord(days, numbers, exponentialMean(numbers, means, TIME_CONSTANT, LONGEST_GAP, SETTLING), "days");
}

/** Of readings of the soil, one or two each day. */
export function yearFromReadings(days) {
  const numbers = days.map(({ date }) => dayNumber(date));
  const means = days.map(({ low, high }) => (low + high) / 2);
  return { ...ofRecord(days, numbers, centredMean(numbers, means, REACH), "readings"), single: days.filter(({ low, high }) => low === high).length };
}

function ofRecord(days, numbers, values, kind) {
  const places = days.map(({ date }) => placeInYear(date));
  const year = averageYear(places, values, LONGEST_GAP);
  const months = monthlyMeans(year);
  const gaps = numbers.slice(1).map((number, i) => number - numbers[i] - 1).filter((gap) => gap > 0);
  const times = new Map();
  for (const place of places) if (place !== 58) times.set(place, (times.get(place) ?? 0) + 1);
  const repeats = Math.max(1, ...times.values());
  const full = year.every((value) => value !== null);
  return {
    kind: kind === "days" && repeats > 1 ? "average" : kind,
    year, full, repeats,
    harmonic: full && months !== null ? annualHarmonic(months) : null,
    days: days.length, first: days[0].date, last: days.at(-1).date,
    missing: gaps.reduce((sum, gap) => sum + gap, 0),
    longGaps: gaps.filter((gap) => gap > LONGEST_GAP).length,
  };
}
