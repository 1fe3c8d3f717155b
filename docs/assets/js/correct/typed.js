// A value as typed, in the unit of the data: half degrees Celsius and whole millimetres, as in build_tools/units.py.

const MM_PER_INCH = 25.4;
const EIGHTHS = "⅛¼⅜½⅝¾⅞"; // the marks of a ruler, in order
const NUMBER = "[-+−]?\\d{1,4}(?:[.,]\\d{1,3})?";
const INCHES = `\\d{1,2}(?:[.,]\\d{1,3})?|(?:\\d{1,2}\\s?)?[${EIGHTHS}]|(?:\\d{1,2}\\s)?\\d{1,2}/\\d{1,2}`;
const spanOf = (number) => new RegExp(`^(${number})(?:\\s*(?:–|-|to)\\s*(${number}))?$`);
const [SPAN, SPAN_OF_INCHES] = [spanOf(NUMBER), spanOf(INCHES)];
// Units by what they measure: the value of a choice, its words, how it may be typed behind a number.
export const UNITS = {
  "°C": [["c", "°C", /\s*°\s*c$/i], ["f", "°F", /\s*°\s*f$/i]],
  mm: [["mm", "mm", /\s*mm$/i], ["in", "inches", /\s*(in|inch|inches|″|")$/i]],
};

const halfUp = (value) => Math.sign(value) * Math.floor(Math.abs(value) + 0.5);

/** °C to the nearest half degree, the form that the data holds. */
export const halfDegree = (celsius) => halfUp(celsius * 2) / 2;

/** °F to °C, to the nearest half degree. */
export const celsiusFromFahrenheit = (fahrenheit) => halfDegree((fahrenheit - 32) / 1.8);

/** Inches as on a ruler ("1½", "1 1/2", "1.5") to whole millimetres; NaN for a fraction of nothing. */
export function millimetres(text) {
  const parts = text.replace(new RegExp(`[${EIGHTHS}]`), (mark) => ` ${EIGHTHS.indexOf(mark) + 1}/8`).trim().split(/\s+/);
  const inches = parts.reduce((sum, part) => {
    const [top, bottom] = part.replace(",", ".").split("/").map(Number);
    return sum + (bottom === undefined ? top : top / bottom);
  }, 0);
  return Number.isFinite(inches) ? halfUp(inches * MM_PER_INCH) : NaN;
}

const digits = (text) => Number(text.replace("−", "-").replace(",", "."));
const CONVERT = { c: (text) => halfDegree(digits(text)), f: (text) => celsiusFromFahrenheit(digits(text)), in: millimetres };

/** The unit typed behind a number and the text without it: [unit or null, text]. `measure` is the unit of the data. */
export function unitTyped(text, measure) {
  const found = (UNITS[measure] ?? []).find(([, , form]) => form.test(text.trim()));
  return found ? [found[0], text.trim().replace(found[2], "")] : [null, text.trim()];
}

/**
 * What was typed as {low, high} or {choice} in the data's unit; null when it is neither.
 * `unit` is one of UNITS, "" where there is no choice of units; `choices` the words allowed, or undefined.
 */
export function readTyped(text, unit, choices) {
  const typed = text.trim().toLowerCase().replace(/\s*(years?|weeks?)$/, "");
  if (choices) {
    const word = typed.replaceAll(" ", "-");
    return choices.includes(word) ? { choice: word } : null;
  }
  const found = (unit === "in" ? SPAN_OF_INCHES : SPAN).exec(typed);
  if (found === null) return null;
  const ends = [found[1], found[2] ?? found[1]].map(CONVERT[unit] ?? digits);
  return ends.every(Number.isFinite) ? { low: Math.min(...ends), high: Math.max(...ends) } : null;
}
