// From two stores and a test to ratios, percentages and years.

import {
  DAYS_PER_YEAR, HARRINGTON_DAMPEST, HARRINGTON_DRIEST, afterStorage, daysBetween, daysUntil, doublings, probitDays, probitsNow,
} from "../../science/viability.js";
import { normalProbability } from "../../science/special.js";
import { MOST_YEARS } from "./entry.js";

const FRESH = 0.9; // a common yardstick: the life from 90 to 50 %
const HALF = 0.5;
const CURVE_STEPS = 60;
const ALIKE = 1.05; // nearer than this the two stores are called alike

/** Ratios are of the second store to the first: above 1 when it keeps seed longer. */
export function workOut(values, data) {
  const { stores, sets } = values;
  const lives = sets.map((set) => lifeIn(stores, set));
  const sound = lives.filter((life) => !life.set.doubt);
  const ratio = sound.length === 0 ? null : spanOf(sound.map((life) => life.ratio));
  const main = lives[values.set] ?? null;
  const thumb = ruleOfThumb(stores, data.rules);
  const apart = ratio === null && thumb !== null && pullsApart(stores, thumb);
  return {
    values, lives, main, ratio, thumb, apart,
    better: apart ? null : betterOf(ratio ?? (thumb === null ? null : [thumb.both ?? thumb.temperature, thumb.both ?? thumb.temperature])),
    tests: main === null ? null : lives.map((life) => testIn(life, values)),
    curves: main === null ? null : curvesOf(main, values),
  };
}

const toYears = (days) => mapEnds(days, (value) => value / DAYS_PER_YEAR);
const mapEnds = ({ low, mid, high }, make) => ({ low: make(low), mid: make(mid), high: make(high) });

// Smallest and largest.
function spanOf(numbers) {
  return [Math.min(...numbers), Math.max(...numbers)];
}

function lifeIn(stores, set) {
  const days = stores.map((store) => probitDays(store.moisture, store.celsius, ...set.k));
  return { set, days, ratio: days[1] / days[0], yardstick: days.map((sigma) => daysBetween(FRESH, HALF, sigma) / DAYS_PER_YEAR) };
}

// For each store what the tested lot is expected to do there.
function testIn({ days }, { k, n, confidence, years, line }) {
  return days.map((sigma) => ({
    after: afterStorage(k, n, confidence, years * DAYS_PER_YEAR, sigma),
    until: toYears(daysUntil(k, n, confidence, line, sigma)),
  }));
}

/** 0 or 1, the store that keeps seed longer; null when they are alike, or when it is not known. */
function betterOf(ratio) {
  if (ratio === null) return null;
  if (ratio[0] > ALIKE) return 1;
  return ratio[1] < 1 / ALIKE ? 0 : null;
}

// Harrington's rules: the temperature part always, the moisture part where both moistures are known and within its usual range.
function ruleOfThumb([first, second], rules) {
  if (rules === null) return null;
  const step = (rules.fahrenheit * 5) / 9; // a difference: no 32 in it
  const known = first.moisture !== null && second.moisture !== null;
  const inside = known && [first, second].every(({ moisture }) => moisture >= HARRINGTON_DRIEST && moisture <= HARRINGTON_DAMPEST);
  const temperature = doublings(first.celsius, second.celsius, step);
  const moisture = inside ? doublings(first.moisture, second.moisture, rules.points) : null;
  return { step, temperature, moisture, both: moisture === null ? null : temperature * moisture, known, inside };
}

// Is the store that the temperature favours the damper one? Where moisture can't be counted no order is known then.
function pullsApart(stores, { temperature, both }) {
  if (both !== null) return false;
  const [first, second] = ["moisture", "humidity"].map((key) => stores.map((store) => store[key])).find((pair) => !pair.includes(null)) ?? [null, null];
  return first !== second && (second > first) === (temperature >= 1);
}

// Expected percentage over the years, to twice the years asked for.
function curvesOf({ days }, { k, n, confidence, years }) {
  const now = probitsNow(k, n, confidence);
  const last = Math.min(years * 2, MOST_YEARS);
  return days.map((sigma) => Array.from({ length: CURVE_STEPS + 1 }, (_, i) => {
    const x = (last * i) / CURVE_STEPS;
    return { x, ...mapEnds(now, (z) => normalProbability(z - (x * DAYS_PER_YEAR) / sigma)) };
  }));
}
