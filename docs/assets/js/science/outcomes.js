// What a sowing gives: plants from so many seeds, filled cells out of many.
// Twin of build_tools/science/outcomes.py, where the method is described.

import { JEFFREYS, chanceCountAtLeast } from "./lot.js";
import { roundHalfUp } from "./proportions.js";
import { MOST_SEEDS, chanceOfEnough, checkSowing } from "./sowing.js";
import { incompleteBetaInverse } from "./special.js";

export const NODES = 200;
const TAILS = [0.05, 0.95];
export const ALLOWANCE = 1e-12;

// Smallest x in low..high with reached(x), which stays true once it is and is taken to hold at high.
function fewest(low, high, reached) {
  let [short, enough] = [low - 1, high];
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2);
    if (reached(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}

/** Central 90 % range [low, high] of the plants from `seeds` seeds after k of n. */
export function plantsRange(seeds, k, n, fieldFactor = 1) {
  checkSowing("seeds", Math.max(seeds, 1), k, n, fieldFactor);
  if (seeds > MOST_SEEDS) return quantiles(k, n, TAILS).map((share) => roundHalfUp(seeds * fieldFactor * share));
  return TAILS.map((tail) => fewest(0, seeds, (x) => 1 - chanceOfEnough(x + 1, seeds, k, n, fieldFactor) >= tail));
}

/** Fewest seeds for `plants` with `certainty` when each makes a plant with a known chance; null above MOST_SEEDS. */
export function seedsIfKnown(plants, certainty, share) {
  if (!(Number.isInteger(plants) && plants >= 1) || !(certainty > 0 && certainty < 1) || !(share > 0 && share <= 1)) {
    throw new RangeError(`impossible plants ${plants}, certainty ${certainty} or share ${share}`);
  }
  if (plants > MOST_SEEDS || chanceCountAtLeast(plants, MOST_SEEDS, share) < certainty - ALLOWANCE) return null;
  return fewest(plants, MOST_SEEDS, (seeds) => chanceCountAtLeast(plants, seeds, share) >= certainty - ALLOWANCE);
}

/** NODES equally likely values of the share of seeds that make a plant, after k of n. */
export function likelyShares(k, n, fieldFactor = 1) {
  checkSowing("seeds", 1, k, n, fieldFactor);
  return quantiles(k, n, Array.from({ length: NODES }, (_, i) => (i + 0.5) / NODES)).map((share) => fieldFactor * share);
}

/** Chance that at least `wanted` of `cells` cells with `perCell` seeds each hold a plant. */
export function chanceOfCells(wanted, cells, perCell, shares) {
  if (wanted > cells) return 0;
  return shares.reduce((sum, share) => sum + chanceCountAtLeast(Math.max(wanted, 0), cells, 1 - (1 - share) ** perCell), 0) / shares.length;
}

/** Central 90 % range [low, high] of the cells that hold a plant. */
export function cellsRange(cells, perCell, shares) {
  return TAILS.map((tail) => fewest(0, cells, (x) => 1 - chanceOfCells(x + 1, cells, perCell, shares) >= tail));
}

/** Fewest cells of which `wanted` hold a plant with `certainty`; null when more than `most` would be needed. */
export function cellsNeeded(wanted, certainty, perCell, shares, most) {
  if (wanted > most || chanceOfCells(wanted, most, perCell, shares) < certainty - ALLOWANCE) return null;
  return fewest(wanted, most, (cells) => chanceOfCells(wanted, cells, perCell, shares) >= certainty - ALLOWANCE);
}

function quantiles(k, n, probabilities) {
  return probabilities.map((probability) => incompleteBetaInverse(k + JEFFREYS, n - k + JEFFREYS, probability));
}
