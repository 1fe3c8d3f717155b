// Cells of CSV files that are offered for saving. Twin of build_tools/spreadsheet.py.

const FORMULA = /^[=+@\t\r-]/;
const PLAIN_NUMBER = /^(-?[0-9]+(\.[0-9]+)?( to -?[0-9]+(\.[0-9]+)?)?|-)$/;
const NEEDS_QUOTES = /[",\n\r]/;

/** A cell of RFC 4180; an apostrophe stands before what a spreadsheet would take for a formula. */
export function csvCell(text) {
  const guarded = FORMULA.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;
  return NEEDS_QUOTES.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
