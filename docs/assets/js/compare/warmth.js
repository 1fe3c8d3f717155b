// Warmth: the reader's soil temperature as a line through all bands, with what to expect of each crop.

import { HIGH, LOW, isGood, linkTemperature, placeOf, readerSentence, shownTemperature } from "../reader.js";
import { dragLine, onUnitSwitch, placeLine } from "./line.js";
import { mountRows, numberOf } from "./rows.js";

const START = 15; // °C: a spring bed

const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** Mounted in steps; returns what gives the rows that are shown. */
export function* mountWarmth(article) {
  const form = article.querySelector(".compare-line");
  const data = JSON.parse(document.getElementById("compare-data").textContent);
  const rows = [...article.querySelectorAll(".compare-list > li")];
  const said = form.querySelector(".line-said");
  const holds = article.querySelector(".compare-holds");
  const field = (name) => document.getElementById(`line-${name}`);
  let at = null;
  let list = null;

  function show() {
    placeLine(article, at === null ? null : placeOf(at));
    for (const row of rows) {
      const words = row.querySelector(".compare-said");
      words.hidden = at === null;
      row.classList.toggle("good", at !== null && isGood(data[row.dataset.id], at));
      if (at !== null) words.textContent = `${capital(readerSentence(data[row.dataset.id], at))}.`;
    }
    holds.hidden = at === null;
    if (at !== null) holds.textContent = `Last line of each crop: what to expect at ${shownTemperature(at)}. Good at it: ${rows.filter((row) => row.classList.contains("good")).length} of ${rows.length}.`;
  }

  const set = linkTemperature({ range: field("range"), c: field("c"), f: field("f"), said }, (celsius, complaint) => {
    at = complaint ? null : celsius;
    said.textContent = complaint;
    show();
    list?.update();
  });
  form.hidden = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  set(START);
  yield;
  list = mountRows(article, {
    orders: {
      minimum: { read: (row) => numberOf(row.dataset.minimum), without: "without a published minimum" },
      optimum: { read: (row) => numberOf(row.dataset.optimum), without: "without a published optimum" },
    },
    fits: (row) => at !== null && isGood(data[row.dataset.id], at),
    line: {
      state: () => ({ at: at === null ? "" : Math.round(at * 10) / 10 }),
      restore: (state) => { if (Number.isFinite(Number.parseFloat(state.at))) set(Number.parseFloat(state.at)); },
    },
  });
  dragLine(article.querySelector(".compare-list"), (share) => set(Math.round((LOW + share * (HIGH - LOW)) * 2) / 2));
  onUnitSwitch(show);
  return list.shown;
}
