// From age, store and count to what is believed of the lot.

import { storeFactor } from "../../lots/catalogue.js";
import { EVEN_CHANCE } from "../../lots/columns.js";
import { betaSummary, chanceAbove, expectedFraction, monthsToNextTest, probitsPerYear, update, yearsUntil } from "../../science/ageing.js";
import { chanceAtLeast } from "../../science/lot.js";
import { wilson } from "../../science/proportions.js";

/** Fractions in 0..1; `tested` is null without a test. */
export function workOut(values, data) {
  const { practice } = data;
  const life = values.life * storeFactor(values.storage, practice);
  const end = practice.life_end_percent / 100;
  const expected = expectedFraction(values.age, life, values.fresh, end);
  // Not knowing the store makes the expectation half as good.
  const worth = values.storage === "unknown" ? values.worth / 2 : values.worth;
  const { seeds, normal, line, confidence } = values;
  const prior = update(expected, worth, 0, 0);
  const posterior = update(expected, worth, normal ?? 0, seeds ?? 0);
  const both = betaSummary(...posterior, confidence);
  const slope = probitsPerYear(life, values.fresh, end);
  const chance = chanceAbove(...posterior, line);
  const years = yearsUntil(both.mean, line, slope);
  return {
    values, life, worth, expected, both, chance, years,
    crop: data.crops[values.crop] ?? null,
    prior: betaSummary(...prior, confidence),
    tested: seeds === null ? null : {
      k: normal, n: seeds, range: wilson(normal, seeds, confidence), chance: chanceAtLeast(normal, seeds, line),
    },
    surprising: seeds !== null && isSurprising(normal / seeds, betaSummary(...prior, 0.95)),
    months: seeds === null || chance < EVEN_CHANCE ? null : monthsToNextTest(years, practice.retest_least_months, practice.retest_most_months),
  };
}

function isSurprising(share, { low, high }) {
  return share < low || share > high;
}
