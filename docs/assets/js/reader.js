/* "My soil is at …": a mark on the band chart and a sentence, from values worked out when the page was built. */

import { tie } from "./tied.js";

const whole = (value) => Math.floor(value + 0.5);
export const LOW = -4;
export const HIGH = 46; // the chart's ends in °C, as in render/charts/bands.py
const GOOD = "good";
const NEAR = "near the best published temperature";

function share(percent) {
  if (percent >= 90) return "nearly all good seed comes up";
  if (percent >= 70) return `about ${whole(percent)} % come up`;
  if (percent >= 40) return `only about ${whole(percent)} % come up`;
  if (percent > 0.5) return `few come up, about ${whole(percent)} %`;
  return "none came up";
}

function nearBest(celsius, best) {
  if (Math.abs(celsius - best) <= 2) return NEAR;
  return celsius < best ? "colder than the best published temperature" : "warmer than the best published temperature";
}

/** How a soil temperature stands to the published band, in words; "" when nothing is published. */
export function standing(data, celsius) {
  const band = data.band;
  const percent = data.at[String(Math.round(celsius * 2) / 2)]?.[1] ?? null;
  if (band.minimum_c !== undefined && celsius < band.minimum_c) return (percent !== null && percent >= 50) || celsius >= band.minimum_c - 0.75 ? "at the cold limit" : "too cold to sow";
  if (band.maximum_c !== undefined && celsius > band.maximum_c) return "too hot";
  if (band.optimum_low_c !== undefined && celsius < band.optimum_low_c) return band.minimum_c === undefined ? "colder than best; no published minimum" : "slow";
  if (band.optimum_high_c !== undefined && celsius > band.optimum_high_c) return band.maximum_c === undefined ? "warmer than best; no published maximum" : "warmer than best";
  if (band.optimum_low_c !== undefined) return GOOD;
  if (band.optimum_c !== undefined) return nearBest(celsius, band.optimum_c);
  return "";
}

/** Inside the best range; where none is published, near the optimum. */
export function isGood(data, celsius) {
  return [GOOD, NEAR].includes(standing(data, celsius));
}

/** The sentence for a soil temperature. `data` is the page's reader-data. */
export function readerSentence(data, celsius) {
  const at = data.at[String(Math.round(celsius * 2) / 2)];
  const days = at ? at[0] : null;
  const percent = at ? at[1] : null;
  const parts = [standing(data, celsius)].filter((words) => words !== "");
  if (days !== null) {
    const low = Math.max(1, whole(days / data.factor));
    const high = Math.max(1, whole(days * data.factor));
    parts.push(low === high ? `about ${low} day${low === 1 ? "" : "s"}` : `about ${low}–${high} days`);
  } else if (data.tested) {
    if (data.none.some((t) => Math.abs(t - celsius) < 0.26)) parts.push("no germination in the test at this temperature");
    else if (celsius < data.tested[0]) parts.push("days not measured this cold");
    else if (celsius > data.tested[1]) parts.push("days not measured this warm");
  } else {
    parts.push("no days were measured for this crop");
  }
  if (percent !== null) parts.push(share(percent));
  return parts.join("; ");
}

/** A temperature as the reader's unit has it: "15 °C (59 °F)", or one of the two. */
export function shownTemperature(celsius) {
  const unit = document.documentElement.dataset.unit;
  const [inC, inF] = [`${Math.round(celsius * 10) / 10} °C`, `${whole(celsius * 1.8 + 32)} °F`];
  return unit === "c" ? inC : unit === "f" ? inF : `${inC} (${inF})`;
}

/** Place on the chart's width in percent. */
export const placeOf = (celsius) => ((Math.min(Math.max(celsius, LOW), HIGH) - LOW) / (HIGH - LOW)) * 100;

/**
 * A slider and two number fields, °C and °F, that follow one another. `told(celsius, complaint)` hears of every change; the complaint
 * is empty for a usable temperature; `said` is where it is shown. Returns a function that sets the temperature.
 */
export function linkTemperature({ range, c, f, said }, told) {
  const mark = tie([c, f], said, "temperature-said");
  const show = (celsius, from) => {
    mark(null);
    if (!Number.isFinite(celsius)) {
      mark(from);
      told(celsius, "Type a temperature as a number, such as 15.");
      return;
    }
    if (celsius < -10 || celsius > 50) {
      mark(from);
      told(celsius, `${Math.round(celsius)} °C (${whole(celsius * 1.8 + 32)} °F) is hardly a soil temperature. Is the unit right?`);
      return;
    }
    if (from !== range) range.value = celsius;
    if (from !== c) c.value = Math.round(celsius * 2) / 2;
    if (from !== f) f.value = whole(celsius * 1.8 + 32);
    told(celsius, "");
  };
  range.addEventListener("input", () => show(Number(range.value), range));
  c.addEventListener("input", () => show(c.value === "" ? NaN : Number(c.value), c));
  f.addEventListener("input", () => show(f.value === "" ? NaN : (Number(f.value) - 32) / 1.8, f));
  return (celsius) => show(celsius, null);
}

/** Mount the slider and number fields of a crop page. */
export function mountReader(document) {
  const form = document.querySelector("form.reader");
  if (!form) return;
  form.hidden = false;
  const data = JSON.parse(document.getElementById("reader-data").textContent);
  const field = (name) => document.getElementById(`reader-${name}`);
  const answer = form.querySelector(".reader-answer");
  const mark = document.querySelector(".reader-mark");
  const set = linkTemperature({ range: field("range"), c: field("c"), f: field("f"), said: answer }, (celsius, complaint) => {
    if (complaint) {
      answer.textContent = complaint;
      if (Number.isFinite(celsius)) mark?.setAttribute("visibility", "hidden");
      return;
    }
    answer.textContent = `At ${shownTemperature(celsius)}: ${readerSentence(data, celsius)}.`;
    if (mark) {
      const x = `${placeOf(celsius)}%`;
      mark.setAttribute("x1", x);
      mark.setAttribute("x2", x);
      mark.setAttribute("visibility", "visible");
    }
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  set(data.band.minimum_c !== undefined && data.band.minimum_c >= 12 ? 20 : 15); // what a windowsill or a spring bed may have
}
