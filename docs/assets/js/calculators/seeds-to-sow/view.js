// The answer on the page: sentences, numbers, picture, tables, and how it is worked out.

import { grouped } from "../fields.js";
import { list, numbers, parts, pictureSlot, table, verdict } from "../element.js";
import { chanceText, percentRange } from "../format.js";
import { workings } from "./method.js";
import { cellsPicture, chancePicture } from "./picture.js";
import { handText, liveShare, liveTexts, weighRow, weightTexts } from "./weight_words.js";
import { averageText, cellTexts, chosen, distanceText, expectedText, foundText, headline, plantsText, rangeText, restsOn, rowTexts, spacingText, trust } from "./words.js";

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { crop, plan, values } = answer;
  const hand = handText(answer);
  const told = { headline: headline(answer), trust: trust(answer) };
  const kind = plan === null ? null : values.where;
  return {
    title: `Seeds to sow${crop === null ? "" : `, ${crop.name}`}`,
    ...told,
    line: `${crop === null ? "" : `${crop.name}: `}${told.headline} ${told.trust}`,
    rest: [
      verdict(hand, "Enough", "Not enough"),
      numbers(rows(answer)),
      kind === null || plan.cells === 1 ? null : pictureSlot((width) => (kind === "cells" ? cellsPicture(answer, width) : chancePicture(answer, width))),
      kind === "cells" ? cellsTable(plan, values) : kind === null ? null : certaintyTable(answer),
      parts(level, [
        ["What it rests on", list(restsOn(answer))],
        kind === "row" ? ["In the row", list(rowTexts(answer))] : kind === "cells" && plan.cells > 1 ? ["In the cells", list(cellTexts(answer))] : null,
        ["By weight", list(weightTexts(answer))],
        answer.live === null ? null : ["Pure live seed", list(liveTexts(answer))],
      ]),
    ],
    workings: workings(answer),
  };
}

function rows(answer) {
  const { values, k, n, range, plan, live } = answer;
  const found = [`Germination, ${grouped(k)} of ${grouped(n)} (90 % range, Wilson)`, `${foundText(answer)} (${percentRange(range, n)})`];
  const own = plan === null ? [] : { place: placeRows, row: rowRows, cells: cellRows }[values.where](answer);
  return [found, ...own, weighRow(answer), live && ["Pure live seed", liveShare(answer)]];
}

function placeRows({ plan, ...answer }) {
  return [
    [`Seeds to sow for ${plantsText(plan.plants)}`, grouped(plan.seeds)],
    ["Plants to expect (90 % range)", expectedText(plan.expected)],
    plan.known && [`Seeds if ${foundText(answer)} were certain`, grouped(plan.known)],
  ];
}

function rowRows(answer) {
  const { plan, values } = answer;
  return [
    [`Plants in the row, one every ${spacingText(values)}`, grouped(plan.places)],
    ["Seeds to sow", grouped(plan.seeds)],
    plan.distance && ["A seed about every", distanceText(plan.distance, values.spacingUnit)],
    ["Plants to expect (90 % range)", expectedText(plan.expected)],
    ["To thin (plants to expect, less places)", averageText(plan.thinned)],
    plan.known && [`Seeds if ${foundText(answer)} were certain`, grouped(plan.known)],
  ];
}

function cellRows({ plan }) {
  const { mean, range } = chosen(plan);
  return [
    ["Seeds in each cell", grouped(plan.perCell)],
    ["Cells to sow", grouped(plan.cells)],
    ["Seeds in all", grouped(plan.total)],
    ["A cell holds a plant with a chance of", chanceText(1 - plan.empty)],
    plan.cells === 1 ? null : ["Cells with a plant (90 % range)", `${averageText(mean)} (${rangeText(range)})`],
    ["Empty cells, on average", averageText(plan.emptyCells)],
    ["To thin, on average", averageText(plan.thinned)],
    plan.cells === 1 ? null : ["All cells full, chance", chanceText(plan.allFull)],
    plan.plants && [`Chance of ${plantsText(plan.plants)} or more`, chanceText(plan.enough)],
  ];
}

function certaintyTable(answer) {
  const { plan } = answer;
  const number = (seeds) => (seeds === null ? "too many" : grouped(seeds));
  return table(`Seeds for ${plantsText(plan.plants)}`, ["Certainty", "With what the test leaves open", `If ${foundText(answer)} were certain`],
    plan.byCertainty.map((row) => [`${Math.round(row.certainty * 100)} %`, number(row.seeds), number(row.known)]));
}

// Near certainty a decimal tells more seeds a cell apart; it is cut, not rounded, so as not to read 100 %.
function fullText(chance) {
  return chance > 0.99 ? `${(Math.floor(chance * 1000) / 10).toFixed(1)} %` : chanceText(chance);
}

function cellsTable(plan, values) {
  const forPlants = values.cells === null;
  const cells = (row) => (forPlants ? [row.cells === null ? "too many" : grouped(row.cells)] : []);
  return table(forPlants ? `More or fewer seeds a cell, for ${plantsText(plan.plants)}` : `More or fewer seeds a cell, in ${grouped(plan.cells)} ${plan.cells === 1 ? "cell" : "cells"}`,
    ["Seeds a cell", "Cell holds a plant", ...(forPlants ? ["Cells to sow"] : []), "Empty", "To thin", "Seeds in all"],
    plan.choices.map((row) => [
      `${row.perCell}${row.perCell === plan.perCell ? ", as above" : ""}`, fullText(1 - row.empty), ...cells(row),
      ...(row.cells === null ? ["–", "–", "–"] : [averageText(row.emptyCells), averageText(row.thinned), grouped(row.total)]),
    ]));
}
