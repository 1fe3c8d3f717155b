// Reading what was typed: numbers out of text, and a plain message where that fails.
// A message says what was seen, what is expected and how to mend it. Nothing here touches the page.

import { grouped, quoted } from "../words.js";

export { grouped };

const GROUPED = /^\d{1,3}([ ,.'\u00a0\u202f]\d{3})+$/;

function tidy(text) {
  return text.trim().replace(/^[\u2212\u2013]/, "-");
}

/**
 * Read a whole number. `limits` is {least, most, empty, tooMany}: the message for an empty field
 * (null if it may stay empty) and for a number above `most`.
 * Returns {value: number or null, message: text or null}.
 */
export function readWhole(text, { least, most, empty, tooMany }) {
  const typed = tidy(text);
  const fail = (message) => ({ value: null, message });
  if (typed === "") return fail(empty);
  if (GROUPED.test(typed)) {
    return fail(`${quoted(typed)} has a separator in it. Type the digits alone: ${typed.replace(/\D/g, "")}.`);
  }
  if (/^[+-]?(\d+[.,]\d*|[.,]\d+)$/.test(typed)) {
    return fail(`${quoted(typed)} is not a whole number. Count whole ones only, for example ${Math.max(least, Math.abs(parseInt(typed, 10)) || least)}.`);
  }
  if (!/^[+-]?\d+$/.test(typed)) {
    return fail(`${quoted(typed)} is not a number. Type digits alone, for example ${Math.max(least, 10)}.`);
  }
  const value = Number(typed);
  if (value < 0) return fail(`${typed} is below zero. Type ${least} or more.`);
  if (value < least) return fail(`${typed} is too few. Type ${least} or more.`);
  if (value > most) {
    const seen = typed.length > 15 ? quoted(typed) : grouped(value);
    return fail(`${seen} is more than this calculator handles. ${tooMany}`);
  }
  return { value: value + 0, message: null };
}

/** Read a number that may have decimals, with a point or a comma. Same answer as readWhole. */
export function readDecimal(text, { empty, check }) {
  const typed = tidy(text);
  if (typed === "") return { value: null, message: empty };
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(typed)) {
    return { value: null, message: `${quoted(typed)} is not a number. Type digits, for example 21 or 21.5.` };
  }
  const value = Number(typed.replace(",", "."));
  const message = check(value, typed.length > 15 ? quoted(typed) : typed);
  return { value: message === null ? value : null, message };
}

/** °F to °C, a temperature (not a difference). */
export function toCelsius(fahrenheit) {
  return ((fahrenheit - 32) * 5) / 9;
}
