// The calendar in sentences: windows, what comes next, what to know, and how it is worked out.

import { dateRange, dateText } from "../../date_words.js";
import { temperatureText } from "../format.js";
import { listed } from "../../words.js";
import { daysTold, fill, giveUpAfter, named, weeksTold } from "./events.js";

/** "sow indoors" as "Sow indoors" */
export function sentenceCase(text) {
  return text[0].toUpperCase() + text.slice(1);
}

/** "from 8–14 May 2027", or until when if it has begun. */
function whenText({ first, last }, today) {
  return first <= today ? `until ${dateText(last)}` : dateRange([first, last]);
}

/** "Tomato: sow indoors, 13–27 March 2027" */
export function taskText(task, { data, values }) {
  return `${named(task.lot)}: ${data.tasks[task.task]}, ${whenText(task, values.today)}`;
}

/** The first sentence: what to do next. */
export function headline(answer) {
  const { next, tasks, values, season } = answer;
  if (tasks.length === 0) {
    return `No weeks are published here for ${listed([...new Set(answer.lots.map((lot) => lot.entry.name))])}, so no window can be given.`;
  }
  if (next.length === 0) {
    return `Nothing is left to do in the season of ${season.last.slice(0, 4)} at ${values.place}.`;
  }
  return `${next[0].first <= values.today ? "Now" : "Next"}, ${taskText(next[0], answer)}.`;
}

/** Further sentences: what follows, and how far to trust it. */
export function trust(answer) {
  const { next, values, season } = answer;
  const then = next.slice(1).map((task) => taskText(task, answer));
  return [
    then.length > 0 ? `Then ${then.join("; ")}.` : "",
    `All windows count from an average last frost on ${dateText(season.last)}; in many years frost comes later.`,
    values.invented ? `Invented example: the frost dates of ${values.place} are made up.` : "",
  ].filter((text) => text !== "").join(" ");
}

/** What to know, crop by crop: [name, sentences] pairs, no sentence twice. */
export function worthKnowing(answer) {
  const { lots, values, data } = answer;
  const found = new Map();
  for (const lot of lots) {
    found.set(lot.crop, [lot.entry.name, [...(found.get(lot.crop)?.[1] ?? []), ...lotNotes(lot, values, data)]]);
  }
  return [...found.values()].map(([name, told]) => [name, [...new Set(told)]]).filter(([, told]) => told.length > 0);
}

function lotNotes({ entry, lot, plan, ages, days, tested }, values, data) {
  const told = [];
  if (Object.keys(plan).length === 0) told.push(`No weeks for sowing or planting out are published here. ${entry.frost_words || "No frost class either."} Its page says how warm the soil must be.`);
  if (tested && !plan.test && (plan["sow-indoors"] || plan["sow-outdoors"])) {
    told.push(`${lot ? `${lot}: tested` : "Tested"} on ${dateText(tested)}, so no new test is put down; a test holds for ${values.rules.test_good_months} months here.`);
  }
  const age = entry.timing.transplant_age;
  if (ages !== null && entry.timing.sow_indoors !== null && age !== null && (ages[0] > age.weeks[1] || ages[1] < age.weeks[0])) {
    told.push(`Sown and planted out in step, plants are ${weeksRange(ages)} old; tables of transplants say ${age.text}. Sow ${ages[0] > age.weeks[1] ? "late" : "early"} in the window.`);
  }
  if (plan["sow-indoors"] && !plan["plant-out"]) {
    told.push(`No weeks for planting out are published here.${age ? ` Transplants are ${age.text} old.` : ""} ${entry.frost_words || "No frost class is known here: treat it as tender."}`);
  }
  if (plan["sow-indoors"] && days.indoors === null) told.push(untested(entry, values));
  if (plan["sow-outdoors"] && days.outdoors === null) told.push(`Days to seedlings outdoors are not published here.`);
  if (entry.treatments.length > 0) told.push(`Its page has more that may help before sowing (${listed(entry.treatments.map((text) => text.toLowerCase()))}); how long each takes is said there.`);
  for (const where of ["sow-indoors", "plant-out", "sow-outdoors"]) {
    if (plan[where]) {
      told.push(...weeksTold(where, entry, values.rules).filter(([key]) => ["note", "worked_out"].includes(key))
        .map(([key, filled]) => `${sentenceCase(data.tasks[where])}: ${fill(data.sentences[key], filled)}`));
    }
  }
  return [...told, ...entry.doubts];
}

function untested(entry, { celsius, unit }) {
  if (entry.points.length === 0) return "Days to seedlings indoors are not published here.";
  const [low, high] = [entry.points[0][0], entry.points.at(-1)[0]].map((c) => temperatureText(c, unit));
  return `Not tested at ${temperatureText(celsius, unit)}, only from ${low} to ${high}, so no days are given indoors.`;
}

function weeksRange([low, high]) {
  return low === high ? `${low} weeks` : `${low}–${high} weeks`;
}

/** What follows a sowing, line by line: soak, seedlings, giving up. */
export function afterSowing(lot, where, { data, values }) {
  const days = lot.days[where];
  const look = lot.plan[`look-${where}`];
  const told = lot.plan[`soak-${where}`] ? ["Soak the night before."] : [];
  if (look === undefined) return [...told, "Days to seedlings: not published here."];
  const after = giveUpAfter(`give-up-${where}`, days.range, values.rules);
  return [...told,
    `Seedlings ${dateRange(look, "short")}: ${fill(data.sentences.look, daysTold(days, where, values.unit)[0][1])}`,
    `Give up ${dateRange(lot.plan[`give-up-${where}`], "short")}: after ${after} days.`];
}

// Of every crop in the calendar: the published weeks, and whose days to seedlings are used.
function sourcesTold({ lots, data }) {
  const entries = new Map(lots.map((lot) => [lot.crop, lot.entry]));
  return [...entries.values()].map(({ name, timing, measured_by: measured, usual }) => {
    const weeks = ["sow_indoors", "plant_out", "sow_outdoors"].filter((key) => timing[key] !== null)
      .map((key) => `${sentenceCase(data.tasks[key.replace("_", "-")])}: ${timing[key].text} (${timing[key].from}).`);
    const age = timing.transplant_age ? [`Age of transplants: ${timing.transplant_age.text} (${timing.transplant_age.from}).`] : [];
    const from = measured || usual?.from;
    const told = [...weeks, ...age, from ? `Days to seedlings: ${from}.` : "Days to seedlings: not published here."];
    return [`Where the figures for ${name} come from`, told.join(" ")];
  });
}

/** "How this is worked out": [heading, text] pairs. */
export function workings(answer) {
  const { data, values } = answer;
  const { rules, unit } = values;
  const factor = data.range_factor;
  return [
    ["Windows", `Weeks from the average last frost, as published for each crop, times seven days. A week printed alone is given as the ${rules.least_window_days} days from it on (our own choice). Where sowing indoors is not published, it is planting out less the age of a transplant.`],
    ["Germination test", `First day of sowing, less ${rules.buy_days} days to buy other seed (our own choice, yours to change), less the final count day of the official method (7 CFR 201.58); without one, at least ${rules.towel_least_days} days (common practice, no source). It is put down for the ${rules.test_lead_days} days up to then. A test not older than ${rules.test_good_months} months at sowing counts.`],
    ["Soak", `Only where the crop’s evidence says it may help: ${rules.soak_least_hours} to ${rules.soak_most_hours} hours the night before (common practice, no source).`],
    ["Seedlings indoors", `Days at ${temperatureText(values.celsius, unit)}, read between tested temperatures (straight lines through the logarithm of the days, every half degree on a fitted curve), from x/${factor} to x·${factor}, which held nine in ten left-out cases. Never beyond tested temperatures.`],
    ["Seedlings outdoors", `Late end: the days at the coldest tested temperature that is not below the crop’s minimum (a tested temperature half a degree below counts, since both are rounded). Early end: the days at its optimum, or the nearest tested. Each with the same factor.`],
    ["Giving up", `Indoors ${rules.give_up_times} times the late end of the expected days, outdoors the late end itself, since it is that of cold soil already: our own rules. Then dig for the seed: firm seed waits, soft seed has rotted, none has been eaten. Check the warmth, and sow again.`],
    ["Calendar file", "All-day events after RFC 5545. Each keeps its name while place, year, crop, lot and task stay the same: read in again, it replaces the old one in calendars that go by names. What no longer occurs has to be deleted by hand."],
    ...sourcesTold(answer),
  ];
}
