// From the counts of two treatments to what they say of one another.

import { wilson } from "../../science/proportions.js";
import { fisherExact, newcombeDifference, seedsForTrial } from "../../science/two_treatments.js";

export const POWER = 0.8;

/** Fractions in -1..1; `trial` is null where no trial can be planned from these counts. */
export function workOut(values) {
  const [first, second] = values.pots;
  const pots = values.pots.map((pot) => ({ ...pot, share: pot.k / pot.n, range: wilson(pot.k, pot.n, values.confidence) }));
  const range = newcombeDifference(first.k, first.n, second.k, second.n, values.confidence);
  return {
    values, pots,
    difference: pots[0].share - pots[1].share,
    range,
    chance: fisherExact(first.k, first.n, second.k, second.n),
    trial: planTrial(pots[1].share, values.difference),
  };
}

// The second treatment is the one to compare with: seen against it, better where there is room, else worse.
function planTrial(base, difference) {
  const other = base + difference <= 1 ? base + difference : base - difference;
  if (other < 0 || other > 1) return null;
  return { base, other, ...seedsForTrial(base, other, POWER) };
}
