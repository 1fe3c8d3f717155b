// "How this is worked out": the method behind each figure, with the figures of this entry.

import { percentRange } from "../format.js";
import { grouped } from "../fields.js";

/** A list of [heading, text]. */
export function method(answer) {
  const { k, n, values, guaranteed, wilson, replicates } = answer;
  const percent = Math.round(values.confidence * 100);
  const told = [
    ["Range", `Wilson’s score interval (1927) for ${grouped(k)} of ${grouped(n)}: ${percentRange(wilson, n)}. Over many tests about ${percent} % of such ranges hold the true percentage.`],
    ["Guaranteed range", `Clopper and Pearson’s interval (1934): ${percentRange(guaranteed, n)}. It is wider, and holds the truth at least ${percent} % of the time whatever the lot is like.`],
    ["Chances", "The chance that the lot reaches a line is taken from the beta distribution with k + ½ and n − k + ½ (Jeffreys’ prior, which adds next to nothing of its own). Official minimums: 7 CFR 201.31."],
  ];
  if (replicates !== null) told.push(["Replicates", RULES[replicates.rule]]);
  told.push(
    ["Too early", "First and final count days: 7 CFR 201.58. Without them: wait at least a week (common practice, no source)."],
    ["Seeds to sow", "The smallest number of seeds that gives the wanted plants with the chosen certainty. What the test leaves open about the lot is counted in (beta-binomial), so a small test asks for more seeds. The field factor is yours: no value holds everywhere."],
    ["Retests", "“Reliability of germination testing of ex situ conserved seeds: a genebank case study on outsourced analyses”, Plant Genetic Resources 2012 (abstract read)."],
  );
  return told;
}

const RULES = {
  table: "Two or four replicates of 100 seeds: the largest range of 7 CFR 201.55 at the average, rounded to a whole percentage.",
  exact: "The exact chance of a range this large or larger, if each replicate is drawn from one lot with the pooled percentage. Below 2.5 % they are taken to disagree, the level of the published tables.",
  miles: "Miles’ formula (1963): q · √(p(1 − p)/n), with q the upper 2.5 % point of the studentized range. For unequal replicates n is the harmonic mean of the pair compared. It is used where the exact sum would take too long.",
};
