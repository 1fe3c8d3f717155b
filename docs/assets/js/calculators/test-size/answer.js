// From the question to plans, as numbers.

import { chanceCountAtLeast } from "../../science/lot.js";
import { fixedPlan, operatingCharacteristic, seedsForHalfWidth, sequentialPlan } from "../../science/plans.js";
import { wilson } from "../../science/proportions.js";

const USUAL = [10, 20, 25, 50, 100, 200, 400];
// Lots shown in the table, in steps between the bad (0) and the good lot (1) and beyond both.
const STEPS = [1.75, 1.5, 1.25, 1, 0.75, 0.5, 0.25, 0, -0.5, -1];
const CURVE_POINTS = 61;

/** Fractions in 0..1. With goal "width": seeds and what they give; with "lots": fixed and sequential plan. */
export function workOut(values) {
  return values.goal === "width" ? widthAnswer(values) : lotsAnswer(values);
}

function widthAnswer(values) {
  const { expected, within, confidence } = values;
  const seeds = seedsForHalfWidth(within, expected, confidence);
  const at = (n) => ({ n, range: wilson(Math.round(n * expected), n, confidence), k: Math.round(n * expected) });
  return { goal: "width", values, seeds, result: at(seeds), usual: USUAL.map(at) };
}

function lotsAnswer(values) {
  const { good, bad, away, passed, groups } = values;
  const fixed = fixedPlan(good, bad, away, passed);
  const plan = sequentialPlan(good, bad, away, passed, groups);
  const lots = STEPS.map((step) => Math.round((bad + step * (good - bad)) * 1000) / 1000)
    .filter((fraction) => fraction > 0 && fraction < 1);
  const whole = (fraction) => operatingCharacteristic(plan, fraction);
  return {
    goal: "lots", values, plan,
    fixed: fixed && {
      ...fixed,
      goodTurnedAway: 1 - chanceCountAtLeast(fixed.accept_at, fixed.seeds, good),
      badPassed: chanceCountAtLeast(fixed.accept_at, fixed.seeds, bad),
      range: wilson(fixed.accept_at, fixed.seeds, 0.95),
    },
    atGood: whole(good),
    atBad: whole(bad),
    lots: lots.map((fraction) => ({ fraction, ...whole(fraction) })),
    curve: Array.from({ length: CURVE_POINTS }, (_, i) => {
      const fraction = i / (CURVE_POINTS - 1);
      return { fraction, accept: whole(fraction).accept, fixed: fixed ? chanceCountAtLeast(fixed.accept_at, fixed.seeds, fraction) : null };
    }),
  };
}
