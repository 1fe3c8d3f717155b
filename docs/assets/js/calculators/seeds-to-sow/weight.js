// Seeds and weights of one entry: seeds per gram, what to weigh out, pure live seed, the seed at hand.

import { GRAMS_PER_OUNCE, GRAMS_PER_POUND, bulkNeeded, gramsOfSeeds, ounces, pureLiveSeed, seedsPerGramOfSample } from "../../science/seed_mass.js";
import { grouped } from "../fields.js";

/** {perGram, toWeigh, live, hand}: each null where it can't be said. `handed(seeds, answer)` works out what seeds do. */
export function weigh(answer, handed) {
  const { values, crop, plan } = answer;
  const perGram = readPerGram(values, crop);
  const purity = values.purity ?? 1;
  return {
    perGram,
    toWeigh: perGram === null || plan === null ? null : {
      low: gramsOfSeeds(plan.total, perGram.high) / purity, high: gramsOfSeeds(plan.total, perGram.low) / purity,
    },
    live: values.purity === null ? null : liveSeed(answer),
    hand: values.hand === null ? null : atHand(answer, perGram, purity, handed),
  };
}

// One's own sample before any published number.
function readPerGram({ sample, sampleGrams }, crop) {
  if (sample !== null) {
    const counted = seedsPerGramOfSample(sample, sampleGrams);
    return { low: counted, high: counted, own: true };
  }
  return crop?.seeds_per_gram ? { ...crop.seeds_per_gram, own: false } : null;
}

function liveSeed({ values, range }) {
  const share = pureLiveSeed(values.purity, values.share);
  return {
    share,
    range: range.map((end) => pureLiveSeed(values.purity, end)),
    bulk: share > 0 ? bulkNeeded(1, values.purity, values.share) : null,
    // Only a weight holds chaff; counted seeds are pure seed already.
    hand: values.handGrams === null ? null : values.hand * share,
  };
}

function atHand(answer, perGram, purity, handed) {
  const { values } = answer;
  if (values.handGrams === null) return { low: handed(values.hand, answer), high: null };
  if (perGram === null) return { low: null, high: null };
  const [low, high] = [perGram.low, perGram.high].map((each) => Math.floor(values.handGrams * purity * each + 1e-9));
  return { low: handed(low, answer), high: high === low ? null : handed(high, answer) };
}

/** A number to so many digits: 0.052, 1.6, 280, "12,000". */
export function digits(value, count) {
  return grouped(Number((value * (1 + 1e-12)).toPrecision(count))); // 0.6375 is a hair less in binary
}

function digitRange(low, high, count) {
  const [from, to] = [digits(low, count), digits(high, count)];
  return from === to ? from : `${from}–${to}`;
}

/** "0.052 g (0.0018 oz)", a range where low and high differ; kg and lb for large ones. */
export function massText({ low, high }, count = 2) {
  if (high < 0.001) return "less than 0.001 g";
  const [gram, unit] = low >= 1000 ? [1000, "kg"] : [1, "g"];
  const metric = `${digitRange(low / gram, high / gram, count)} ${unit}`;
  if (high < 0.02) return metric;
  const inPounds = low >= GRAMS_PER_POUND;
  const customary = (grams) => (inPounds ? grams / GRAMS_PER_POUND : ounces(grams));
  return `${metric} (${digitRange(customary(low), customary(high), count)} ${inPounds ? "lb" : "oz"})`;
}

/** "405", "71–210", as many digits as the number carries. */
export function perGramText({ low, high, own }) {
  return digitRange(low, high, own || low >= 100 ? 3 : 2);
}

/** The same for an ounce and a pound: "11,500 an ounce, 184,000 a pound". */
export function perOunceText({ low, high, own }) {
  const count = own || low >= 100 ? 3 : 2;
  return `${digitRange(low * GRAMS_PER_OUNCE, high * GRAMS_PER_OUNCE, count)} an ounce, ${digitRange(low * GRAMS_PER_POUND, high * GRAMS_PER_POUND, count)} a pound`;
}
