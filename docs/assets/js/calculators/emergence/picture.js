// Days and percentages by temperature: the curve, the measured points, and where the reader's warmth lies.

import { daysAt, percentAt } from "../../science/emergence.js";
import { temperatureText } from "../format.js";
import { curvePicture } from "../pictures.js";
import { cellText } from "../warmth_words.js";

const TICKS_C = [0, 10, 20, 30, 40];
const TICKS_F = [32, 50, 68, 86, 104];
const DAYS = [1, 3, 10, 30, 100, 300];
const STEPS = 60;

function along({ knots }) {
  const [first, last] = [knots[0], knots.at(-1)];
  return Array.from({ length: STEPS + 1 }, (_, i) => first + ((last - first) * i) / STEPS);
}

function common({ values, crop, steady }, measured, unit) {
  const { low, high } = values;
  const at = (celsius) => Math.min(40, Math.max(0, celsius));
  const told = measured.cells.map((cell) => `${temperatureText(cell[0], values.unit)}: ${cellText(cell, unit)}`);
  return {
    description: `Measured for ${crop.name}: ${told.join("; ")}. Marked: ${steady ? temperatureText(low, values.unit) : `${temperatureText(low, values.unit)} to ${temperatureText(high, values.unit)}`}.`,
    xTicks: TICKS_C, xLabel: (tick) => String(values.unit === "f" ? TICKS_F[TICKS_C.indexOf(tick)] : tick), xName: values.unit === "f" ? "soil, °F" : "soil, °C",
    marks: steady ? [{ x: at(low), name: temperatureText(low, values.unit) }] : [{ x: at(low), name: `lowest, ${temperatureText(low, values.unit)}` }, { x: at(high), name: `highest, ${temperatureText(high, values.unit)}` }],
  };
}

/** Days on a scale of equal ratios. */
export function daysPicture(answer, width) {
  const { curve, cells } = answer.crop.days;
  const points = along(curve).map((celsius) => [celsius, Math.log10(daysAt(curve, celsius))]);
  const slowest = Math.max(...points.map(([, y]) => y));
  const shown = DAYS.slice(0, DAYS.findIndex((days) => Math.log10(days) >= slowest) + 1);
  return curvePicture({
    ...common(answer, answer.crop.days, ""),
    title: "Days to emergence by soil temperature",
    yTicks: shown.map(Math.log10), yLabel: (tick) => String(Math.round(10 ** tick)),
    lines: [{ kind: "main", points, name: "days", nameAt: Math.round(STEPS * 0.15) }],
    dots: cells.filter(([, state]) => state === "measured").map(([celsius, , days]) => [celsius, Math.log10(days)]),
  }, width);
}

export function percentPicture(answer, width) {
  const { curve, cells } = answer.crop.percent;
  return curvePicture({
    ...common(answer, answer.crop.percent, "%"),
    title: "Normal seedlings by soil temperature",
    yTicks: [0, 25, 50, 75, 100], yLabel: (tick) => `${tick}${tick === 100 ? " %" : ""}`,
    lines: [{ kind: "main", points: along(curve).map((celsius) => [celsius, percentAt(curve, celsius)]), name: "normal seedlings", nameAt: Math.round(STEPS * 0.4) }],
    dots: cells.filter(([, state]) => state === "measured").map(([celsius, , share]) => [celsius, share]),
  }, width);
}
