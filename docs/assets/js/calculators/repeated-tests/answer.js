// From the counts to the verdict, and to the pooled percentage.

import { wilson } from "../../science/proportions.js";
import { dispersion, judgeTests } from "../../science/repeated_tests.js";
import { judgeReplicates } from "../../science/replicates.js";

/** Fractions in 0..1; `verdict` as judgeReplicates gives it. */
export function workOut(values, data) {
  const counts = values.counts.map((count) => ({ ...count, share: count.k / count.n, range: wilson(count.k, count.n, values.confidence) }));
  const [ks, ns] = [counts.map(({ k }) => k), counts.map(({ n }) => n)];
  const [k, n] = [ks, ns].map((numbers) => numbers.reduce((sum, number) => sum + number, 0));
  return {
    values, counts, k, n,
    range: wilson(k, n, values.confidence),
    verdict: values.kind === "tests" ? judgeTests(ks, ns, data.two_test_range_percent) : judgeReplicates(ks, ns, data.replicate_range_percent),
    dispersion: dispersion(ks, ns),
  };
}
