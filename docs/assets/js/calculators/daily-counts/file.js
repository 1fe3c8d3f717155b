// Test files: germination tests counted day by day, one row a count.
// Twin of build_tools/test_files.py, where the format is described; messages are the same word for word.

import { fold, nearest } from "../../lots/catalogue.js";
import { readCount, tidy } from "../../lots/cells.js";
import { SEPARATORS, Stop, linesOf, quoteWords, recordAt, separatorOf } from "../../lots/table.js";
import { counted, grouped, listed, quoted } from "../../words.js";
import { LEAST_DAY, LONGEST_NAME, MOST_DAYS } from "./entry.js";

export const COLUMNS = ["test", "seeds", "day", "new"];
const FILE = "file";
const ROW = "row";

const DAY = /^(?:[0-9]{1,9}(?:\.[0-9]{0,9})?|\.[0-9]{1,9})$/;
const DATE = /^[0-9]{1,4}([-/.])[0-9]{1,2}\1[0-9]{1,4}$/;
const GUARDED = /^'[=+@-]/;
// Characters that do not show, or do something to a terminal; as the reader of lots has them.
const HIDDEN = /[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/;
const OTHER_WORDS = {
  name: "test", lot: "test", sample: "test", trial: "test", set: "seeds", sown: "seeds", seed: "seeds", n: "seeds",
  days: "day", time: "day", date: "day", seedlings: "new", germinated: "new", sprouted: "new", count: "new", fresh: "new",
};
const TOTALS = ["total", "cumulative", "sum"];

/**
 * Read a File or Blob. Never throws for anything it holds. Gives a promise of
 * {courses: [{name, seeds, days, fresh, line}], problems: [{line, column, rule, message, hint, level}], leftOut}.
 */
export async function readCourses(file) {
  const reader = new Reader();
  try {
    let lines = [];
    for await (const piece of linesOf(file)) lines = lines.concat(piece.lines);
    reader.read(lines);
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    reader.reading = { courses: [], problems: [], leftOut: 0 };
    reader.problem(stop.line, FILE, [stop.message, stop.hint]);
  }
  reader.reading.problems.sort((a, b) => a.line - b.line || a.column - b.column);
  return reader.reading;
}

/** [value, null], or [null, [message, hint]]. */
export function readDay(text, commaSeparates = false) {
  const value = tidy(text);
  const wrong = (message, hint) => [null, [message, hint]];
  if (value === "") return wrong("Nothing stands here.", "Write the day of this count, in days since the seed was set.");
  if (DATE.test(value)) return wrong(`${quoted(value)} is a date.`, "Write the days since the seed was set, such as 5.");
  if (/^[-−–]/.test(value)) return wrong(`${quoted(value)} is below zero.`, "Write the days since the seed was set, 0 or more.");
  const point = value.replace(",", ".");
  if (!DAY.test(point)) return wrong(`${quoted(value)} is not a number of days.`, "Write digits, such as 5 or 5.5.");
  if (value.includes(",") && commaSeparates) {
    return wrong(`${quoted(value)} has a decimal comma, and commas separate the columns of this file.`, `Write ${point}, or save the file with semicolons.`);
  }
  const day = Number(point);
  if (day > MOST_DAYS) return wrong(`Day ${value} is more than ${MOST_DAYS} days after the start.`, "Write days since the seed was set, not a date.");
  if (day > 0 && day < LEAST_DAY) return wrong(`Day ${value} is minutes after the start.`, `Write 0, or ${LEAST_DAY} or more; 12 hours are 0.5.`);
  return [day, null];
}

function dayText(day) {
  return String(Math.floor(day * 100 + 0.5) / 100);
}

class Reader {
  constructor() {
    this.reading = { courses: [], problems: [], leftOut: 0 };
    this.columns = [];
    this.rows = new Map(); // by test
    this.first = new Map(); // line in which a test begins, good or bad
    this.marked = new Set(); // tests with something wrong in them
  }

  problem(line, rule, [message, hint], level = "error") {
    const place = this.columns.indexOf(rule);
    this.reading.problems.push({ line, column: place < 0 ? 1 : place + 1, rule, message, hint, level });
  }

  read(lines) {
    const first = lines.find((line) => /[^ ,;\t]/.test(line));
    if (first === undefined) throw new Stop(1, "The file is empty.", "Give it the column names test, seeds, day, new and a row for each count.");
    this.separator = separatorOf(first);
    for (let index = 0; index < lines.length;) {
      const { cells, wrong, used = 1 } = recordAt(lines, index, this.separator, true);
      this.take(cells, wrong, index + 1, lines[index]);
      index += used;
    }
    if (this.first.size === 0) throw new Stop(1, "The file has column names and no rows.", "Add a row for each count.");
    this.gather();
  }

  take(cells, wrong, line, text) {
    if (wrong !== undefined) {
      if (this.columns.length === 0) throw new Stop(line, ...quoteWords(wrong, text));
      this.leaveOut(text.split(this.separator), line, [[ROW, quoteWords(wrong, text)]]);
    } else if (cells.some((cell) => tidy(cell) !== "")) {
      if (this.columns.length === 0) this.header(line, cells);
      else this.row(line, cells);
    }
  }

  header(line, cells) {
    const headings = cells.map((cell) => fold(tidy(cell)));
    const twice = COLUMNS.filter((name) => headings.filter((heading) => heading === name).length > 1);
    if (twice.length > 0) {
      throw new Stop(line, `The column ${listed(twice.map((name) => quoted(name)))} is there more than once.`, "Keep one of them, or give the other another name.");
    }
    const others = [...new Set(headings)].filter((heading) => !COLUMNS.includes(heading));
    const missing = COLUMNS.filter((name) => !headings.includes(name));
    if (missing.length > 0) {
      const words = listed(missing.map((name) => quoted(name)));
      throw new Stop(line, missing.length === 1 ? `The column ${words} is missing.` : `The columns ${words} are missing.`, missing.map((name) => remedy(name, others)).join(" "));
    }
    this.columns = headings;
    this.places = Object.fromEntries(COLUMNS.map((name) => [name, headings.indexOf(name)]));
    if (others.length > 0) {
      const shown = listed(others.map((other) => (other === "" ? "one without a name" : quoted(other))));
      this.problem(line, FILE, [`Not read, being none of the columns known here: ${shown}.`, "Nothing needs doing."], "note");
    }
  }

  row(line, cells) {
    if (cells.length !== this.columns.length) {
      const word = SEPARATORS.get(this.separator);
      const hint = word === "comma" && cells.length > this.columns.length
        ? "A decimal comma makes two cells of one: write 5.5." : `Look for a missing ${word}, or for one too many.`;
      this.leaveOut(cells, line, [[ROW, [`${cells.length} cells in this row, ${this.columns.length} in the header.`, hint]]]);
      return;
    }
    const text = (name) => cells[this.places[name]];
    const read = {
      test: readName(text("test")),
      seeds: readCell(text("seeds"), "Write how many seeds were set, in every row of the test.", 1),
      day: readDay(text("day"), this.separator === ","),
      new: readCell(text("new"), "Write how many seedlings were new, 0 if none.", 0),
    };
    const wrongs = COLUMNS.map((name) => [name, read[name][1]]).filter(([, wrong]) => wrong !== null);
    if (wrongs.length > 0) {
      this.leaveOut(cells, line, wrongs);
      return;
    }
    const [name] = read.test;
    if (!this.first.has(name)) this.first.set(name, line);
    if (!this.rows.has(name)) this.rows.set(name, []);
    this.rows.get(name).push({ line, seeds: read.seeds[0], day: read.day[0], fresh: read.new[0] });
  }

  // Report what is wrong with a row; its test, as far as that can be read, is left out.
  leaveOut(cells, line, wrongs) {
    const place = this.places.test;
    const name = place < cells.length ? bare(cells[place].replace(/^"+|"+$/g, "")) : "";
    if (!this.first.has(name)) this.first.set(name, line);
    this.marked.add(name);
    for (const [column, wrong] of wrongs) this.problem(line, column, wrong);
  }

  // The tests, each checked as a whole.
  gather() {
    if (this.first.has("") && this.first.size > 1) {
      if (!this.marked.has("")) this.problem(this.first.get(""), "test", ["This row names no test, and others do.", "Write the name in every row of the test."]);
      this.marked.add("");
    }
    for (const [name, line] of this.first) {
      const rows = this.rows.get(name) ?? [];
      const wrong = this.marked.has(name) ? null : wrongWith(rows);
      if (wrong !== null) this.problem(...wrong);
      if (wrong !== null || this.marked.has(name)) {
        this.reading.leftOut += 1;
        continue;
      }
      const kept = rows.filter(({ day }) => day > 0);
      this.reading.courses.push({ name, seeds: rows[0].seeds, days: kept.map(({ day }) => day), fresh: kept.map(({ fresh }) => fresh), line });
    }
  }
}

// [line, column, [message, hint]] of the first thing wrong with a test as a whole, or null.
function wrongWith(rows) {
  let total = 0;
  let before = null;
  for (const row of rows) {
    total += row.fresh;
    if (row.seeds !== rows[0].seeds) {
      return [row.line, "seeds", [`${counted(row.seeds, "seed")} here, ${grouped(rows[0].seeds)} in line ${rows[0].line}.`, "All rows of one test carry the same number; another test needs another name."]];
    }
    if (before !== null && row.day <= before.day) {
      const seen = row.day === before.day ? `Day ${dayText(row.day)} is there twice` : `Day ${dayText(row.day)} comes after day ${dayText(before.day)}`;
      return [row.line, "day", [`${seen} (line ${before.line}).`, "Put the counts in the order of the days; two tests need two names."]];
    }
    if (row.day === 0 && row.fresh > 0) {
      return [row.line, "new", [`${counted(row.fresh, "seedling")} on day 0 cannot be: seed does not come up at the moment it is set.`, "Count the days from setting the seed; the next day is day 1."]];
    }
    if (total > row.seeds) {
      return [row.line, "new", [`${counted(total, "seedling")} by day ${dayText(row.day)} from ${counted(row.seeds, "seed")} cannot be.`, "Check the counts: “new” holds the seedlings new at each count, not running totals."]];
    }
    before = row;
  }
  return before.day > 0 ? null : [before.line, "day", ["Day 0 is the only count of this test.", "Add the counts of later days."]];
}

function bare(text) {
  const value = tidy(text);
  return GUARDED.test(value) ? value.slice(1) : value;
}

function readName(text) {
  const name = bare(text);
  const length = [...name].length;
  if (length > LONGEST_NAME) return [name, [`${quoted(name)} has ${length} characters; a name has at most ${LONGEST_NAME}.`, "Shorten it."]];
  const found = HIDDEN.exec(name);
  if (found === null) return [name, null];
  const code = found[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, "0");
  return [name, [`A character that does not show (U+${code}) stands in this cell.`, "Type the text anew rather than pasting it."]];
}

function readCell(text, ifEmpty, least) {
  const value = tidy(text);
  if (value === "") return [null, ["Nothing stands here.", ifEmpty]];
  const { value: count, wrong } = readCount(value);
  return wrong === null && count < least ? [null, ["A test of 0 seeds.", "Write how many were set."]] : [count, wrong];
}

// How to come by a missing column; the heading that probably means it is named.
function remedy(name, others) {
  const meant = others.find((other) => meaning(other) === name);
  if (meant !== undefined) return `Rename ${quoted(meant)} to “${name}”.`;
  if (name === "new" && others.some((other) => other.split(" ").some((word) => TOTALS.includes(word)))) {
    return "Add a column “new” with the seedlings new at each count: each total less the one before.";
  }
  return `Add a column “${name}”.`;
}

function meaning(heading) {
  const words = heading.split(" ");
  if (words.some((word) => TOTALS.includes(word))) return null;
  const other = words.find((word) => Object.hasOwn(OTHER_WORDS, word));
  return words.find((word) => COLUMNS.includes(word)) ?? (other && OTHER_WORDS[other]) ?? (heading === "" ? null : nearest(heading, COLUMNS));
}
