// Amounts in words.

import { grouped } from "../fields.js";
import { mlText, plain, shareText, spoonText, strengthRangeText, strengthText } from "./measures.js";

const grams = (value) => `${value < 1 ? value.toFixed(2).replace(/0$/, "") : plain(Math.round(value * 10) / 10)} g`;

function cupsText(cups, measures) {
  const shown = plain(Math.round(cups * 100) / 100);
  return `${shown} ${measures.name} ${shown === "1" ? "cup" : "cups"}`;
}

/** The sentence that goes before the first step; null where there is no amount. */
export function mixSentence(amount, amounts) {
  if (amount === null) return null;
  if (amount.kind === "water") return `Take at least ${mlText(amount.ml)} of water for ${grouped(amount.seeds)} ${amount.seeds === 1 ? "seed" : "seeds"}.`;
  if (amount.kind === "salt") return `Dissolve ${grams(amount.grams)} of ${amount.name} in ${mlText(amount.ml)} of water: ${strengthText(amount.percent)}.`;
  const bottle = `${strengthText(amount.stock)} ${amounts.bottle.name}`;
  if (amount.kind === "spoons") {
    return `Stir ${spoonText(amount.spoons, "tablespoon")} (${mlText(amount.bottle)}) of ${bottle} into ${spoonText(amount.cups, "cup")} (${mlText(amount.water)}) of water: ${shareText(amount.times)}, ${strengthText(amount.strength)}.`;
  }
  if (amount.water < 1e-9) return `Use ${mlText(amount.bottle)} of ${bottle} as it is.`;
  return `Make ${mlText(amount.bottle)} of ${bottle} up to ${mlText(amount.total)} with water: ${strengthText(amount.strength)}.`;
}

/** Rows of the table of numbers. */
export function amountRows(amount, amounts) {
  if (amount === null) return [];
  if (amount.kind === "water") return [[`Water, at least ${plain(amounts.water.ml)} mL for ${amounts.water.seeds} seeds`, mlText(amount.ml)]];
  if (amount.kind === "salt") return [[`Grams of ${amount.name}, from a scale that shows tenths`, grams(amount.grams)], ["Water", mlText(amount.ml)]];
  const { measures } = amount;
  const name = (what) => `${measures.name} ${what}`;
  if (amount.kind === "spoons") {
    return [
      [`${spoonText(amount.spoons, name("tablespoon"))} of the bottle`, mlText(amount.bottle)],
      [`${spoonText(amount.cups, name("cup"))} of water`, mlText(amount.water)],
      ["All together", mlText(amount.total)],
      ["Strength, spoons added to the water", strengthText(amount.strength)],
      ...(amount.topped === null ? [] : [["Strength if the cup is only filled up with water", strengthText(amount.topped)]]),
    ];
  }
  return [
    [`From the bottle of ${strengthText(amount.stock)}`, mlText(amount.bottle)],
    ["Water", mlText(amount.water)],
    ["All together", `${mlText(amount.total)}, ${cupsText(amount.total / measures.cup, measures)}`],
    ["Parts", amount.parts < 1e-9 ? "the bottle as it is" : `1 part of the bottle, ${plain(Math.round(amount.parts * 10) / 10)} of water`],
    amount.kitchen === null ? ["In spoons or cups", "no quarter fits: measure in mL"]
      : ["In spoons or cups, to a quarter", `${spoonText(amount.kitchen.count, name(amount.kitchen.unit === "cup" ? "cup" : "tablespoon"))}: ${strengthRangeText(amount.kitchen.range)}`],
  ];
}

/** What should be said of a strength: how it stands to the usual recipe and to what was tried. */
export function strengthNotes(amount, amounts) {
  if (amount === null || amount.stock === undefined) return [];
  const notes = [amounts.strength.text];
  const usual = (amounts.bottle.strongest_percent * amounts.spoons.tablespoons) / (amounts.spoons.tablespoons + 16 * amounts.spoons.cups);
  if (amount.strength > 1.5 * usual) notes.unshift(`${strengthText(amount.strength)} is stronger than the usual recipe, which gives ${strengthText(usual)}.`);
  if (amount.kind === "spoons" && amount.topped !== null) {
    notes.push(`Spoons added to a full cup give ${strengthText(amount.strength)}; the same spoons in a cup filled up to its line give ${strengthText(amount.topped)}. Both are meant by such recipes.`);
  }
  notes.push("A bottle that has stood open is weaker than its label, so these are the most that it can be.");
  return notes;
}

/** A few words for the jar. */
export function jarWords(amount, amounts) {
  if (amount === null || amount.kind === "water") return "";
  if (amount.kind === "salt") return `${amount.name} ${strengthText(amount.percent)}`;
  return `${amounts.bottle.name} ${strengthText(amount.strength)}`;
}
