// From the log to the share of development done, and to the days on which seedlings are due.

import { degreeDays, developmentOfDay, fillGaps, firstDay } from "../../science/day_course.js";
import { RANGE_FACTOR, percentAt } from "../../science/emergence.js";
import { dateOfDay, dayNumber } from "../../dates.js";
import { courseOf } from "../warmth_words.js";

const LOOK_BACK = 7; // days whose mean stands for those to come; our own choice

/**
 * `day` are whole days since sowing: {early, likely, late, give_up}, null where it never comes at such warmth;
 * `done` {least, most} is the share of development by the end of the log. `measured` is false for crops without a table.
 */
export function workOut(values, data) {
  const crop = data.crops[values.crop];
  const lows = filled(values.days, "low");
  const highs = filled(values.days, "high");
  const next = values.next ?? { low: mean(lows.slice(-LOOK_BACK)), high: mean(highs.slice(-LOOK_BACK)) };
  const all = lows.map((low, i) => [low, highs[i]]);
  const common = {
    values, crop, next, all, now: all.length,
    gaps: values.days.filter((day) => day === null).length,
    mean: all.length > 0 ? mean([...lows, ...highs]) : (next.low + next.high) / 2,
    hot: crop.band.maximum_c === null ? 0 : highs.filter((high) => high > crop.band.maximum_c).length,
    frost: lows.filter((low) => low < 0).length,
    degree_days: crop.band.minimum_c === null ? null : all.reduce((sum, [low, high]) => sum + degreeDays(low, high, crop.band.minimum_c, null, "sine"), 0),
  };
  const give = data.give_up.value;
  return crop.days === null ? { ...common, measured: false, ...usualDays(crop, common.mean, give), done: null }
    : { ...common, measured: true, percent: crop.percent && percentAt(crop.percent.curve, common.mean), ...course(crop, all, next, give) };
}

function course(crop, all, next, give) {
  const model = courseOf(crop);
  const daily = all.map(([low, high]) => developmentOfDay(model, low, high));
  const after = developmentOfDay(model, next.low, next.high);
  const least = daily.map((day) => day.least);
  const most = daily.map((day) => day.most);
  const middle = least.map((share, i) => (share + most[i]) / 2);
  const late = firstDay(least, after.least, RANGE_FACTOR);
  return {
    after,
    outside_hours: daily.reduce((sum, day) => sum + day.outside_hours, 0),
    done: { least: sum(least), most: sum(most) },
    progress: middle.reduce((points, share) => [...points, points.at(-1) + share], [0]),
    day: {
      early: firstDay(most, after.most, 1 / RANGE_FACTOR),
      likely: late === null ? null : firstDay(middle, (after.least + after.most) / 2, 1),
      late,
      give_up: firstDay(least, after.least, RANGE_FACTOR * give),
    },
  };
}

// Days printed without a table by temperature, those for the nearest warmth: the log cannot move them.
function usualDays(crop, celsius, give) {
  if (crop.usual.length === 0) return { usual: null, day: { early: null, likely: null, late: null, give_up: null } };
  const away = ({ low_c: low, high_c: high }) => (low === null ? 100 : Math.max(0, low - celsius, celsius - high));
  const usual = crop.usual.reduce((best, one) => (away(one) < away(best) ? one : best));
  const factor = usual.low === usual.high ? RANGE_FACTOR : 1; // a printed range is one already
  const late = Math.ceil(usual.high * factor);
  return { usual, day: { early: Math.floor(usual.low / factor), likely: null, late, give_up: late * give } };
}

/** ISO date of a number of days after sowing; null for null. */
export function dateAfter(sown, days) {
  return days === null ? null : dateOfDay(dayNumber(sown) + days);
}

function filled(days, key) {
  return days.length === 0 ? [] : fillGaps(days.map((day) => (day === null ? null : day[key])));
}

function sum(values) {
  return values.reduce((total, value) => total + value, 0);
}

function mean(values) {
  return sum(values) / values.length;
}
