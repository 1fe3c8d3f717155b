// One cell at a time: its value, or what is wrong with it and how to mend it.
// Twin of build_tools/lots/cells.py. "Wrong" is null or [message, hint].

import { WHITE, fold, trimSpaces } from "./catalogue.js";
import { COUNTS, LONGEST_LOT, MOST_SEEDS, STORAGES } from "./columns.js";
import { checkDay, checkHarvest } from "./dates.js";
import { counted, grouped, listed, quoted } from "../words.js";

const ODD_SPACE = /[\t\n\r\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]| {2}/;
const NOT_ASCII = /[^\x00-\x7f]/;
// Characters that make two lots look the same, and those that do things to a terminal.
const HIDDEN = /[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/;
const WHOLE = /^[0-9]{1,7}$/;
const GROUPED = /^[0-9]{1,3}([ ,.'’][0-9]{3})+$/;
const DECIMAL = /^([0-9]*)[.,]([0-9]*)$/;
const NEGATIVE = /^[-−–] ?[0-9]+([.,][0-9]+)?$/;
const PERCENTAGE = /^[0-9.,]+ ?%$/;
const MOST_NAMES_SOUGHT = 200; // unknown crops for which a near name is looked up: the search is slow

/** Without space around it, single spaces inside, composed letters. */
export function tidy(text) {
  let tidied = ODD_SPACE.test(text) ? text.replace(WHITE, " ") : text;
  if (tidied.startsWith(" ") || tidied.endsWith(" ")) tidied = trimSpaces(tidied);
  if (tidied === " ") tidied = "";
  return NOT_ASCII.test(tidied) ? tidied.normalize("NFC") : tidied;
}

/** {value, wrong} of a whole number of seeds written as digits alone, 0 to MOST_SEEDS. */
export function readCount(text) {
  const fail = (message, hint) => ({ value: null, wrong: [message, hint] });
  const tooMany = `One towel or dish has at most ${grouped(MOST_SEEDS)} seeds; check the number.`;
  if (WHOLE.test(text)) {
    const value = Number(text);
    if (value <= MOST_SEEDS) return { value, wrong: null };
    return fail(`${grouped(value)} is more than one row may hold.`, tooMany);
  }
  const digits = text.replace(/[^0-9]/g, "");
  if (GROUPED.test(text)) {
    return fail(`${quoted(text)} has a separator between its digits.`,
      `Write the digits alone${digits.length <= 7 ? `: ${digits}` : ""}.`);
  }
  const decimal = DECIMAL.exec(text);
  if (decimal && decimal[1].length > 0 && decimal[1].length <= 7) {
    const below = Number(decimal[1]);
    const write = /^0*$/.test(decimal[2]) ? `Write ${below}.`
      : `Seeds are counted whole: write ${below} or ${below + 1}.`;
    return fail(text.includes(",") ? `${quoted(text)} has a decimal comma.` : `${quoted(text)} is not a whole number.`, write);
  }
  if (NEGATIVE.test(text)) return fail(`${quoted(text)} is below zero.`, "Write 0 or more.");
  if (PERCENTAGE.test(text)) return fail(`${quoted(text)} is a percentage.`, "Write how many were counted.");
  if (digits === text) return fail(`${quoted(text)} is more than one row may hold.`, tooMany);
  return fail(`${quoted(text)} is not a number.`, "Write digits alone, such as 12.");
}

/** Reads cells by column; remembers what it has read, since most cells of a long file repeat. */
export class Cells {
  constructor(catalogue, today) {
    this.catalogue = catalogue;
    this.sought = 0;
    const dated = (check) => (text) => {
      const value = tidy(text);
      const [message, hint] = value === "" ? ["", ""] : check(value, today);
      return { value, wrong: message === "" ? null : [message, hint] };
    };
    this.crop = remembering((text) => this.readCrop(text));
    this.variety = remembering((text) => {
      const value = tidy(text);
      return { value, wrong: hidden(value) };
    });
    this.harvested = remembering(dated(checkHarvest));
    this.tested = remembering(dated(checkDay));
    this.storage = remembering(readStorage);
    this.tests = new Map();
  }

  lot(text) {
    const value = tidy(text);
    const fail = (message, hint) => ({ value: "", wrong: [message, hint] });
    if (value === "") {
      return fail("This row names no lot.", "Give the lot its number or name; all rows of one lot carry the same.");
    }
    if (HIDDEN.test(value)) return { value: "", wrong: hidden(value) };
    if (value.length > LONGEST_LOT && [...value].length > LONGEST_LOT) {
      return fail(`${quoted(value)} has ${[...value].length} characters; a lot has at most ${LONGEST_LOT}.`,
        "Shorten it, and put the rest under note.");
    }
    return { value, wrong: null };
  }

  readCrop(text) {
    const value = tidy(text);
    const fail = (message, hint) => ({ value: "", wrong: [message, hint] });
    if (value === "") return fail("This row names no crop.", "Write the crop’s name, such as Tomato.");
    const found = this.catalogue.find(value);
    if (found !== null) return { value: found, wrong: null };
    this.sought += 1;
    const near = this.sought <= MOST_NAMES_SOUGHT ? this.catalogue.suggest(value) : [];
    return fail(`${quoted(value)} is no crop of this reference.`,
      near.length > 0 ? `Did you mean ${listed(near.map((name) => `“${name}”`), "or")}?`
        : "Write one of the crops of this reference, by an English name or its id.");
  }

  /**
   * {seeds, normal, hard, fresh, wrongs} of a row's count cells, in the order of COUNTS; `wrongs` is a
   * list of [column, [message, hint]]. Seeds and normal are null for a lot not yet tested.
   */
  test(isDated, cells) {
    const key = `${isDated}\0${cells.join("\0")}`;
    // A cell with the joining character in it would make two rows look the same.
    if (key.split("\0").length !== cells.length + 1) return readTest(isDated, cells);
    let found = this.tests.get(key);
    if (found === undefined) {
      found = readTest(isDated, cells);
      this.tests.set(key, found);
    }
    return found;
  }
}

function remembering(read) {
  const known = new Map();
  return (text) => {
    let found = known.get(text);
    if (found === undefined) {
      found = read(text);
      known.set(text, found);
    }
    return found;
  };
}

function readStorage(text) {
  const value = fold(text).replaceAll(" ", "-");
  if (value === "" || STORAGES.includes(value)) return { value, wrong: null };
  return { value: "", wrong: [`${quoted(tidy(text))} is no way of storing.`, "Write cool-dry, cold-dry or warm, or leave it empty."] };
}

// What to say of the first hidden or control character; null when there is none.
function hidden(text) {
  const found = HIDDEN.exec(text);
  if (!found) return null;
  const code = found[0].codePointAt(0).toString(16).toUpperCase().padStart(4, "0");
  return [`A character that does not show (U+${code}) stands in this cell.`, "Type the text anew rather than pasting it."];
}

function readTest(isDated, cells) {
  const counts = Object.fromEntries(COUNTS.map((name) => [name, null]));
  let wrongs = [];
  COUNTS.forEach((name, i) => {
    const text = tidy(cells[i]);
    if (text === "") return;
    const { value, wrong } = readCount(text);
    counts[name] = value;
    if (wrong) wrongs.push([name, wrong]);
  });
  if (wrongs.length === 0) wrongs = checkCounts(isDated, counts);
  return { seeds: counts.seeds, normal: counts.normal, hard: counts.hard ?? 0, fresh: counts.fresh ?? 0, wrongs };
}

// What is wrong with the counts of a row together; null where a cell is empty.
function checkCounts(isDated, counts) {
  const { seeds, normal } = counts;
  const given = COUNTS.filter((name) => counts[name] !== null);
  const missing = [["tested", isDated], ["seeds", seeds !== null], ["normal", normal !== null]]
    .filter(([, there]) => !there).map(([name]) => name);
  if (missing.length > 0) {
    if (!isDated && given.length === 0) return [];
    return [[missing[0], [`This test is half filled in: ${listed(missing)} ${missing.length === 1 ? "is" : "are"} empty.`,
      "Fill in tested, seeds and normal, or leave the date and all counts empty for a lot not yet tested."]]];
  }
  if (seeds === 0) {
    return [["seeds", ["A test of 0 seeds.",
      "Write how many were set, or leave the date and all counts empty for a lot not yet tested."]]];
  }
  if (normal > seeds) {
    return [["normal", [`${counted(normal, "normal seedling")} from ${counted(seeds, "seed")} cannot be.`,
      "Check both numbers: seedlings are at most the seeds set."]]];
  }
  const parts = given.filter((name) => name !== "seeds").map((name) => counts[name]);
  const total = parts.reduce((sum, count) => sum + count, 0);
  if (total > seeds) {
    return [[given[given.length - 1], [`${parts.map(grouped).join(" + ")} = ${grouped(total)} counted from ${counted(seeds, "seed")} cannot be.`,
      "Check the counts: together they are at most the seeds set."]]];
  }
  return [];
}
