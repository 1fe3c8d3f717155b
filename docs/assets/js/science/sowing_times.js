// A sowing season as windows of days, counted from the average last frost.
// Twin of build_tools/science/sowing_times.py, where the rules are described.

import { addMonths, dateOfDay, dayNumber, daysInMonth } from "../dates.js";

export const taskNames = ["test", "soak-indoors", "sow-indoors", "look-indoors", "give-up-indoors", "plant-out",
  "soak-outdoors", "sow-outdoors", "look-outdoors", "give-up-outdoors"];
const [FIRST_YEAR, LAST_YEAR] = [1000, 9998];
const HAIR = 1e-9; // so that 10 × 1.3 is 13 days and not 14

/** Day number of an ISO date, with the day's parts checked. */
function numberOf(text) {
  if (typeof text !== "string" || !/^[0-9]{4}-[0-9]{2}-[0-9]{2}$/.test(text)) throw new RangeError(`a date reads 2027-05-08, not ${text}`);
  const [year, month, day] = text.split("-").map(Number);
  if (year < FIRST_YEAR || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) {
    throw new RangeError(`no such day: ${text}`);
  }
  return dayNumber(text);
}

/** The ISO date so many days later; earlier when negative. */
export function addDays(day, days) {
  if (!Number.isInteger(days)) throw new RangeError(`whole days only, not ${days}`);
  const found = dateOfDay(numberOf(day) + days);
  if (!/^[1-9][0-9]{3}-/.test(found)) throw new RangeError(`${day} and ${days} days is outside the calendar`);
  return found;
}

/** Days from the first ISO date to the second; negative when the second is earlier. */
export function daysBetween(first, second) {
  return numberOf(second) - numberOf(first);
}

/** "05-08" in 2027 as "2027-05-08"; the 29th of February is the 28th where the year has none. */
export function dayInYear(monthDay, year) {
  if (!(Number.isInteger(year) && year >= FIRST_YEAR && year <= LAST_YEAR)) throw new RangeError(`a year has four digits, not ${year}`);
  const day = monthDay === "02-29" && daysInMonth(year, 2) < 29 ? "02-28" : monthDay;
  const text = `${year}-${day}`;
  numberOf(text);
  return text;
}

/** Last and first frost of the season whose last frost falls in `year`: {last, first}. */
export function season(lastFrost, firstFrost, year) {
  const last = dayInYear(lastFrost, year);
  if (lastFrost === firstFrost) throw new RangeError("last and first frost are the same day");
  const first = dayInYear(firstFrost, year);
  return { last, first: first > last ? first : dayInYear(firstFrost, year + 1) };
}

/** From `low` to `high` weeks after the frost, both days included, and at least so many days. */
export function weeksWindow(frost, low, high, leastDays) {
  if (!(low <= high && leastDays >= 1)) throw new RangeError(`no window from ${low} to ${high} weeks and at least ${leastDays} days`);
  const [start, end] = [Math.floor(7 * low + 0.5), Math.floor(7 * high + 0.5)];
  return [addDays(frost, start), addDays(frost, Math.max(end, start + leastDays - 1))];
}

/** When to sow indoors for a window of planting out and an age of transplants in weeks. */
export function beforePlanting(plantOut, ageLow, ageHigh) {
  if (!(ageLow > 0 && ageLow <= ageHigh)) throw new RangeError(`no age from ${ageLow} to ${ageHigh} weeks`);
  return [addDays(plantOut[0], -Math.floor(7 * ageHigh + 0.5)), addDays(plantOut[1], -Math.floor(7 * ageLow + 0.5))];
}

/** When to start a germination test: its last day leaves the test and the buying of seed before the first sowing. */
export function windowForTest(firstSowing, testDays, buyDays, leadDays) {
  if (!(testDays >= 1 && buyDays >= 0 && leadDays >= 1)) throw new RangeError("a test takes a day or more");
  const latest = addDays(firstSowing, -(testDays + buyDays));
  return [addDays(latest, 1 - leadDays), latest];
}

/** Whether a test of that day is at most `months` calendar months old when the seed is sown. */
export function stillGood(tested, sowing, months) {
  numberOf(tested);
  numberOf(sowing);
  return addMonths(tested, months) >= sowing;
}

/** Whole days from fast/factor to slow·factor, rounded outward, 1 or more. */
export function daysRange(fast, slow, factor) {
  if (!(fast > 0 && fast <= slow && factor >= 1)) throw new RangeError(`no range of days from ${fast} to ${slow} and a factor of ${factor}`);
  return [Math.max(1, Math.floor(fast / factor + HAIR)), Math.max(1, Math.ceil(slow * factor - HAIR))];
}

/** Days to seedlings at a temperature, between [°C, days] points; null outside them. */
export function daysAt(points, celsius) {
  for (let i = 1; i < points.length; i += 1) {
    const [[low, daysLow], [high, daysHigh]] = [points[i - 1], points[i]];
    if (!(low < high && daysLow > 0 && daysHigh > 0)) throw new RangeError("points must rise in °C and days be above zero");
    if (low <= celsius && celsius <= high) {
      const share = (celsius - low) / (high - low);
      return Math.exp((1 - share) * Math.log(daysLow) + share * Math.log(daysHigh));
    }
  }
  return null;
}

/** A window whose first day is moved by `firstDays` and whose last by `lastDays`. */
export function shifted(window, firstDays, lastDays) {
  return [addDays(window[0], firstDays), addDays(window[1], lastDays)];
}

/** Fewest and most whole weeks from sowing to planting out, first week with first and last with last. */
export function weeksApart(sow, plantOut) {
  const gaps = [0, 1].map((i) => Math.floor(daysBetween(sow[i], plantOut[i]) / 7));
  return [Math.min(...gaps), Math.max(...gaps)];
}

/** Every window of one crop in one season: {task of taskNames: [from, to]}. The keys are those of the Python twin. */
export function sowingPlan(crop, frost, rules, tested = null) {
  const plan = {};
  const sowings = { indoors: null, outdoors: null };
  if (crop.plant_out) plan["plant-out"] = weeksWindow(frost, ...crop.plant_out, rules.least_window_days);
  if (crop.sow_indoors) sowings.indoors = weeksWindow(frost, ...crop.sow_indoors, rules.least_window_days);
  else if (crop.plant_out && crop.transplant_age) sowings.indoors = beforePlanting(plan["plant-out"], ...crop.transplant_age);
  if (crop.sow_outdoors) sowings.outdoors = weeksWindow(frost, ...crop.sow_outdoors, rules.least_window_days);
  for (const [where, times] of [["indoors", rules.give_up_times], ["outdoors", 1]]) {
    const window = sowings[where];
    if (window === null) continue;
    const days = crop[`${where.slice(0, -1)}_days`];
    plan[`sow-${where}`] = window;
    if (crop.soak) plan[`soak-${where}`] = shifted(window, -1, -1);
    if (days) {
      plan[`look-${where}`] = shifted(window, days[0], days[1]);
      const late = Math.ceil(days[1] * times - HAIR);
      plan[`give-up-${where}`] = shifted(window, late + 1, late + 1);
    }
  }
  const first = Object.values(sowings).filter((window) => window !== null).map((window) => window[0]).sort()[0];
  if (first !== undefined && !(tested && stillGood(tested, first, rules.test_good_months))) {
    plan.test = windowForTest(first, crop.test_days, rules.buy_days, rules.test_lead_days);
  }
  return Object.fromEntries(taskNames.filter((task) => task in plan).map((task) => [task, plan[task]]));
}

/** Places in `windows` of the next things to do: those not yet over, by the day they can be done, then by their end. */
export function nextTasks(windows, today, most) {
  const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);
  const start = (i) => (windows[i][0] > today ? windows[i][0] : today);
  return windows.map((_, i) => i).filter((i) => windows[i][1] >= today)
    .sort((a, b) => order(start(a), start(b)) || order(windows[a][1], windows[b][1]) || a - b).slice(0, most);
}
