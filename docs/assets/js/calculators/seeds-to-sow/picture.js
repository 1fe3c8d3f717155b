// Pictures of a sowing: the chance of enough plants by seeds sown, and the cells that fill.

import { grouped } from "../fields.js";
import { element } from "../element.js";
import { chanceText } from "../format.js";
import { PERCENT_TICKS, curvePicture, intervalsPicture, niceTicks, percentLabel } from "../pictures.js";
import { averageText, foundText, plantsText, rangeText, seedsText } from "./words.js";

/** Chance of enough plants, after the test and with the percentage known. */
export function chancePicture(answer, width) {
  const { plan, values, k, n } = answer;
  const { curve, plants, seeds } = plan;
  const last = curve.at(-1).seeds;
  const step = niceTicks(0, last - plants, Math.min(5, last - plants));
  const from = Math.floor(plants / step[1]) * step[1];
  const tested = values.known === "packet" ? "with what an official test leaves open" : `after a test of ${grouped(k)} of ${grouped(n)}`;
  const at = curve.find((point) => point.seeds >= seeds) ?? curve.at(-1);
  const certain = `if ${foundText(answer)} were certain`;
  const svg = curvePicture({
    title: `Chance of ${plantsText(plants)} or more, by seeds sown`,
    description: `Solid line: ${tested}, ${seedsText(plants)} ${chanceText(curve[0].tested)}, ${seedsText(at.seeds)} ${chanceText(at.tested)}.${plan.known === null ? "" : ` Dashed line: ${certain}, ${seedsText(plan.known)} ${Math.round(values.certainty * 100)} %.`}`,
    xTicks: niceTicks(from, last, Math.min(5, last - from)), xLabel: grouped, xName: "seeds sown",
    yTicks: PERCENT_TICKS, yLabel: percentLabel,
    lines: [
      { kind: "second", points: curve.map((point) => [point.seeds, point.known]) },
      { kind: "main", points: curve.map((point) => [point.seeds, point.tested]) },
    ],
    marks: [{ x: seeds, name: `${seedsText(seeds)}, ${Math.round(values.certainty * 100)} %` }],
  }, width);
  // Names beside curves that run so close would lie on them.
  return element("div", "", svg, element("p", "picture-note", `Chance of ${plantsText(plants)} or more. Solid line: ${tested}. Dashed: ${certain}.`));
}

/** Cells that hold a plant, by seeds in each. */
export function cellsPicture({ plan }, width) {
  const { cells, filled, plants } = plan;
  const name = (row) => `${seedsText(row.perCell)} a cell: ${averageText(row.mean)} (${rangeText(row.range)})`;
  return intervalsPicture({
    title: `Cells that hold a plant, of ${grouped(cells)}`,
    description: `${filled.map(name).join(". ")}. Ranges hold nine cases of ten.`,
    ticks: niceTicks(0, cells, Math.min(5, cells)), label: grouped,
    rows: filled.map((row) => ({ name: name(row), low: row.range[0], high: row.range[1], at: row.mean })),
    marks: plants !== null && plants <= cells ? [{ at: plants, name: `${grouped(plants)} wanted` }] : [],
  }, width);
}
