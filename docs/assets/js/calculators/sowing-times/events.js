// Tasks in words, as calendar events and as a table file.
// Twin of build_tools/render/calculators/sowing_times_events.py, which holds the sentences.

import { csvCell } from "../../csv.js";
import { calendarText, uid } from "../../icalendar.js";
import { daysBetween } from "../../science/sowing_times.js";
import { temperatureText } from "../format.js";

const [CATEGORY, INVENTED] = ["Sowing calendar", "Invented example"];
const HAIR = 1e-9;

/** A sentence with its {gaps} filled. */
export function fill(sentence, values) {
  return sentence.replace(/{(\w+)}/g, (_, name) => String(values[name]));
}

/** "Tomato", or "Tomato (A 12)" with the lot's own name. */
export function named(lot) {
  return lot.lot ? `${lot.entry.name} (${lot.lot})` : lot.entry.name;
}

/** How the days of a task came about, in one paragraph. */
export function description(task, { data, values, season }) {
  return told(task, data, values, season.last).map(([name, filled]) => fill(data.sentences[name], filled)).join(" ");
}

function told(task, data, values, frost) {
  const cut = task.task.lastIndexOf("-");
  const [kind, where] = [task.task.slice(0, Math.max(cut, 0)), task.task.slice(cut + 1)];
  const { lot } = task;
  const { rules, unit } = values;
  const found = [];
  if (task.task === "test") {
    const source = data.sentences[lot.entry.test_official ? "official" : "towel"];
    found.push(["test", { test_days: lot.entry.test_days, test_source: source, buy_days: rules.buy_days }]);
  } else if (kind === "soak") found.push(["soak", rules]);
  else if (kind === "look") found.push(...daysTold(lot.days[where], where, unit));
  else if (kind === "give-up") found.push(["give_up", { after: giveUpAfter(task.task, lot.days[where].range, rules) }], [`rule_${where}`, rules]);
  else found.push(...weeksTold(task.task, lot.entry, rules));
  found.push(["frost", { frost }]);
  if (values.invented) found.push(["invented", values]);
  return found;
}

const degrees = (celsius, unit) => temperatureText(celsius, unit);
const whole = (days) => Math.floor(days + 0.5);

/** Sentences about the days to seedlings: [name, values] pairs. */
export function daysTold(days, where, unit) {
  const found = [["look", { early: days.range[0], late: days.range[1] }]];
  if (days.usual) return [...found, ["usual", { low: days.usual.days[0], high: days.usual.days[1], from: days.usual.from }]];
  if (where === "indoors") return [...found, ["indoors", { days: whole(days.days), temperature: degrees(days.celsius, unit), from: days.from }]];
  return [...found, ["outdoors", {
    fast: degrees(days.fast[0], unit), fast_days: whole(days.fast[1]), slow: degrees(days.slow[0], unit), slow_days: whole(days.slow[1]), from: days.from,
  }]];
}

/** Sentences about published weeks: [name, values] pairs. */
export function weeksTold(name, entry, rules) {
  const { timing } = entry;
  const weeks = timing[name.replace("-", "_")];
  if (weeks === null) return [["worked_out", { weeks: timing.plant_out.text, age: timing.transplant_age.text }]];
  const [low, high] = weeks.weeks;
  const found = [["published", { weeks: weeks.text, from: weeks.from }]];
  if (7 * (high - low) < rules.least_window_days - 1) found.push(["widened", {}]);
  if (weeks.note) found.push(["note", weeks]);
  if (name !== "sow-indoors" && entry.frost_words) found.push(["frost_class", entry]);
  return found;
}

/** Days after sowing at which a sowing is given up. */
export function giveUpAfter(task, range, rules) {
  return task.endsWith("indoors") ? Math.ceil(range[1] * rules.give_up_times - HAIR) : range[1];
}

/** The tasks as an iCalendar file. An event keeps its UID while place, year, crop, lot and task stay the same. */
export function calendarFile(answer, stamp) {
  const { data, values, season, tasks } = answer;
  return calendarText(tasks.map((task) => ({
    uid: uid([season.last.slice(0, 4), values.place, task.lot.crop, task.lot.lot, task.task]),
    first: task.first, last: task.last,
    summary: `${named(task.lot)}: ${data.tasks[task.task]}`,
    description: description(task, answer),
    categories: values.invented ? [CATEGORY, INVENTED] : [CATEGORY],
  })), stamp);
}

/** The tasks as CSV (RFC 4180), by date. */
export function csvFile(answer) {
  const { data, values, season, tasks } = answer;
  const head = ["first_day", "last_day", "days", "task", "crop", "lot", "place", "average_last_frost", "how_it_came_about"];
  const rows = tasks.map((task) => [
    task.first, task.last, String(daysBetween(task.first, task.last) + 1), data.tasks[task.task], task.lot.entry.name, task.lot.lot,
    values.place, season.last, description(task, answer),
  ]);
  return [head, ...rows].map((row) => `${row.map(csvCell).join(",")}\r\n`).join("");
}
