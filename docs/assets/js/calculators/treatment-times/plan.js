// Which way of a treatment fits the crop, why there may be none, and when each step is due.

import { later } from "./clock.js";

const WHOLE_DAYS = ["days", "weeks", "months"];
const MOST_LOOKS = 6;

/** Ways of a treatment for a crop ("" for none chosen), [{id, way, bath}]; hot water has one for each printed table. */
export function waysFor(treatment, crop, data) {
  const fits = treatment.ways.filter((way) => (crop === "" ? withoutCrop(way, data) : way.crops.includes(crop)));
  // The general way first, then those for single kinds.
  if (crop === "") fits.sort((a, b) => Number(a.crops.length > 0) - Number(b.crops.length > 0));
  const own = fits.length > 0 || crop === "" ? fits : treatment.ways.filter((way) => way.crops.length === 0 && !way.withoutCrop);
  return own.flatMap((way) => (way.steps.some((step) => step.table)
    ? (data.crops[crop]?.baths ?? []).map((bath, i) => ({ id: `${bath.source}-${i + 1}`, way, bath }))
    : [{ id: way.id, way, bath: null }]));
}

// Without a crop: the general way, and those for kinds that have no page here.
function withoutCrop(way, data) {
  return way.withoutCrop || way.crops.length === 0 || way.crops.some((kind) => Object.hasOwn(data.kinds, kind));
}

/** The treatment that does most for a crop among the plain ones; null when none is known to help. */
export function bestFor(crop, data) {
  const plain = data.gentle.filter((id) => Object.hasOwn(data.treatments, id));
  if (crop === "") return plain[0] ?? null;
  for (const advice of ["worth-doing", "may-help"]) {
    for (const id of plain) {
      const said = data.crops[crop].said[id] ?? [];
      if (said.some((entry) => entry.advice === advice) && waysFor(data.treatments[id], crop, data).length > 0) return id;
    }
  }
  return null;
}

/** What is said of a treatment for a crop, and of what the treatment also is. */
export function saidOf(id, crop, data) {
  if (crop === "" || id === null) return [];
  return [id, ...data.treatments[id].countsAs].flatMap((one) => (data.crops[crop].said[one] ?? []).map((entry) => ({ ...entry, treatment: one })));
}

/** Why no recipe is given, {kind, text, from}; null when one is. */
export function refusal(id, { crop, seed }, data) {
  if (id === null) return { kind: "nothing", text: "", from: [] };
  const treatment = data.treatments[id];
  if (treatment.reason !== null) return { kind: "reason", ...treatment.reason };
  const state = treatment.notFor.find((entry) => entry.seed === seed);
  if (state) return { kind: "seed", text: state.text, from: state.from };
  const said = saidOf(id, crop, data);
  const against = said.find((entry) => entry.advice === "avoid") ?? said.find((entry) => entry.advice === "laboratory-only" && entry.treatment === id);
  if (against) return { kind: "crop", text: against.text, from: against.from };
  const barred = [treatment, ...treatment.countsAs.map((one) => data.treatments[one])].flatMap((one) => one.notFor).find((entry) => entry.crops.includes(crop));
  if (barred) return { kind: "crop", text: barred.text, from: barred.from };
  return waysFor(treatment, crop, data).length === 0 ? { kind: "no-times", text: "", from: [] } : null;
}

/**
 * When each step is due. `options` is {bath, lastCount, weeks}: the hot-water table, the last count of the official test
 * (null when unknown), and weeks of cold typed by the reader (null to use the published time).
 * Gives [{step, begin: [first, last], end: [first, last] or null, span, wholeDays, looks, open}], moments of clock.js;
 * `begin` is null where the step before has no known end, `open` says that a step has none.
 */
export function timed(way, start, options) {
  let at = [start, start];
  let wholeDays = false;
  return way.steps.map((step) => {
    const begin = at;
    const span = begin === null ? null : spanOf(step, options);
    const made = { step, begin, span, wholeDays, end: null, looks: [], open: step.until !== undefined && span === null };
    if (made.open) at = null;
    if (span !== null) {
      const from = span.inAll ? [start, start] : begin;
      at = [span.low === null ? begin[0] : later(from[0], span.low, span.unit), later(from[1], span.high, span.unit)];
      made.end = at;
      wholeDays = WHOLE_DAYS.includes(span.unit);
      if (step.look) made.looks = looks(begin[0], at[1], step.look[1]);
    }
    return made;
  });
}

function spanOf(step, { bath, lastCount, weeks }) {
  if (step.table) {
    const part = bath[step.table === "warming" ? "warming" : "bath"];
    return { low: part.minutes, high: part.minutes, unit: "minutes", inAll: false };
  }
  if (step.until) return lastCount === null ? null : { low: null, high: lastCount, unit: "days", inAll: false };
  if (!step.lasts) return null;
  if (weeks !== null && WHOLE_DAYS.includes(step.lasts.unit)) return { low: 7 * weeks, high: 7 * weeks, unit: "days", inAll: false };
  return step.lasts;
}

/** A table that prints no warming has none. */
export function stepsWithin(way, bath) {
  return bath === null || bath.warming !== null ? way : { ...way, steps: way.steps.filter((step) => step.table !== "warming") };
}

function looks(from, to, days) {
  const found = [];
  for (let at = later(from, days, "days"); at < to && found.length < MOST_LOOKS; at = later(at, days, "days")) found.push(at);
  return found;
}
