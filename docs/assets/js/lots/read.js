// From the file to lots with their tests. Every row that cannot be read is a problem; the others count.
// Twin of build_tools/lots/read.py, fed line by line.

import { fold, nearest } from "./catalogue.js";
import { Cells, tidy } from "./cells.js";
import { COUNTS, HEADINGS_NEEDED, NAMES, OTHER_WORDS } from "./columns.js";
import { gather } from "./gather.js";
import { SEPARATORS, Stop, linesOf, quoteWords, recordAt, separatorOf } from "./table.js";
import { listed, quoted } from "../words.js";

export const FILE = "file"; // stands for a column in problems of the whole file
export const ROW = "row"; // and of a whole row

const DESCRIBING = ["lot", "crop", "variety", "harvested", "storage", "tested"];

function emptyReading(stopped = false) {
  return { lots: new Map(), problems: [], rows: 0, leftOut: 0, stopped };
}

/**
 * Read a File or Blob of lots. Gives {lots, problems, rows, leftOut, stopped}: lots by name in the order
 * of their first good row; problems {file, line, column, rule, message, hint, level} sorted by line.
 * `progress(bytes, rows)` is called after each piece of `size` bytes.
 */
export async function readLots(file, name, catalogue, today, progress = () => {}, size = undefined) {
  const reader = new Reader(name, catalogue, today);
  let stop = null;
  try {
    for await (const { lines, last, done } of linesOf(file, size)) {
      // After a bad header the rest is only looked through for what is not text.
      if (stop === null) {
        try {
          reader.feed(lines, last);
        } catch (error) {
          if (!(error instanceof Stop)) throw error;
          stop = error;
        }
      }
      progress(done, reader.reading.rows);
    }
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    stop = error;
  }
  if (stop !== null) reader.stop(stop);
  return reader.finish();
}

class Reader {
  constructor(name, catalogue, today) {
    this.name = name;
    this.catalogue = catalogue;
    this.cells = new Cells(catalogue, today);
    this.reading = emptyReading();
    this.separator = null;
    this.columns = [];
    this.rows = new Map();
    this.marked = new Set();
    this.last = null; // what was read of the row before
    this.waiting = []; // lines of a row that goes on in the next piece
    this.line = 1; // number of the first line waiting, or of the next
  }

  problem(line, rule, message, hint, level = "error") {
    const column = Math.max(this.columns.indexOf(rule), 0) + 1;
    this.reading.problems.push({ file: this.name, line, column, rule, message, hint, level });
  }

  stop({ line, message, hint }) {
    this.reading = emptyReading(true);
    this.columns = [];
    this.problem(line, FILE, message, hint);
  }

  /** Take further lines; `last` when there are no more. Throws Stop. */
  feed(more, last) {
    const lines = this.waiting.length > 0 ? this.waiting.concat(more) : more;
    let index = 0;
    if (this.separator === null) {
      const first = lines.findIndex((line) => /[^ ,;\t]/.test(line));
      if (first < 0 && last) throw new Stop(1, "The file is empty.", "Give it a row of column names and a row for each towel or dish.");
      if (first >= 0) this.separator = separatorOf(lines[first]);
      index = first >= 0 ? first : lines.length;
    }
    while (index < lines.length) {
      if (lines[index] === "") {
        index += 1;
        continue;
      }
      const record = recordAt(lines, index, this.separator, last);
      if (record === null) break;
      this.take(record, this.line + index, lines[index]);
      index += record.used ?? 1;
    }
    this.waiting = lines.slice(index);
    this.line += index;
  }

  take({ cells, wrong }, line, text) {
    if (wrong !== undefined) {
      if (this.columns.length === 0) throw new Stop(line, ...quoteWords(wrong, text));
      this.reading.rows += 1;
      this.leaveOut(text.split(this.separator), line, [[ROW, quoteWords(wrong, text)]]);
    } else if (this.columns.length > 0) {
      this.row(line, cells);
    } else if (cells.some((cell) => tidy(cell) !== "")) {
      this.header(line, cells);
    }
  }

  /** Put the rows together into lots; say so when there are none. */
  finish() {
    const { reading } = this;
    if (!reading.stopped) {
      gather(this.rows, this.marked, this.catalogue, reading, this.problem.bind(this));
      if (reading.rows === 0) {
        this.problem(1, FILE, "The file has column names and no rows.", "Add a row for each towel or dish.");
      }
    }
    reading.problems.sort((a, b) => a.line - b.line || a.column - b.column);
    return reading;
  }

  header(line, cells) {
    const headings = cells.map(tidy);
    const twice = NAMES.filter((name) => headings.filter((heading) => heading === name).length > 1);
    if (twice.length > 0) {
      throw new Stop(line, `The column ${listed(twice.map((name) => quoted(name)))} is there more than once.`,
        "Keep one of them, or give the other another name.");
    }
    const others = [...new Set(headings.filter((heading) => !NAMES.includes(heading)))];
    const missing = HEADINGS_NEEDED.filter((name) => !headings.includes(name));
    if (missing.length > 0) {
      const remedies = missing.map((name) => {
        const other = others.find((heading) => meaning(heading) === name);
        return other ? `Rename ${quoted(other)} to “${name}”.` : `Add a column “${name}”.`;
      });
      const words = listed(missing.map((name) => `“${name}”`));
      throw new Stop(line, missing.length === 1 ? `The column ${words} is missing.` : `The columns ${words} are missing.`, remedies.join(" "));
    }
    this.columns = headings;
    // A column that is not there is read from an empty cell put at the end of each row.
    this.place = Object.fromEntries(NAMES.map((name) => [name, headings.includes(name) ? headings.indexOf(name) : headings.length]));
    this.textPlaces = DESCRIBING.map((name) => this.place[name]);
    this.countPlaces = COUNTS.map((name) => this.place[name]);
    if (others.length > 0) {
      // A heading that looks like one of the missing columns is worth a word.
      const like = others.find((other) => meaning(other) !== null && !headings.includes(meaning(other)));
      const shown = listed(others.map((other) => (other === "" ? "without a name" : quoted(other))));
      this.problem(line, FILE, `Not read, being none of the columns known here: ${shown}.`,
        like === undefined ? "Nothing needs doing." : `If ${quoted(like)} is “${meaning(like)}”, rename it.`, "note");
    }
  }

  row(line, cells) {
    const { reading } = this;
    const filled = () => cells.some((cell) => tidy(cell) !== "");
    if (cells.length !== this.columns.length) {
      if (!filled()) return;
      reading.rows += 1;
      const word = SEPARATORS.get(this.separator);
      this.leaveOut(cells, line, [[ROW, [`${cells.length} cells in this row, ${this.columns.length} in the header.`,
        `Look for a missing ${word}, or for a ${word} inside a text, which then needs quotes around it.`]]]);
      return;
    }
    cells.push("");
    const texts = this.textPlaces.map((at) => cells[at]);
    if (this.last === null || texts.some((text, i) => text !== this.last.texts[i])) { // further replicates repeat them
      this.last = this.described(texts);
    }
    const { lot, crop, variety, harvested, storage, tested, wrongs } = this.last;
    const test = this.cells.test(tested !== "", this.countPlaces.map((at) => cells[at]));
    if (wrongs.length > 0 || test.wrongs.length > 0) {
      if (!filled()) return;
      reading.rows += 1;
      this.leaveOut(cells, line, wrongs.concat(test.wrongs));
      return;
    }
    reading.rows += 1;
    const row = {
      line, crop, variety, harvested, storage, tested,
      seeds: test.seeds, normal: test.normal, hard: test.hard, fresh: test.fresh,
    };
    const rows = this.rows.get(lot);
    if (rows === undefined) this.rows.set(lot, [row]);
    else rows.push(row);
  }

  /** Values of a row's cells but for the counts, in the order of DESCRIBING, and what is wrong with them. */
  described(texts) {
    const read = DESCRIBING.map((name, i) => this.cells[name](texts[i]));
    const wrongs = DESCRIBING.map((name, i) => [name, read[i].wrong]).filter(([, wrong]) => wrong);
    const [lot, crop, variety, harvested, storage, tested] = read.map((cell) => cell.value);
    if (wrongs.length === 0 && tested !== "" && tested.slice(0, harvested.length) < harvested) {
      wrongs.push(["tested", [`Tested on ${tested}, before the harvest of ${harvested}.`, "Check both dates."]]);
    }
    return { texts, lot, crop, variety, harvested, storage, tested, wrongs };
  }

  /** Report what is wrong with a row; mark its lot, as far as that can be read. */
  leaveOut(cells, line, wrongs) {
    this.reading.leftOut += 1;
    const cell = cells[this.place.lot];
    if (cell !== undefined) this.marked.add(tidy(cell.replace(/^"+/, "").replace(/"+$/, "")));
    for (const [column, [message, hint]] of wrongs) this.problem(line, column, message, hint);
  }
}

/** The column of ours that another heading probably stands for, or null. */
function meaning(heading) {
  const folded = fold(heading);
  const words = folded.split(/[^a-zA-Z]+/).filter((word) => word !== "");
  for (const word of words) if (NAMES.includes(word)) return word;
  for (const word of words) if (OTHER_WORDS.has(word)) return OTHER_WORDS.get(word);
  return folded === "" ? null : nearest(folded, NAMES);
}
