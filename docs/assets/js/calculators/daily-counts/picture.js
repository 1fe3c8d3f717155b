// The course of the test as a picture: percent of the seeds set, by day.

import { percentOfCount, percentRange } from "../format.js";
import { PERCENT_TICKS, curvePicture, niceTicks, percentLabel } from "../pictures.js";
import { dayText, fineDay } from "./words.js";

/** SVG element for an answer, `width` in CSS pixels. */
export function picture(answer, width) {
  const { k, n, totals, wilson, course, values: { days } } = answer;
  const points = days.map((day, i) => [day, totals[i] / n]);
  const end = days.at(-1);
  const [half, marks] = halfWay(course.t50_farooq, k);
  const final = `${percentOfCount(k, n)} (${percentRange(wilson, n)})`;
  return curvePicture({
    title: "Seedlings up, in percent of the seeds set, by day",
    description: `${days.length === 1 ? "One count" : `${days.length} counts`}: ${percentOfCount(totals[0], n)} on day ${dayText(days[0])}, ${final} of ${n} seeds on day ${dayText(end)}.${half} The bar at the end is the range of the final percentage.`,
    xTicks: niceTicks(0, end), xLabel: dayText, xName: "days since the seed was set",
    yTicks: PERCENT_TICKS, yLabel: percentLabel,
    lines: [
      { kind: "main", points: [[0, 0], ...points] },
      { kind: "interval", points: [[end, wilson[0]], [end, wilson[1]]], name: percentRange(wilson, n), nameAt: 1, shift: -8 },
    ],
    dots: points,
    marks,
  }, width);
}

// Words for the description, and the mark; none where one seedling is all there is.
function halfWay({ kind, day }, k) {
  if (k < 2) return ["", []];
  const name = kind === "by-first-count" ? `half of them by day ${dayText(day)}` : `half of them, day ${fineDay(day)}`;
  return [` Marked: ${name}.`, [{ x: day, name }]];
}
