// Sentences about weight, pure live seed and the seed at hand.

import { grouped } from "../fields.js";
import { chanceText, percentDigits, percentRange } from "../format.js";
import { digits, massText, perGramText, perOunceText } from "./weight.js";
import { cellsText, foundText, plantsText, rangeText, rounded, seedsText, shareText } from "./words.js";

/** What a seed weighs, and what to weigh out. */
export function weightTexts(answer) {
  const { crop, perGram, plan, toWeigh, values } = answer;
  if (perGram === null) {
    return [crop === null ? "Choose a crop, or count and weigh some seeds, to see what they weigh."
      : `No published number of seeds per gram is recorded for ${crop.name}. Count and weigh some of your own to see what they weigh.`];
  }
  const told = [`${perGram.own ? "Your sample" : crop.name}: about ${perGramText(perGram)} seeds a gram, ${perOunceText(perGram)}. ${sourceText(perGram)}`];
  if (!perGram.own && perGram.high < 10) told.push("So small a number a gram is rounded to a whole one: weigh some of your own for anything finer.");
  if (toWeigh !== null) {
    const dirt = values.purity === null ? "" : `, chaff and other seed with them at a purity of ${shareText(values.purity)}`;
    told.push(`${seedsText(plan.total)} ${plan.total === 1 ? "weighs" : "weigh"} about ${massText(toWeigh)}${dirt}.${toWeigh.high < 1 ? " Too light for a kitchen scale: count them." : ""}`);
  }
  return told;
}

function sourceText({ own, sources, kinds, word }) {
  if (own) return "Counted and weighed by you.";
  const printed = kinds.length > 0 ? `, printed for “${kinds.join("”, “")}”` : "";
  return `Source: ${sources.join("; ")}${printed}${word ? ` (${word})` : ""}. Lots differ.`;
}

const UNITS = { g: "g", oz: "oz", lb: "lb" };
const amount = ({ hand, handUnit }) => (handUnit === "seeds" ? seedsText(hand) : `${grouped(hand)} ${UNITS[handUnit]}`);

/** Is the seed at hand enough? {good, text}; null when none was typed. */
export function handText(answer) {
  const { hand, values, plan, wanted } = answer;
  if (hand === null) return null;
  const { low, high } = hand;
  if (low === null) return { good: null, text: `How many seeds ${amount(values)} ${values.hand === 1 ? "holds" : "hold"} can’t be said without a crop that has a published number a gram, or a sample of your own.` };
  const most = high ?? low;
  const held = values.handUnit === "seeds" ? `You have ${seedsText(values.hand)}`
    : `In ${amount(values)} there ${most.seeds === 1 ? "is" : "are"} about ${rangeText([rounded(low.seeds), rounded(most.seeds)])} ${most.seeds === 1 ? "seed" : "seeds"}`;
  if (low.expected === null) return { good: null, text: `${held}. How many plants they give can’t be said: nothing came up in the test.` };
  const expects = most.seeds === 0 ? "That is less than one seed." : `Expect ${expectation(low, high)} from them.`;
  if (plan === null) return { good: null, text: `${held}. ${expects}` };
  const good = low.seeds >= plan.total ? true : most.seeds < plan.total ? false : null;
  const need = `${grouped(plan.total)} ${plan.total === 1 ? "is" : "are"} to be sown`;
  const verdict = { true: `${need}, so it is enough.`, false: `${need}, so it falls short.`, null: `${need}: it may or may not be enough.` }[good];
  const part = values.where === "cells"
    ? ` At ${seedsText(plan.perCell)} each they go into ${fills(low, high)}.`
    : low.chance === null ? "" : ` Chance of ${plantsText(wanted)} or more from all of them: ${chances(low, high)}.`;
  return { good, text: `${held}; ${verdict} ${expects}${part}` };
}

function expectation(low, high) {
  const most = high ?? low;
  const means = [low, most].map((end) => rounded(end.expected.mean));
  return `about ${rangeText(means)} ${means[1] === 1 ? "plant" : "plants"} (${rangeText([rounded(low.expected.low), rounded(most.expected.high)])}, 90 % range)`;
}

function fills(low, high) {
  if (high === null || high.fills === low.fills) return cellsText(low.fills);
  return `${grouped(low.fills)}–${cellsText(high.fills)}`;
}

function chances(low, high) {
  const from = chanceText(low.chance);
  const to = high === null ? from : chanceText(high.chance);
  return from === to ? from : `${from} to ${to}`;
}

/** Purity times germination, and what follows from it. */
export function liveTexts(answer) {
  const { live, values, n, crop } = answer;
  const carried = n >= 400 ? 3 : 2;
  const told = [`Pure live seed is ${liveShare(answer)} of the weight: purity ${shareText(values.purity)} times germination ${foundText(answer)} (${percentRange(live.range, n)}, 90 % range, ${seedsText(n)}).`];
  told.push(live.bulk === null ? "There is no live seed in it as far as the test shows, so no weight of it will do."
    : `For each gram, ounce or pound of pure live seed asked for, take ${digits(live.bulk, carried)} of this seed.`);
  if (live.hand !== null) told.push(`The ${amount(values)} you have ${values.hand === 1 ? "holds" : "hold"} ${digits(live.hand, carried)} ${UNITS[values.handUnit]} of pure live seed.`);
  const hard = crop?.hard_seed ? ` ${crop.name} can have hard seed.` : "";
  told.push(`Hard and dormant seed is counted with germination only where the rule of the label says so.${hard} Leave it out for sowing: it did not come up in the test.`);
  return told;
}

/** "91.8 %", one decimal from 400 tested seeds on. */
export function liveShare({ live, n }) {
  return `${percentDigits(live.share, n)} %`;
}

/** "0.052 g (0.0018 oz)" for the table of numbers; null without a weight. */
export function weighRow({ toWeigh }) {
  return toWeigh === null ? null : ["Weight of the seeds to sow", massText(toWeigh)];
}
