// Two or more tests of one lot: are they the same seed, and may they be averaged?
// Twin of build_tools/science/repeated_tests.py, where the rules are described.

import { checkCount } from "./proportions.js";
import { judgeReplicates } from "./replicates.js";

export const FULL_TEST = 400;

/** Largest difference between two tests of 400 seeds, percentage points; null where unprinted. */
export function publishedTwoTestLimit(table, averagePercent) {
  for (const row of table) {
    if ((averagePercent >= row.from && averagePercent <= row.to)
        || (averagePercent >= row.mirror_from && averagePercent <= row.mirror_to)) {
      return row.limit;
    }
  }
  return null;
}

/** Verdict on 2 to 8 tests of one lot, as `judgeReplicates` gives it; null for one test. */
export function judgeTests(counts, seeds, table = []) {
  if (seeds.length === 2 && seeds.every((n) => n === FULL_TEST)) {
    judgeReplicates(counts, seeds); // refuses impossible counts
    const average = Math.floor((sum(counts) + 4) / 8);
    const limit = publishedTwoTestLimit(table, average);
    if (limit !== null) {
      const [first, second] = counts.map((count) => Math.floor((count + 2) / 4));
      const range = Math.abs(first - second);
      return { agree: range <= limit, rule: "table", range, limit, chance: null };
    }
  }
  return judgeReplicates(counts, seeds);
}

/** How far counts lie from their pooled percentage: {deviance, pearson, freedom}. */
export function dispersion(counts, seeds) {
  if (counts.length !== seeds.length || counts.length === 0) {
    throw new RangeError(
      `need as many counts as seeds, at least one, got ${counts.length} and ${seeds.length}`);
  }
  counts.forEach((k, i) => checkCount(k, seeds[i]));
  const pooled = sum(counts) / sum(seeds);
  let deviance = 0;
  let pearson = 0;
  counts.forEach((k, i) => {
    const n = seeds[i];
    deviance += 2 * (part(k, n * pooled) + part(n - k, n * (1 - pooled)));
    if (pooled > 0 && pooled < 1) pearson += (k - n * pooled) ** 2 / (n * pooled * (1 - pooled));
  });
  return { deviance, pearson, freedom: counts.length - 1 };
}

function part(seen, expected) {
  return seen > 0 ? seen * Math.log(seen / expected) : 0;
}

function sum(numbers) {
  return numbers.reduce((total, number) => total + number, 0);
}
