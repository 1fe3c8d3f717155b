// Intervals for a germination percentage: k normal seedlings from n seeds.
// Twin of build_tools/science/proportions.py; sources are named there.

import {
  incompleteBetaComplementInverse, incompleteBetaInverse, normalQuantile,
} from "./special.js";

export { normalQuantile };

/** Two-sided normal point: 0.95 gives 1.96. */
export function zForConfidence(confidence) {
  return normalQuantile((1 + confidence) / 2);
}

/** Throws RangeError unless k seedlings out of n seeds is possible. */
export function checkCount(k, n) {
  if (!Number.isInteger(k) || !Number.isInteger(n)) {
    throw new RangeError(`counts must be whole numbers, got ${k} of ${n}`);
  }
  if (n < 1) throw new RangeError(`at least one seed must be set, got ${n}`);
  if (k < 0 || k > n) {
    throw new RangeError(`seedlings must lie between 0 and the seeds set, got ${k} of ${n}`);
  }
}

/** Wilson's score interval [low, high], fractions in 0..1. */
export function wilson(k, n, confidence = 0.95) {
  checkCount(k, n);
  const z = zForConfidence(confidence);
  const share = k / n;
  const scale = 1 + (z * z) / n;
  const centre = (share + (z * z) / (2 * n)) / scale;
  const half = (z / scale) * Math.sqrt((share * (1 - share)) / n + (z * z) / (4 * n * n));
  return [k === 0 ? 0 : centre - half, k === n ? 1 : centre + half];
}

/** Clopper and Pearson's guaranteed interval [low, high], fractions in 0..1. */
export function clopperPearson(k, n, confidence = 0.95) {
  checkCount(k, n);
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`confidence must lie between 0 and 1, got ${confidence}`);
  }
  const tail = (1 - confidence) / 2;
  return [
    k === 0 ? 0 : incompleteBetaInverse(k, n - k + 1, tail),
    k === n ? 1 : incompleteBetaComplementInverse(k + 1, n - k, tail),
  ];
}

/** Wilson limits for every count of a small test: [{k, low, high}], whole percent. */
export function wholePercentTable(seeds = 10, confidence = 0.95) {
  return Array.from({ length: seeds + 1 }, (_, k) => {
    const [low, high] = wilson(k, seeds, confidence);
    return { k, low: roundHalfUp(100 * low), high: roundHalfUp(100 * high) };
  });
}

/** Nearest whole number of a value >= 0, halves upward. */
export function roundHalfUp(value) {
  return Math.floor(value + 0.5);
}
