// Marks to SVG: what sheet.typ does for paper, for the screen and the browser's printer.

import { draw } from "../calculators/element.js";

export const TYPEFACE = "Source Sans Pro";
let pages = 0; // patterns need ids of their own on every page

function hatchings(palette, prefix) {
  const pattern = (name, path) => draw("pattern", { id: `${prefix}-${name}`, width: 2.4, height: 2.4, patternUnits: "userSpaceOnUse" }, draw("path", { d: path, stroke: palette.line, "stroke-width": 0.3 }));
  return draw("defs", {}, pattern("rising", "M0 2.4L2.4 0"), pattern("falling", "M0 0L2.4 2.4"));
}

// A picture's SVG as an element of its own size; it comes from our own page, not from a reader.
function pictureOf(mark, source) {
  const parsed = new DOMParser().parseFromString(source, "image/svg+xml").documentElement;
  const box = parsed.getAttribute("viewBox") ?? `0 0 ${parsed.getAttribute("width")} ${parsed.getAttribute("height")}`;
  return draw("svg", { x: mark.x, y: mark.y, width: mark.width, height: mark.height, viewBox: box, role: "img", "aria-label": mark.alt }, ...[...parsed.childNodes].map((node) => document.importNode(node, true)));
}

/** One page of marks as SVG; `sheet` {width, height, scale}, `look` {palette, pictures: name → SVG text}. */
export function drawPage(marks, sheet, look, title) {
  const prefix = `sheet-${(pages += 1)}`;
  const paint = (name) => (name ? look.palette[name] : "none");
  const type = (mark) => ({ "font-size": mark.size, "font-weight": mark.weight, "text-anchor": mark.anchor, fill: paint(mark.ink) });
  const makers = {
    text: (m) => draw("text", { x: m.x, y: m.y, ...type(m) }, m.text),
    lines: (m) => draw("text", { y: m.y, ...type(m) }, ...m.lines.map((words, i) => draw("tspan", { x: m.x, y: m.y + i * m.leading }, i < m.lines.length - 1 ? `${words} ` : words))),
    rect: (m) => {
      const place = { x: m.x, y: m.y, width: m.width, height: m.height };
      const plain = draw("rect", { ...place, fill: paint(m.fill), ...(m.edge ? { stroke: paint(m.edge), "stroke-width": m.edge_width } : {}) });
      return m.hatch ? draw("g", {}, plain, draw("rect", { ...place, fill: `url(#${prefix}-${m.hatch})` })) : plain;
    },
    line: (m) => draw("line", { x1: m.x1, y1: m.y1, x2: m.x2, y2: m.y2, stroke: paint(m.ink), "stroke-width": m.width, ...(m.dashed ? { "stroke-dasharray": "1.5 1.5" } : {}) }),
    polygon: (m) => draw("polygon", { points: m.points.map((p) => p.join(",")).join(" "), fill: paint(m.fill) }),
    picture: (m) => pictureOf(m, look.pictures[m.name]),
    group: (m) => draw("g", { role: "img", "aria-label": m.alt }, ...m.marks.map(one)),
  };
  function one(mark) {
    return makers[mark.mark](mark);
  }
  return draw("svg", {
    class: "sheet-page", viewBox: `0 0 ${sheet.width} ${sheet.height}`, width: `${sheet.width * sheet.scale}mm`, height: `${sheet.height * sheet.scale}mm`,
    "font-family": `${TYPEFACE}, sans-serif`, role: "group", "aria-label": title,
  }, hatchings(look.palette, prefix), draw("rect", { width: sheet.width, height: sheet.height, fill: paint("paper") }), ...marks.map(one));
}
