// The season as a timeline: a row for each lot, a bar for each window, lines for the frosts. Inline SVG.
// Bars differ in lightness and hatch and carry a letter; colour alone says nothing.

import { dateRange, dateText, monthName } from "../../date_words.js";
import { daysBetween } from "../../science/sowing_times.js";
import { draw, element } from "../element.js";
import { named } from "./events.js";

const [LEFT, RIGHT] = [4, 8];
const LABEL = 18; // px of a row of names of lines
const [NAME, BAR, THIN, GAP] = [20, 16, 5, 4];
const BARS = { test: "T", "sow-indoors": "I", "plant-out": "P", "sow-outdoors": "O" };
const THIN_BARS = ["look-indoors", "look-outdoors"];
const LETTER_ROOM = 13; // px: a narrower bar has its letter beside it
const MONTH_ROOM = 34;
const LETTER = 7.6; // px of a letter of a name, on the wide side
const WIDE = 560; // px from which the autumn frost is shown even far from the last task
let count = 0; // pictures made, for ids of their own

/** The key to the bars, as a list. */
export function key({ tasks }) {
  const used = new Set(tasks.map(({ task }) => task));
  const names = { test: "germination test", "sow-indoors": "sow indoors", "plant-out": "plant out", "sow-outdoors": "sow outdoors" };
  const items = Object.entries(names).filter(([task]) => used.has(task))
    .map(([task, text]) => item(task, `${BARS[task]}: ${text}`));
  if (THIN_BARS.some((task) => used.has(task))) items.push(item("look", "thin line: look for seedlings"));
  return element("ul", "timeline-key", ...items);
}

function item(task, text) {
  count += 1;
  const svg = draw("svg", { class: "timeline", viewBox: "0 0 30 16", width: 30, height: 16, "aria-hidden": "true" }, hatch(`hatch-${count}`));
  if (task === "look") svg.append(draw("rect", { class: "bar seek", x: 1, y: 6, width: 28, height: THIN }));
  else svg.append(...bar(task, 1, 0, 28, `hatch-${count}`));
  return element("li", "", svg, text);
}

function hatch(id) {
  return draw("defs", {}, draw("pattern", { id, width: 5, height: 5, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
    draw("rect", { class: "hatch-ground", width: 5, height: 5 }), draw("line", { class: "hatch-line", x1: 0, x2: 0, y1: 0, y2: 5 })));
}

function bar(task, x, y, width, id) {
  const room = width >= LETTER_ROOM;
  return [
    draw("rect", { class: `bar ${task}`, x, y: y + 0.5, width, height: BAR - 1, ...(task === "plant-out" ? { fill: `url(#${id})` } : {}) }),
    draw("text", { class: `letter${room ? ` on-${task}` : ""}`, x: room ? x + width / 2 : x + width + 2, y: y + 12.5, "text-anchor": room ? "middle" : "start" }, BARS[task]),
  ];
}

/** SVG of some lots of an answer, `width` in CSS pixels so that its text keeps its size; all lots of an answer have the same days. */
export function timeline(answer, lots, width) {
  count += 1;
  const ids = ["title", "text", "hatch"].map((name) => `timeline-${count}-${name}`);
  const { season, values } = answer;
  const shown = answer.tasks.filter(({ task }) => task in BARS || THIN_BARS.includes(task));
  const days = [...shown.flatMap(({ first, last }) => [first, last]), season.last];
  if (width >= WIDE) days.push(season.first);
  const [from, to] = [days.reduce((a, b) => (a < b ? a : b)), days.reduce((a, b) => (a > b ? a : b))];
  const scale = (width - LEFT - RIGHT) / (daysBetween(from, to) + 1);
  const at = (day) => Math.round((LEFT + daysBetween(from, day) * scale) * 10) / 10;
  const marks = [];
  const parts = [];
  const lines = lineNames([[season.last, "average last frost"], [season.first, "average first frost"], [values.today, "today"]]
    .filter(([day]) => day >= from && day <= to).map(([day, name]) => ({ at: at(day), name, frost: name !== "today" })), width);
  const top = 8 + LABEL * Math.max(2, ...lines.map(({ row }) => row + 1));
  let y = top;
  for (const lot of lots) {
    parts.push(draw("text", { class: "row-name", x: LEFT, y: y + 15 }, cut(named(lot), (width - LEFT - RIGHT) / LETTER)));
    y += NAME;
    for (const lane of lanesOf(lot.plan)) {
      for (const task of lane) {
        const [first, last] = lot.plan[task];
        const [x, w] = [at(first), Math.max(2, Math.round((daysBetween(first, last) + 1) * scale * 10) / 10)];
        if (task in BARS) parts.push(...bar(task, x, y, w, ids[2]));
        else parts.push(draw("rect", { class: "bar seek", x, y: y + BAR + 2, width: w, height: THIN }));
      }
      y += BAR + GAP + (lane.some((task) => THIN_BARS.includes(task)) ? THIN + 2 : 0);
    }
    y += GAP;
    marks.push(draw("line", { class: "track", x1: LEFT, x2: width - RIGHT, y1: y - 2, y2: y - 2 }));
  }
  const svg = draw("svg", { class: "interval-picture timeline", viewBox: `0 0 ${width} ${y + 24}`, role: "img", "aria-labelledby": `${ids[0]} ${ids[1]}` },
    draw("title", { id: ids[0] }, `Sowing calendar of ${values.place}, ${dateRange([from, to])}`),
    draw("desc", { id: ids[1] }, describe(answer, lots)), hatch(ids[2]));
  svg.append(...months(from, to, at, [top, y], scale, width), ...marks);
  for (const line of lines) {
    svg.append(draw("line", { class: line.frost ? "mark frost" : "mark", x1: line.at, x2: line.at, y1: 4 + LABEL * line.row, y2: y }),
      draw("text", { class: "mark-name", x: line.at + (line.left ? -5 : 5), y: 15 + LABEL * line.row, "text-anchor": line.left ? "end" : "start" }, line.name));
  }
  svg.append(...parts);
  return svg;
}

// Each name on the first row where neither another name nor another line is in its way.
function lineNames(lines, width) {
  const placed = [];
  for (const line of lines) {
    const size = line.name.length * LETTER + 10;
    const places = (line.frost ? [0, 1, 2] : [1, 2]).flatMap((row) => [line.at > width / 2, line.at <= width / 2].map((left) => ({
      ...line, row, left, start: left ? line.at - size : line.at, end: left ? line.at : line.at + size,
    }))).filter(({ start, end }) => start >= 0 && end <= width);
    const apart = ({ row, start, end }) => placed.every((other) => other.row !== row || start >= other.end || other.start >= end);
    // A line runs down from its own name: the names below stay beside it, and those to come leave this one free.
    const clear = ({ row, start, end }) => lines.every((other) => other.at === line.at || other.at <= start || other.at >= end
      || (placed.find(({ name }) => name === other.name)?.row ?? (other.frost ? 0 : 1)) > row);
    placed.push(places.find((place) => apart(place) && clear(place)) ?? places.find(apart) ?? places.at(-1) ?? { ...line, row: 0, left: false, start: line.at, end: line.at + size });
  }
  return placed;
}

// The table has the whole name.
function cut(text, most) {
  const letters = [...text];
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join("")}…`;
}

// Two lanes, so that what is done indoors and in the bed does not overlap; the test stands in the first.
function lanesOf(plan) {
  const indoors = ["sow-indoors", "look-indoors", "plant-out"].filter((task) => plan[task]);
  const outdoors = ["sow-outdoors", "look-outdoors"].filter((task) => plan[task]);
  const lanes = [indoors, outdoors].filter((lane) => lane.length > 0);
  if (plan.test) lanes[0].unshift("test");
  return lanes;
}

// The first of each month; names only as close as they can stand.
function months(from, to, at, [top, y], scale, width) {
  const found = [];
  const every = Math.max(1, Math.ceil(MONTH_ROOM / (30.4 * scale)));
  let [year, month] = from.split("-").map(Number);
  for (let i = 0; ; i += 1) {
    month += 1;
    if (month > 12) [year, month] = [year + 1, 1];
    const day = `${year}-${String(month).padStart(2, "0")}-01`;
    if (day > to) break;
    found.push(draw("line", { class: "month", x1: at(day), x2: at(day), y1: top, y2: y }));
    if (i % every === 0 && at(day) + MONTH_ROOM <= width) found.push(draw("text", { class: "tick", x: at(day) + 2, y: y + 16 }, monthName(month, "short")));
  }
  return found;
}

function describe({ data, season }, lots) {
  const rows = lots.map((lot) => {
    const told = Object.keys(lot.plan).filter((task) => task in BARS || THIN_BARS.includes(task))
      .map((task) => `${data.tasks[task]} ${dateRange(lot.plan[task], "short")}`);
    return `${named(lot)}: ${told.length > 0 ? told.join(", ") : "no windows published here"}.`;
  });
  return `A row for each crop. ${rows.join(" ")} Frost lines: average last frost ${dateText(season.last)}, average first frost ${dateText(season.first)}.`;
}
