// Warmth that goes up and down within the day, and what seed makes of it.
// Twin of build_tools/science/day_course.py; formulas and sources stand there.

import { RANGE_FACTOR, daysAt } from "./emergence.js";

export const HOURS = 24;
export const LONGEST_WAIT_DAYS = 1000;
export const SLIGHT = 1e-6; // a day is not added for less

/** 24 temperatures, in the middle of each hour, of a sine between the day's minimum and maximum (°C). */
export function hoursOfDay(low, high) {
  if (low > high) throw new RangeError(`the minimum ${low} is above the maximum ${high}`);
  const [middle, swing] = [(low + high) / 2, (high - low) / 2];
  return Array.from({ length: HOURS }, (_, hour) => middle + swing * Math.sin((2 * Math.PI * (hour + 0.5)) / HOURS));
}

/** [least, most] share of development a day at a steady temperature. `crop` is {days, none_below, none_above}. */
export function developmentRate(crop, celsius) {
  const days = daysAt(crop.days, celsius);
  if (days !== null) return [1 / days, 1 / days];
  const { knots } = crop.days;
  if (celsius < knots[0]) {
    const cold = crop.none_below;
    return cold !== null && celsius <= cold ? [0, 0] : [0, 1 / daysAt(crop.days, knots[0])];
  }
  const hot = crop.none_above;
  return hot !== null && celsius >= hot ? [0, 0] : [0, 1 / daysAt(crop.days, knots.at(-1))];
}

/** Share of development in one day: {least, most, outside_hours}. */
export function developmentOfDay(crop, low, high) {
  const { knots } = crop.days;
  const hours = hoursOfDay(low, high);
  const rates = hours.map((celsius) => developmentRate(crop, celsius));
  const mean = (which) => rates.reduce((sum, rate) => sum + rate[which], 0) / HOURS;
  return {
    least: mean(0), most: mean(1),
    outside_hours: hours.filter((celsius) => !(celsius >= knots[0] && celsius <= knots.at(-1))).length,
  };
}

/** Days to emergence at a constant share a day: {early, likely, late}; null where that share is 0. */
export function expectedDays(least, most) {
  const middle = (least + most) / 2;
  return {
    early: most > 0 ? 1 / most / RANGE_FACTOR : null,
    likely: middle > 0 ? 1 / middle : null,
    late: least > 0 ? RANGE_FACTOR / least : null,
  };
}

/** The first day, from 1, on which shares of `daily`, then `afterwards` a day, reach `target`; null when they never do. */
export function firstDay(daily, afterwards, target) {
  let total = 0;
  for (let index = 0; index < daily.length; index += 1) {
    total += daily[index];
    if (total >= target - SLIGHT) return index + 1;
  }
  const further = afterwards > 0 ? (target - total) / afterwards : Infinity;
  if (daily.length + further > LONGEST_WAIT_DAYS) return null;
  return daily.length + Math.max(1, Math.ceil(further - SLIGHT));
}

/** A day's readings with gaps (null) filled by a straight line between the days beside them; at the ends by the nearest. */
export function fillGaps(values) {
  const known = values.flatMap((value, index) => (value === null ? [] : [index]));
  if (known.length === 0) throw new RangeError("there is no reading at all");
  let next = 0; // place in `known` of the first day with a reading after this one
  return values.map((value, index) => {
    while (next < known.length && known[next] <= index) next += 1;
    if (value !== null) return value;
    const before = next > 0 ? known[next - 1] : null;
    const after = next < known.length ? known[next] : null;
    if (before === null || after === null) return values[before ?? after];
    return values[before] + ((values[after] - values[before]) * (index - before)) / (after - before);
  });
}

/** The most days in a row without a reading. */
export function longestGap(values) {
  let [longest, run] = [0, 0];
  for (const value of values) {
    run = value === null ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}

/** Degree-days (°C·d) of one day above `base`, with a horizontal cut-off at `ceiling` (null for none); `shape` is "sine" or "triangle". */
export function degreeDays(low, high, base, ceiling, shape) {
  if (low > high || (ceiling !== null && ceiling <= base) || !["sine", "triangle"].includes(shape)) {
    throw new RangeError(`impossible day ${low}, ${high}, base ${base}, ceiling ${ceiling} or shape ${shape}`);
  }
  const above = shape === "sine" ? sineAbove : triangleAbove;
  return above(low, high, base) - (ceiling === null ? 0 : above(low, high, ceiling));
}

function sineAbove(low, high, line) {
  if (high <= line) return 0;
  const middle = (low + high) / 2;
  if (low >= line) return middle - line;
  const swing = (high - low) / 2;
  const angle = Math.asin((line - middle) / swing);
  return ((middle - line) * (Math.PI / 2 - angle) + swing * Math.cos(angle)) / Math.PI;
}

function triangleAbove(low, high, line) {
  if (high <= line) return 0;
  if (low >= line) return (low + high) / 2 - line;
  return (high - line) ** 2 / (2 * (high - low));
}
