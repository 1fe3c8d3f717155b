// From crop and warmth to days and percentages.

import { developmentOfDay, expectedDays } from "../../science/day_course.js";
import { percentAt, testedState } from "../../science/emergence.js";
import { courseOf } from "../warmth_words.js";

/** `days` and `percent` are null when nothing was measured for the crop. */
export function workOut(values, data) {
  const crop = data.crops[values.crop];
  const { low, high } = values;
  return { values, crop, mean: (low + high) / 2, steady: low === high, days: daysOf(crop, low, high), percent: percentOf(crop, low, high) };
}

function daysOf(crop, low, high) {
  if (crop.days === null) return null;
  const day = developmentOfDay(courseOf(crop), low, high);
  return { ...day, ...expectedDays(day.least, day.most) };
}

// The percentage at the mean, and the measured ones from the tested temperature below to the one above.
function percentOf(crop, low, high) {
  if (crop.percent === null) return null;
  const { curve, cells } = crop.percent;
  const at = percentAt(curve, (low + high) / 2);
  const from = testedState(cells, low).below ?? low;
  const to = testedState(cells, high).above ?? high;
  const near = cells.filter(([celsius, state]) => state === "measured" && celsius >= from && celsius <= to);
  const shares = near.map((cell) => cell[2]);
  return { at, near, low: at === null ? null : Math.min(at, ...shares), high: at === null ? null : Math.max(at, ...shares) };
}
