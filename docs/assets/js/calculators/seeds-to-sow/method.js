// "How this is worked out": the method behind each figure.

import { grouped } from "../fields.js";
import { PACKET_SEEDS } from "./entry.js";

/** [heading, text] pairs. */
export function workings({ values, k, n, live, perGram }) {
  const told = [
    ["What is known", values.known === "packet"
      ? `A packet’s figure stands on an official test of ${PACKET_SEEDS} seeds (7 CFR 201.54; four times a hundred in the international rules, from memory), so it is taken as ${grouped(k)} of ${PACKET_SEEDS}.`
      : `What ${grouped(k)} of ${grouped(n)} say of the lot: the beta distribution with k + ½ and n − k + ½ (Jeffreys’ prior, which adds next to nothing of its own). The range shown is Wilson’s (1927).`],
    ["Seeds to sow", "The fewest seeds that give the wanted plants with the certainty: beta-binomial distribution, in which each seed that germinates makes a plant with the chance of the field factor. If the percentage were certain it is the binomial distribution alone, the wanted plants plus a negative binomial quantile."],
    ["Plants to expect", "Mean and central 90 % range of the same distribution."],
  ];
  if (values.where === "cells") {
    told.push(
      ["Seeds in a cell", "A cell of m seeds stays empty with the chance that none makes a plant; for a known share p that is (1 − p)^m, here averaged over what the test leaves open. To thin: plants less full cells."],
      ["So many cells", "All cells share one unknown percentage. Chances and ranges are averaged over 200 equally likely percentages of the beta distribution, binomial for each."],
    );
  }
  if (values.where === "row") {
    told.push(["In a row", "Plants: length over spacing, and one more for the far end. To thin: plants to expect less that number. The sowing distance is the length over one less than the seeds."]);
  }
  if (live !== null) told.push(["Pure live seed", "Purity times germination. For so much pure live seed take the amount over that share."]);
  if (perGram !== null || values.handGrams !== null) told.push(["Weight", "Seeds over seeds per gram, and over the purity where one is typed. One ounce is 28.3495 g, one pound 453.592 g."]);
  told.push(["What it leaves out", "Seedlings lost to slugs, birds, damping off or a dry day after they came up, unless your field factor has them in."]);
  return told;
}
