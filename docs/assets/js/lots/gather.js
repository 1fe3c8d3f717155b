// From good rows to lots: rows of one lot and day are replicates of one test, other days are earlier tests.
// Nothing depends on the order of the rows. Twin of build_tools/lots/gather.py.

import { fold } from "./catalogue.js";
import { compareTexts, quoted } from "../words.js";

const MOST_REPLICATES = 8;

/**
 * Fill `reading.lots` from the rows by lot; `problem(line, column, message, hint, level)` takes what
 * does not fit. A lot is {name, crop, variety, harvested, storage, tests, marked}, its tests oldest first.
 */
export function gather(rows, marked, catalogue, reading, problem) {
  for (const [name, ofLot] of rows) {
    const first = ofLot[0];
    const other = ofLot.find((row) => row.crop !== first.crop);
    if (other !== undefined) {
      const [here, there] = [other, first].map((row) => catalogue.crops.get(row.crop).name);
      problem(other.line, "crop", `Lot ${quoted(name)} is ${here} here and ${there} in line ${first.line}.`,
        `Give each crop a lot of its own, or mend the name. Until then all rows of this lot are left out (${ofLot.length}).`);
      reading.leftOut += ofLot.length;
      continue;
    }
    const byDay = new Map();
    for (const row of ofLot) {
      if (byDay.has(row.tested)) byDay.get(row.tested).push(row);
      else byDay.set(row.tested, [row]);
    }
    const tests = [];
    for (const tested of [...byDay.keys()].sort()) {
      const ofTest = byDay.get(tested);
      if (tested !== "" && ofTest.length > MOST_REPLICATES) {
        problem(ofTest[MOST_REPLICATES].line, "tested",
          `${ofTest.length} rows of lot ${quoted(name)} for ${tested}; at most ${MOST_REPLICATES} replicates are judged together.`,
          "Check the dates, or add up dishes that belong together. Until then this test is left out.");
        reading.leftOut += ofTest.length;
        marked.add(name);
        byDay.delete(tested);
      } else if (tested !== "") {
        tests.push(testOf(tested, ofTest));
      }
    }
    if (byDay.size > 0) {
      const kept = ofLot.filter((row) => byDay.has(row.tested));
      reading.lots.set(name, {
        name, crop: first.crop, ...described(name, kept, problem), tests, marked: marked.has(name),
      });
    }
  }
}

// {tested, seeds, normal, replicates, hard, fresh}: replicates are [seeds, normal] in rising order.
function testOf(tested, rows) {
  const sum = (name) => rows.reduce((total, row) => total + row[name], 0);
  return {
    tested, seeds: sum("seeds"), normal: sum("normal"), hard: sum("hard"), fresh: sum("fresh"),
    replicates: rows.map((row) => [row.seeds, row.normal]).sort((a, b) => a[0] - b[0] || a[1] - b[1]),
  };
}

// Variety, harvest and storage of a lot.
function described(name, rows, problem) {
  const [{ variety, harvested, storage }] = rows;
  if (rows.every((row) => row.variety === variety && row.harvested === harvested && row.storage === storage)) {
    return { variety, harvested, storage };
  }
  noteDifferences(name, rows, problem);
  return { variety: latest(rows, "variety"), harvested: exactHarvest(rows), storage: latest(rows, "storage") };
}

// The text of the latest row that has one; of several on one day the last in order.
function latest(rows, column) {
  let best = null;
  for (const row of rows) {
    if (row[column] !== "" && (best === null || row.tested > best.tested
        || (row.tested === best.tested && compareTexts(row[column], best[column]) > 0))) best = row;
  }
  return best === null ? "" : best[column];
}

// The harvest of the latest row that has one, to the day if another row gives it to the day.
function exactHarvest(rows) {
  const date = latest(rows, "harvested");
  if (date === "") return "";
  return rows.map((row) => row.harvested).filter((text) => text.startsWith(date))
    .reduce((best, text) => (text.length > best.length || (text.length === best.length && text > best) ? text : best), date);
}

// Variety and harvest ought to be the same in all rows of a lot; say where they are not.
function noteDifferences(name, rows, problem) {
  const same = {
    variety: (text, before) => fold(text) === fold(before),
    harvested: (text, before) => text.startsWith(before) || before.startsWith(text),
  };
  for (const column of ["variety", "harvested"]) {
    const given = rows.filter((row) => row[column] !== "");
    const other = given.find((row) => !same[column](row[column], given[0][column]));
    if (other !== undefined) {
      problem(other.line, column,
        `Lot ${quoted(name)} has ${quoted(other[column])} here and ${quoted(given[0][column])} in line ${given[0].line}.`,
        "The one of its latest test is shown. Mend the other, or give it a lot of its own.", "note");
    }
  }
}
