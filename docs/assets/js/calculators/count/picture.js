// The interval as a picture: one bar on a scale from 0 to 100 %, drawn as inline SVG.

import { draw } from "../element.js";
import { percentOfCount, percentRange } from "../format.js";

const HEIGHT = 112;
const BAR_Y = 52;
const SCALE_Y = 78;

/** SVG element for an answer, `width` in CSS pixels so that its text keeps its size. */
export function picture(answer, width) {
  const left = 14;
  const right = width - 22;
  const at = (fraction) => Math.round((left + fraction * (right - left)) * 10) / 10;
  const [low, high] = answer.wilson;
  const [outerLow, outerHigh] = answer.guaranteed;
  const share = answer.k / answer.n;
  const svg = draw("svg", {
    class: "interval-picture", viewBox: `0 0 ${width} ${HEIGHT}`, role: "img",
    "aria-labelledby": "interval-title interval-text",
  });
  svg.append(
    draw("title", { id: "interval-title" }, "Germination of the lot, percentage and range"),
    draw("desc", { id: "interval-text" }, describe(answer)),
    draw("line", { class: "scale", x1: at(0), x2: at(1), y1: SCALE_Y, y2: SCALE_Y }),
  );
  for (const tick of [0, 20, 40, 60, 80, 100]) {
    const x = at(tick / 100);
    svg.append(
      draw("line", { class: "scale", x1: x, x2: x, y1: SCALE_Y, y2: SCALE_Y + 5 }),
      draw("text", { class: "tick", x, y: SCALE_Y + 22, "text-anchor": "middle" },
        tick === 100 ? "100 %" : String(tick)),
    );
  }
  svg.append(
    draw("line", { class: "outer", x1: at(outerLow), x2: at(outerHigh), y1: BAR_Y, y2: BAR_Y }),
    draw("rect", {
      class: "range", x: at(low), y: BAR_Y - 8, height: 16, rx: 3,
      width: Math.max(2, at(high) - at(low)),
    }),
    draw("circle", { class: "estimate", cx: at(share), cy: BAR_Y, r: 6 }),
  );
  marks(answer).forEach(({ percent, name }, i) => {
    const x = at(percent / 100);
    const leftward = x > width / 2;
    const y = i === 0 ? 12 : 28;
    svg.append(
      draw("line", { class: "mark", x1: x, x2: x, y1: y - 10, y2: SCALE_Y }),
      draw("text", { class: "mark-name", x: leftward ? x - 5 : x + 5, y,
        "text-anchor": leftward ? "end" : "start" }, `${name} ${percent} %`),
    );
  });
  return svg;
}

// Lines to compare with; one mark where both lie at the same percentage.
function marks({ minimum, lending }) {
  if (minimum !== null && lending !== null && minimum.percent === lending.percent) {
    return [{ percent: minimum.percent, name: "official minimum and lending line" }];
  }
  const found = [];
  if (minimum !== null) found.push({ percent: minimum.percent, name: "official minimum" });
  if (lending !== null) found.push({ percent: lending.percent, name: "lending line" });
  return found;
}

function describe(answer) {
  const { k, n, wilson, guaranteed } = answer;
  const lines = marks(answer).map(({ percent, name }) => `${name} at ${percent} %`);
  const drawn = `Dot at ${percentOfCount(k, n)}, thick bar ${percentRange(wilson, n)}, thin line (guaranteed) ${percentRange(guaranteed, n)}`;
  return lines.length > 0 ? `${drawn}. Marked: ${lines.join(", ")}.` : `${drawn}.`;
}
