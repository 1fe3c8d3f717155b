// Pictures: what the lot is expected to do over the years in both stores, or how far rules of thumb set the stores apart.

import { element } from "../element.js";
import { PERCENT_TICKS, curvePicture, intervalsPicture, niceTicks, percentLabel } from "../pictures.js";
import { expectedText, percentText, timesText, yearsText } from "./words.js";

const BAND = ["second-band", "band"];
const LETTER = 7.6; // px, a generous average at the size of names
const LINE = ["second", "main"];

/** Expected percentage over the years, with the range of the test. */
export function curves({ values, curves: drawn, tests }, width) {
  const { stores, years, confidence, k, n, line } = values;
  const sure = `${Math.round(confidence * 100)} %`;
  const found = tests[values.set];
  const last = drawn[0].at(-1).x;
  const ends = (curve) => [...curve.map((p) => [p.x, p.low]), ...[...curve].reverse().map((p) => [p.x, p.high])];
  const svg = curvePicture({
    title: `Expected percentage over the years, from ${k} of ${n}`,
    description: `${stores.map((store, i) => `${store.name}, ${i === 0 ? "dashed" : "solid"}: after ${yearsText(years)} ${expectedText(found[i].after)}`).join(". ")}. Lending line ${percentText(line)}.`,
    xTicks: niceTicks(0, last, 5), xLabel: String, xName: "years from the test",
    yTicks: PERCENT_TICKS, yLabel: percentLabel,
    lines: [
      ...drawn.map((curve, i) => ({ kind: BAND[i], points: ends(curve) })),
      { kind: "lending", points: [[0, line], [niceTicks(0, last, 5).at(-1), line]] },
      ...drawn.map((curve, i) => ({ kind: LINE[i], points: curve.map((p) => [p.x, p.mid]) })),
    ],
    marks: [{ x: years, name: yearsText(years) }],
  }, width);
  return element("div", "storage-picture", svg, element("p", "picture-note", `Solid: ${stores[1].name}. Dashed: ${stores[0].name}. Shaded: the ${sure} range of the test. Dotted: lending line.`));
}

// A name that would leave the picture; it stands whole in the description and in the text below.
function cut(name, width) {
  const most = Math.floor((width - 40) / LETTER);
  return name.length > most ? `${name.slice(0, most - 1).trimEnd()}…` : name;
}

/** Published years by family of tables; null where there are none. */
export function publishedYears({ values }, data, width) {
  const { crop } = values;
  // Years first: what is cut off at the edge is the end of a name.
  const told = ([label, low, high, counts]) => `${low === high ? yearsText(low) : `${low}–${yearsText(high)}`}${counts ? "" : " (not counted)"}: ${data.families[label]}`;
  const rows = crop.years.map((years) => ({ name: cut(told(years), width), low: years[1], high: years[2], at: years[1] === years[2] ? years[1] : null }));
  return intervalsPicture({
    title: `Published seed life of ${crop.name}`,
    description: `${crop.years.map(told).join(". ")}.`,
    ticks: niceTicks(0, Math.max(...rows.map((row) => row.high)), 5), label: (years) => `${years}`,
    rows, marks: crop.life === null ? [] : [{ at: crop.life[0], name: `used here ${yearsText(crop.life[0])}` }],
  }, width);
}

/** How many times as long by the rules of thumb. */
export function thumbPicture({ thumb }, width) {
  const rows = [["Temperature", thumb.temperature], ["Moisture", thumb.moisture], ["Both", thumb.both]].filter(([, times]) => times !== null)
    .map(([name, times]) => ({ name: `${name}: ${timesText([times, times])}`, low: Math.min(1, times), high: Math.max(1, times), at: times }));
  return intervalsPicture({
    title: "Second store against the first, by rules of thumb",
    description: `${rows.map((row) => row.name).join(". ")}. 1 is the first store.`,
    ticks: niceTicks(0, Math.max(2, ...rows.map((row) => Math.min(row.at, 100))), 5), label: (times) => `${times}`,
    rows, marks: [{ at: 1, name: "first store" }],
  }, width);
}
