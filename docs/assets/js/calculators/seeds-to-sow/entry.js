// One entry: what is known of the germination, what is wanted and where, and what the seed weighs.

import { MOST_A_CELL } from "../../science/cells.js";
import { GRAMS_PER_OUNCE, GRAMS_PER_POUND } from "../../science/seed_mass.js";
import { grouped, readWhole } from "../fields.js";
import { level, oneOf, readPercent, readPositive, readSeedlings, readSeeds, reader } from "../reading.js";

export const FIELDS = ["crop", "known", "seeds", "normal", "percent", "where", "plants", "cells", "chance", "percell",
  "rowlength", "rowunit", "spacing", "spacingunit", "certainty", "factor", "hand", "handunit", "purity",
  "samplecount", "samplemass", "sampleunit"];
// An official test sets 400 seeds: 7 CFR 201.54 (400 or more); the international rules have 4 x 100 (from memory).
export const PACKET_SEEDS = 400;
export const MOST_PLANTS = 10000;
const MM = { m: 1000, ft: 304.8, cm: 10, in: 25.4 }; // exact by definition
const GRAMS = { g: 1, oz: GRAMS_PER_OUNCE, lb: GRAMS_PER_POUND };

/** The entry a reader finds first. */
export function example(crop) {
  return {
    example: true, crop, known: "test", seeds: "10", normal: "8", percent: "85", where: "place", plants: "12", cells: "",
    chance: "95", percell: "2", rowlength: "3", rowunit: "m", spacing: "5", spacingunit: "cm", certainty: "90", factor: "100",
    hand: "", handunit: "g", purity: "", samplecount: "", samplemass: "", sampleunit: "g",
  };
}

/** {values, messages}; a field that is not offered is not read. Lengths in mm, weights in grams, shares as fractions. */
export function readEntry(entry) {
  const { note, done, messages } = reader();
  const where = oneOf(entry.where, ["place", "cells", "row"]);
  const values = {
    example: entry.example,
    crop: entry.crop,
    where,
    ...readKnown(entry, note),
    certainty: level(entry.certainty, "90"),
    factor: note("factor", readPercent(entry.factor, { empty: null, what: "Type a share" })) ?? 1,
    purity: note("purity", readPercent(entry.purity, { empty: null })),
    ...readHand(entry, note),
    ...readSample(entry, note, messages),
  };
  if (where === "place") values.plants = note("plants", readPlants(entry.plants, "Nothing typed. Type how many plants you want, 1 or more."));
  else if (where === "cells") Object.assign(values, readCells(entry, note, messages));
  else Object.assign(values, readRow(entry, note, messages));
  return done(values);
}

// k of n, and the share as stated; a packet's percentage is taken as an official test.
function readKnown(entry, note) {
  if (oneOf(entry.known, ["test", "packet"]) === "packet") {
    const share = note("percent", readPercent(entry.percent, { empty: "Nothing typed. Type the percentage on the packet, for example 85." }));
    return { known: "packet", n: PACKET_SEEDS, k: Math.round(PACKET_SEEDS * share), share };
  }
  const n = note("seeds", readSeeds(entry.seeds));
  const k = note("normal", readSeedlings(entry.normal, n));
  return { known: "test", n, k, share: n === null || k === null ? null : k / n };
}

function readPlants(text, empty) {
  return readWhole(text, { least: 1, most: MOST_PLANTS, empty, tooMany: `Type at most ${grouped(MOST_PLANTS)} plants.` });
}

function readCells(entry, note, messages) {
  const plants = note("plants", readPlants(entry.plants, null));
  const cells = note("cells", readWhole(entry.cells, { least: 1, most: MOST_PLANTS, empty: null, tooMany: `Type at most ${grouped(MOST_PLANTS)} cells.` }));
  if (plants === null && cells === null && !messages.has("plants") && !messages.has("cells")) {
    messages.set("plants", "Nothing typed. Type how many plants you want, or how many cells you have.");
  }
  const own = entry.chance === "own";
  const perCell = own ? note("percell", readWhole(entry.percell, {
    least: 1, most: MOST_A_CELL, empty: "Nothing typed. Type how many seeds you put in each cell, 1 or more.", tooMany: `Type at most ${MOST_A_CELL} seeds a cell.`,
  })) : null;
  return { plants, cells, perCell, chance: own ? null : level(entry.chance, "95") };
}

function readRow(entry, note, messages) {
  const rowUnit = oneOf(entry.rowunit, ["m", "ft"]);
  const spacingUnit = oneOf(entry.spacingunit, ["cm", "in"]);
  const length = note("rowlength", readPositive(entry.rowlength, { most: 10000, unit: rowUnit, empty: `Nothing typed. Type the length of the row in ${rowUnit}.` }));
  const spacing = note("spacing", readPositive(entry.spacing, { most: 1000, unit: spacingUnit, empty: `Nothing typed. Type the distance from plant to plant in ${spacingUnit}.` }));
  const row = { length: length * MM[rowUnit], spacing: spacing * MM[spacingUnit], typedSpacing: spacing, rowUnit, spacingUnit };
  if (length === null || spacing === null) return row;
  if (row.spacing > row.length) {
    messages.set("spacing", `A plant every ${spacing} ${spacingUnit} does not fit a row of ${length} ${rowUnit}. Check both numbers and their units.`);
  } else if (row.length / row.spacing >= MOST_PLANTS) {
    messages.set("spacing", `A plant every ${spacing} ${spacingUnit} along ${length} ${rowUnit} makes ${grouped(Math.floor(row.length / row.spacing) + 1)} plants; at most ${grouped(MOST_PLANTS)} are handled. Check both numbers and their units, or take a part of the row.`);
  }
  return row;
}

function readHand(entry, note) {
  const unit = oneOf(entry.handunit, ["g", "oz", "lb", "seeds"]);
  if (unit === "seeds") {
    const hand = note("hand", readWhole(entry.hand, { least: 1, most: 10000000, empty: null, tooMany: "Type at most 10,000,000 seeds, or a weight." }));
    return { handUnit: unit, hand, handGrams: null };
  }
  const hand = note("hand", readPositive(entry.hand, { most: 100000, unit, empty: null }));
  return { handUnit: unit, hand, handGrams: hand === null ? null : hand * GRAMS[unit] };
}

// Count and weight belong together: either alone says nothing.
function readSample(entry, note, messages) {
  const unit = oneOf(entry.sampleunit, ["g", "oz"]);
  const sample = note("samplecount", readWhole(entry.samplecount, { least: 1, most: 1000000, empty: null, tooMany: "Type at most 1,000,000 seeds." }));
  const mass = note("samplemass", readPositive(entry.samplemass, { most: 100000, unit, empty: null }));
  if (!messages.has("samplecount") && !messages.has("samplemass")) {
    if (sample !== null && mass === null) messages.set("samplemass", `Nothing typed. Type what the ${grouped(sample)} ${sample === 1 ? "seed weighs" : "seeds weigh"}, or leave both empty.`);
    if (sample === null && mass !== null) messages.set("samplecount", "Nothing typed. Type how many seeds have that weight, or leave both empty.");
  }
  return { sample, sampleGrams: mass === null ? null : mass * GRAMS[unit] };
}
