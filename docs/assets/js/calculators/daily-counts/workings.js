// "How this is worked out": each number with its formula and source, and this entry's figures.

import { grouped } from "../fields.js";
import { percentRange } from "../format.js";
import { dayText, foundText, lengthText } from "./words.js";

/** A list of [heading, text]. */
export function workings(answer) {
  const { k, n, course, wilson, values: { confidence, days, fresh } } = answer;
  const told = [
    ["Final percentage", `Seedlings of all counts added up, ${grouped(k)} of ${grouped(n)}; Wilson’s score interval (1927), ${Math.round(confidence * 100)} %: ${percentRange(wilson, n)}.`],
    ["Half-way day, T50", `The day on which the running total reaches half of the N seedlings, on a straight line between two counts. Half is N/2 after Farooq and others (2005)${k > 1 ? `: ${foundText(course.t50_farooq)}` : ""}; (N + 1)/2 after Coolbear and others (1984)${k > 1 ? `: ${foundText(course.t50_coolbear)}` : ""}. Both look at the seedlings alone: a lot in which few come up quickly has an early T50.`],
    ["Mean time", `Each count day times its new seedlings, added up, divided by all seedlings${k > 1 && days.length <= 8 ? `: (${days.map((day, i) => `${dayText(day)} × ${fresh[i]}`).join(" + ")}) / ${k} = ${lengthText(course.mean_days)}` : ""}.`],
    ["Spread and standard error", "The standard deviation of the days about their mean, with N − 1; divided by √N it is the standard error of the mean. The range of the mean is so many standard errors either way as the confidence asks for (normal quantile); it counts the luck of these seedlings in, not what lies between the counts."],
    ["Speed", "The sum of new seedlings divided by their day (Maguire 1962). New seedlings, not running totals: many published values were worked out from totals and are too large."],
    ["Velocity", "100 divided by the mean time (coefficient of velocity)."],
    ["Synchrony and uncertainty", "Synchrony is the share of pairs of seedlings that were first seen at the same count: 1 if all came at once. Uncertainty is −Σ f log₂ f over the shares f of the counts: 0 if all came at once (Ranal and Santana 2006, authors from memory). Both depend on how often you counted; compare only tests with the same count days."],
    ["What it leaves out", "These numbers take a seedling as having come up on the day it was counted, and know nothing of those still to come. A fit that knows what lies between the counts, with a range for T50, comes from the project’s command time-course, which reads the test files of this page."],
  ];
  return told;
}
