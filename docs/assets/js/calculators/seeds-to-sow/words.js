// The answer in sentences: what to sow, what to expect of it, and why no number can be given where none can.

import { grouped } from "../fields.js";
import { chanceText, percentDigits, percentOfCount, percentRange } from "../format.js";

const EIGHTHS = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];
const MM_PER_INCH = 25.4;
const MUCH = 50; // so many more seeds than the percentage asks for are better spent on a larger test
const LARGE_TEST = 100; // from here on a low percentage is the lot's own, not the test's

const count = (number, one, many = `${one}s`) => `${grouped(number)} ${number === 1 ? one : many}`;
export const seedsText = (number) => count(number, "seed");
export const plantsText = (number) => count(number, "plant");
export const cellsText = (number) => count(number, "cell");
/** A share as typed: "85 %", "93.5 %". */
export const shareText = (share) => `${Math.round(share * 10000) / 100} %`;
const certainly = ({ certainty }) => `${Math.round(certainty * 100)} % certainty`;

/** A large estimate carries three digits: 11464 is shown as 11,500. */
export const rounded = (number) => (number < 1000 ? Math.round(number) : Number(number.toPrecision(3)));

/** An average for a table: one decimal below ten. */
export function averageText(value) {
  return grouped(value >= 9.95 ? rounded(value) : Math.round(value * 10) / 10);
}

/** The same in a sentence: "hardly any", "about 3". */
const aboutText = (value) => (value < 0.5 ? "hardly any" : `about ${grouped(rounded(value))}`);

/** "10–21", or one number where both ends are the same. */
export function rangeText([low, high]) {
  return low === high ? grouped(low) : `${grouped(low)}–${grouped(high)}`;
}

/** "16 (10–21)" */
export function expectedText({ mean, low, high }) {
  return `${grouped(rounded(mean))} (${rangeText([rounded(low), rounded(high)])})`;
}

/** The percentage as it was found: "80 %" of a test, or the packet's own figure. */
export function foundText({ values, k, n }) {
  return values.known === "packet" ? shareText(values.share) : percentOfCount(k, n);
}

/** "after a test of 8 of 10", "if the packet’s 85 % still holds" */
export function afterText(answer) {
  const { values, k, n } = answer;
  return values.known === "packet" ? `if the packet’s ${foundText(answer)} still holds` : `after a test of ${grouped(k)} of ${grouped(n)}`;
}

/** Millimetres as a ruler has them: "18 mm (¾ in)", inches first where they were typed. */
export function distanceText(mm, unit) {
  const metric = mm < 1 ? "less than 1 mm" : mm < 100 ? `${Math.round(mm)} mm` : `${Math.round(mm / 10)} cm`;
  const eighths = Math.round((mm / MM_PER_INCH) * 8);
  const [whole, part] = [Math.floor(eighths / 8), eighths % 8];
  const inches = eighths === 0 ? "less than ⅛ in" : `${whole > 0 ? grouped(whole) : ""}${EIGHTHS[part]} in`;
  return unit === "in" ? `${inches} (${metric})` : `${metric} (${inches})`;
}

const stood = ({ values }) => (values.factor < 1 ? `, if ${shareText(values.factor)} of test seedlings also come up there` : "");

/** What to sow, in one sentence; or why it can’t be said. */
export function headline(answer) {
  const { values, plan } = answer;
  if (plan === null) return noPlan(answer);
  const promise = `with ${certainly(values)} ${afterText(answer)}`;
  if (values.where === "place") return `Sow ${seedsText(plan.seeds)} for ${plantsText(plan.plants)}, ${promise}.`;
  if (values.where === "row") {
    const apart = plan.distance === null ? "" : `, one about every ${distanceText(plan.distance, values.spacingUnit)},`;
    return `Sow ${seedsText(plan.seeds)} along the row${apart} for ${plantsText(plan.plants)}, ${promise}.`;
  }
  if (plan.cells === 1) return `Sow ${seedsText(plan.perCell)} in one cell: it holds a plant with a chance of ${chanceText(1 - plan.empty)}, ${afterText(answer)}.`;
  const sown = `Sow ${seedsText(plan.perCell)} in each of ${cellsText(plan.cells)}, ${grouped(plan.total)} in all`;
  if (values.cells === null) return `${sown}, for ${plantsText(plan.plants)} ${promise}.`;
  const full = chosen(plan);
  return `${sown}: about ${grouped(Math.round(full.mean))} will hold a plant, ${afterText(answer)}.`;
}

/** The chosen number of seeds a cell: how many cells it fills. */
export function chosen(plan) {
  return plan.filled.find((row) => row.perCell === plan.perCell);
}

/** What may be expected of it, and what the size of the test costs. */
export function trust(answer) {
  const { values, plan } = answer;
  if (plan === null) return noPlanAdvice(answer);
  const many = ({ mean, low, high }) => `Expect about ${plantsText(rounded(mean))} from ${plan.seeds === 1 ? "it" : "them"}${low === high ? "" : `, in nine cases of ten ${rangeText([rounded(low), rounded(high)])}`}${stood(answer)}.`;
  if (values.where === "place") return `${many(plan.expected)} ${costText(answer)}`;
  if (values.where === "row") return `${many(plan.expected)} ${thinText(plan.thinned, values)}`;
  const toThin = plan.thinned < 0.05 ? "none" : aboutText(plan.thinned);
  if (plan.cells === 1) return `Expect ${toThin} to thin${stood(answer)}.`;
  const filled = `In nine cases of ten ${rangeText(chosen(plan).range)} of ${cellsText(plan.cells)} will hold a plant${stood(answer)}.`;
  return `${filled} Expect ${aboutText(plan.emptyCells)} empty, and ${toThin} to thin.`;
}

function thinText(thinned, values) {
  return `Thin to one every ${spacingText(values)}: ${aboutText(thinned)} to take out.`;
}

/** The wanted spacing as typed. */
export function spacingText({ typedSpacing, spacingUnit }) {
  return `${typedSpacing} ${spacingUnit}`;
}

/** What knowing the percentage exactly would save. */
export function costText(answer) {
  const { plan, n, values } = answer;
  const sure = `If ${foundText(answer)} were certain`;
  if (plan.known === null) return "";
  if (plan.known >= plan.seeds) return `${sure}, it would take ${plan.known === plan.seeds ? "as many" : seedsText(plan.known)}.`;
  const size = values.known === "packet" ? `even a test of ${seedsText(n)} leaves that much open` : `a test of ${seedsText(n)} leaves that much open`;
  const test = plan.seeds - plan.known > MUCH ? " Test more first: it costs less seed." : "";
  return `${sure}, ${seedsText(plan.known)} would do: ${size}.${test}`;
}

function wantedText({ values, wanted }) {
  return values.where === "cells" && wanted === null ? `to fill ${cellsText(values.cells)}` : `to give ${plantsText(wanted)}`;
}

// Words instead of a number.
function noPlan(answer) {
  const { values, k, n, wanted } = answer;
  if (k === 0) {
    const why = values.known === "packet" ? `the packet’s ${foundText(answer)} is next to nothing`
      : n === 1 ? "the one tested seed did not come up" : `none of the ${grouped(n)} tested seeds came up`;
    return `No number of seeds can be promised ${wantedText(answer)}: ${why}.`;
  }
  if (values.where === "cells" && answer.aCell === null) return `No sensible number of seeds would make ${Math.round(values.chance * 100)} % of cells hold a plant.`;
  const what = values.where === "cells" ? "cells" : "seeds";
  return `More ${what} than can sensibly be sown would be needed for ${plantsText(wanted)} with ${certainly(values)}.`;
}

function noPlanAdvice(answer) {
  const { values, k, n, range } = answer;
  if (k === 0) return `The lot may still do anything up to ${percentDigits(range[1], n)} % (90 % range, ${seedsText(n)}). Test more seeds, or get fresh seed.`;
  const lot = range[1] < 0.0005 ? "less than 0.1 %" : percentRange(range, n);
  const tray = values.where === "cells" && answer.aCell === null ? "Sow in one tray and move the seedlings, or " : "";
  if (n >= LARGE_TEST) return `The lot does too little: ${lot} (90 % range, ${seedsText(n)}). ${tray ? `${tray}get` : "Get"} fresh seed.`;
  return `A test of ${seedsText(n)} leaves too much open: the lot may do ${lot} (90 % range). ${tray ? `${tray}test` : "Test"} more seeds first${tray ? "" : ", or ask for less certainty"}.`;
}

/** What the figures rest on. */
export function restsOn(answer) {
  const { values, k, n, range, crop, plan } = answer;
  const known = values.known === "packet"
    ? `The packet’s ${foundText(answer)} is taken as an official test: ${grouped(k)} of ${grouped(n)} seeds. It was true on the day of that test; older seed may do less, so test it.`
    : `The luck of the test is counted in: ${grouped(k)} of ${grouped(n)} may come from a lot of ${percentRange(range, n)} (90 % range).${n < 50 && plan !== null ? " The more you test, the fewer you need to sow." : ""}`;
  const factor = values.factor < 1
    ? `That ${shareText(values.factor)} of test seedlings also come up where you sow is your own figure. Soil, depth and weather change it.`
    : "A field factor of 100 % means that as many come up where you sow as in the test. In soil it is mostly fewer; by how much is yours to judge.";
  const told = [known, factor];
  if (values.where !== "place" && crop?.several && plan !== null) told.push(`One “seed” of ${crop.name.toLowerCase()} may hold several: there can be more to thin than is said here.`);
  return told;
}

/** The other way to sow a row, and what evenness can't promise. */
export function rowTexts({ plan, values }) {
  const told = ["The number is what the certainty is about. Where each seedling stands is luck: sow evenly, thin the thick spots, and move some into the gaps."];
  const { stations } = plan;
  if (stations !== null && plan.places > 1) {
    told.push(`Or put ${seedsText(stations.perCell)} at each of the ${grouped(plan.places)} places, one every ${spacingText(values)}, ${grouped(stations.total)} in all: ${Math.round(values.certainty * 100)} % or more of the places then hold a plant. Expect ${aboutText(stations.emptyCells)} empty and ${aboutText(stations.thinned)} to thin.`);
  }
  return told;
}

/** Enough cells? Sentences beside the table of seeds a cell. */
export function cellTexts({ plan, values }) {
  const told = [`All ${cellsText(plan.cells)} are full with a chance of ${chanceText(plan.allFull)}.`];
  if (values.cells !== null && plan.plants !== null) {
    told.push(plan.plants > plan.cells ? `${cellsText(plan.cells)} can’t hold ${plantsText(plan.plants)}, one in each.`
      : `The chance of ${plantsText(plan.plants)} or more is ${chanceText(plan.enough)}.`);
    if (plan.needed !== null) told.push(`For ${plantsText(plan.plants)} with ${certainly(values)} sow ${cellsText(plan.needed)}.`);
  }
  told.push("Cells of one sowing fill well or badly together, since they share one percentage: that is in these ranges.");
  return told;
}
