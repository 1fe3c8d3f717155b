// One entry: seeds set, and the seedlings of each count; as new ones or as running totals.

import { grouped, readDecimal, readWhole } from "../fields.js";
import { MOST_SEEDS_SET, level, oneOf, readDate, readSeeds, reader } from "../reading.js";
import { newFromTotals } from "../../science/time_course.js";
import { dayText } from "./words.js";

export const FIELDS = ["seeds", "counts", "name", "date", "confidence"];
export const COLUMNS = ["day", "count"];
export const MOST_ROWS = 40;
export const EMPTY_ROW = { day: "", count: "" };
export const LONGEST_NAME = 60; // as in test files
export const MOST_DAYS = 1000;
export const LEAST_DAY = 0.01; // a quarter of an hour; nothing comes up sooner
export const KIND_HINTS = {
  new: "In each row the seedlings that were not there at the count before.",
  total: "In each row all seedlings up to that day.",
};

/** The same rows with running totals instead of new seedlings; for sound rows only. */
export function totalled(rows) {
  let sum = 0;
  return rows.map((row) => {
    sum += Number(row.count);
    return { ...row, count: String(sum) };
  });
}

/** {values, messages}; values.days (rising, above 0) and values.fresh (new seedlings) belong together. */
export function readEntry(entry) {
  const { note, done, messages } = reader();
  const n = note("seeds", readSeeds(entry.seeds));
  const kind = oneOf(entry.counts, ["new", "total"]);
  const looks = readRows(entry.rows, note);
  checkRows(looks, n, kind, (field, message) => messages.has(field) || messages.set(field, message));
  const rest = {
    example: entry.example, n, kind,
    name: note("name", readName(entry.name)),
    date: note("date", readStart(entry.date)),
    confidence: level(entry.confidence, "95"),
  };
  if (messages.size > 0) return done(null);
  const counts = looks.map((look) => look.count);
  const fresh = kind === "total" ? newFromTotals(counts) : counts;
  // Day 0 is the setting itself and says nothing of its own.
  const kept = looks.map((look, i) => ({ day: look.day, fresh: fresh[i] })).filter(({ day }) => day > 0);
  return done({ ...rest, days: kept.map(({ day }) => day), fresh: kept.map((look) => look.fresh) });
}

// Every row by itself; wholly empty ones are passed over.
function readRows(rows, note) {
  const looks = [];
  rows.forEach((row, i) => {
    if (row.day.trim() === "" && row.count.trim() === "") return;
    looks.push({ i, day: note(`${i}.day`, readDay(row.day)), count: note(`${i}.count`, readCount(row.count)) });
  });
  if (looks.length === 0) note("0.day", { value: null, message: "No count yet. Type the day of a count here, and the seedlings beside it." });
  return looks;
}

function readDay(text) {
  const typed = text.trim();
  if (/^\d{1,4}([-/.])\d{1,2}\1\d{1,4}$/.test(typed)) {
    return { value: null, message: `“${typed}” is a date. Type the days since the seed was set, for example 5.` };
  }
  return readDecimal(text, {
    empty: "Nothing typed. Type the day of this count, or empty the whole row.",
    check: (value, seen) => {
      if (value < 0) return `${seen} is below zero. Type the days since the seed was set.`;
      if (value > MOST_DAYS) return `Day ${seen} is more than this calculator handles. Type days since the seed was set, at most ${MOST_DAYS}.`;
      if (value > 0 && value < LEAST_DAY) return `Day ${seen} is minutes after the start. Type 0, or ${LEAST_DAY} or more; 12 hours are 0.5.`;
      return null;
    },
  });
}

function readCount(text) {
  return readWhole(text, {
    least: 0, most: MOST_SEEDS_SET, tooMany: `Type at most ${grouped(MOST_SEEDS_SET)} seedlings.`,
    empty: "Nothing typed. Type how many seedlings, 0 if none, or empty the whole row.",
  });
}

// The rows one after another, as far as each can be read (else null): the days rise, totals don't fall,
// and no more come up than were set. A field that has its message already keeps it.
function checkRows(looks, n, kind, say) {
  let day = null;
  let total = 0;
  for (const look of looks) {
    if (look.day !== null && day !== null && look.day <= day) {
      const seen = look.day === day ? `Day ${dayText(day)} is there twice` : `Day ${dayText(look.day)} comes after day ${dayText(day)}`;
      say(`${look.i}.day`, `${seen}. Put the counts in the order of the days, each day once.`);
    }
    day = look.day ?? day;
    if (look.count !== null) {
      const message = wrongCount(look, n, kind, total, looks);
      if (message !== null) say(`${look.i}.count`, message);
      total = kind === "total" ? look.count : total + look.count;
    }
  }
  if (looks.length > 0 && day === 0) say(`${looks.at(-1).i}.day`, "Day 0 is the only count here. Type the counts of later days too.");
}

// What is wrong with a count after `before` seedlings; more than the seeds set is said once, at the row that goes over.
function wrongCount({ day, count }, n, kind, before, looks) {
  const many = (number) => `${grouped(number)} ${number === 1 ? "seedling" : "seedlings"}`;
  if (day === 0 && count > 0) {
    return `${many(count)} on day 0 can’t be: no seed comes up at the moment it is set. Count the days from setting the seed; the next day is day 1.`;
  }
  if (kind === "total" && count < before) {
    return `The total falls from ${grouped(before)} to ${grouped(count)}. Check both, or choose “new since the last count” above.`;
  }
  const total = kind === "total" ? count : before + count;
  if (n === null || total <= n || before > n) return null;
  const remedy = kind === "new" && looksLikeTotals(looks, n) ? "If these are running totals, choose “total so far” above." : "Check the counts and the seeds set.";
  return `${many(total)} by now from ${grouped(n)} ${n === 1 ? "seed" : "seeds"} can’t be. ${remedy}`;
}

function looksLikeTotals(looks, n) {
  const counts = looks.map(({ count }) => count);
  return counts.every((count, i) => count !== null && (i === 0 || count >= counts[i - 1])) && counts.at(-1) <= n;
}

function readName(text) {
  const name = text.trim();
  return name.length <= LONGEST_NAME ? { value: name, message: null }
    : { value: null, message: `This name has ${name.length} characters. Shorten it to at most ${LONGEST_NAME}.` };
}

// A year that a slip of the finger makes would leave dates beyond the calendar.
function readStart(text) {
  const read = readDate(text);
  const year = read.value === null ? 2000 : Number(read.value.slice(0, 4));
  return year >= 1900 && year <= 2999 ? read
    : { value: null, message: `The year ${year} can’t be right. Choose the day on which the seed was set, or leave it empty.` };
}
