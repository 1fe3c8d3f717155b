// Do replicates, or two tests, agree? The verdicts of science/replicates and science/repeated_tests, quickly.
// Twin of build_tools/lots/agreement.py. There all outcomes of a file are worked out together; here, one by one, what is known is kept.

import { FULL_TEST, judgeTests } from "../science/repeated_tests.js";
import { EXACT_SEEDS, LEVEL, chanceOfRange, judgeReplicates, publishedLimit } from "../science/replicates.js";
import { binomialProbabilities } from "../science/special.js";

function sum(numbers) {
  return numbers.reduce((total, number) => total + number, 0);
}

/** Verdicts by the published tables where they have one, by exact chance otherwise, by Miles' formula above EXACT_SEEDS seeds. */
export class Agreement {
  constructor(replicateRange, twoTestRange) {
    this.replicateRange = replicateRange;
    this.twoTestRange = twoTestRange;
    this.known = new Map();
  }

  /** Do 2 to 8 replicates, [seeds, normal] each in rising order, agree? */
  replicates(pairs) {
    const seeds = pairs.map(([n]) => n);
    const counts = pairs.map(([, k]) => k);
    if (seeds.every((n) => n === 100)) {
      const average = Math.floor((2 * sum(counts) + counts.length) / (2 * counts.length));
      const limit = publishedLimit(this.replicateRange, average, counts.length);
      if (limit !== null) return Math.max(...counts) - Math.min(...counts) <= limit;
    }
    return this.byChance(seeds, counts);
  }

  /** Do two tests of one lot, {seeds, normal} each, agree? */
  tests(earlier, later) {
    const ordered = [earlier, later].sort((a, b) => a.seeds - b.seeds || a.normal - b.normal);
    const seeds = ordered.map((test) => test.seeds);
    const counts = ordered.map((test) => test.normal);
    if (seeds.every((n) => n === FULL_TEST)) return judgeTests(counts, seeds, this.twoTestRange).agree;
    return this.byChance(seeds, counts);
  }

  byChance(seeds, counts) {
    if (sum(seeds) > EXACT_SEEDS) return judgeReplicates(counts, seeds).agree;
    const shares = counts.map((k, i) => k / seeds[i]);
    const low = shares.indexOf(Math.min(...shares));
    const high = shares.indexOf(Math.max(...shares));
    const top = counts[high] * seeds[low] - counts[low] * seeds[high];
    const apart = top / (seeds[low] * seeds[high]);
    // The chance of a range falls as the range grows: largest known to agree, smallest known to differ.
    const key = `${seeds.join()}:${sum(counts)}`;
    let known = this.known.get(key);
    if (known === undefined) {
      known = { agrees: 0, differs: 2 };
      this.known.set(key, known);
    }
    if (apart <= known.agrees) return true;
    if (apart >= known.differs) return false;
    const chance = seeds.length === 2 ? chanceOfDifference(sum(counts) / sum(seeds), seeds, top) : chanceOfRange(counts, seeds);
    const agree = chance > LEVEL;
    if (agree) known.agrees = apart;
    else known.differs = apart;
    return agree;
  }
}

// P(|X/n - Y/m| >= top/(n m)) for two binomial counts with a common fraction: summed over X.
function chanceOfDifference(fraction, [n, m], top) {
  const ofX = binomialProbabilities(n, fraction);
  const below = new Float64Array(m + 2); // below[y] = P(Y < y)
  binomialProbabilities(m, fraction).forEach((chance, y) => {
    below[y + 1] = below[y] + chance;
  });
  let total = 0;
  for (let x = 0; x <= n; x += 1) {
    const lowEnough = Math.max(Math.floor((x * m - top) / n) + 1, 0);
    const highEnough = Math.min(Math.ceil((x * m + top) / n), m + 1);
    total += ofX[x] * (below[lowEnough] + below[m + 1] - below[highEnough]);
  }
  return total;
}
