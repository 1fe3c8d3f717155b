// The answer in words, numbers, a picture and a table.

import { headline as countHeadline, trust } from "../count/words.js";
import { element, list, numbers, parts, pictureSlot, table } from "../element.js";
import { grouped } from "../fields.js";
import { percentOfCount, percentRange } from "../format.js";
import { picture } from "./picture.js";
import { dayAndDate, dayText, figures, fineDay, foundText, lengthText, shortDate } from "./words.js";
import { workings } from "./workings.js";

function headline(answer) {
  const { k, canRise, course, halfBy, values } = answer;
  const start = countHeadline(answer);
  if (k === 0) return start;
  if (k === 1) return `${start} It was first seen on ${dayAndDate(course.first_day, values.date)}.`;
  const half = canRise ? "Half of these" : "Half of them";
  return course.t50_farooq.kind === "by-first-count"
    ? `${start} ${half} were already up at the first count, ${dayAndDate(halfBy, values.date)}.`
    : `${start} ${half} were up by ${dayAndDate(halfBy, values.date)}.`;
}

function mainNumbers({ k, n, wilson, course, meanRange, most, values }) {
  const sure = `${Math.round(values.confidence * 100)} %`;
  const some = k > 0;
  return [
    [`Came up, of ${grouped(n)} seeds set`, `${grouped(k)}, ${percentOfCount(k, n)}`],
    [`Range, ${sure} confidence (Wilson)`, percentRange(wilson, n)],
    some && ["First and last day with new seedlings", `${dayText(course.first_day)} and ${dayText(course.last_day)}`],
    some && [`Day with most new seedlings (${grouped(most.fresh)})`, dayText(course.peak_day)],
    some && ["Half of them up, T50 (Farooq)", k === 1 ? "none with one seedling" : foundText(course.t50_farooq)],
    some && ["Half of them up, T50 (Coolbear)", k === 1 ? "none with one seedling" : foundText(course.t50_coolbear)],
    some && [`Mean time to come up, ${grouped(k)} ${k === 1 ? "seedling" : "seedlings"}`, lengthText(course.mean_days)],
    meanRange && [`Range of the mean, ${sure} confidence`, `${fineDay(meanRange[0])}–${lengthText(meanRange[1])}`],
    some && ["Standard error of the mean", k === 1 ? "none with one seedling" : lengthText(course.standard_error)],
    some && ["Spread (standard deviation of days)", k === 1 ? "none with one seedling" : lengthText(course.spread_days)],
    some && ["Speed (Maguire)", `${figures(course.speed)} a day`],
  ].filter(Boolean);
}

// The less common ones; a reader who opened them keeps them open while typing.
function moreNumbers({ k, course, halfOfSet }) {
  if (k === 0) return null;
  const rows = [
    ["Half of all seeds set up", foundText(halfOfSet)],
    ["Velocity (100 / mean)", figures(course.velocity)],
    ["Synchrony (0 to 1)", k === 1 ? "none with one seedling" : figures(course.synchrony)],
    ["Uncertainty", `${figures(course.uncertainty)} bits`],
  ];
  const made = element("details", "more-numbers", element("summary", "", "More numbers"), numbers(rows));
  made.open = document.querySelector(".more-numbers")?.open ?? false;
  return made;
}

function between(answer) {
  const { k, n, course, most, widest, halfOfSet, values: { days } } = answer;
  if (k === 0) return [`Nothing came up by day ${dayText(days.at(-1))}, so there is no time to tell.`];
  const said = [];
  const since = most.since === 0 ? "setting the seed" : `day ${dayText(most.since)}`;
  said.push(`When a seedling came up between two counts is not known: one first seen on day ${dayText(most.day)} came up between ${since} and day ${dayText(most.day)}.`);
  if (days.length === 1) said.push("There was one count only: it says how many came up, not how fast.");
  if (course.t50_farooq.kind === "by-first-count" && k > 1) {
    said.push(`Half were already up at the first count, day ${dayText(days[0])}: earlier than that can’t be told. Next time begin to count sooner.`);
  }
  said.push(`The mean takes each seedling on the day it was counted, so it may be up to one interval late; here up to ${lengthText(widest)}.`);
  if (k === 1) {
    said.push("One seedling has no spread and tells little of the time the others would take.");
  } else {
    said.push(`T50 is of the ${grouped(k)} that came up, not of the ${grouped(n)} set. It takes them as coming up evenly between two counts, and the formula gives no range; the project’s command time-course does.`);
    said.push(halfOfSet.kind === "none" ? `Half of all ${grouped(n)} seeds set were never up.` : `Half of all ${grouped(n)} seeds set were up by ${foundText(halfOfSet)}.`);
  }
  return said;
}

function finished(answer) {
  const { k, n, canRise, course, values: { days, fresh } } = answer;
  const last = dayText(days.at(-1));
  if (k === n) return [`Every seed was up by day ${dayText(course.last_day)}.`];
  if (canRise) {
    return [`The last count, day ${last}, still brought ${grouped(fresh.at(-1))} new: the percentage is “at least”, and mean and T50 will rise with what comes later.`,
      "Go on counting until nothing new comes up."];
  }
  if (k === 0) return ["Seed may still come up later: compare the days with those of the crop before you give up."];
  return [`Nothing new came at the last count, day ${last}; the last seedlings were seen on day ${dayText(course.last_day)}.`];
}

function judgeLink({ k, n, values: { days } }) {
  const link = element("a", "judge-count", "Judge the final count");
  link.href = `../../calculator/#count=1&r=${n},${k}&day=${Math.floor(days.at(-1))}`;
  return element("p", "judge", link, ": is the lot good enough, and how many to sow?");
}

function dataTable({ n, totals, values: { days, fresh, date } }) {
  const head = ["Day", ...(date === null ? [] : ["Date"]), "New", "Total", "Percent"];
  const rows = days.map((day, i) => [dayText(day), ...(date === null ? [] : [shortDate(date, day)]), grouped(fresh[i]), grouped(totals[i]), percentOfCount(totals[i], n)]);
  return table(`Seedlings at each count, and the total in percent of ${n === 1 ? "the one seed" : `the ${grouped(n)} seeds`} set`, head, rows);
}

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { k, n, course, values } = answer;
  const name = values.name === "" ? "" : `${values.name}: `;
  const times = k > 1 ? ` T50 ${foundText(course.t50_farooq)} (Farooq), ${foundText(course.t50_coolbear)} (Coolbear); mean ${lengthText(course.mean_days)}, spread ${lengthText(course.spread_days)}, ${grouped(k)} seedlings.` : "";
  const last = ` Last count on ${dayAndDate(values.days.at(-1), values.date)}.`;
  return {
    title: values.name || "A test day by day",
    headline: headline(answer),
    trust: trust(answer),
    line: `${name}${grouped(k)} of ${grouped(n)} came up${answer.canRise ? " so far" : ""}, ${percentOfCount(k, n)} (${percentRange(answer.wilson, n)}).${times}${last}`,
    rest: [
      numbers(mainNumbers(answer)),
      pictureSlot((width) => picture(answer, width)),
      moreNumbers(answer),
      dataTable(answer),
      parts(level, [
        ["What lies between the counts", list(between(answer))],
        ["Is it finished?", element("div", "", list(finished(answer)), judgeLink(answer))],
      ]),
    ],
    workings: workings(answer),
  };
}
