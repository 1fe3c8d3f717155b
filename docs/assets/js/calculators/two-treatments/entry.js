// One entry: two treatments with their counts, and the difference worth knowing about.

import { level, readName, readPercent, readSeedlings, readSeeds, reader } from "../reading.js";

export const FIELDS = ["name1", "seeds1", "normal1", "name2", "seeds2", "normal2", "difference", "confidence"];
const MOST = 10000;

/** {values, messages}; values.pots is [{name, n, k}, {name, n, k}]. */
export function readEntry(entry) {
  const { note, done } = reader();
  const pots = [1, 2].map((i) => {
    const n = note(`seeds${i}`, readSeeds(entry[`seeds${i}`], MOST));
    return {
      name: note(`name${i}`, readName(entry[`name${i}`], i === 1 ? "First" : "Second")),
      n,
      k: note(`normal${i}`, readSeedlings(entry[`normal${i}`], n, MOST)),
    };
  });
  return done({
    example: entry.example,
    pots,
    difference: note("difference", readPercent(entry.difference, {
      above: 0, most: 90, empty: "Nothing typed. Type how many percentage points would matter to you, for example 20.", what: "Type a difference",
    })),
    confidence: level(entry.confidence, "95"),
  });
}
