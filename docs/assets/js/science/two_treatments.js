// Two treatments side by side: soaked or not, mat or no mat.
// Twin of build_tools/science/two_treatments.py; sources are named there.

import { checkCount, normalQuantile, wilson } from "./proportions.js";
import { binomialProbabilities, hypergeometricProbabilities } from "./special.js";

export const LEVEL = 0.05;
// Up to this many seeds a treatment the power is summed over every outcome; beyond, a formula.
export const EXACT_SEEDS = 200;
// Probabilities this close count as equal, as in the usual programs.
export const TIE = 1e-7;

/** Newcombe's interval [low, high] for p1 - p2, both in -1..1. */
export function newcombeDifference(k1, n1, k2, n2, confidence = 0.95) {
  const [low1, high1] = wilson(k1, n1, confidence);
  const [low2, high2] = wilson(k2, n2, confidence);
  const p1 = k1 / n1;
  const p2 = k2 / n2;
  const below = Math.hypot(p1 - low1, high2 - p2);
  const above = Math.hypot(high1 - p1, p2 - low2);
  return [p1 - p2 - below, p1 - p2 + above];
}

/** Two-sided p-value of Fisher's exact test: all tables no likelier than the one seen. */
export function fisherExact(k1, n1, k2, n2) {
  checkCount(k1, n1);
  checkCount(k2, n2);
  const { lowest, chances } = hypergeometricProbabilities(k1 + k2, n1, n2);
  const limit = chances[k1 - lowest] * (1 + TIE);
  let sum = 0;
  for (const chance of chances) if (chance <= limit) sum += chance;
  return Math.min(1, sum);
}

/** Chance that Fisher's test at 5 % sees the difference of two lots, `seeds` of each; exact. */
export function fisherPower(p1, p2, seeds) {
  if (!isFraction(p1) || !isFraction(p2)
      || !(Number.isInteger(seeds) && seeds >= 1 && seeds <= EXACT_SEEDS)) {
    throw new RangeError(`impossible fractions ${p1}, ${p2} or seeds ${seeds}`);
  }
  const first = binomialProbabilities(seeds, p1);
  const second = binomialProbabilities(seeds, p2);
  // Both are far below the largest number a double holds, up to EXACT_SEEDS.
  const ways = binomialCoefficients(seeds);
  const allWays = binomialCoefficients(2 * seeds);
  let power = 0;
  for (let total = 0; total <= 2 * seeds; total += 1) {
    power += seenWithTotal(total, seeds, ways, LEVEL * allWays[total], first, second);
  }
  return Math.min(1, power);
}

// Chance of the tables with this total that the test calls different. The chances rise from both ends to the middle, and
// those as far from either end are equal, since both have as many seeds: walking inward, the least likely come first, in pairs.
// The one in the middle is the likeliest: with it every table would be in the tail.
function seenWithTotal(total, seeds, ways, level, first, second) {
  let tail = 0;
  let power = 0;
  for (let [left, right] = [Math.max(0, total - seeds), Math.min(seeds, total)]; left < right; left += 1, right -= 1) {
    tail += 2 * ways[left] * ways[total - left];
    if (tail > level) break;
    power += first[left] * second[total - left] + first[right] * second[total - right];
  }
  return power;
}

function binomialCoefficients(n) {
  const row = new Float64Array(n + 1);
  row[0] = 1;
  for (let x = 0; x < n; x += 1) row[x + 1] = (row[x] * (n - x)) / (x + 1);
  return row;
}

function isFraction(value) {
  return value >= 0 && value <= 1;
}

/** Seeds of each treatment by the usual normal formula, rounded up, for a two-sided 5 % test. */
export function approximateSeeds(p1, p2, power) {
  if (p1 === p2 || !isFraction(p1) || !isFraction(p2) || !(power >= 0.5 && power < 1)) {
    throw new RangeError(
      `need two different fractions and a power of 0.5 or more, got ${p1}, ${p2}, ${power}`);
  }
  const mean = (p1 + p2) / 2;
  const root = normalQuantile(1 - LEVEL / 2) * Math.sqrt(2 * mean * (1 - mean))
    + normalQuantile(power) * Math.sqrt(p1 * (1 - p1) + p2 * (1 - p2));
  const apart = Math.abs(p1 - p2);
  const n = root ** 2 / apart ** 2;
  return Math.ceil((n / 4) * (1 + Math.sqrt(1 + 4 / (n * apart))) ** 2 - 1e-9);
}

/** Seeds of each treatment with which the difference is seen with chance `power`: {seeds, exact}. */
export function seedsForTrial(p1, p2, power) {
  const guess = approximateSeeds(p1, p2, power);
  if (guess > EXACT_SEEDS) return { seeds: guess, exact: false };
  // The power saws up and down by a little: begin below the guess, and take the first that does.
  let start = Math.max(5, 5 * Math.floor(Math.floor(guess * 0.85) / 5));
  while (start > 5 && fisherPower(p1, p2, start) >= power) start -= 5;
  for (let seeds = start; seeds <= EXACT_SEEDS; seeds += 5) {
    if (fisherPower(p1, p2, seeds) >= power) return { seeds, exact: true };
  }
  return { seeds: EXACT_SEEDS + 1, exact: false }; // all up to there were too few
}
