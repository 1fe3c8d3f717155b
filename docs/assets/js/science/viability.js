// How long stored seed lives: the seed viability equation, moisture by humidity, Harrington's rules of thumb.
// Twin of build_tools/science/viability.py; the formulas and their sources are described there.

import { checkCount } from "./proportions.js";
import {
  incompleteBetaComplementInverse, incompleteBetaInverse, normalProbability, normalQuantile,
} from "./special.js";

export const DAYS_PER_YEAR = 365.25;
// Moisture, % of fresh weight, within which Harrington's rule is usually said to hold (from memory).
export const HARRINGTON_DRIEST = 5;
export const HARRINGTON_DAMPEST = 14;
export const HARRINGTON_COLDEST_C = 0;
export const HARRINGTON_HOTTEST_C = 50;

/** Moisture in % of dry weight as % of fresh weight. */
export function freshBasis(dryPercent) {
  if (!(dryPercent >= 0)) throw new RangeError(`moisture must be 0 or more, got ${dryPercent}`);
  return (100 * dryPercent) / (100 + dryPercent);
}

/** Moisture in % of fresh weight as % of dry weight. */
export function dryBasis(freshPercent) {
  if (!(freshPercent >= 0 && freshPercent < 100)) {
    throw new RangeError(`moisture must lie between 0 and 100 % of fresh weight, got ${freshPercent}`);
  }
  return (100 * freshPercent) / (100 - freshPercent);
}

function perDryPoint(celsius, oil) {
  if (!(oil >= 0 && oil < 1) || !(celsius > -90 && celsius < 90)) {
    throw new RangeError(
      `need an oil content from 0 to below 1 and a temperature of -90 to 90 °C, got ${oil}, ${celsius}`);
  }
  return (1.1 + celsius / 90) / (1 - oil);
}

/** Moisture, % of fresh weight, of seed in balance with air; humidity and oil content are fractions. */
export function equilibriumMoisture(humidity, celsius, oil) {
  if (!(humidity >= 0 && humidity < 1)) {
    throw new RangeError(`relative humidity must lie between 0 and 1, got ${humidity}`);
  }
  return freshBasis(Math.sqrt(-440 * Math.log1p(-humidity)) / perDryPoint(celsius, oil));
}

/** Relative humidity, a fraction, of air in balance with seed of that moisture. */
export function equilibriumHumidity(freshPercent, celsius, oil) {
  return -Math.expm1(-((dryBasis(freshPercent) * perDryPoint(celsius, oil)) ** 2) / 440);
}

/** σ: days in which viability falls by one probit. */
export function probitDays(moisture, celsius, ke, cw, ch, cq) {
  if (!(moisture > 0 && moisture < 100)) {
    throw new RangeError(`moisture must lie between 0 and 100 %, got ${moisture}`);
  }
  return 10 ** (ke - cw * Math.log10(moisture) - ch * celsius - cq * celsius * celsius);
}

/** Days in which viability falls from `start` to `end`, fractions. */
export function daysBetween(start, end, sigma) {
  if (!(end > 0 && end <= start && start < 1) || !(sigma > 0)) {
    throw new RangeError(`need 0 < end <= start < 1 and a sigma above 0, got ${start}, ${end}, ${sigma}`);
  }
  return (normalQuantile(start) - normalQuantile(end)) * sigma;
}

/** {low, mid, high}: probit of the viable fraction after a test of k in n. */
export function probitsNow(k, n, confidence) {
  checkCount(k, n);
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`confidence must lie between 0 and 1, got ${confidence}`);
  }
  const tail = (1 - confidence) / 2;
  const [good, bad] = [k + 0.5, n - k + 0.5];
  const mid = k > 0 && k < n ? betaProbit(good, bad, 0.5) : normalQuantile(good / (n + 1));
  return { low: betaProbit(good, bad, tail), mid, high: -betaProbit(bad, good, tail) };
}

// Probit of a beta quantile; near 1 by way of its complement, which keeps the digits.
function betaProbit(a, b, probability) {
  const x = incompleteBetaInverse(a, b, probability);
  return x <= 0.5 ? normalQuantile(x) : -normalQuantile(incompleteBetaComplementInverse(b, a, probability));
}

function throughTest(k, n, confidence, make) {
  const now = probitsNow(k, n, confidence);
  return { low: make(now.low), mid: make(now.mid), high: make(now.high) };
}

/** {low, mid, high}: viable fraction `days` after a test of k in n. */
export function afterStorage(k, n, confidence, days, sigma) {
  if (!(days >= 0) || !(sigma > 0)) {
    throw new RangeError(`need days of 0 or more and a sigma above 0, got ${days}, ${sigma}`);
  }
  return throughTest(k, n, confidence, (z) => normalProbability(z - days / sigma));
}

/** {low, mid, high}: days until the lot has fallen to `line`; 0 where it is there already. */
export function daysUntil(k, n, confidence, line, sigma) {
  if (!(line > 0 && line < 1) || !(sigma > 0)) {
    throw new RangeError(`need a line between 0 and 1 and a sigma above 0, got ${line}, ${sigma}`);
  }
  const atLine = normalQuantile(line);
  return throughTest(k, n, confidence, (z) => Math.max(0, (z - atLine) * sigma));
}

/** How many times as long seed keeps by a rule of thumb: life doubles for each `step` less. */
export function doublings(fromValue, toValue, step) {
  if (!(step > 0)) throw new RangeError(`step must be above 0, got ${step}`);
  return 2 ** ((fromValue - toValue) / step);
}
