// What is known of a crop at a temperature, in words. "None came" and "not tested" stay different things.

import { testedState } from "../science/emergence.js";
import { temperatureText } from "./format.js";

/** "1 day", "12 days" */
export function daysText(days) {
  return `${days} ${days === 1 ? "day" : "days"}`;
}

/** "twice", "2.5 times" */
export function timesText(number) {
  return number === 2 ? "twice" : `${number} times`;
}

/** A range of days as whole ones, at least 1: "9–15 days"; one number when both ends are the same. */
export function daysRange(early, late) {
  const [first, last] = [Math.max(1, Math.round(early)), Math.max(1, Math.round(late))];
  return first === last ? `about ${daysText(first)}` : `${first}–${last} days`;
}

/** Why there is no figure for `things` ("days") at a temperature, as the end of a sentence; null when there is one. */
export function whyNone(measured, celsius, unit, things) {
  const at = (value) => temperatureText(value, unit);
  const { state, below, above } = testedState(measured.cells, celsius);
  const [coldest, hottest] = [measured.curve.knots[0], measured.curve.knots.at(-1)];
  if (state === "none") return `none came in the test at ${at(celsius)}`;
  if (state === "among none") return above === null ? `none came at ${at(below)}, and nothing hotter was tested` : below === null ? `none came at ${at(above)}, and nothing colder was tested` : `none came at ${at(below)} nor at ${at(above)}`;
  if (state === "next to none") return celsius < coldest ? `between ${at(below)}, where none came, and ${at(above)}, where some did, nothing was tested` : `between ${at(below)}, where some came, and ${at(above)}, where none did, nothing was tested`;
  if (state === "doubtful") return `the figure printed for ${at(celsius)} is in doubt and is not used`;
  if (celsius < coldest) return `${things} were not tested below ${at(coldest)}`;
  if (celsius > hottest) return `${things} were not tested above ${at(hottest)}`;
  return null;
}

/** A cell of a printed table: "12 days", "97 %", "none came", "not tested", "in doubt". */
export function cellText([, state, value], unit) {
  if (state === "measured") return unit === "%" ? `${value} %` : daysText(value);
  return { "no germination": "none came", "not tested": "not tested", doubtful: "in doubt" }[state];
}

/** What a temperature is for the crop by its published band, in a few words; "" when no band is published. */
export function bandWords(band, celsius) {
  if (band.minimum_c !== null && celsius < band.minimum_c) return "colder than the published minimum";
  if (band.maximum_c !== null && celsius > band.maximum_c) return "hotter than the published maximum";
  if (band.optimum_low_c !== null && celsius < band.optimum_low_c) return "cooler than the best range";
  if (band.optimum_high_c !== null && celsius > band.optimum_high_c) return "warmer than the best range";
  if (band.optimum_low_c !== null) return "in the best range";
  return "";
}

/** Days as advised or usual, a text for each source: "5–10 days at 18–21 °C, by a source". */
export function usualTexts(usual, unit) {
  return usual.map(({ low, high, low_c: coldest, high_c: hottest, source }) => {
    const warmth = coldest === null ? "" : ` at ${coldest === hottest ? temperatureText(coldest, unit) : `${temperatureText(coldest, unit).split(" ")[0]}–${temperatureText(hottest, unit)}`}`;
    return `${low === high ? daysText(low) : `${low}–${high} days`}${warmth}, by ${source}`;
  });
}

/** What day_course.js takes of a crop: its curve of days and where none came. */
export function courseOf(crop) {
  return { days: crop.days.curve, none_below: crop.days.none_below, none_above: crop.days.none_above };
}
