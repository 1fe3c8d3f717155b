// From one entry to everything the answer says, still as numbers.

import { chanceEmpty, expectedPlants, expectedThinned, rowPlaces, seedsPerCell } from "../../science/cells.js";
import { chanceCountAtLeast } from "../../science/lot.js";
import { cellsNeeded, cellsRange, chanceOfCells, likelyShares, plantsRange, seedsIfKnown } from "../../science/outcomes.js";
import { wilson } from "../../science/proportions.js";
import { MOST_SEEDS, chanceOfEnough, seedsNeeded } from "../../science/sowing.js";
import { weigh } from "./weight.js";

/** Confidence of the range given with the test. */
export const CONFIDENCE = 0.9;
export const CERTAINTIES = [0.8, 0.9, 0.95, 0.99];
const MOST_CELLS = 20000;
const SHOWN_A_CELL = 6;
const CURVE_POINTS = 40;

/** `values` from readEntry, `data` from the page. `plan` is null where no number can be given. */
export function workOut(values, data) {
  const crop = data.crops[values.crop] ?? null;
  const { k, n } = values;
  const answer = {
    values, crop, k, n,
    range: wilson(k, n, CONFIDENCE),
    wanted: values.where === "row" ? rowPlaces(values.length, values.spacing) : values.plants,
    aCell: k > 0 && values.where === "cells" ? aCell(values) : null,
    plan: k === 0 ? null : PLANS[values.where](values),
  };
  return { ...answer, ...weigh(answer, handed) };
}

const PLANS = { place: inPlace, row: inRow, cells: inCells };

/** Plants to expect of so many seeds: {mean, low, high}. */
function expected(seeds, { k, n, factor }) {
  const [low, high] = plantsRange(seeds, k, n, factor);
  return { mean: seeds === 0 ? 0 : expectedPlants(seeds, k, n, factor), low, high };
}

function inPlace(values) {
  return counted(values.plants, values);
}

// Seeds for so many plants wherever they stand; null when no number can be promised.
function counted(plants, values) {
  const { k, n, factor, certainty, share } = values;
  const seeds = seedsNeeded(plants, certainty, k, n, factor);
  if (seeds === null) return null;
  const byCertainty = CERTAINTIES.map((wanted) => ({
    certainty: wanted, seeds: seedsNeeded(plants, wanted, k, n, factor), known: seedsIfKnown(plants, wanted, share * factor),
  }));
  return {
    plants, seeds, total: seeds, expected: expected(seeds, values), byCertainty,
    known: byCertainty.find((row) => row.certainty === certainty).known,
    curve: curve(plants, seeds, values),
  };
}

// Chance of enough plants by number of seeds, after the test and with the percentage known.
function curve(plants, seeds, values) {
  const { k, n, factor, share } = values;
  const last = Math.min(MOST_SEEDS, Math.max(seeds + 3, Math.ceil(plants + 1.4 * (seeds - plants))));
  const step = Math.max(1, Math.ceil((last - plants) / CURVE_POINTS));
  const points = [];
  for (let tried = plants; tried < last + step; tried += step) {
    points.push({ seeds: tried, tested: chanceOfEnough(plants, tried, k, n, factor), known: chanceCountAtLeast(plants, tried, share * factor) });
  }
  return points;
}

function inRow(values) {
  const { k, n, factor, certainty } = values;
  const places = rowPlaces(values.length, values.spacing);
  const plan = counted(places, values);
  if (plan === null) return null;
  const stations = seedsPerCell(certainty, k, n, factor);
  return {
    ...plan,
    places,
    distance: plan.seeds > 1 ? values.length / (plan.seeds - 1) : null,
    thinned: Math.max(0, plan.expected.mean - places),
    stations: stations === null ? null : cellRow(stations, places, values),
  };
}

// What `perCell` seeds in each of `cells` cells do, on average.
function cellRow(perCell, cells, { k, n, factor }) {
  const empty = chanceEmpty(perCell, k, n, factor);
  return { perCell, cells, total: perCell * cells, empty, emptyCells: cells * empty, thinned: cells * expectedThinned(perCell, k, n, factor) };
}

// Seeds in a cell: one's own number, or as many as fill it with the chance; null when no sensible number does.
function aCell({ k, n, factor, perCell, chance }) {
  return perCell ?? seedsPerCell(chance, k, n, factor);
}

function inCells(values) {
  const { k, n, factor, certainty, plants, cells } = values;
  const perCell = aCell(values);
  if (perCell === null) return null;
  const shares = likelyShares(k, n, factor);
  const needed = (seeds) => (plants === null ? null : cellsNeeded(plants, certainty, seeds, shares, MOST_CELLS));
  const own = needed(perCell);
  if (cells === null && own === null) return null;
  const sown = cells ?? own;
  const choices = Array.from({ length: Math.max(SHOWN_A_CELL, perCell) }, (_, i) => i + 1).filter((seeds) => seeds <= SHOWN_A_CELL || seeds === perCell);
  return {
    ...cellRow(perCell, sown, values),
    plants, needed: own,
    allFull: chanceOfCells(sown, sown, perCell, shares),
    enough: plants === null ? null : chanceOfCells(plants, sown, perCell, shares),
    expected: expected(perCell * sown, values),
    choices: choices.map((seeds) => {
      const used = cells ?? (seeds === perCell ? own : needed(seeds));
      return used === null ? { perCell: seeds, cells: null, empty: chanceEmpty(seeds, k, n, factor) } : cellRow(seeds, used, values);
    }),
    filled: choices.map((seeds) => ({
      perCell: seeds, mean: sown * (1 - chanceEmpty(seeds, k, n, factor)), range: cellsRange(sown, seeds, shares),
    })),
  };
}

// What `seeds` seeds at hand do for the plan: plants to expect, and the chance of those wanted.
function handed(seeds, { values, plan }) {
  if (values.k === 0) return { seeds, expected: null, chance: null };
  const wanted = plan?.plants ?? null;
  return {
    seeds,
    expected: expected(seeds, values),
    chance: values.where === "cells" || wanted === null ? null : chanceOfEnough(wanted, Math.min(seeds, MOST_SEEDS), values.k, values.n, values.factor),
    fills: values.where === "cells" && plan !== null ? Math.floor(seeds / plan.perCell) : null,
  };
}
