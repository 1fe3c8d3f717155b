// Values and verdicts in words.

import { temperatureText } from "../calculators/format.js";

const number = (value) => String(Math.round(value * 100) / 100).replace("-", "−");
const both = (celsius) => `${number(celsius)} °C (${temperatureText(celsius, "f")})`;
const plain = (word) => word.replaceAll("-", " ");

/** Numbers from low to high in the unit of the data: "10 °C (50 °F)", "6–13 mm", "−8 to −6 weeks". */
export function spanText(low, high, unit) {
  const [a, b] = [Math.round(low * 2) / 2, Math.round(high * 2) / 2];
  if (unit === "°C") return a === b ? both(a) : `${number(a)}–${number(b)} °C (${temperatureText(a, "f").split(" ")[0]}–${temperatureText(b, "f")})`;
  if (low === high) return `${number(low)} ${unit}`;
  return low < 0 ? `${number(low)} to ${number(high)} ${unit}` : `${number(low)}–${number(high)} ${unit}`;
}

/** A value of the published data or as typed, {value} or {low, high} or {choice}. */
export function valueText(value, unit) {
  if (value.choice !== undefined) return plain(value.choice);
  return value.value !== undefined ? spanText(value.value, value.value, unit) : spanText(value.low, value.high, unit);
}

const families = (count) => (count === 1 ? "one independent family of sources" : `${count} independent families of sources`);

/** What the sources that count print, in words. */
export function printedText(found, unit) {
  return found.choices ? found.choices.map(plain).join(" or ") : spanText(found.low, found.high, unit);
}

/** How many of the families have it inside what they print, where not all do. */
function holding({ inside, families: count }) {
  if (inside === count) return "";
  return inside === 0 ? "; it lies between what they print" : `; ${inside} of them ${inside === 1 ? "covers" : "cover"} it`;
}

/** The verdict on a typed value: {outside, text}. `found` is from compare(), null where nothing is printed. */
export function verdict(value, found, present, unit) {
  const said = valueText(value, unit);
  const same = present !== null && valueText(present, unit) === said ? "That is the value shown now. " : "";
  if (found === null) return { outside: false, text: `${same}${said}: no table here prints this value, so there is nothing to compare it with. Say where you have it from.` };
  const printed = printedText(found, unit);
  if (found.outside) {
    return {
      outside: true,
      text: `${same}${said} is outside what is printed: ${printed}, from ${families(found.families)}. It can be right all the same. A value outside needs a reason, which the data file gives under “departs” and the page shows: write it below.`,
    };
  }
  return { outside: false, text: `${same}${said} lies inside what is printed: ${printed}, from ${families(found.families)}${holding(found)}.` };
}
