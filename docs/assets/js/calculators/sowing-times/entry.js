// One entry of the sowing calendar: place, frost dates, year, warmth indoors, and a row for each lot.

import { dateText, monthName } from "../../date_words.js";
import { daysInMonth, iso } from "../../dates.js";
import { grouped, quoted } from "../../words.js";
import { readWhole } from "../fields.js";
import { todayIso } from "../format.js";
import { readDate, reader } from "../reading.js";
import { inUnit, preferredUnit, readTemperature } from "../temperature.js";

export const FIELDS = ["place", "lastday", "lastmonth", "firstday", "firstmonth", "year", "indoor", "unit", "buy", "where"];
export const COLUMNS = ["crop", "lot", "tested"];
export const MOST_ROWS = 30;
export const EMPTY_ROW = { crop: "", lot: "", tested: "" };
const [FIRST_YEAR, LAST_YEAR] = [2000, 2199];
const OLDEST_TEST = "1990-01-01"; // an older one is a slip of the pen
const [COLDEST_C, HOTTEST_C] = [0, 45]; // of a place where seed is raised
const MOST_BUYING_DAYS = 120;
const MOST_LETTERS = 40;
const LATEST_NORTH = 7; // the month in which frost may still end in the north; in the south it may begin to

const twoDigits = (number) => String(number).padStart(2, "0");

/** Rows of the crops a reader may begin with. */
export function exampleRows(data) {
  return data.example.map((crop) => ({ ...EMPTY_ROW, crop }));
}

/** The year of the next average last frost of "05-08". */
export function nextYear(lastFrost, today) {
  const year = Number(today.slice(0, 4));
  return today.slice(5) > lastFrost ? year + 1 : year;
}

/** The entry a reader finds first. */
export function example(crop, data, unit = preferredUnit()) {
  const { place } = data;
  const [last, first] = [place.last_frost, place.first_frost].map((day) => day.split("-").map(Number));
  return {
    example: true, rows: exampleRows(data), place: place.name,
    lastday: String(last[1]), lastmonth: String(last[0]), firstday: String(first[1]), firstmonth: String(first[0]),
    year: String(nextYear(place.last_frost, todayIso())),
    indoor: inUnit(data.indoors_c, unit), unit, buy: String(data.rules.buy_days), where: "",
  };
}

/** {values, messages}; frosts are "MM-DD". */
export function readEntry(entry, data) {
  const { messages, note, done } = reader();
  const today = todayIso();
  const unit = entry.unit === "f" ? "f" : "c";
  const name = note("place", readText(entry.place, "place"));
  const last = note("lastday", readDay(entry.lastday, entry.lastmonth));
  const first = note("firstday", readDay(entry.firstday, entry.firstmonth));
  if (last !== null && first !== null) checkFrosts(last, first, entry.where, messages);
  const year = note("year", readYear(entry.year));
  const rows = entry.rows.map((row, i) => readRow(row, i, data, today, note));
  checkTwice(rows, messages);
  const buy = note("buy", readWhole(entry.buy, {
    least: 0, most: MOST_BUYING_DAYS, tooMany: `Type at most ${MOST_BUYING_DAYS} days.`,
    empty: `Nothing typed. Type how many days you want to have for buying other seed, for example ${data.rules.buy_days}.`,
  }));
  const celsius = note("indoor", readTemperature(entry.indoor, unit, {
    least: COLDEST_C, most: HOTTEST_C, what: "the warmth of a place where seed is raised",
    empty: `Nothing typed. Type how warm the mix is, for example ${inUnit(data.indoors_c, unit)}.`,
  }));
  return done({
    example: entry.example, place: name === "" ? "your place" : name, invented: isInvented(name, last, first, data.place),
    last, first, year, rows, celsius, unit, today, rules: { ...data.rules, buy_days: buy },
  });
}

/** Whether the frost dates are still those of the invented place: its name, or both its dates, are left. */
export function isInvented(name, last, first, place) {
  return place.invented && (name === place.name || (last === place.last_frost && first === place.first_frost));
}

function readText(text, what) {
  const name = text.trim().replace(/\s+/g, " ");
  if ([...name].length <= MOST_LETTERS) return { value: name, message: null };
  return { value: null, message: `${quoted(name)} is too long for a ${what} here. Type at most ${MOST_LETTERS} letters.` };
}

// A day of the year; the 29th of February is one.
function readDay(day, monthText) {
  const month = Number(monthText);
  if (!(Number.isInteger(month) && month >= 1 && month <= 12)) return { value: null, message: "No month chosen. Choose one beside the day." };
  const most = month === 2 ? 29 : daysInMonth(2001, month);
  const read = readWhole(day, {
    least: 1, most, tooMany: `${monthName(month)} has at most ${most} days: type the day again, or choose another month.`,
    empty: "Nothing typed. Type the day of the month, for example 8, and choose the month.",
  });
  return { ...read, value: read.value === null ? null : `${twoDigits(month)}-${twoDigits(read.value)}` };
}

// The dates alone tell north from south; where they do not, the reader is asked.
function checkFrosts(last, first, where, messages) {
  const [month, firstMonth] = [last, first].map((day) => Number(day.slice(0, 2)));
  const said = `Frost ends in ${monthName(month)} and begins in ${monthName(firstMonth)}`;
  if (last === first) {
    messages.set("firstday", "Both frost dates are the same day. Type the average last frost of spring and the average first frost of autumn.");
  } else if (where === "north" && month > LATEST_NORTH) {
    messages.set("where", `${said}: north of the equator it ends by ${monthName(LATEST_NORTH)}. Choose South, or swap the two dates.`);
  } else if (where === "south" && (month < LATEST_NORTH || first > last)) {
    messages.set("where", `${said}: south of the equator it ends between July and December and begins earlier in the year. Choose North, or swap the two dates.`);
  } else if (where === "north" && first < last && firstMonth > 2) {
    messages.set("where", `${said}: north of the equator the first frost of autumn comes later in the year. Swap the two dates, or choose South.`);
  } else if (!["north", "south"].includes(where) && (month > LATEST_NORTH || first < last)) {
    messages.set("where", `${said}. That is so south of the equator: choose South if you grow there. If not, swap the two dates.`);
  }
}

function readYear(text) {
  const read = readWhole(text, { least: 0, most: Infinity, empty: "Nothing typed. Type the year of the last frost, for example 2027." });
  if (read.value === null || (read.value >= FIRST_YEAR && read.value <= LAST_YEAR)) return read;
  const seen = text.trim().length > 12 ? quoted(text.trim()) : grouped(read.value).replaceAll(",", "");
  return { value: null, message: `${seen} is no year for this calendar. Type four digits from ${FIRST_YEAR} to ${LAST_YEAR}, for example 2027.` };
}

function readRow(row, i, data, today, note) {
  const known = Object.hasOwn(data.crops, row.crop);
  note(`${i}.crop`, { value: null, message: known ? null
    : row.crop === "" ? "No crop chosen. Choose one, or remove this row." : `${quoted(row.crop)} is no crop of this site. Choose one from the list.` });
  return {
    crop: row.crop,
    lot: note(`${i}.lot`, readText(row.lot, "lot name")),
    tested: note(`${i}.tested`, readTested(row.tested, today)),
  };
}

function readTested(text, today) {
  const [year, month, day] = text.split("-").map(Number);
  if (text !== "" && /^\d{4,}-\d{2}-\d{2}$/.test(text)) {
    if (!(month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month))) {
      return { value: null, message: `${quoted(text)} is no day of the calendar. Choose the day of the last test, or leave it empty.` };
    }
    if (year > 9999 || iso(year, month, day) > today) {
      return { value: null, message: `${year > 9999 ? quoted(text) : dateText(text)} is still to come. Choose the day of the last test, or leave it empty if there was none.` };
    }
    if (text < OLDEST_TEST) return { value: null, message: `${quoted(text)} is too long ago to count. Check the year, or leave it empty.` };
  }
  return readDate(text);
}

// Two rows of the same crop and lot would be the same task twice, in the calendar file as well.
function checkTwice(rows, messages) {
  const seen = new Map();
  rows.forEach(({ crop, lot }, i) => {
    if (crop === "" || lot === null) return;
    const key = `${crop} ${lot}`;
    if (seen.has(key)) {
      const named = lot === "" ? "without a lot name" : "with this lot name";
      messages.set(`${i}.lot`, `This crop stands ${named} in row ${seen.get(key) + 1} as well. Name the lots, or remove one row.`);
    } else seen.set(key, i);
  });
}
