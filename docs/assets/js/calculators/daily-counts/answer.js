// From the counts of one test to everything the answer says, still as numbers.

import { wilson, zForConfidence } from "../../science/proportions.js";
import { dayOfCount, timeCourse } from "../../science/time_course.js";

/**
 * `course` as timeCourse() gives it; `totals` up at each count; `halfBy` the first count by which half of those
 * that came up were there (null when none did); `widest` the longest time between two counts that brought seedlings;
 * `meanRange` the range of the mean time from its standard error, null with fewer than two seedlings; `canRise` when the last count still brought new ones.
 */
export function workOut(values) {
  const { n, days, fresh } = values;
  const course = timeCourse(days, fresh, n);
  const k = course.germinated;
  let sum = 0;
  const totals = fresh.map((count) => (sum += count));
  const since = days.map((day, i) => (i === 0 ? 0 : days[i - 1]));
  const brought = days.map((day, i) => (fresh[i] > 0 ? day - since[i] : 0));
  const peak = fresh.indexOf(Math.max(...fresh));
  return {
    values, n, k, course, totals,
    wilson: wilson(k, n, values.confidence),
    meanRange: meanRange(course, zForConfidence(values.confidence)),
    canRise: fresh.at(-1) > 0 && k < n,
    halfBy: k === 0 ? null : days[totals.findIndex((total) => total >= k / 2)],
    halfOfSet: dayOfCount(days, fresh, n / 2),
    most: k === 0 ? null : { day: days[peak], since: since[peak], fresh: fresh[peak] },
    widest: Math.max(...brought),
  };
}

function meanRange({ mean_days: mean, standard_error: error }, z) {
  return error === null ? null : [Math.max(0, mean - z * error), mean + z * error];
}
