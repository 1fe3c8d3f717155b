// Chances that the pages of science do not hold: how many plants a sowing gives, how many of many cells fill.

import { JEFFREYS } from "../../science/lot.js";
import { MOST_SEEDS, chanceOfEnough } from "../../science/sowing.js";
import { incompleteBeta, incompleteBetaInverse } from "../../science/special.js";

const NODES = 200;
/** Ends of the range that holds the outcome in nine cases of ten. */
const ENDS = [0.05, 0.95];

// Fewest x from `low` to `high` for which reached(x), which stays true once it is.
function fewest(low, high, reached) {
  let [short, enough] = [low - 1, high];
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2);
    if (reached(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}

/** Central 90 % range of the plants from `seeds` seeds after k of n: the beta-binomial, thinned by the field factor. */
export function plantsRange(seeds, k, n, factor) {
  if (seeds === 0) return [0, 0];
  if (seeds > MOST_SEEDS) {
    // So many seeds that only the percentage itself is left to guess.
    return ENDS.map((end) => Math.round(seeds * factor * incompleteBetaInverse(k + JEFFREYS, n - k + JEFFREYS, end)));
  }
  return ENDS.map((end) => fewest(0, seeds, (x) => 1 - chanceOfEnough(x + 1, seeds, k, n, factor) >= end));
}

/** P(binomial(tries, share) >= wanted). */
export function atLeast(wanted, tries, share) {
  if (wanted <= 0) return 1;
  if (wanted > tries) return 0;
  return share >= 1 ? 1 : incompleteBeta(wanted, tries - wanted + 1, share);
}

/** Fewest seeds for `plants` with `certainty` if each is known to make a plant with chance `share`; null above MOST_SEEDS. */
export function seedsIfKnown(plants, certainty, share) {
  const enough = (seeds) => atLeast(plants, seeds, share) >= certainty;
  return enough(MOST_SEEDS) ? fewest(plants, MOST_SEEDS, enough) : null;
}

/** Equally likely values of the share of seeds that make a plant, after k of n: midpoints of the beta distribution. */
export function likelyShares(k, n, factor) {
  return Array.from({ length: NODES }, (_, i) => factor * incompleteBetaInverse(k + JEFFREYS, n - k + JEFFREYS, (i + 0.5) / NODES));
}

// The cells share one unknown percentage, so they fill well or badly together: averaged over the likely shares.
function mean(shares, perCell, chance) {
  return shares.reduce((sum, share) => sum + chance(1 - (1 - share) ** perCell), 0) / shares.length;
}

/** Chance that at least `wanted` of `cells` cells with `perCell` seeds hold a plant. */
export function chanceOfCells(wanted, cells, perCell, shares) {
  return mean(shares, perCell, (filled) => atLeast(wanted, cells, filled));
}

/** Central 90 % range of the cells that hold a plant. */
export function cellsRange(cells, perCell, shares) {
  return ENDS.map((end) => fewest(0, cells, (x) => 1 - chanceOfCells(x + 1, cells, perCell, shares) >= end));
}

/** Fewest cells of which `wanted` hold a plant with `certainty`; null when more than `most` would be needed. */
export function cellsNeeded(wanted, certainty, perCell, shares, most) {
  const enough = (cells) => chanceOfCells(wanted, cells, perCell, shares) >= certainty;
  return enough(most) ? fewest(wanted, most, enough) : null;
}
