// A log of daily temperatures, typed, pasted or from a file: one line a day, "2026-04-12, 14.5, 22".
// Lines are read one by one; what is wrong with any is said with its number, and nothing is guessed.

import { toCelsius } from "./fields.js";
import { temperatureText } from "./format.js";
import { dateOfDay, dayNumber, daysInMonth, iso } from "../dates.js";
import { counted, grouped, quoted } from "../words.js";

const ISO_DATE = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:T[\d:.]+Z?)?$/;
const NUMBER = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/;
const NO_READING = /^(|-|–|na|n\/a|nan|null|missing|m|-9999(\.0+)?)$/i;
const HEADINGS = {
  date: /^(date|day|datum|time)\b/i,
  low: /(^|[^a-z])(t?min(imum)?|t?low(est)?)([^a-z]|$)/i,
  high: /(^|[^a-z])(t?max(imum)?|t?high(est)?)([^a-z]|$)/i,
};

/**
 * Read a log. `unit` is "c" or "f"; `limits` is
 *   what             what was measured, for messages: "the air over a seed tray"
 *   least, most      plausible °C
 *   mostRows, tooMany   most lines with something on them, and what to do about more
 *   start            ISO date of the first line that has no date, later ones follow day by day; null when each line needs its date
 *   pair             true: two numbers a line, low and high in this order; false: one or two readings in any order
 *   halfMissing      true: with `pair`, a line with only one of the two counts as without a reading; else it is a problem
 * Returns {days: [{date, low, high, line}] by date, without: dates (or lines) that have no reading, problems: [text], reversed};
 * temperatures are °C; of a single reading low and high are the same.
 */
export function readDayLog(text, unit, limits) {
  const lines = text.replace(/^\ufeff/, "").split(/\r\n|\r|\n/);
  const reader = new LogReader(unit, limits);
  const filled = lines.reduce((count, line) => count + (/\S/.test(line) ? 1 : 0), 0);
  if (filled > limits.mostRows) {
    return { days: [], without: [], reversed: false, problems: [`${grouped(filled)} lines are more than the ${grouped(limits.mostRows)} that fit here. ${limits.tooMany}`] };
  }
  lines.forEach((line, i) => reader.line(line, i + 1));
  return reader.finish();
}

/** The problems in one message: the first few, and how many more there are. */
export function problemsText(problems, shown = 3) {
  const rest = problems.length - shown;
  return problems.slice(0, shown).join(" ") + (rest > 0 ? ` And ${grouped(rest)} more like these.` : "");
}

class LogReader {
  constructor(unit, limits) {
    this.unit = unit;
    this.limits = limits;
    this.order = null; // of the columns: places of date, low and high; null until a heading gives them
    this.days = [];
    this.without = [];
    this.problems = [];
    this.outside = []; // lines with temperatures that cannot be
    this.otherUnit = 0; // how many of them could be in the other unit
    this.next = limits.start === null ? null : dayNumber(limits.start);
    this.started = false;
  }

  line(text, number) {
    const cells = split(text);
    if (cells.every((cell) => cell === "")) return;
    if (!this.started) {
      this.started = true;
      if (isHeading(cells)) {
        this.heading(cells, number);
        return;
      }
    }
    const { date, texts } = this.parts(cells);
    const day = this.day(date, texts, number);
    if (day === null) return;
    const half = this.limits.halfMissing && texts.length === 2 && texts.some((cell) => NO_READING.test(cell));
    if (half || texts.every((cell) => NO_READING.test(cell))) {
      this.without.push(day);
      return;
    }
    const values = this.values(texts, number);
    if (values === null) return;
    const [low, high] = [values[0], values.at(-1)];
    if (this.limits.pair && low > high) {
      this.problems.push(`Line ${number}: the minimum, ${texts[0]}, is above the maximum, ${texts[1]}. Check them; the lower one comes first.`);
      return;
    }
    this.days.push({ day, date: dateOfDay(day), low: Math.min(low, high), high: Math.max(low, high), line: number });
  }

  heading(cells, number) {
    const place = (name) => cells.findIndex((cell) => HEADINGS[name].test(cell));
    const [date, low, high] = [place("date"), place("low"), place("high")];
    if (low < 0 && high < 0) return; // words alone: the usual order
    if (low < 0 || high < 0) {
      this.problems.push(`Line ${number}: there is a column for the ${low < 0 ? "maximum" : "minimum"} and none for the ${low < 0 ? "minimum" : "maximum"}. Name the columns date, minimum, maximum.`);
      return;
    }
    this.order = { date, low, high };
  }

  parts(cells) {
    if (this.order) {
      const { date, low, high } = this.order;
      return { date: date < 0 ? null : cells[date] ?? "", texts: [cells[low] ?? "", cells[high] ?? ""] };
    }
    const dated = ISO_DATE.test(cells[0]) || (!NUMBER.test(cells[0]) && !NO_READING.test(cells[0]));
    return dated ? { date: cells[0], texts: cells.slice(1) } : { date: null, texts: cells };
  }

  // The day number of a line; null when it cannot be told, which is then said.
  day(date, texts, number) {
    if (date === null) {
      if (this.next === null) {
        this.problems.push(`Line ${number} has no date. Write year-month-day first, as in 2026-04-12.`);
        return null;
      }
      this.next += 1;
      return this.next - 1;
    }
    const found = ISO_DATE.exec(date);
    const [year, month, day] = found ? found.slice(1, 4).map(Number) : [];
    if (!found) {
      this.problems.push(`Line ${number}: ${quoted(date)} is not a date that can be read for certain. Write year-month-day, as in 2026-04-12.`);
      return null;
    }
    if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month) || year < 1800 || year > 2200) {
      this.problems.push(`Line ${number}: there is no day ${quoted(date)}. Check year, month and day.`);
      return null;
    }
    const at = dayNumber(iso(year, month, day));
    this.next = at + 1;
    return at;
  }

  // °C of the cells; null when one cannot be read.
  values(texts, number) {
    const wanted = this.limits.pair ? "a minimum and a maximum" : "one or two readings";
    const given = this.limits.pair ? texts : texts.filter((cell) => !NO_READING.test(cell));
    const extra = given.slice(2).filter((cell) => cell !== "");
    if ((this.limits.pair && given.length < 2) || extra.length > 0) {
      this.problems.push(`Line ${number} has ${counted(given.length, "number")}; expected ${wanted}, such as 14.5, 22.`);
      return null;
    }
    const read = given.slice(0, 2);
    const bad = read.find((cell) => !NUMBER.test(cell.replace("−", "-")));
    if (bad !== undefined) {
      this.problems.push(NO_READING.test(bad) ? `Line ${number} has only one of minimum and maximum. Type both, or a dash for a day without a reading.`
        : `Line ${number}: ${quoted(bad)} is not a number. Type the digits alone, such as 14.5.`);
      return null;
    }
    const typed = read.map((cell) => Number(cell.replace("−", "-").replace(",", ".")));
    const celsius = typed.map((value) => (this.unit === "f" ? toCelsius(value) : value));
    if (celsius.some((value) => !this.fits(value))) {
      this.outside.push({ number, text: read.join(", ") });
      const other = typed.map((value) => (this.unit === "f" ? value : toCelsius(value)));
      if (other.every((value) => this.fits(value))) this.otherUnit += 1;
      return null;
    }
    return celsius;
  }

  fits(celsius) {
    return celsius >= this.limits.least && celsius <= this.limits.most;
  }

  finish() {
    this.tellOutside();
    const { days, problems } = this;
    // Newest first is a habit of some; anything else out of order is a slip.
    const reversed = days.length > 1 && days.every((day, i) => i === 0 || day.day < days[i - 1].day);
    if (reversed) days.reverse();
    for (let i = 1; i < days.length; i += 1) {
      const [before, now] = [days[i - 1], days[i]];
      if (now.day === before.day) problems.push(`Lines ${before.line} and ${now.line} are both for ${now.date}. Keep one of them.`);
      else if (now.day < before.day) problems.push(`Line ${now.line}, ${now.date}, comes after line ${before.line}, ${before.date}. Put the days in order, or check the dates.`);
    }
    const clean = days.map(({ date, low, high, line }) => ({ date, low, high, line }));
    return { days: problems.length > 0 ? [] : clean, without: this.without.map(dateOfDay), problems, reversed };
  }

  tellOutside() {
    if (this.outside.length === 0) return;
    const [first] = this.outside;
    const { least, most, what } = this.limits;
    const names = { c: "°C", f: "°F" };
    const other = this.unit === "f" ? "c" : "f";
    const rest = this.outside.length > 1 ? `, and ${counted(this.outside.length - 1, "line")} more` : "";
    const meant = this.otherUnit === this.outside.length ? ` If they were read in ${names[other]}, choose ${names[other]}.` : "";
    this.problems.unshift(`Line ${first.number} (${first.text})${rest}: no temperature in ${names[this.unit]} of ${what}, which lies between ${temperatureText(least, this.unit)} and ${temperatureText(most, this.unit)}.${meant}`);
  }
}

// Cells of a line. With a semicolon or a tab the comma is a decimal comma.
function split(line) {
  const text = line.trim();
  const separator = text.includes(";") ? ";" : text.includes("\t") ? "\t" : text.includes(",") ? "," : null;
  const cells = separator === null ? text.split(/\s+/) : text.split(separator);
  // "2026-04-12 14,5 22,5": commas inside the numbers, spaces between them.
  if (separator === "," && /^\S+(\s+[+-]?\d+,\d+)+$/.test(text) && !/,\s/.test(text)) return text.split(/\s+/);
  return cells.map((cell) => cell.trim().replace(/^"(.*)"$/, "$1").replace(/\s*°\s*[CF]?$/i, "").trim());
}

// No reading on it, and words.
function isHeading(cells) {
  return cells.some((cell) => /[a-z]{2}/i.test(cell)) && !cells.some((cell) => ISO_DATE.test(cell)) && !cells.some((cell) => NUMBER.test(cell));
}
