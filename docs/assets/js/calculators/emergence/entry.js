// One entry: a crop, and the warmth that its seed has: steady, or between a day's lowest and highest.

import { inUnit, preferredUnit, readTemperature, TEMPERATURE_UNITS } from "../temperature.js";
import { oneOf, reader } from "../reading.js";

export const FIELDS = ["crop", "unit", "low", "high"];
const EXAMPLE_C = 18;
const SEEDBED = { least: -10, most: 55, what: "the temperature of soil or mix that seed lies in" };

/** The entry a reader finds first. */
export function example(crop, data, unit = preferredUnit()) {
  return { example: true, crop: crop || data.example_crop, unit, low: inUnit(EXAMPLE_C, unit), high: "" };
}

/** {values, messages}; °C, `low` and `high` the same where the warmth is steady. */
export function readEntry(entry, data) {
  const { note, done, messages } = reader();
  const unit = oneOf(entry.unit, TEMPERATURE_UNITS);
  const low = note("low", readTemperature(entry.low, unit, {
    ...SEEDBED, empty: "Nothing typed. Type what a thermometer in the soil or mix shows, at the depth of the seed.",
  }));
  const high = note("high", readTemperature(entry.high, unit, { ...SEEDBED, empty: null }));
  if (low !== null && high !== null && high < low) {
    messages.set("high", `${entry.high.trim()} is below ${entry.low.trim()}. Type the day’s lowest first and its highest here, or leave this empty if the warmth is steady.`);
  }
  return done({ crop: entry.crop in data.crops ? entry.crop : data.example_crop, unit, low, high: high ?? low });
}
