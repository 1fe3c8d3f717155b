// The answer in words: what the count says of the lot, and what it can't say.

import {
  chanceText, percentDigits, percentOfCount, percentRange, seedsInWords,
} from "../format.js";
import { grouped } from "../fields.js";

/** "8 of 10" */
export function countText(k, n) {
  return `${grouped(k)} of ${grouped(n)}`;
}

/** The first sentence: the count, the percentage and its range. */
export function headline(answer) {
  const { k, n, canRise } = answer;
  const figure = `${percentOfCount(k, n)} (${percentRange(answer.wilson, n)})`;
  return canRise
    ? `${countText(k, n)} so far: at least ${figure}, and it can still rise.`
    : `${countText(k, n)} came up: ${figure}.`;
}

/** The second: how far that can be trusted. */
export function trust(answer) {
  const [low, high] = answer.wilson;
  const { n } = answer;
  const [from, to] = [percentDigits(low, n), percentDigits(high, n)];
  const width = high - low;
  const say = n === 1 ? "says" : "say";
  if (n <= 2) {
    return `${seedsInWords(n)} ${say} next to nothing: the lot itself may be anywhere from ${from} to ${to} %.`;
  }
  if (n <= 12 || width >= 0.3) {
    return `${seedsInWords(n)} ${say} little: the lot itself may be anywhere from ${from} to ${to} %.`;
  }
  if (width >= 0.12) {
    return `${seedsInWords(n)} give a rough idea: the lot itself is likely between ${from} and ${to} %.`;
  }
  if (width >= 0.04) {
    return `${seedsInWords(n)} give a fair idea: the lot itself is likely between ${from} and ${to} %.`;
  }
  return `${seedsInWords(n)} leave little room: the lot itself is likely between ${from} and ${to} %.`;
}

/** What the count can say: a list of sentences. */
export function canSay(answer) {
  const { n, bound, wilson, lending, values } = answer;
  const confidence = `${Math.round(values.confidence * 100)} % confidence`;
  const said = [];
  if (bound?.below !== undefined) {
    said.push(`The lot is below about ${percentDigits(bound.below, n)} % (one-sided, ${confidence}).`);
  } else if (bound !== null) {
    said.push(`The lot is above about ${percentDigits(bound.above, n)} % (one-sided, ${confidence}).`);
  } else {
    said.push(`Lots below ${percentDigits(wilson[0], n)} % or above ${percentDigits(wilson[1], n)} % would seldom give this count.`);
  }
  if (lending !== null && lending.chance >= 0.95) {
    said.push(`This is good evidence that the lot reaches the lending line of ${lending.percent} %.`);
  } else if (lending !== null && lending.chance <= 0.05) {
    said.push(answer.canRise
      ? `So far the lot is short of the lending line of ${lending.percent} %; wait before you judge it.`
      : `This is good evidence that the lot falls short of the lending line of ${lending.percent} %. Do not lend it unmarked.`);
  }
  return said;
}

/** What the count can't say: a list of sentences. */
export function cannotSay(answer) {
  const { k, n, wilson, lending } = answer;
  const said = [];
  const [low, high] = [Math.ceil(wilson[0] * 20) * 5, Math.floor(wilson[1] * 20) * 5];
  if (high - low >= 10) {
    said.push(`It can’t tell a ${low} % lot from a ${high} % lot: both can give ${countText(k, n)}.`);
  }
  if (lending !== null && lending.chance > 0.05 && lending.chance < 0.95) {
    const { percent, chance } = lending.lookalike;
    const often = chanceText(chance);
    said.push(k / n >= lending.percent / 100
      ? `It does not prove ${lending.percent} %: a lot of ${percent} % gives ${grouped(k)} or more of ${grouped(n)} in ${often} of tests.`
      : `It does not fail the lot at ${lending.percent} %: a lot of ${percent} % gives ${grouped(k)} or fewer of ${grouped(n)} in ${often} of tests.`);
  }
  said.push("It does not say how many come up in cold or wet soil; that is usually fewer.");
  return said;
}

/** Tests differ by more than the luck of the draw. */
export const RETEST = "Drawing seeds is not all. In 641 blind retests at the genebank CGN (Netherlands), mostly of 200 seeds, a lot at 80 % read anywhere from 63 to 97 % (95 % range). A home test is looser than the range above.";

/** Chances to reach the official minimum and the lending line: a list of sentences. */
export function lines(answer, data) {
  const { crop, minimum, lending, k, n } = answer;
  const said = [];
  if (crop === null) {
    said.push("Choose a crop to compare the count with its official minimum.");
  } else if (minimum === null) {
    said.push(`No official minimum for ${crop.name} is recorded here.`);
  } else {
    said.push(`Chance that the lot reaches the official minimum for ${crop.name}, ${minimum.percent} %: ${chanceText(minimum.chance)}.`);
    if (minimum.hard > 0) {
      said.push(`Hard seed is counted in here, ${countText(k + minimum.hard, n)}, as the US rule does (7 CFR 201.31).`);
    }
  }
  if (lending !== null) {
    said.push(`Chance that it reaches ${lineOf(data)}, ${lending.percent} %: ${chanceText(lending.chance)}.`);
  }
  if (answer.canRise) said.push("Both chances are for the count so far and can still rise.");
  return said;
}

function lineOf(data) {
  return data.library_name ? `the lending line of ${data.library_name}` : "the library’s own lending line";
}

/** Other counts: their sum up and what they mean. */
export function others(answer) {
  const { n, k } = answer;
  const given = Object.entries(answer.others).filter(([, count]) => count !== null);
  if (given.length === 0) return [];
  const parts = given.map(([name, count]) => `${grouped(count)} ${name}`);
  const rest = n - k - given.reduce((total, [, count]) => total + count, 0);
  const left = rest > 0 ? `, ${grouped(rest)} not sorted` : "";
  const said = [`Of ${grouped(n)} seeds: ${grouped(k)} normal, ${parts.join(", ")}${left}.`];
  if (answer.others.hard > 0) {
    said.push("Hard seed took up no water; it may sprout later or after nicking. US labels count it with germination.");
  }
  if (answer.others.fresh > 0) {
    said.push("Fresh seed is alive but waits: it may be dormant. Chilling or light may wake it; see the crop’s pretreatment.");
  }
  return said;
}

/** The line for the packet: "36 of 50, 72 % (58–83 %), 12 March 2027". */
export function packetLine(answer, date) {
  const { k, n, crop, stage, canRise, values } = answer;
  const line = `${countText(k, n)}, ${percentOfCount(k, n)} (${percentRange(answer.wilson, n)}), ${date}`;
  if (!canRise) return line;
  const final = crop?.final_count_days;
  return stage === "short-wait" || !final
    ? `${line}, day ${values.day}, can still rise` : `${line}, day ${values.day} of ${final}`;
}
