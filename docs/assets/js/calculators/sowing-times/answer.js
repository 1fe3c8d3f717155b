// From the entry to windows: every lot's plan, every task by date, and what comes next.
// The plans of lots are a twin of build_tools/render/calculators/sowing_times_events.py.

import { taskNames, daysAt, daysRange, nextTasks, season, sowingPlan, weeksApart } from "../../science/sowing_times.js";

const NEXT = 3;

/** {values, season, lots, tasks, next, past, data}; windows are ISO days, both included. */
export function workOut(values, data) {
  const frosts = season(values.last, values.first, values.year);
  const lots = values.rows.map((row) => planned(data, row, frosts.last, values.rules, values.celsius));
  const tasks = byDate(lots);
  const { today } = values;
  const sowings = tasks.filter(({ task }) => /^(sow|plant)/.test(task));
  return {
    values, data, season: frosts, lots, tasks,
    next: nextTasks(tasks.map(({ first, last }) => [first, last]), today, NEXT).map((i) => tasks[i]),
    sowings: sowings.length,
    missed: sowings.filter(({ last }) => last < today).length,
    over: tasks.filter(({ last }) => last < today).length,
    late: sowings.filter(({ last }) => last >= frosts.first),
    empty: lots.filter(({ plan }) => Object.keys(plan).length === 0),
  };
}

/** One lot: {crop, lot, tested, entry, days: {indoors, outdoors}, plan, ages}. */
export function planned(data, row, frost, rules, celsius) {
  const entry = data.crops[row.crop];
  const days = { indoors: daysIndoors(entry, celsius, data.range_factor), outdoors: daysOutdoors(entry, data.range_factor) };
  const weeks = Object.fromEntries(Object.entries(entry.timing).map(([name, found]) => [name, found?.weeks ?? null]));
  const plan = sowingPlan({
    ...weeks, test_days: entry.test_days, soak: entry.soak,
    indoor_days: days.indoors?.range ?? null, outdoor_days: days.outdoors?.range ?? null,
  }, frost, rules, row.tested);
  const [sow, out] = [plan["sow-indoors"], plan["plant-out"]];
  return { ...row, entry, days, plan, ages: sow && out ? weeksApart(sow, out) : null };
}

function daysIndoors(entry, celsius, factor) {
  const days = daysAt(entry.points, celsius);
  return days === null ? daysUsual(entry, factor) : { range: daysRange(days, days, factor), days, celsius, from: entry.measured_by };
}

function daysOutdoors(entry, factor) {
  const found = entry.outdoors;
  if (found === null) return daysUsual(entry, factor);
  const [low, high] = [found.fast[1], found.slow[1]].sort((a, b) => a - b);
  return { range: daysRange(low, high, factor), ...found, from: entry.measured_by };
}

function daysUsual(entry, factor) {
  if (entry.usual === null) return null;
  const [low, high] = entry.usual.days;
  return { range: daysRange(low, high, low === high ? factor : 1), usual: entry.usual };
}

/** Every task of every lot, by its first day, then its last, then in the order of the lots. */
export function byDate(lots) {
  const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);
  return lots.flatMap((lot, place) => Object.entries(lot.plan).map(([task, [first, last]]) => ({ task, lot, first, last, place })))
    .sort((a, b) => order(a.first, b.first) || order(a.last, b.last) || a.place - b.place || taskNames.indexOf(a.task) - taskNames.indexOf(b.task));
}
