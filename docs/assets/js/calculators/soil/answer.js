// From the year of the soil to the windows of every crop.

import { errorBand, scaledErrors } from "../../science/soil_temperature.js";
import { windows } from "../../science/soil_windows.js";

export const THERMOMETER = 1; // °C a garden thermometer may be out: our own guess, no source
const HALF_YEAR = 182.625;
const AT_A_TIME = 5; // crops
const SWING = 3; // °C above the mean; below it a year has no spring or autumn to speak of

/**
 * `soil` {year, band, seasons}; `chosen` the windows of the chosen crop, null without one. `spells` and `known` are for those worked out later.
 * A pair of windows is {minimum, best}, each as windows() gives it or null where no temperature is published.
 */
export function workOut(values, data) {
  const { series, cropId } = values;
  const soil = { year: series.year, band: bandOf(values, data), seasons: !series.full || (series.harmonic?.amplitude ?? 0) >= SWING };
  const [spells, known] = [[values.hold, data.short_days], nothingKnown()];
  return {
    values, soil, spells, known, days: series.year.filter((value) => value !== null).length,
    chosen: Object.hasOwn(data.crops, cropId) ? { id: cropId, crop: data.crops[cropId], ...windowsOf(soil, data.crops[cropId], spells, known) } : null,
  };
}

/** The windows of the chosen crop under each cover. */
export function underCovers({ soil, chosen, spells }, covers) {
  return covers.map((cover) => ({ cover, ...windowsOf(warmed(soil, cover.gain), chosen.crop, spells) }));
}

/** Steps to [{id, crop, minimum, best}] of every crop, under the cover chosen for the table: a few at a time. They share many temperatures. */
export function* everyCrop({ values, soil, spells, known }, crops) {
  const [ground, kept] = values.cover === null ? [soil, known] : [warmed(soil, values.cover.gain), nothingKnown()];
  const found = [];
  for (const [id, crop] of Object.entries(crops)) {
    if (found.length % AT_A_TIME === 0) yield;
    found.push({ id, crop, ...windowsOf(ground, crop, spells, kept) });
  }
  return found;
}

// What crops on the same ground share.
const nothingKnown = () => ({ held: new Map(), windows: new Map() });

function windowsOf({ year, band }, crop, spells, known = nothingKnown()) {
  const once = (low, high) => {
    const key = `${low} ${high}`;
    if (!known.windows.has(key)) known.windows.set(key, windows(year, band, low, high, ...spells, known.held));
    return known.windows.get(key);
  };
  return {
    minimum: crop.minimum === undefined ? null : once(crop.minimum, crop.maximum ?? null),
    best: crop.low === undefined || crop.high === undefined ? null : once(crop.low, crop.high),
  };
}

/** The station's figures that belong to this kind of year: "days" or "months"; null for readings of the soil itself. */
export function wayOf(kind) {
  return { days: "days", average: "months", months: "months" }[kind] ?? null;
}

/** The depth nearest to `depth` at which errors were measured, as text. */
export function measuredDepth(depth, { bands }) {
  return Object.keys(bands).reduce((best, key) => (Math.abs(key - depth) < Math.abs(best - depth) ? key : best));
}

function bandOf({ series, depth, south }, { station }) {
  const way = wayOf(series.kind);
  if (way === null) return { low: series.year.map(() => -THERMOMETER), high: series.year.map(() => THERMOMETER) };
  const clear = series.full && (series.harmonic?.amplitude ?? 0) >= 1;
  const warmest = clear ? series.harmonic.warmest_day : station.warmest_day + (south ? HALF_YEAR : 0);
  const measured = station[way].bands[measuredDepth(depth, station[way])];
  // Between years a place errs in proportion to its swing; within one year the station's own degrees are kept.
  return errorBand(way === "months" && series.harmonic ? scaledErrors(measured, series.harmonic.amplitude, station.swing) : measured, warmest);
}

// One published gain, and no other: the soil warmed by its middle, the doubt widened by its half.
function warmed({ year, band }, [least, most]) {
  const half = (most - least) / 2;
  return {
    year: year.map((value) => (value === null ? null : value + (least + most) / 2)),
    band: { low: band.low.map((value) => value - half), high: band.high.map((value) => value + half) },
  };
}
