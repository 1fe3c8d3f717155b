// Labels for packets of tested lots. Twin of build_tools/render/sheets/labels.py.

import { inside, place } from "./label_sheets.js";
import { group, lines, rect, text } from "./marks.js";

const LEADING = 1.24;
const [NAME, MOST_NAME] = [0.19, 7];
const [BODY, LEAST_BODY, MOST_BODY] = [0.105, 2, 2.9];
const LARGER = [1.6, 1.45, 1.3, 1.15];

const inUnits = (said, units) => (units === "both" ? `${said.c} °C (${said.f.replace(/^near /, "")} °F)` : `${said[units.toLowerCase()]} °${units}`);

/** "sow in soil above 10 °C, best at 15.5–29.5 °C"; "" when neither is known. */
export function warmthWords(band, units) {
  if (band === null) return "";
  const best = band.said[1];
  return [["sow in soil above", band.sow], [best.c.includes("near") ? "best" : "best at", best]].filter(([, said]) => said.c !== "–")
    .map(([words, said]) => `${words} ${inUnits(said, units)}`).join(", ").replaceAll(" °", "\u00a0°"); // a number and its unit stay on one line
}

/** [name, result, the rest in order of need] of a lot's results. */
export function labelWords(row, warmth, library) {
  const tested = row.tested !== "";
  const result = tested ? `${row.percent} % (${row.low}–${row.high} %) of ${row.seeds} seed${row.seeds === "1" ? "" : "s"}` : "not tested";
  const rest = [
    `lot ${row.lot}${tested ? `, tested ${row.tested}` : ""}`,
    tested ? [row.verdict, row.next_test ? `next test ${row.next_test}` : ""].filter((words) => words !== "").join("; ") : "",
    warmth,
    row.harvested ? `harvested ${row.harvested}` : "",
    library,
  ];
  return [row.variety ? `${row.crop}, ${row.variety}` : row.crop, result, rest.filter((words) => words !== "")];
}

// [marks, what is said] of a label in one type size; what does not fit is left out.
function set(type, sheet, [name, result, rest], x, y, size) {
  const [freeX, freeY] = inside(sheet);
  const [width, bottom] = [sheet.width - 2 * freeX, y + sheet.height - freeY];
  const [names, nameSize] = type.name(name, Math.min(sheet.height * NAME, MOST_NAME), 600, width);
  let at = y + freeY + 0.74 * nameSize;
  const marks = [lines(x + freeX, at, nameSize, nameSize * 1.06, names, { weight: 600 })];
  at += nameSize * 1.06 * (names.length - 1) + size * LEADING * 1.08;
  marks.push(text(x + freeX, at, type.oneLine(result, size * 1.08, 600, width), result, { weight: 600 }));
  const said = [name, result];
  for (const more of rest) {
    const wrapped = type.wrap(more, size, 400, width);
    if (at + size * LEADING * wrapped.length + size * 0.22 > bottom || wrapped.some((line) => type.width(line, size) > width)) continue;
    marks.push(lines(x + freeX, at + size * LEADING, size, size * LEADING, wrapped));
    at += size * LEADING * wrapped.length;
    said.push(more);
  }
  return [marks, said];
}

function label(type, sheet, words, x, y, outline) {
  const usual = Math.min(Math.max(sheet.height * BODY, LEAST_BODY), MOST_BODY);
  let made = null;
  for (const size of [...LARGER.map((more) => usual * more), usual]) {
    made = set(type, sheet, words, x, y, size);
    if (made[1].length === 2 + words[2].length) break;
  }
  const edge = outline ? [rect(x, y, sheet.width, sheet.height, null, { edge: "rule", edge_width: 0.2 })] : [];
  return group(made[1].join("; "), [...edge, ...made[0]]);
}

/** Pages of labels, each `copies` times, from label `start` (1 is the first) of the first sheet on. */
export function labelPages(type, sheet, labels, { start = 1, copies = 1, outline = false } = {}) {
  const count = sheet.columns * sheet.rows;
  const pages = [];
  labels.flatMap((words) => Array(copies).fill(words)).forEach((words, i) => {
    const number = i + start - 1;
    const page = Math.floor(number / count);
    while (pages.length <= page) pages.push([]);
    pages[page].push(label(type, sheet, words, ...place(sheet, number % count), outline));
  });
  return pages;
}
