// From the numbers of one entry to everything the answer says, still as numbers.

import { canStillRise, readingStage } from "../../science/counting.js";
import { chanceAtLeast, chanceCountAtLeast, chanceCountAtMost } from "../../science/lot.js";
import { clopperPearson, wilson } from "../../science/proportions.js";
import { judgeReplicates } from "../../science/replicates.js";
import { seedsNeeded } from "../../science/sowing.js";
import { OPTIONAL_COUNTS } from "./entry.js";

/** `values` from readEntry, `data` from the page. Fractions in 0..1, temperatures in °C. */
export function workOut(values, data) {
  const crop = data.crops[values.crop] ?? null;
  const counts = values.replicates.map((replicate) => replicate.normal);
  const seeds = values.replicates.map((replicate) => replicate.seeds);
  const k = sum(counts);
  const n = sum(seeds);
  const others = otherCounts(values.replicates);
  const stage = readingStage(values.day, crop?.first_count_days, crop?.final_count_days);
  return {
    values, crop, k, n, others, stage,
    canRise: canStillRise(stage),
    wilson: wilson(k, n, values.confidence),
    guaranteed: clopperPearson(k, n, values.confidence),
    bound: oneSided(k, n, values.confidence),
    minimum: officialMinimum(crop, k, n, others),
    lending: lendingLine(data, k, n),
    replicates: judgeReplicates(counts, seeds, data.replicate_range_percent ?? []),
    sowing: sowing(values, k, n),
    warmth: warmth(values.temperature, crop),
  };
}

function sum(numbers) {
  return numbers.reduce((total, number) => total + number, 0);
}

// {abnormal, hard, fresh, dead} over the replicates; null for one never typed.
function otherCounts(replicates) {
  return Object.fromEntries(OPTIONAL_COUNTS.map((name) => {
    const typed = replicates.map((replicate) => replicate[name]).filter((count) => count !== null);
    return [name, typed.length > 0 ? sum(typed) : null];
  }));
}

// None or all of n allow a one-sided statement: {below} or {above}, a fraction; otherwise null.
function oneSided(k, n, confidence) {
  const twoSided = 2 * confidence - 1;
  if (k === 0) return { below: clopperPearson(k, n, twoSided)[1] };
  if (k === n) return { above: clopperPearson(k, n, twoSided)[0] };
  return null;
}

// 7 CFR 201.31 counts hard seed with germination, so it is counted here and nowhere else.
function officialMinimum(crop, k, n, others) {
  const percent = crop?.minimum_percent ?? null;
  if (percent === null) return null;
  const hard = others.hard ?? 0;
  return { percent, hard, chance: chanceAtLeast(k + hard, n, percent / 100) };
}

function lendingLine(data, k, n) {
  const percent = data.lending_line_percent ?? null;
  if (percent === null) return null;
  const line = percent / 100;
  return {
    percent,
    chance: chanceAtLeast(k, n, line),
    // A lot ten points on the wrong side of the line, and how often it would show this or better.
    lookalike: k / n >= line
      ? { percent: Math.max(percent - 10, 0), chance: chanceCountAtLeast(k, n, Math.max(line - 0.1, 0)) }
      : { percent: Math.min(percent + 10, 100), chance: chanceCountAtMost(k, n, Math.min(line + 0.1, 1)) },
  };
}

function sowing({ plants, certainty, factor }, k, n) {
  if (plants === null) return null;
  return { plants, certainty, factor, seeds: seedsNeeded(plants, certainty, k, n, factor) };
}

// Where the test temperature lies: {below} or {above} the official test, {tooHot} or {tooCold}
// for the crop. Null without a temperature or a crop.
function warmth(celsius, crop) {
  if (celsius === null || crop === null) return null;
  const has = (limit) => limit !== null && limit !== undefined;
  return {
    celsius,
    tooHot: has(crop.maximum_c) && celsius > crop.maximum_c,
    tooCold: has(crop.minimum_c) && celsius < crop.minimum_c,
    below: has(crop.test_low_c) && celsius < crop.test_low_c,
    above: has(crop.test_high_c) && celsius > crop.test_high_c,
    known: has(crop.test_low_c) || has(crop.test_high_c),
  };
}
