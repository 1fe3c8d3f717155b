// How many seeds to sow for a wanted number of plants, when germination is known from a test only.
// Twin of build_tools/science/sowing.py, where the method is described.

import { JEFFREYS } from "./lot.js";
import { checkCount } from "./proportions.js";
import { betaBinomialProbabilities, binomialProbabilities } from "./special.js";

/** Beyond this many seeds the honest answer is "test again". */
export const MOST_SEEDS = 200000;

/** Throws RangeError unless `number` (of `what`) is whole and 1 or more, k of n possible, the factor in (0, 1]. */
export function checkSowing(what, number, k, n, fieldFactor) {
  checkCount(k, n);
  if (!Number.isInteger(number) || number < 1) {
    throw new RangeError(`${what} must be a whole number of 1 or more, got ${number}`);
  }
  if (!(fieldFactor > 0 && fieldFactor <= 1)) {
    throw new RangeError(`field factor must be above 0 and at most 1, got ${fieldFactor}`);
  }
}

/** Chance that `seeds` seeds give at least `plants` plants after a test with k of n. */
export function chanceOfEnough(plants, seeds, k, n, fieldFactor = 1, prior = JEFFREYS) {
  checkSowing("plants", plants, k, n, fieldFactor);
  if (seeds < plants) return 0;
  const weights = betaBinomialProbabilities(seeds, k + prior, n - k + prior);
  let chance = 0;
  if (fieldFactor === 1) {
    for (let g = plants; g <= seeds; g += 1) chance += weights[g];
    return Math.min(1, chance);
  }
  // P(Bin(g+1) >= plants) = P(Bin(g) >= plants) + P(the plant still missing comes from seed g+1).
  let last = fieldFactor ** plants; // chance that seed g is the one that completes the number
  let enough = last;
  if (last < 1e-290) return thinnedBySum(plants, seeds, weights, fieldFactor);
  for (let g = plants; g <= seeds; g += 1) {
    chance += weights[g] * Math.min(1, enough);
    last *= (g / (g - plants + 1)) * (1 - fieldFactor);
    enough += last;
  }
  return Math.min(1, chance);
}

// For thousands of plants f^plants underflows; then start from the likeliest g instead.
function thinnedBySum(plants, seeds, weights, fieldFactor) {
  const completes = new Float64Array(seeds + 1);
  const start = Math.min(seeds, Math.max(plants, Math.floor(plants / fieldFactor)));
  const share = binomialProbabilities(start, fieldFactor)[plants];
  completes[start] = (share * plants) / start;
  for (let g = start; g < seeds; g += 1) {
    completes[g + 1] = completes[g] * (g / (g - plants + 1)) * (1 - fieldFactor);
  }
  for (let g = start; g > plants; g -= 1) {
    completes[g - 1] = completes[g] / (((g - 1) / (g - plants)) * (1 - fieldFactor));
  }
  let chance = 0;
  let enough = 0;
  for (let g = plants; g <= seeds; g += 1) {
    enough += completes[g];
    chance += weights[g] * Math.min(1, enough);
  }
  return Math.min(1, chance);
}

/** Smallest number of seeds that reaches `certainty`; null when no number can be promised. */
export function seedsNeeded(plants, certainty, k, n, fieldFactor = 1, prior = JEFFREYS) {
  checkSowing("plants", plants, k, n, fieldFactor);
  if (!(certainty > 0 && certainty < 1)) {
    throw new RangeError(`certainty must lie between 0 and 1, got ${certainty}`);
  }
  if (k === 0) return null;
  const enough = (seeds) => chanceOfEnough(plants, seeds, k, n, fieldFactor, prior) >= certainty;
  let short = plants - 1;
  let high = plants;
  while (!enough(high)) {
    if (high >= MOST_SEEDS) return null;
    short = high;
    high = Math.min(2 * high, MOST_SEEDS);
  }
  while (high - short > 1) {
    const middle = Math.floor((short + high) / 2);
    if (enough(middle)) high = middle;
    else short = middle;
  }
  return high;
}
