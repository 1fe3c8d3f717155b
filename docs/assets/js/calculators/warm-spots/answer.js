// Which crops suit which place, and how long each takes there.

import { developmentOfDay, expectedDays } from "../../science/day_course.js";
import { percentAt } from "../../science/emergence.js";
import { courseOf } from "../warmth_words.js";

export const FEW = 40; // percent under which it is hardly worth sowing
// From best to worst; "unknown" where no band is published.
const RATINGS = ["good", "cool", "warm", "cold", "hot", "unknown"];

/** `crops` are [{crop, spots, mats}] in order of names: what each place does without a mat, and with one (null without). */
export function workOut(values, data) {
  const wanted = Object.entries(data.crops).filter(([id, crop]) => values.season === "all" || crop.season === values.season || id === values.crop);
  const crops = wanted.map(([id, crop]) => ({
    id, crop,
    spots: values.places.map((place) => spot(crop, place)),
    mats: values.rise === null ? null : values.places.map(({ low, high }) => spot(crop, { low: low + values.rise, high: high + values.rise })),
  }));
  const chosen = crops.find(({ id }) => id === values.crop) ?? null;
  return { values, crops, chosen, best: chosen === null ? null : bestSpot(chosen.spots), mat: data.mat };
}

/** What a place does for a crop: its rating, days (null when not measured or not foretold), and the percentage at the mean. */
export function spot(crop, { low, high }) {
  const mean = (low + high) / 2;
  const percent = crop.percent === null ? null : percentAt(crop.percent.curve, mean);
  const day = crop.days === null ? null : developmentOfDay(courseOf(crop), low, high);
  const days = day === null ? null : expectedDays(day.least, day.most);
  return { rating: rate(crop.band, low, high, mean, percent, day), percent, days, measured: day !== null, outside: day === null ? 0 : day.outside_hours };
}

// By the published band: the mean decides, but no day may go beyond the maximum.
function rate(band, low, high, mean, percent, day) {
  if (day !== null && day.most === 0) return mean < (band.optimum_low_c ?? band.minimum_c ?? 20) ? "cold" : "hot";
  if (band.maximum_c !== null && high > band.maximum_c) return "hot";
  if (band.minimum_c !== null && mean < band.minimum_c) return "cold";
  const best = band.optimum_low_c === null ? null : [band.optimum_low_c, band.optimum_high_c];
  if (best === null) return "unknown";
  if (mean < best[0]) return "cool";
  if (mean > best[1]) return "warm";
  return percent !== null && percent < FEW ? "warm" : "good";
}

// The place that suits best; of equals the one with the soonest seedlings.
function bestSpot(spots) {
  const order = (one) => [RATINGS.indexOf(one.rating), one.days?.likely ?? Infinity];
  let best = 0;
  spots.forEach((one, i) => {
    const [a, b] = [order(one), order(spots[best])];
    if (a[0] < b[0] || (a[0] === b[0] && a[1] < b[1])) best = i;
  });
  return RATINGS.indexOf(spots[best].rating) < RATINGS.indexOf("cold") ? best : null;
}
