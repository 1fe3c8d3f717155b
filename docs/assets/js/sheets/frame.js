// What every poster has: title, lead and key above, library, code and sources below. Twin of build_tools/render/sheets/frame.py.

import { heading, line, lines, picture, rect, text } from "./marks.js";

export const MARGIN = 18;
const [TITLE, LEAD, LEADING, KEY] = [24, 7.4, 9.4, 6.4];
const [FOOT, CODE] = [46, 36];
const [SMALL, SMALL_LEADING, SMALL_LINES] = [3.6, 4.5, 4];

/** [title and lead, the y where the rest may begin]. */
export function head(type, sheet, title, lead, page, pages) {
  const width = sheet.width - 2 * MARGIN;
  const words = pages === 1 ? title : `${title} (${page} of ${pages})`;
  const size = type.oneLine(words, TITLE, 600, width);
  const wrapped = type.wrap(lead, LEAD, 400, width);
  const first = MARGIN + 0.72 * size + 12.5;
  return [
    [heading(1, text(MARGIN, MARGIN + 0.72 * size, size, words, { weight: 600 })), lines(MARGIN, first, LEAD, LEADING, wrapped)],
    first + LEADING * (wrapped.length - 1) + 4.5,
  ];
}

/** [swatches with words in a row that wraps, the y below]. */
export function key(type, sheet, y, entries) {
  const marks = [];
  let [x, top] = [MARGIN, y];
  for (const entry of entries) {
    const width = 11 + type.width(entry.words, KEY) + 8;
    if (x + width > sheet.width - MARGIN + 8) [x, top] = [MARGIN, top + 9];
    marks.push(rect(x, top, 9, 6, entry.fill, { hatch: entry.hatch, edge: "rule", edge_width: 0.3 }));
    marks.push(text(x + 11, top + 5.1, KEY, entry.words));
    x += width;
  }
  return [marks, top + 9];
}

/** [library, code and small print, the y above which the rest must end]. */
export function foot(type, sheet, library, smallPrint) {
  const top = sheet.height - MARGIN - FOOT + 4;
  const width = sheet.width - 2 * MARGIN - CODE - 10;
  const name = type.oneLine(library.name, 9, 600, width);
  const where = library.address ? `${library.address} · ${library.site}` : library.site;
  let small = type.wrap(smallPrint, SMALL, 400, width);
  if (small.length > SMALL_LINES) {
    const end = ` … all at ${library.site}`;
    small = [...small.slice(0, SMALL_LINES - 1), type.wrap(small[SMALL_LINES - 1], SMALL, 400, width - type.width(end, SMALL))[0] + end];
  }
  return [[
    line(MARGIN, top, sheet.width - MARGIN, top, 0.5, "ink"),
    text(MARGIN, top + 11, name, library.name, { weight: 600 }),
    text(MARGIN, top + 19, type.oneLine(where, 5.4, 400, width), where),
    lines(MARGIN, top + 26, SMALL, SMALL_LEADING, small, { ink: "soft" }),
    picture(sheet.width - MARGIN - CODE, top + 5, CODE, CODE, "code", `Code to scan: ${library.site}`),
  ], top - 4];
}

/** What the numbers are, for which crops there are none, and the sources. */
export function smallPrint(library, kind, sources, noneFound, missing) {
  const without = missing.length > 0 ? ` ${noneFound}: ${missing.join(", ")}.` : "";
  const named = sources.length > 0 ? ` Sources: ${sources.join("; ")}.` : "";
  const version = [library.version, library.date].filter((words) => words !== "").join(", ");
  return `Data version ${version}. ${kind}${without}${named}`;
}

/** The sources of some entries, each once, in order. */
export const sourcesOf = (entries) => [...new Set(entries.flatMap((entry) => entry.sources))].sort();
