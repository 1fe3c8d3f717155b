// How a typed value stands to what is printed. Twin of build_tools/check/evidence.py; half degrees as in build_tools/units.py.

const TOLERANCE = { temperature: 0.3, other: 0.75 };
const LEAVES_OPEN = { cover: ["dark", "either"] };
const NUMBER = "[-+−]?\\d{1,4}(?:[.,]\\d{1,3})?";
const SPAN = new RegExp(`^(${NUMBER})(?:\\s*(?:–|-|to)\\s*(${NUMBER}))?$`);

const halfUp = (value) => Math.sign(value) * Math.floor(Math.abs(value) + 0.5);

/** °C to the nearest half degree, the form that the data holds. */
export const halfDegree = (celsius) => halfUp(celsius * 2) / 2;

/** °F to °C, to the nearest half degree. */
export const celsiusFromFahrenheit = (fahrenheit) => halfDegree((fahrenheit - 32) / 1.8);

const digits = (text) => Number(text.replace("−", "-").replace(",", "."));

/**
 * What was typed as {low, high} or {choice} in the data's unit; null when it is neither.
 * `unit` is "c" or "f" for temperatures (made half degrees), "" for the rest; `choices` the words allowed, or undefined.
 */
export function readTyped(text, unit, choices) {
  const typed = text.trim().toLowerCase().replace(/\s*(°\s*[cf]?|mm|years?|weeks?)$/, "");
  if (choices) {
    const word = typed.replaceAll(" ", "-");
    return choices.includes(word) ? { choice: word } : null;
  }
  const found = SPAN.exec(typed);
  if (found === null) return null;
  const ends = [digits(found[1]), digits(found[2] ?? found[1])].map((value) => (unit === "f" ? celsiusFromFahrenheit(value) : unit === "c" ? halfDegree(value) : value));
  return { low: Math.min(...ends), high: Math.max(...ends) };
}

/** A family's place beside a value: inside, below or above; same or differs for words. */
export function stands(value, family, tolerance) {
  if (value.choice !== undefined) {
    return family.choices.some((choice) => value.choice === choice || (LEAVES_OPEN[choice] ?? []).includes(value.choice)) ? "same" : "differs";
  }
  if (value.high < family.low - tolerance) return "below";
  return value.low > family.high + tolerance ? "above" : "inside";
}

/** The families that count: all of them where none does otherwise. */
export function counted(families) {
  const some = families.filter((family) => family.counts);
  return some.length > 0 ? some : families;
}

/** {outside, low, high, choices, families, inside} of a value beside the families of the published data; null where nothing is printed. */
export function compare(value, families) {
  const those = counted(families);
  if (those.length === 0) return null;
  const tolerance = TOLERANCE[families.some((family) => family.printed.some((item) => item.as_printed.includes("°"))) ? "temperature" : "other"];
  const inside = those.filter((family) => ["inside", "same"].includes(stands(value, family, tolerance))).length;
  if (value.choice !== undefined) {
    return { outside: inside === 0, choices: [...new Set(those.flatMap((family) => family.choices))].sort(), families: those.length, inside };
  }
  const low = Math.min(...those.map((family) => family.low));
  const high = Math.max(...those.map((family) => family.high));
  return { outside: value.high < low - tolerance || value.low > high + tolerance, low, high, families: those.length, inside };
}
