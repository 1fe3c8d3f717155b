// Do the replicates of one germination test agree with one another?
// Twin of build_tools/science/replicates.py, where rules and sources are described.

import { checkCount } from "./proportions.js";
import { binomialProbabilities } from "./special.js";

export const MOST_REPLICATES = 8;
export const LEVEL = 0.025;
export const EXACT_SEEDS = 4000;

// Upper 2.5 % points of the studentized range, infinite degrees of freedom, for 2..8 replicates.
// Computed with scipy.stats.studentized_range; a test compares them again.
const MILES_FACTORS = {
  2: 3.1698221361189565, 3: 3.682267756830824, 4: 3.9840146304389084, 5: 4.197026345995183,
  6: 4.360906222127101, 7: 4.493623902626447, 8: 4.604857415776413,
};

/** Upper 2.5 % point of the studentized range for 2..8 replicates. */
export function milesFactor(replicates) {
  const factor = MILES_FACTORS[replicates];
  if (factor === undefined) {
    throw new RangeError(`replicates must be 2 to ${MOST_REPLICATES}, got ${replicates}`);
  }
  return factor;
}

/** Largest range put down to chance, in percentage points, unrounded. */
export function milesTolerance(fraction, seeds, replicates) {
  if (!(fraction >= 0 && fraction <= 1) || !(seeds > 0)) {
    throw new RangeError(`impossible fraction ${fraction} or seeds ${seeds}`);
  }
  return 100 * milesFactor(replicates) * Math.sqrt((fraction * (1 - fraction)) / seeds);
}

/** Largest range of the published table, in percentage points; null where it has no figure. */
export function publishedLimit(table, averagePercent, replicates) {
  const column = { 4: "four", 2: "two" }[replicates];
  if (column === undefined) return null;
  for (const row of table) {
    if (averagePercent === row.average_high || averagePercent === row.average_low) {
      return row[column] ?? null;
    }
  }
  return null;
}

/** Chance of a range between replicates at least as large as the one seen. */
export function chanceOfRange(counts, seeds) {
  check(counts, seeds);
  if (sum(seeds) > EXACT_SEEDS) {
    throw new RangeError(`exact chance is for at most ${EXACT_SEEDS} seeds`);
  }
  const [low, high] = furthestApart(counts, seeds);
  const rangeTop = counts[high] * seeds[low] - counts[low] * seeds[high];
  const rangeBottom = seeds[low] * seeds[high];
  return 1 - chanceBelow(sum(counts) / sum(seeds), seeds, rangeTop, rangeBottom);
}

/** Largest range, in seeds, that chance exceeds no more than 2.5 times in 100. */
export function largestCommonRange(fraction, seeds, replicates) {
  if (!(replicates >= 2 && replicates <= MOST_REPLICATES) || seeds * replicates > EXACT_SEEDS) {
    throw new RangeError(`cannot be computed for ${replicates} replicates of ${seeds} seeds`);
  }
  const sizes = Array(replicates).fill(seeds);
  for (let limit = 0; limit < seeds; limit += 1) {
    if (1 - chanceBelow(fraction, sizes, limit + 1, seeds) <= LEVEL) return limit;
  }
  return seeds;
}

/** Verdict {agree, rule, range, limit, chance} on 2 to 8 replicates; null for one replicate. */
export function judgeReplicates(counts, seeds, table = []) {
  check(counts, seeds);
  const replicates = counts.length;
  if (replicates === 1) return null;
  const [low, high] = furthestApart(counts, seeds);
  const seen = 100 * (counts[high] / seeds[high] - counts[low] / seeds[low]);
  if (seeds.every((n) => n === 100)) {
    const average = Math.floor((2 * sum(counts) + replicates) / (2 * replicates));
    const limit = publishedLimit(table, average, replicates);
    if (limit !== null) {
      const whole = counts[high] - counts[low];
      return { agree: whole <= limit, rule: "table", range: whole, limit, chance: null };
    }
  }
  if (sum(seeds) <= EXACT_SEEDS) {
    const chance = chanceOfRange(counts, seeds);
    return { agree: chance > LEVEL, rule: "exact", range: seen, limit: null, chance };
  }
  const [apart, limit] = worstPair(sum(counts) / sum(seeds), counts, seeds);
  return { agree: apart <= limit, rule: "miles", range: apart, limit, chance: null };
}

function sum(numbers) {
  return numbers.reduce((total, number) => total + number, 0);
}

// [range, limit] of the pair with the largest range for its limit.
function worstPair(pooled, counts, seeds) {
  const replicates = seeds.length;
  let worst = [0, milesTolerance(pooled, Math.max(...seeds), replicates)];
  let worstRatio = 0;
  for (let i = 0; i < replicates; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const limit = milesTolerance(pooled, 2 / (1 / seeds[i] + 1 / seeds[j]), replicates);
      const apart = 100 * Math.abs(counts[i] / seeds[i] - counts[j] / seeds[j]);
      if (limit > 0 && apart / limit > worstRatio) {
        worst = [apart, limit];
        worstRatio = apart / limit;
      }
    }
  }
  return worst;
}

// Indexes of the replicates with the lowest and the highest fraction.
function furthestApart(counts, seeds) {
  let low = 0;
  let high = 0;
  for (let i = 1; i < counts.length; i += 1) {
    if (counts[i] / seeds[i] < counts[low] / seeds[low]) low = i;
    if (counts[i] / seeds[i] > counts[high] / seeds[high]) high = i;
  }
  return [low, high];
}

// P(range < rangeTop/rangeBottom). All comparisons are of whole numbers below 2^53.
function chanceBelow(fraction, seeds, rangeTop, rangeBottom) {
  if (rangeTop === 0) return 0;
  const cumulative = new Map();
  for (const n of seeds) {
    if (!cumulative.has(n)) cumulative.set(n, runningSums(binomialProbabilities(n, fraction)));
  }
  let total = 0;
  for (const [top, bottom] of possibleMinima(seeds)) {
    let withMinimum = 1;
    let aboveMinimum = 1;
    for (const n of seeds) {
      const at = Math.ceil((n * top) / bottom);
      const past = Math.floor((n * top) / bottom) + 1;
      const reach = n * (top * rangeBottom + rangeTop * bottom);
      const end = Math.min(Math.ceil(reach / (bottom * rangeBottom)), n + 1);
      const table = cumulative.get(n);
      withMinimum *= table[end] - table[at];
      aboveMinimum *= end > past ? table[end] - table[past] : 0;
    }
    total += withMinimum - aboveMinimum;
  }
  return Math.min(1, total);
}

// [P(X < 0), P(X < 1), ..., P(X < n + 1)]
function runningSums(probabilities) {
  const sums = new Float64Array(probabilities.length + 1);
  for (let i = 0; i < probabilities.length; i += 1) sums[i + 1] = sums[i] + probabilities[i];
  return sums;
}

// Every fraction x/n that a replicate can show, once, as [top, bottom].
function possibleMinima(seeds) {
  const minima = new Map();
  for (const n of new Set(seeds)) {
    for (let x = 0; x <= n; x += 1) {
      minima.set(x / n, [x, n]); // equal fractions give the same double, different ones of this size never do
    }
  }
  return [...minima.values()];
}

function check(counts, seeds) {
  if (counts.length !== seeds.length || !(seeds.length >= 1 && seeds.length <= MOST_REPLICATES)) {
    throw new RangeError(
      `need 1 to ${MOST_REPLICATES} replicates with seeds and seedlings each`);
  }
  counts.forEach((k, i) => checkCount(k, seeds[i]));
}
