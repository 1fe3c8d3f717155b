// The answer in words, continued: replicates, timing, warmth, sowing.

import { chanceText, pointsText, temperatureText } from "../format.js";
import { grouped } from "../fields.js";

/** Do the replicates agree? {good: true, false or null, text}. */
export function replicatesText(answer) {
  const verdict = answer.replicates;
  const count = answer.values.replicates.length;
  if (verdict === null) {
    return {
      good: null,
      text: "One replicate: nothing to compare it with. Two or more show whether the test itself is sound.",
    };
  }
  const start = `Your ${count} replicates ${verdict.agree ? "agree" : "do not agree"}`;
  return { good: verdict.agree, text: `${start}: ${reason(verdict)}${verdict.agree ? "" : ` ${RETEST_ADVICE}`}` };
}

const RETEST_ADVICE = "Look for a slip in counting, a dry or mouldy towel, or seed picked rather than taken at random, and test again. Until then take the range above as too narrow.";

function reason(verdict) {
  const range = pointsText(verdict.range);
  if (verdict.rule === "table") {
    const than = verdict.agree ? "and" : "but only";
    return `they lie ${range} apart, ${than} ${verdict.limit} are allowed at this average (7 CFR 201.55).`;
  }
  if (verdict.rule === "exact") {
    if (verdict.range === 0) return "they are alike.";
    return `they lie ${range} apart. Replicates of one seed lot lie that far apart, or further, in ${chanceText(verdict.chance)} of tests (exact binomial chance; the line is 2.5 %).`;
  }
  const limit = pointsText(verdict.limit);
  return `the two furthest apart for their size differ by ${range}; up to ${limit} are put down to chance (Miles’ formula).`;
}

/** Is it too early to read? {good, text}; null when there is nothing to say. */
export function timingText(answer) {
  const { crop, stage, values } = answer;
  const first = crop?.first_count_days ?? null;
  const final = crop?.final_count_days ?? null;
  const rise = "The percentage can still rise: read it as “at least”.";
  const days = values.day === 1 ? "1 day" : `${values.day} days`;
  switch (stage) {
    case "before-first":
      return { good: false, text: `Too early to read: ${days} in, and the official first count of ${crop.name} is on day ${first}${final === null ? "" : `, the final one on day ${final}`}. ${rise}` };
    case "before-final":
      return { good: false, text: first === null
        ? `Not the last word: ${days} in, and the official final count of ${crop.name} is on day ${final}. ${rise}`
        : `Not the last word: ${days} in, past the first count of ${crop.name} (day ${first}) but before the final one (day ${final}). ${rise}` };
    case "complete":
      return { good: true, text: `Late enough to read: the official final count of ${crop.name} is on day ${final}.` };
    case "short-wait":
      return { good: false, text: `Too early to read: ${days} in. No official count days are known ${crop === null ? "without a crop" : `for ${crop.name}`}; wait at least a week (common practice, no source). ${rise}` };
    case "waited":
      return { good: true, text: `A week or more has passed, the least to wait for a towel test (common practice, no source). ${crop === null ? "Choose a crop for its official count days." : `No final count day of ${crop.name} is recorded here; go on while seeds still sprout.`}` };
    default:
      return { good: null, text: final === null
        ? "Type the days since the start to see whether it is too early to read."
        : `Type the days since the start: the official counts of ${crop.name} are on ${first === null ? "" : `day ${first} (first) and `}day ${final} (final).` };
  }
}

/** Was the test warm enough? {good, text}; null without crop, temperature or limits. */
export function warmthText(answer) {
  const { warmth, crop, values } = answer;
  if (warmth === null) return null;
  const show = (celsius) => temperatureText(celsius, values.unit);
  const here = show(warmth.celsius);
  const said = [];
  if (warmth.tooHot) {
    said.push(`${here} is above ${show(crop.maximum_c)}, the highest at which ${crop.name} germinates well. A low count may be the heat’s doing, not the seed’s.`);
  }
  if (warmth.tooCold) {
    said.push(`${here} is below ${show(crop.minimum_c)}, the lowest at which ${crop.name} germinates. A low count may be the cold’s doing, not the seed’s.`);
  }
  const official = officialRange(crop, values.unit);
  if (warmth.below) said.push(`Cooler than the official test (${official}): seedlings may come later, so wait longer before you read it.`);
  if (warmth.above) said.push(`Warmer than the official test (${official}): the count may differ from an official one.`);
  if (said.length > 0) return { good: false, text: said.join(" ") };
  return warmth.known ? { good: true, text: `${here} is within the official test temperature (${official}).` } : null;
}

/** "20–30 °C", in the reader's unit. */
export function officialRange(crop, unit) {
  const low = crop.test_low_c ?? crop.test_high_c ?? null;
  const high = crop.test_high_c ?? low;
  if (low === null) return crop.test_temperatures_c ? `${crop.test_temperatures_c} °C` : "";
  if (low === high) return temperatureText(low, unit);
  return `${temperatureText(low, unit).split(" ")[0]}–${temperatureText(high, unit)}`;
}

/** How many seeds to sow: one sentence; null when no number of plants was typed. */
export function sowingText(answer) {
  const { sowing, k } = answer;
  if (sowing === null) return null;
  const plants = `${grouped(sowing.plants)} ${sowing.plants === 1 ? "plant" : "plants"}`;
  const sure = `${Math.round(sowing.certainty * 100)} % certainty`;
  if (k === 0) return `No number of seeds can be promised to give ${plants}: none of the tested seeds came up.`;
  if (sowing.seeds === null) return `More seeds than can sensibly be sown would be needed for ${plants} with ${sure}. Test more seeds first.`;
  const factor = sowing.factor < 1 ? `, if ${Math.round(sowing.factor * 1000) / 10} % of test seedlings also come up there` : "";
  return `For ${plants} with ${sure} sow ${grouped(sowing.seeds)} ${sowing.seeds === 1 ? "seed" : "seeds"}${factor}.`;
}

/** The hint beside the temperature field. */
export function temperatureHint(crop, unit) {
  const official = crop ? officialRange(crop, unit) : "";
  return official ? `Official test: ${official}.` : "Around the seed, not the room’s.";
}
