// The year of the soil as a picture: curve, band of doubt, the crop's minimum and best range.

import { monthName } from "../../date_words.js";
import { draw } from "../element.js";
import { temperatureRange } from "../temperature.js";
import { temperatureText } from "../format.js";
import { niceTicks } from "../pictures.js";
import { cellText, depthText } from "./words.js";

const [LEFT, RIGHT, TOP] = [52, 14, 14];
const STARTS = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
let made = 0;

/** SVG element of an answer, `width` in CSS pixels. */
export function picture(answer, width) {
  const { soil: { year, band }, chosen, values: { unit, series } } = answer;
  made += 1;
  const height = Math.round(Math.min(340, Math.max(240, width * 0.5)));
  const bottom = height - 44;
  const shown = (celsius) => (unit === "f" ? (celsius * 9) / 5 + 32 : celsius);
  const crop = chosen?.crop ?? {};
  const known = [...year.keys()].filter((day) => year[day] !== null);
  const all = [...known.flatMap((day) => [year[day] + band.low[day], year[day] + band.high[day]]), ...[crop.minimum, crop.low, crop.high].filter((t) => t !== undefined)].map(shown);
  const ticks = roundTicks(Math.min(...all), Math.max(...all), unit === "f" ? 10 : 5);
  const x = (day) => round(LEFT + (day / 365) * (width - LEFT - RIGHT));
  const y = (celsius) => round(bottom - ((shown(celsius) - ticks[0]) / (ticks.at(-1) - ticks[0])) * (bottom - TOP));
  const ids = [`soil-title-${made}`, `soil-text-${made}`];
  const svg = draw("svg", { class: "interval-picture soil-picture", viewBox: `0 0 ${width} ${height}`, role: "img", "aria-labelledby": ids.join(" ") },
    draw("title", { id: ids[0] }, `Soil temperature at ${depthText(answer.values)} through the year`),
    draw("desc", { id: ids[1] }, description(answer, known)));
  if (crop.low !== undefined && crop.high !== undefined) {
    svg.append(draw("rect", { class: "soil-best", x: LEFT, width: width - LEFT - RIGHT, y: y(crop.high), height: Math.max(1, round(y(crop.low) - y(crop.high))) }));
  }
  axes(svg, { ticks, unit, width, bottom, x, yOfShown: (value) => y(unit === "f" ? ((value - 32) * 5) / 9 : value) });
  for (const days of stretches(known)) {
    const upper = days.map((day) => `${x(day + 0.5)} ${y(year[day] + band.high[day])}`);
    const lower = days.map((day) => `${x(day + 0.5)} ${y(year[day] + band.low[day])}`).reverse();
    svg.append(
      draw("path", { class: "soil-band", d: `M${[...upper, ...lower].join("L")}Z` }),
      draw("path", { class: "curve main", d: `M${days.map((day) => `${x(day + 0.5)} ${y(year[day])}`).join("L")}` }),
    );
  }
  if (crop.minimum !== undefined) {
    svg.append(draw("line", { class: "mark", x1: LEFT, x2: width - RIGHT, y1: y(crop.minimum), y2: y(crop.minimum) }));
    name(svg, LEFT + 6, y(crop.minimum) - 5, `minimum ${temperatureText(crop.minimum, unit)}`);
  }
  if (crop.low !== undefined && crop.high !== undefined) name(svg, LEFT + 6, y(crop.high) + 16, `best range ${temperatureRange(crop.low, crop.high, unit)}`);
  svg.append(draw("text", { class: "tick", x: (LEFT + width - RIGHT) / 2, y: height - 6, "text-anchor": "middle" }, series.full ? "month; shaded: where soil may lie" : "month; only the days of the record are drawn"));
  return svg;
}

// Ticks on multiples of their own step.
function roundTicks(least, most, finest) {
  const [first, second] = niceTicks(Math.floor(least / finest) * finest, most);
  const step = Math.max(finest, second - first);
  const ticks = [Math.floor(least / step) * step];
  while (ticks.at(-1) < most) ticks.push(ticks.at(-1) + step);
  return ticks;
}

function round(value) {
  return Math.round(value * 10) / 10;
}

function name(svg, x, y, text) {
  svg.append(draw("text", { class: "mark-name", x, y }, text));
}

function axes(svg, { ticks, unit, width, bottom, x, yOfShown }) {
  for (const tick of ticks) {
    const y = yOfShown(tick);
    svg.append(
      draw("line", { class: "track", x1: LEFT, x2: width - RIGHT, y1: y, y2: y }),
      draw("text", { class: "tick", x: LEFT - 6, y: y + 5, "text-anchor": "end" }, `${tick} ${unit === "f" ? "°F" : "°C"}`.replace("-", "−")),
    );
  }
  svg.append(draw("line", { class: "scale", x1: LEFT, x2: width - RIGHT, y1: bottom, y2: bottom }));
  const wide = width > 480;
  STARTS.forEach((day, month) => {
    const middle = (x(day) + x(STARTS[month + 1] ?? 365)) / 2;
    svg.append(
      draw("line", { class: "scale", x1: x(day), x2: x(day), y1: bottom, y2: bottom + 5 }),
      draw("text", { class: "tick", x: round(middle), y: bottom + 20, "text-anchor": "middle" }, monthName(month + 1, wide ? "short" : "narrow")),
    );
  });
}

// Days in a row, so that a gap stays a gap.
function stretches(known) {
  const found = [];
  for (const day of known) {
    if (found.length > 0 && found.at(-1).at(-1) === day - 1) found.at(-1).push(day);
    else found.push([day]);
  }
  return found.filter((days) => days.length > 1);
}

function description({ soil: { year, band }, chosen, values: { unit, series } }, known) {
  const coldest = known.reduce((a, b) => (year[b] < year[a] ? b : a));
  const warmest = known.reduce((a, b) => (year[b] > year[a] ? b : a));
  const at = (day) => temperatureRange(year[day] + band.low[day], year[day] + band.high[day], unit);
  const crop = chosen === null ? "" : ` ${chosen.crop.name}: minimum held ${cellText(chosen.minimum, series.full)}; best range held ${cellText(chosen.best, series.full)}.`;
  return `Coldest: ${at(coldest)}. Warmest: ${at(warmest)}.${crop}`;
}
