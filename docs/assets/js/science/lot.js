// What one count says about the whole lot it was drawn from.
// Twin of build_tools/science/lot.py; sources are named there.

import { checkCount } from "./proportions.js";
import { incompleteBeta, incompleteBetaComplement } from "./special.js";

export const JEFFREYS = 0.5;

function checkFraction(name, value) {
  if (!(value >= 0 && value <= 1)) {
    throw new RangeError(`${name} must lie between 0 and 1, got ${value}`);
  }
}

/** Chance that the lot's true fraction is `threshold` or more, after k of n. */
export function chanceAtLeast(k, n, threshold) {
  checkCount(k, n);
  checkFraction("threshold", threshold);
  return incompleteBetaComplement(k + JEFFREYS, n - k + JEFFREYS, threshold);
}

/** Chance that a test of n seeds shows k or more when the lot's true fraction is `fraction`. */
export function chanceCountAtLeast(k, n, fraction) {
  if (!(k >= 0 && k <= n + 1)) {
    throw new RangeError(`k must lie between 0 and n + 1, got ${k} of ${n}`);
  }
  checkFraction("fraction", fraction);
  if (k === 0) return 1;
  if (k === n + 1) return 0;
  return incompleteBeta(k, n - k + 1, fraction);
}

/** Chance that a test of n seeds shows k or fewer when the lot's true fraction is `fraction`. */
export function chanceCountAtMost(k, n, fraction) {
  if (!(k >= -1 && k <= n)) throw new RangeError(`k must lie between -1 and n, got ${k} of ${n}`);
  checkFraction("fraction", fraction);
  if (k === -1) return 0;
  if (k === n) return 1;
  return incompleteBetaComplement(k + 1, n - k, fraction);
}
