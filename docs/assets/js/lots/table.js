// From the bytes of a file to rows of cells with their lines: encoding, separator, quotes.
// Twin of build_tools/lots/table.py, but in pieces: a long file is never in memory as a whole.

import { quoted, withCommas } from "../words.js";

export const LARGEST_FILE = 50_000_000; // bytes
const PIECE = 4_000_000;
const MOST_LINES_IN_CELL = 20;
export const SEPARATORS = new Map([[",", "comma"], [";", "semicolon"], ["\t", "tab"]]);
const SAVE_AS = "Open it where it was made and save it as CSV, UTF-8.";

/** The file as a whole cannot be read: the line, what was seen and the remedy. */
export class Stop extends Error {
  constructor(line, message, hint) {
    super(message);
    this.line = line;
    this.hint = hint;
  }
}

/** Throws Stop when the first bytes are those of another kind of file. */
function checkStart(bytes) {
  const starts = (...start) => start.every((byte, i) => bytes[i] === byte);
  if (starts(0x50, 0x4b, 3, 4) || starts(0xd0, 0xcf, 0x11, 0xe0)) {
    throw new Stop(1, "This is a spreadsheet file, not a CSV file.", SAVE_AS);
  }
  if (starts(0xff, 0xfe) || starts(0xfe, 0xff)) {
    throw new Stop(1, "This file is UTF-16 text (often called “Unicode text”), not UTF-8.", SAVE_AS);
  }
  if (starts(0x25, 0x50, 0x44, 0x46)) throw new Stop(1, "This is a PDF file, not a CSV file.", SAVE_AS);
}

/**
 * Lines of a File or Blob, piece by piece of so many bytes: yields {lines, last, done}, `done` in bytes.
 * Line ends and the byte-order mark are gone; the last line of all may be empty. Throws Stop.
 */
export async function* linesOf(file, size = PIECE) {
  checkStart(new Uint8Array(await file.slice(0, 8).arrayBuffer()));
  if (file.size > LARGEST_FILE) {
    throw new Stop(1, `The file has ${withCommas(file.size)} bytes; at most ${withCommas(LARGEST_FILE)} are read.`,
      "Split it into several files.");
  }
  const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  let carried = new Uint8Array(0);
  let line = 1; // that the next piece begins with
  let done = 0;
  let begun = false;
  for (let last = false; !last;) {
    const piece = new Uint8Array(await file.slice(done, done + size).arrayBuffer());
    done += piece.length;
    last = done >= file.size || piece.length === 0;
    const bytes = joined(carried, piece);
    // Cut after a line end, which never lies inside a letter; a final CR may be half of CR LF.
    const end = last ? bytes.length
      : Math.max(bytes.lastIndexOf(10), bytes.length > 1 ? bytes.lastIndexOf(13, bytes.length - 2) : -1) + 1;
    carried = bytes.subarray(end);
    let text = textOf(decoder, bytes.subarray(0, end), line);
    if (!begun && text.startsWith("\ufeff")) text = text.slice(1);
    begun ||= end > 0;
    const lines = (text.includes("\r") ? text.replace(/\r\n?/g, "\n") : text).split("\n");
    if (!last) lines.pop(); // what follows the final line end belongs to the next piece
    line += lines.length;
    yield { lines, last, done };
  }
}

function joined(a, b) {
  if (a.length === 0) return b;
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

function textOf(decoder, bytes, line) {
  try {
    return decoder.decode(bytes);
  } catch {
    throw new Stop(line + lineEnds(bytes), "This line is not UTF-8 text.",
      "Save the file as CSV, UTF-8; your spreadsheet asks for the encoding, or has it as a kind of file of its own.");
  }
}

// How many line ends stand before the first byte that is not UTF-8.
function lineEnds(bytes) {
  const readable = (length) => {
    try {
      new TextDecoder("utf-8", { fatal: true }).decode(bytes.subarray(0, length), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  let good = 0;
  let bad = bytes.length + 1; // a letter cut off at the very end spoils only the whole
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (readable(middle)) good = middle;
    else bad = middle;
  }
  let ends = 0;
  for (let i = 0; i < good; i += 1) {
    if (bytes[i] === 10 || (bytes[i] === 13 && bytes[i + 1] !== 10)) ends += 1;
  }
  return ends;
}

/** The separator of the header line: the one of comma, semicolon and tab that it has most of, outside quotes. */
export function separatorOf(header) {
  const outside = header.split('"').filter((_, i) => i % 2 === 0).join("");
  let best = ",";
  for (const separator of SEPARATORS.keys()) {
    if (outside.split(separator).length > outside.split(best).length) best = separator;
  }
  return best;
}

/**
 * The cells of the row that begins at lines[index]: {cells, used} with the lines it takes, or
 * {wrong}, or null when more lines are needed to tell (never when `last`).
 */
export function recordAt(lines, index, separator, last) {
  const line = lines[index];
  if (!line.includes('"')) return { cells: line.split(separator), used: 1 };
  return quotedRecord(lines, index, separator, last);
}

function quotedRecord(lines, index, separator, last) {
  const cells = [];
  let used = 1;
  let line = lines[index];
  let at = 0;
  for (;;) {
    if (line[at] !== '"') {
      const end = line.indexOf(separator, at);
      if (end < 0) {
        cells.push(line.slice(at));
        return { cells, used };
      }
      cells.push(line.slice(at, end));
      at = end + 1;
      continue;
    }
    at += 1;
    let text = "";
    for (;;) {
      const end = line.indexOf('"', at);
      if (end < 0) {
        text += `${line.slice(at)}\n`;
        if (used > MOST_LINES_IN_CELL) return { wrong: "open" };
        if (index + used >= lines.length) return last ? { wrong: "open" } : null;
        line = lines[index + used];
        at = 0;
        used += 1;
        continue;
      }
      text += line.slice(at, end);
      at = end + 1;
      if (line[at] !== '"') break;
      text += '"';
      at += 1;
    }
    cells.push(text);
    if (at === line.length) return { cells, used };
    if (line[at] !== separator) return { wrong: "after" };
    at += 1;
  }
}

/** [message, hint] for a row whose quotes do not fit. */
export function quoteWords(wrong, line) {
  if (wrong === "open") {
    return [`A quote in this row is not closed: ${quoted(line)}.`,
      'Close it, or delete it. A " inside a quoted cell is written "".'];
  }
  return [`Text follows a closing quote in this row: ${quoted(line)}.`,
    'A " inside a quoted cell is written "".'];
}
