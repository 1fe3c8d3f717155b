// One entry of the germination-rate calculator: the typed texts, and the numbers read from them.

import { grouped, readDecimal, readWhole, toCelsius } from "../fields.js";
import { MOST_SEEDS_SET, level, readDate, reader } from "../reading.js";

export const MOST_REPLICATES = 8;
export const MOST_PLANTS = 10000;
export const COUNTS = ["seeds", "normal", "abnormal", "hard", "fresh", "dead"];
export const OPTIONAL_COUNTS = COUNTS.slice(2);
/** Names of the fields that are not part of a replicate. */
export const SINGLE_FIELDS = ["crop", "day", "temperature", "unit", "date", "confidence", "plants",
  "certainty", "factor"];
// Wider than any seed test, so that only slips (and the other unit) are stopped.
const COLDEST_C = -10;
const HOTTEST_C = 60;

/** A replicate as typed: every count a text, empty where nothing was typed. */
export function emptyReplicate(seeds = "") {
  return { ...Object.fromEntries(COUNTS.map((name) => [name, ""])), seeds };
}

/** The entry a reader finds first; marked as an example until a count is changed. */
export function exampleEntry(today, crop = "") {
  return {
    example: true, crop, rows: [{ ...emptyReplicate("10"), normal: "8" }], day: "",
    temperature: "", unit: "c", date: today, confidence: "95", plants: "12", certainty: "90",
    factor: "100",
  };
}

/**
 * Read an entry. Returns {values, messages}: `messages` maps a field ("day", "0.seeds" for the
 * first replicate) to its text; `values` is null while there is any message.
 */
export function readEntry(entry) {
  const { messages, note, done } = reader();
  const replicates = entry.rows.map((typed, i) => readReplicate(typed, i, note, messages));
  return done({
    example: entry.example,
    crop: entry.crop,
    unit: entry.unit === "f" ? "f" : "c",
    replicates,
    day: note("day", readWhole(entry.day, {
      least: 0, most: 1000, empty: null, tooMany: "Type at most 1000 days.",
    })),
    temperature: note("temperature", readTemperature(entry.temperature, entry.unit)),
    date: note("date", readDate(entry.date)),
    confidence: level(entry.confidence, "95"),
    plants: note("plants", readWhole(entry.plants, {
      least: 1, most: MOST_PLANTS, empty: null,
      tooMany: `Type at most ${grouped(MOST_PLANTS)} plants.`,
    })),
    certainty: level(entry.certainty, "90"),
    factor: note("factor", readFactor(entry.factor)),
  });
}

function readReplicate(typed, i, note, messages) {
  const tooMany = `One replicate may have at most ${grouped(MOST_SEEDS_SET)} seeds; split larger tests.`;
  const seeds = note(`${i}.seeds`, readWhole(typed.seeds, {
    least: 1, most: MOST_SEEDS_SET, tooMany,
    empty: "Nothing typed. Type how many seeds you set, 1 or more.",
  }));
  const counts = { seeds };
  for (const name of COUNTS.slice(1)) {
    counts[name] = note(`${i}.${name}`, readWhole(typed[name], {
      least: 0, most: MOST_SEEDS_SET, tooMany,
      empty: name === "normal"
        ? "Nothing typed. Type how many normal seedlings you counted, 0 if none." : null,
    }));
  }
  if (seeds !== null) checkSum(counts, i, messages);
  return counts;
}

// At most one message: at the seedlings if they alone are too many, else at the last count typed.
function checkSum(counts, i, messages) {
  const { seeds, normal } = counts;
  const of = `${grouped(seeds)} ${seeds === 1 ? "seed" : "seeds"}`;
  if (normal !== null && normal > seeds) {
    messages.set(`${i}.normal`, `${grouped(normal)} ${normal === 1 ? "seedling" : "seedlings"} from ${of} can’t be. Check both numbers: seedlings may be at most the seeds set.`);
    return;
  }
  const given = COUNTS.slice(1).filter((name) => counts[name] !== null);
  const sum = given.reduce((total, name) => total + counts[name], 0);
  if (sum > seeds) {
    const parts = given.filter((name) => counts[name] > 0).map((name) => grouped(counts[name]));
    messages.set(`${i}.${given[given.length - 1]}`, `${parts.join(" + ")}${parts.length > 1 ? ` = ${grouped(sum)}` : ""} counted from ${of} can’t be. Check the counts: together they may be at most the seeds set.`);
  }
}

function readTemperature(text, unit) {
  const bounds = unit === "f" ? [14, 140, "°F"] : [COLDEST_C, HOTTEST_C, "°C"];
  const read = readDecimal(text, {
    empty: null,
    check: (value, seen) => {
      if (value >= bounds[0] && value <= bounds[1]) return null;
      const other = unit === "f" ? "°C" : "°F";
      return `${seen} ${bounds[2]} is outside what a seed test can have. Type ${bounds[0]} to ${bounds[1]} ${bounds[2]}, or choose ${other} beside it.`;
    },
  });
  if (read.value !== null && unit === "f") read.value = toCelsius(read.value);
  return read;
}

function readFactor(text) {
  const read = readDecimal(text, {
    empty: null,
    check: (value, seen) => (value > 0 && value <= 100 ? null
      : `${seen} % can’t be. Type a share above 0 and at most 100 %.`),
  });
  return { ...read, value: read.value === null ? 1 : read.value / 100 };
}
