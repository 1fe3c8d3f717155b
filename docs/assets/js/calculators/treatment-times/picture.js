// The steps along the clock.

import { intervalsPicture } from "../pictures.js";
import { MINUTES, clockText, shortDay } from "./clock.js";
import { finish, spanText } from "./words.js";

const DAY = MINUTES.days;
const STEPS = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, DAY, 2 * DAY, 3 * DAY, 7 * DAY, 14 * DAY, 28 * DAY, 56 * DAY, 112 * DAY];

/** Null when no step has a known end. */
export function timeline(answer, width) {
  const timedSteps = answer.list.filter((one) => one.end !== null);
  const from = answer.values.start;
  const to = Math.max(...timedSteps.map((one) => one.end[1]));
  const wanted = width < 420 ? 4 : 6;
  const step = STEPS.find((size) => (to - from) / size <= wanted) ?? STEPS.at(-1);
  const ticks = [Math.floor(from / step) * step];
  while (ticks.at(-1) < to) ticks.push(ticks.at(-1) + step);
  const rows = timedSteps.map((one) => ({
    name: `${one.step.label}: ${spanText(one.span)}`, low: one.begin[0], high: one.end[1],
    // The mark is the earliest end, where there is one.
    at: one.span.low === null || one.end[0] === one.end[1] ? null : one.end[0],
  }));
  const last = answer.list.at(-1);
  return intervalsPicture({
    title: "The steps along the clock",
    description: `${rows.map((row) => row.name).join(". ")}. Then ${last.step.label}${finish(answer) === null ? "" : ` ${finish(answer)}`}. A bar runs from the earliest start to the latest end of its step; the ring marks its earliest end.`,
    ticks, rows,
    // The first label would be cut off at the edge.
    label: (tick) => (tick === ticks[0] ? "" : step < DAY && tick % DAY !== 0 ? clockText(tick) : shortDay(tick)),
  }, width);
}
