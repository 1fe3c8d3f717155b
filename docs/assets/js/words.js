// Numbers and short texts as the messages and results have them.
// Twin of build_tools/lots/words.py.

const FINE_FROM = 400; // seeds from which one decimal of a percentage means something
// Characters that do not show, or do something to a terminal.
const UNSEEN = /[\x00-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202f\u2060-\u2069\ufeff]/gu;

/** The text in quotes, cut to `most` characters, what does not show replaced. */
export function quoted(text, most = 24) {
  // Only so much is taken apart into characters as can be shown.
  const letters = [...text.slice(0, 2 * most + 2)];
  const cut = letters.length > most;
  return `“${letters.slice(0, most).join("").replace(UNSEEN, "�")}${cut ? "…" : ""}”`;
}

/** 1234567 as "1,234,567", always. */
export function withCommas(number) {
  return String(number).replace(/\B(?=(\d{3})+$)/g, ",");
}

/** 1234567 as "1,234,567"; four digits stay together. */
export function grouped(number) {
  return number >= 10000 ? withCommas(number) : String(number);
}

/** "1 seed", "12 seeds" */
export function counted(number, thing) {
  return `${grouped(number)} ${thing}${number === 1 ? "" : "s"}`;
}

function tenthsText(tenths) {
  return `${Math.floor(tenths / 10)}.${tenths % 10}`;
}

/** A fraction in percent as digits: whole, or one decimal from 400 seeds on; halves upward. */
export function percentDigits(fraction, n) {
  if (n >= FINE_FROM) return tenthsText(Math.floor(fraction * 1000 + 0.5));
  return String(Math.floor(fraction * 100 + 0.5));
}

/** k of n in percent as digits, exactly rounded. */
export function percentOfCount(k, n) {
  if (n >= FINE_FROM) return tenthsText(Math.floor((2000 * k + n) / (2 * n)));
  return String(Math.floor((200 * k + n) / (2 * n)));
}

/** "72 %"; a count that is neither none nor all never reads as 0 or 100 %. */
export function percentInWords(k, n) {
  const digits = percentOfCount(k, n);
  if (k > 0 && Number(digits) === 0) return `less than ${n >= FINE_FROM ? "0.1" : "1"} %`;
  if (k < n && Number(digits) === 100) return `more than ${n >= FINE_FROM ? "99.9" : "99"} %`;
  return `${digits} %`;
}

/** A chance in percent for a table: whole, "<1" or ">99". */
export function chanceText(chance) {
  if (chance < 0.01) return "<1";
  if (chance > 0.99) return ">99";
  return String(Math.floor(chance * 100 + 0.5));
}

/** What `chanceText` gave, for a sentence: "61 %", "less than 1 %". */
export function chanceInWords(text) {
  return `${text} %`.replace("<", "less than ").replace(">", "more than ");
}

/** "a", "a and b", "a, b and c" */
export function listed(parts, last = "and") {
  if (parts.length === 1) return parts[0];
  return `${parts.slice(0, -1).join(", ")} ${last} ${parts[parts.length - 1]}`;
}

/** Order of two texts by their characters' numbers, as Python has it; below 0 when a comes first. */
export function compareTexts(a, b) {
  const [first, second] = [[...a], [...b]];
  for (let i = 0; i < first.length && i < second.length; i += 1) {
    if (first[i] !== second[i]) return first[i].codePointAt(0) - second[i].codePointAt(0);
  }
  return first.length - second.length;
}
