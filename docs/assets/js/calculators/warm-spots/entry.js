// One entry: places of the house or garden with their lowest and highest temperature, and what a heat mat adds.

import { readDecimal } from "../fields.js";
import { oneOf, readName, reader } from "../reading.js";
import { inUnit, preferredUnit, readTemperature, TEMPERATURE_UNITS } from "../temperature.js";

export const FIELDS = ["crop", "season", "unit", "rise"];
export const COLUMNS = ["name", "low", "high"];
export const MOST_PLACES = 6;
const SEASONS = ["all", "cool", "warm"];
const PLACE = { least: -30, most: 60, what: "the temperature of a place for seed" };
const MOST_RISE_C = 30;
const EXAMPLE = [["Kitchen windowsill", 15, 23], ["Warm cupboard", 21, 27], ["Unheated porch", 5, 14], ["Cold frame", 2, 18]];

const inUnitDifference = (celsius, unit) => String(Math.round(unit === "f" ? celsius * 18 : celsius * 10) / 10);

/** The entry a reader finds first. */
export function example(crop, data, unit = preferredUnit()) {
  return {
    example: true, crop: crop || data.example_crop, season: "all", unit, rise: inUnitDifference(data.mat.value, unit),
    rows: EXAMPLE.map(([name, low, high]) => ({ name, low: inUnit(low, unit), high: inUnit(high, unit) })),
  };
}

/** A further place. */
export function nextRow() {
  return { name: "", low: "", high: "" };
}

/** {values, messages}; `places` are {name, low, high} in °C, `rise` a difference in °C, null without a mat; `crop` "" for none. */
export function readEntry(entry, data) {
  const { note, done, messages } = reader();
  const unit = oneOf(entry.unit, TEMPERATURE_UNITS);
  const places = entry.rows.map((row, i) => {
    const read = (column, empty) => note(`${i}.${column}`, readTemperature(row[column], unit, { ...PLACE, empty }));
    const low = read("low", "Nothing typed. Type the lowest of a day and night, as a max–min thermometer shows it.");
    const high = read("high", "Nothing typed. Type the highest of the same day and night.");
    if (low !== null && high !== null && high < low) messages.set(`${i}.high`, `${row.high.trim()} is below ${row.low.trim()}. The lowest comes first.`);
    return { name: readName(row.name, `Place ${i + 1}`).value, low, high };
  });
  const rise = note("rise", readDecimal(entry.rise, {
    empty: null,
    check: (value, seen) => (value > 0 && value <= (unit === "f" ? MOST_RISE_C * 1.8 : MOST_RISE_C) ? null
      : `${seen} can’t be what a mat adds. Type a difference above 0 and at most ${unit === "f" ? `${MOST_RISE_C * 1.8} °F` : `${MOST_RISE_C} °C`}, or leave it empty.`),
  }));
  return done({
    crop: entry.crop in data.crops ? entry.crop : "", season: oneOf(entry.season, SEASONS), unit, places,
    rise: rise === null ? null : unit === "f" ? rise / 1.8 : rise,
  });
}
