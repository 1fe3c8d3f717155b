// One entry: two to eight counts, and whether they are replicates or tests of their own.

import { level, oneOf, readSeedlings, readSeeds, reader } from "../reading.js";

export const FIELDS = ["kind", "confidence"];
export const COLUMNS = ["seeds", "normal"];
export const MOST_COUNTS = 8;

/** {values, messages}; values.counts is [{n, k}]. A link with a single count is asked for a second. */
export function readEntry(entry) {
  const { note, done, messages } = reader();
  const counts = entry.rows.map((row, i) => {
    const n = note(`${i}.seeds`, readSeeds(row.seeds));
    return { n, k: note(`${i}.normal`, readSeedlings(row.normal, n)) };
  });
  if (counts.length < 2) messages.set("0.seeds", "One count has nothing to agree with. Add another below.");
  return done({ example: entry.example, kind: oneOf(entry.kind, ["replicates", "tests"]), counts, confidence: level(entry.confidence, "95") });
}
