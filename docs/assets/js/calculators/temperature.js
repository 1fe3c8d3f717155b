// Temperatures as readers type and see them. Everything inside is °C; °F is read and written here alone.

import { readDecimal, toCelsius } from "./fields.js";
import { temperatureText } from "./format.js";
import { rememberedUnit } from "../units.js";

export const TEMPERATURE_UNITS = ["c", "f"];

/** The unit the reader chose in the header, °C when both. */
export function preferredUnit() {
  return rememberedUnit() === "f" ? "f" : "c";
}

/** The number of a temperature in the unit, as text for a field: 20 as "20" or "68". */
export function inUnit(celsius, unit) {
  const shown = unit === "f" ? (celsius * 9) / 5 + 32 : celsius;
  return String(Math.round(shown * 10) / 10);
}

/**
 * Read a temperature typed in `unit` ("c" or "f"); the value is °C. `limits` is {least, most, what, empty}: plausible °C,
 * what it is ("the temperature of a store"), and the message for an empty field (null if it may be).
 */
export function readTemperature(text, unit, { least, most, what, empty }) {
  const celsiusOf = (value, typedIn) => (typedIn === "f" ? toCelsius(value) : value);
  const fits = (celsius) => celsius >= least && celsius <= most;
  const read = readDecimal(text.replace(/\s*°\s*[CF]?\s*$/i, ""), {
    empty,
    check: (value, seen) => {
      if (fits(celsiusOf(value, unit))) return null;
      const other = unit === "f" ? "c" : "f";
      const span = `${temperatureText(least, unit)} to ${temperatureText(most, unit)}`;
      const name = { c: "°C", f: "°F" };
      const meant = fits(celsiusOf(value, other)) ? ` If it was read in ${name[other]}, choose ${name[other]}.` : "";
      return `${seen} ${name[unit]} can’t be ${what}: expected is ${span}.${meant}`;
    },
  });
  return { ...read, value: read.value === null ? null : celsiusOf(read.value, unit) };
}

/** "18–24 °C"; one number when both are shown the same. */
export function temperatureRange(low, high, unit) {
  const [first, last] = [temperatureText(low, unit), temperatureText(high, unit)];
  const [number] = first.split(" ");
  if (first === last) return first;
  return low < 0 ? `${number} to ${last}` : `${number}–${last}`;
}

/** A difference of temperatures, "5.6 °C" or "10 °F": there is no 32 in it. */
export function differenceText(celsius, unit) {
  const shown = unit === "f" ? Math.round((celsius * 9) / 5) : Math.round(celsius * 10) / 10;
  return `${shown} ${unit === "f" ? "°F" : "°C"}`;
}
