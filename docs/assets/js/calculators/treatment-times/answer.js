// From the entry to amounts and the list of moments.

import {
  gramsFor, mixedStrength, nearestPart, stockNeeded, strengthRange, timesWeaker, toppedUpStrength, waterParts,
} from "../../science/dilution.js";
import { clockShift, inTheNight } from "./clock.js";
import { saidOf, stepsWithin, timed } from "./plan.js";

const SPOON_PARTS = 4; // quarters of a spoon are marked on sets of spoons
const SPOON_SLIP = 1 / 8; // of a spoon or cup: half of such a quarter
const MOST_SPOONS = 8; // from half a US cup on cups are handier

export function workOut(values, data) {
  const crop = data.crops[values.crop] ?? null;
  const said = saidOf(values.id, values.crop, data);
  const base = { values, crop, said, no: values.no, list: [], amount: null, shift: 0, night: false };
  if (values.no !== null) return base;
  if (values.bottle?.tooStrong) return { ...base, no: { kind: "bottle", text: values.treatment.amounts.bottle.text, from: values.treatment.amounts.bottle.from } };
  const { way, bath } = values.way;
  const list = timed(stepsWithin(way, bath), values.start, { bath, lastCount: crop?.lastCount ?? null, weeks: values.weeks });
  const ends = list.flatMap((one) => one.end ?? []);
  const last = list.at(-1);
  return {
    ...base, list,
    amount: amountOf(values),
    shift: ends.length === 0 ? 0 : clockShift(values.start, Math.max(...ends)),
    night: last.begin !== null && !last.wholeDays && inTheNight(last.begin),
  };
}

function amountOf({ bottle, salt, seeds, treatment: { amounts } }) {
  if (bottle !== null) return bottle.give === "spoons" ? fromSpoons(bottle) : toStrength(bottle);
  if (salt !== null) return { kind: "salt", ml: salt.ml, grams: gramsFor(amounts.salt.percent, salt.ml), percent: amounts.salt.percent, name: amounts.salt.name };
  if (seeds !== null) return { kind: "water", ml: (amounts.water.ml * seeds) / amounts.water.seeds, seeds };
  return null;
}

function fromSpoons({ stock, measures, spoons, cups }) {
  const [bottle, water] = [spoons * measures.tbsp, cups * measures.cup];
  return {
    kind: "spoons", stock, measures, spoons, cups, bottle, water, total: bottle + water,
    strength: mixedStrength(stock, bottle, water),
    topped: bottle <= water ? toppedUpStrength(stock, bottle, water) : null,
    times: timesWeaker(bottle, water),
  };
}

function toStrength({ stock, measures, wanted, ml }) {
  const bottle = stockNeeded(stock, wanted, ml);
  const unit = bottle > MOST_SPOONS * measures.tbsp ? "cup" : "tbsp";
  const count = nearestPart(bottle, measures[unit], SPOON_PARTS);
  const measured = count * measures[unit];
  const fits = count > 0 && measured <= ml;
  return {
    kind: "wanted", stock, measures, strength: wanted, total: ml, bottle, water: ml - bottle,
    parts: waterParts(stock, wanted),
    kitchen: fits ? { count, unit, range: strengthRange(stock, measured, ml, SPOON_SLIP * measures[unit]) } : null,
  };
}
