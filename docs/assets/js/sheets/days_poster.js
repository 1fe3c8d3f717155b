// The poster of days to emergence. Twin of build_tools/render/sheets/days_poster.py.

import { GAP, LEAST_ROW } from "./columns.js";
import { MARGIN, foot, head, key, smallPrint, sourcesOf } from "./frame.js";
import { group, line, rect, text } from "./marks.js";
import { TICK, nameMarks, unitsOf } from "./rows_poster.js";

const TITLE = "How many days until seedlings are up?";
const LEAD = "Days measured from sowing until seedlings come up, in soil kept at one temperature, sown half an inch (13 mm) deep. Darker is sooner. On the right, days as advised or recorded.";
const KIND = "“none” = no germination, “–” = not tested, “?” = the printed number is in doubt.";
const [MOST_MEASURED, LEAST_ADVISED, MOST_ADVISED] = [34, 6.2, 20];
const HEAD = 16;
const SHADE_INK = ["ink", "on-days-1", "on-days-2", "on-days-3", "on-days-4", "on-days-5"];

function shadeKey(data) {
  const lasts = data.shades;
  return Array.from({ length: lasts.length + 1 }, (_, i) => ({
    words: i === 0 ? `up to ${lasts[0]} days` : i === lasts.length ? `over ${lasts.at(-1)}` : `${lasts[i - 1] + 1}–${lasts[i]}`,
    fill: `days-${i + 1}`, hatch: "",
  }));
}

function parts(sheet, crops, height) {
  const measured = crops.filter((crop) => crop.days !== null && crop.days.cells.length > 0);
  const advised = crops.filter((crop) => crop.days !== null && crop.days.cells.length === 0);
  const width = sheet.width - 2 * MARGIN;
  const both = measured.length > 0 && advised.length > 0;
  const share = both ? 0.62 : measured.length > 0 ? 1 : 0;
  const left = (advised.length > 0 ? width - GAP : width) * share;
  const pages = Math.max(1, Math.ceil((measured.length * LEAST_ROW) / height), Math.ceil((advised.length * LEAST_ADVISED) / height));
  const rows = [measured, advised].map((part) => Math.max(1, Math.ceil(part.length / pages)));
  return { measured, advised, left, right: width - left - (both ? GAP : 0), gap: both ? GAP : 0, pages, rows, row: [Math.min(MOST_MEASURED, height / rows[0]), Math.min(MOST_ADVISED, height / rows[1])] };
}

function measuredHead(data, units, x0, top, width) {
  const cell = (width * 0.68) / Math.max(1, data.tested.length);
  const shown = unitsOf(units);
  return data.tested.flatMap((tested, index) => shown.map((unit, number) => text(
    x0 + width * 0.32 + cell * (index + 0.5), top - 2.5 - 6.6 * (shown.length - 1 - number), TICK + (shown.length === 1 ? 0.8 : 0), `${tested[unit]} °${unit.toUpperCase()}`,
    { anchor: "middle", ink: number > 0 ? "soft" : "ink" },
  )));
}

function measuredRow(type, data, units, crop, x0, y, width, row) {
  const cell = (width * 0.68) / data.tested.length;
  const cells = new Map(crop.days.cells.map((entry) => [entry[0], entry]));
  const marks = [nameMarks(type, crop.name, x0, y, row, width * 0.31)];
  const said = [];
  data.tested.forEach((tested, index) => {
    if (!cells.has(tested.c)) return;
    const [, shade, words] = cells.get(tested.c);
    const left = x0 + width * 0.32 + cell * index;
    const weight = shade > 0 ? 600 : 400;
    const size = type.oneLine(words, row * (shade > 0 ? 0.62 : 0.42), weight, cell - 1.5);
    if (shade > 0) marks.push(rect(left + 0.3, y + 0.4, cell - 0.6, row - 0.8, `days-${shade}`));
    marks.push(text(left + cell / 2, y + row / 2 + 0.33 * size, size, words, { weight, anchor: "middle", ink: SHADE_INK[shade] }));
    if (shade > 0 || words.startsWith("none")) {
      const at = unitsOf(units).map((unit) => `${tested[unit]} °${unit.toUpperCase()}`).join(" or ");
      said.push(`${words}${shade > 0 ? " days" : ""} at ${at}`);
    }
  });
  marks.push(line(x0, y + row, x0 + width, y + row, 0.2, "rule"));
  return group(`${crop.name}: ${said.join(", ")}`, marks);
}

function usualWords(usual, units) {
  if (usual.at === null) return `${usual.days} days`;
  const warmth = units === "both" ? `${usual.at.c} °C (${usual.at.f} °F)` : `${usual.at[units.toLowerCase()]} °${units}`;
  return `${usual.days} days at ${warmth}`;
}

function advisedRow(type, units, crop, x0, y, width, row) {
  const words = usualWords(crop.days.usual, units);
  const size = type.oneLine(words, row * 0.66, 400, width * 0.56);
  return group(`${crop.name}: ${words}`, [
    nameMarks(type, crop.name, x0, y, row, width * 0.42),
    text(x0 + width, y + row / 2 + 0.33 * size, size, words, { anchor: "end" }),
    line(x0, y + row, x0 + width, y + row, 0.2, "rule"),
  ]);
}

/** The pages of the poster. */
export function daysPages(type, sheet, data, units, crops) {
  const small = smallPrint(data.library, KIND, sourcesOf(crops.filter((crop) => crop.days !== null).map((crop) => crop.days)), "No published days", crops.filter((crop) => crop.days === null).map((crop) => crop.name));
  const [feet, bottom] = foot(type, sheet, data.library, small);
  const [, under] = head(type, sheet, TITLE, LEAD, 1, 1);
  const [keys, y] = key(type, sheet, under, shadeKey(data));
  const top = y + HEAD;
  const plan = parts(sheet, crops, bottom - top);
  return Array.from({ length: plan.pages }, (_, page) => {
    const [heads] = head(type, sheet, TITLE, LEAD, page + 1, plan.pages);
    const measured = plan.measured.slice(page * plan.rows[0], (page + 1) * plan.rows[0]);
    const advised = plan.advised.slice(page * plan.rows[1], (page + 1) * plan.rows[1]);
    const x0 = MARGIN + plan.left + plan.gap;
    return [
      ...heads, ...keys,
      ...(measured.length > 0 ? measuredHead(data, units, MARGIN, top, plan.left) : []),
      ...measured.map((crop, index) => measuredRow(type, data, units, crop, MARGIN, top + index * plan.row[0], plan.left, plan.row[0])),
      ...(advised.length > 0 ? [text(x0, top - 2.5, TICK + 0.8, "As advised or recorded", { weight: 600 })] : []),
      ...advised.map((crop, index) => advisedRow(type, units, crop, x0, top + index * plan.row[1], plan.right, plan.row[1])),
      ...feet,
    ];
  });
}
