// Reading an entry field by field: values and messages, the same way for every calculator.

import { grouped, readDecimal, readWhole } from "./fields.js";

export const MOST_SEEDS_SET = 100000;
const LEVELS = ["80", "90", "95", "99"];

/** Collects messages: note(field, {value, message}) gives the value; `messages` is the Map of them. */
export function reader() {
  const messages = new Map();
  const note = (field, { value, message }) => {
    if (message !== null) messages.set(field, message);
    return value;
  };
  return { messages, note, done: (values) => ({ values: messages.size === 0 ? values : null, messages }) };
}

/** A confidence or certainty of 80, 90, 95 or 99 % as a fraction. */
export function level(text, otherwise) {
  return Number(LEVELS.includes(text) ? text : otherwise) / 100;
}

/** One of the given choices, else the first. */
export function oneOf(text, choices) {
  return choices.includes(text) ? text : choices[0];
}

/** A whole number of seeds, 1 or more. */
export function readSeeds(text, most = MOST_SEEDS_SET) {
  return readWhole(text, {
    least: 1, most, tooMany: `Type at most ${grouped(most)} seeds.`,
    empty: "Nothing typed. Type how many seeds you set, 1 or more.",
  });
}

/** A count of seedlings out of `seeds` (null when those can't be read). */
export function readSeedlings(text, seeds, most = MOST_SEEDS_SET) {
  const read = readWhole(text, {
    least: 0, most, tooMany: `Type at most ${grouped(most)} seedlings.`,
    empty: "Nothing typed. Type how many normal seedlings you counted, 0 if none.",
  });
  if (read.value === null || seeds === null || read.value <= seeds) return read;
  const of = `${grouped(seeds)} ${seeds === 1 ? "seed" : "seeds"}`;
  return { value: null, message: `${grouped(read.value)} ${read.value === 1 ? "seedling" : "seedlings"} from ${of} can’t be. Check both numbers: seedlings may be at most the seeds set.` };
}

/** A percentage within limits as a fraction; `empty` is the message for an empty field, null if it may be. */
export function readPercent(text, { above = 0, most = 100, empty, what = "Type a percentage" }) {
  const read = readDecimal(text.replace(/\s*%$/, ""), {
    empty,
    check: (value, seen) => (value > above && value <= most ? null
      : `${seen} % can’t be used here. ${what} above ${above} and at most ${most} %.`),
  });
  return { ...read, value: read.value === null ? null : read.value / 100 };
}

/** A number above zero, decimals allowed. */
export function readPositive(text, { empty, most = 1e6, unit = "" }) {
  return readDecimal(text, {
    empty,
    check: (value, seen) => (value > 0 && value <= most ? null
      : `${seen} can’t be used here. Type a number above 0 and at most ${grouped(most)}${unit ? ` ${unit}` : ""}.`),
  });
}

/** A short name of the reader's own, or what stands for it when empty. */
export function readName(text, otherwise) {
  const name = text.trim().slice(0, 40);
  return { value: name === "" ? otherwise : name, message: null };
}

/** A date as its field gives it, ISO; may be empty. */
export function readDate(text) {
  if (text === "") return { value: null, message: null };
  const seen = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text));
  return seen ? { value: text, message: null }
    : { value: null, message: "This is not a whole date. Choose day, month and year, or leave it empty." };
}
