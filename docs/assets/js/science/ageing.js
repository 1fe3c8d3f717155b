// What to expect of seed by its age, joined with a test, and when to test again.
// Twin of build_tools/science/ageing.py; the rule and its sources are described there.

import { checkCount } from "./proportions.js";
import {
  incompleteBetaComplement, incompleteBetaComplementInverse, incompleteBetaInverse,
  normalProbability, normalQuantile,
} from "./special.js";

// The curve is kept off 0 and 1, where a beta prior would be no prior.
export const LEAST = 0.02;
export const MOST = 0.98;

/** Ageing in probits a year: from `fresh` to `atLifeEnd` (fractions) in `lifeYears`. */
export function probitsPerYear(lifeYears, fresh, atLifeEnd) {
  if (!(lifeYears > 0) || !(atLifeEnd > 0 && atLifeEnd < fresh && fresh < 1)) {
    throw new RangeError(
      `need a life above 0 and 0 < end < fresh < 1, got ${lifeYears}, ${atLifeEnd}, ${fresh}`);
  }
  return (normalQuantile(fresh) - normalQuantile(atLifeEnd)) / lifeYears;
}

/** Expected germination of seed `ageYears` old, a fraction kept within LEAST..MOST. */
export function expectedFraction(ageYears, lifeYears, fresh, atLifeEnd) {
  if (!(ageYears >= 0)) throw new RangeError(`age must be 0 or more, got ${ageYears}`);
  const slope = probitsPerYear(lifeYears, fresh, atLifeEnd);
  return within(normalProbability(normalQuantile(fresh) - slope * ageYears));
}

function within(fraction) {
  return Math.min(MOST, Math.max(LEAST, fraction));
}

/** Beta parameters [a, b] after a test: an expectation worth `worth` seeds, plus k of n. */
export function update(expected, worth, k, n) {
  if (!(expected > 0 && expected < 1) || !(worth > 0)) {
    throw new RangeError(
      `need an expectation between 0 and 1 and a worth above 0, got ${expected}, ${worth}`);
  }
  if (n !== 0 || k !== 0) checkCount(k, n);
  return [expected * worth + k, (1 - expected) * worth + n - k];
}

/** {mean, sd, low, high} of Beta(a, b); low and high leave out equal tails. */
export function betaSummary(a, b, confidence) {
  if (!(a > 0 && b > 0) || !(confidence > 0 && confidence < 1)) {
    throw new RangeError(`impossible beta ${a}, ${b} or confidence ${confidence}`);
  }
  const tail = (1 - confidence) / 2;
  return {
    mean: a / (a + b),
    sd: Math.sqrt((a * b) / (a + b + 1)) / (a + b),
    low: incompleteBetaInverse(a, b, tail),
    high: incompleteBetaComplementInverse(a, b, tail),
  };
}

/** P(fraction >= line) under Beta(a, b). */
export function chanceAbove(a, b, line) {
  if (!(line >= 0 && line <= 1)) {
    throw new RangeError(`line must lie between 0 and 1, got ${line}`);
  }
  return incompleteBetaComplement(a, b, line);
}

/** Years until a lot at `fraction` has aged to `line`, at `slope` probits a year; 0 when there. */
export function yearsUntil(fraction, line, slope) {
  if (!(line > 0 && line < 1) || !(slope > 0)) {
    throw new RangeError(
      `need a line between 0 and 1 and a slope above 0, got ${line}, ${slope}`);
  }
  return Math.max(0, (normalQuantile(within(fraction)) - normalQuantile(line)) / slope);
}

/** Whole months until the next test: a third of the time to the line, within `least`..`most`. */
export function monthsToNextTest(yearsToLine, least, most) {
  return Math.min(most, Math.max(least, Math.floor((yearsToLine * 12) / 3)));
}
