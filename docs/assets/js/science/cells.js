// Seeds in cells and rows when germination is known from a test only.
// Twin of build_tools/science/cells.py, where the method is described.

import { JEFFREYS } from "./lot.js";
import { checkSowing } from "./sowing.js";
import { betaBinomialProbabilities } from "./special.js";

export const MOST_A_CELL = 30;

/** Chance that a cell of `seeds` seeds has no plant after a test with k of n. */
export function chanceEmpty(seeds, k, n, fieldFactor = 1, prior = JEFFREYS) {
  checkSowing("seeds", seeds, k, n, fieldFactor);
  const weights = betaBinomialProbabilities(seeds, k + prior, n - k + prior);
  let chance = 0;
  weights.forEach((weight, g) => { chance += weight * (1 - fieldFactor) ** g; });
  return Math.min(1, chance);
}

/** Fewest seeds with which a cell holds a plant with chance `chance`; null above MOST_A_CELL. */
export function seedsPerCell(chance, k, n, fieldFactor = 1, prior = JEFFREYS) {
  checkChance(chance);
  for (let seeds = 1; seeds <= MOST_A_CELL; seeds += 1) {
    if (1 - chanceEmpty(seeds, k, n, fieldFactor, prior) >= chance) return seeds;
  }
  return null;
}

/** Plants to expect from so many seeds. */
export function expectedPlants(seeds, k, n, fieldFactor = 1, prior = JEFFREYS) {
  checkSowing("seeds", seeds, k, n, fieldFactor);
  return (seeds * fieldFactor * (k + prior)) / (n + 2 * prior);
}

/** Plants a cell must lose to be left with one. */
export function expectedThinned(seeds, k, n, fieldFactor = 1, prior = JEFFREYS) {
  return expectedPlants(seeds, k, n, fieldFactor, prior)
    - (1 - chanceEmpty(seeds, k, n, fieldFactor, prior));
}

/** Fewest seeds a cell when the fraction is known, above 0 and at most 1. */
export function knownSeedsPerCell(chance, fraction) {
  checkChance(chance);
  if (!(fraction > 0 && fraction <= 1)) throw new RangeError(`impossible fraction ${fraction}`);
  return Math.max(1, Math.ceil(Math.log1p(-chance) / Math.log1p(-fraction) - 1e-9));
}

/** Plants in a row of `length` with one every `spacing` (same unit): one at each end. */
export function rowPlaces(length, spacing) {
  if (!(spacing > 0) || !(length > 0)) {
    throw new RangeError(`length and spacing must be above 0, got ${length} and ${spacing}`);
  }
  return Math.floor(length / spacing + 1e-9) + 1;
}

function checkChance(chance) {
  if (!(chance > 0 && chance < 1)) {
    throw new RangeError(`chance must lie between 0 and 1, got ${chance}`);
  }
}
