// Pictures of answers, drawn as inline SVG: intervals side by side, and curves.
// Widths are CSS pixels, so that text keeps its size on a phone.

import { draw } from "./element.js";

const ROW = 46;
const LEFT = 14;
const RIGHT = 24;
let count = 0; // pictures made, for ids of their own

function frame(width, height, title, description) {
  count += 1;
  const [titleId, textId] = [`picture-${count}-title`, `picture-${count}-text`];
  return draw("svg", {
    class: "interval-picture", viewBox: `0 0 ${width} ${height}`, role: "img", "aria-labelledby": `${titleId} ${textId}`,
  }, draw("title", { id: titleId }, title), draw("desc", { id: textId }, description));
}

function round(value) {
  return Math.round(value * 10) / 10;
}

function scale(svg, at, y, ticks, label) {
  svg.append(draw("line", { class: "scale", x1: at(ticks[0]), x2: at(ticks.at(-1)), y1: y, y2: y }));
  for (const tick of ticks) {
    svg.append(
      draw("line", { class: "scale", x1: at(tick), x2: at(tick), y1: y, y2: y + 5 }),
      draw("text", { class: "tick", x: at(tick), y: y + 22, "text-anchor": "middle" }, label(tick)),
    );
  }
}

// A name beside a line, on the side where there is room.
function nameAt(svg, x, y, text, width) {
  const leftward = x > width / 2;
  svg.append(draw("text", { class: "mark-name", x: leftward ? x - 5 : x + 5, y, "text-anchor": leftward ? "end" : "start" }, text));
}

/**
 * Intervals under one another on a common scale. `picture` is {title, description, ticks, label(tick),
 * rows: [{name, low, high, at}], marks: [{at, name}]}; `at` may be null where there is a range alone.
 */
export function intervalsPicture({ title, description, ticks, label, rows, marks = [] }, width) {
  const top = marks.length > 0 ? 18 * marks.length : 2;
  const bottom = top + rows.length * ROW + 6;
  const svg = frame(width, bottom + 30, title, description);
  const [from, to] = [ticks[0], ticks.at(-1)];
  const at = (value) => round(LEFT + ((Math.min(to, Math.max(from, value)) - from) / (to - from)) * (width - LEFT - RIGHT));
  marks.forEach((mark, i) => {
    const y = 14 + 18 * i;
    svg.append(draw("line", { class: "mark", x1: at(mark.at), x2: at(mark.at), y1: y - 10, y2: bottom }));
    nameAt(svg, at(mark.at), y, mark.name, width);
  });
  rows.forEach((row, i) => {
    const y = top + i * ROW;
    svg.append(
      draw("text", { class: "row-name", x: LEFT, y: y + 15 }, row.name),
      draw("line", { class: "track", x1: at(from), x2: at(to), y1: y + 31, y2: y + 31 }),
      draw("rect", { class: "range", x: at(row.low), y: y + 24, height: 14, rx: 3, width: Math.max(2, round(at(row.high) - at(row.low))) }),
    );
    if (row.at !== null) svg.append(draw("circle", { class: "estimate", cx: at(row.at), cy: y + 31, r: 6 }));
  });
  scale(svg, at, bottom, ticks, label);
  return svg;
}

/**
 * Curves over a common scale. `picture` is {title, description, xTicks, xLabel(tick), xName, yTicks, yLabel(tick),
 * lines: [{points: [[x, y]], kind: "main" or "second", name, nameAt: index of the point}], dots: [[x, y]], marks: [{x, name}]}.
 */
export function curvePicture({ title, description, xTicks, xLabel, xName, yTicks, yLabel, lines, dots = [], marks = [] }, width) {
  const left = 52;
  const top = 12 + 18 * marks.length;
  const height = Math.round(Math.min(300, Math.max(200, width * 0.5))) + top;
  const bottom = height - 46;
  const svg = frame(width, height, title, description);
  const [x0, x1, y0, y1] = [xTicks[0], xTicks.at(-1), yTicks[0], yTicks.at(-1)];
  const atX = (x) => round(left + ((x - x0) / (x1 - x0)) * (width - left - RIGHT));
  const atY = (y) => round(bottom - ((y - y0) / (y1 - y0)) * (bottom - top));
  for (const tick of yTicks) {
    svg.append(
      draw("line", { class: "track", x1: atX(x0), x2: atX(x1), y1: atY(tick), y2: atY(tick) }),
      draw("text", { class: "tick", x: left - 6, y: atY(tick) + 5, "text-anchor": "end" }, yLabel(tick)),
    );
  }
  scale(svg, atX, bottom, xTicks, xLabel);
  svg.append(draw("text", { class: "tick", x: (left + width - RIGHT) / 2, y: height - 6, "text-anchor": "middle" }, xName));
  marks.forEach((mark, i) => {
    const y = 14 + 18 * i;
    svg.append(draw("line", { class: "mark", x1: atX(mark.x), x2: atX(mark.x), y1: y - 10, y2: bottom }));
    nameAt(svg, atX(mark.x), y, mark.name, width);
  });
  for (const line of lines) {
    svg.append(draw("path", { class: `curve ${line.kind}`, d: `M${line.points.map(([x, y]) => `${atX(x)} ${atY(y)}`).join("L")}` }));
    if (line.name) {
      const [x, y] = line.points[line.nameAt];
      const shift = atX(x) > width - 120 ? -Math.abs(line.shift ?? 8) : line.shift ?? 8; // no room on the right
      svg.append(draw("text", { class: "curve-name", x: atX(x) + shift, y: atY(y) - 8, "text-anchor": shift < 0 ? "end" : "start" }, line.name));
    }
  }
  for (const [x, y] of dots) svg.append(draw("circle", { class: "estimate", cx: atX(x), cy: atY(y), r: 4.5 }));
  return svg;
}

/** Ticks from `from` to at least `to` in steps of 1, 2 or 5 times a power of ten, about `wanted` of them. */
export function niceTicks(from, to, wanted = 5) {
  const rough = (to - from) / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((size) => size >= rough - 1e-9);
  const ticks = [from];
  while (ticks.at(-1) < to - 1e-9) ticks.push(Math.round((from + ticks.length * step) * 1e6) / 1e6);
  return ticks;
}

/** 0, 20 … 100 % as fractions, and their label. */
export const PERCENT_TICKS = [0, 0.2, 0.4, 0.6, 0.8, 1];
export function percentLabel(fraction) {
  return fraction === 1 ? "100 %" : String(Math.round(fraction * 100));
}
