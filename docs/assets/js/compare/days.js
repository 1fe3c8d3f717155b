// Days: order of the rows by any tested temperature, and the columns on either side of the reader's own.

import { linkTemperature, shownTemperature } from "../reader.js";
import { onUnitSwitch } from "./line.js";
import { mountRows, numberOf } from "./rows.js";

const START = 15; // °C: a spring bed
const SAME = 0.25; // °C: nearer than this is the tested temperature itself

/** The tested temperatures on either side; one when it was itself tested or lies beyond all, with `beyond` saying so. */
export function besides(tested, celsius) {
  const same = tested.find((t) => Math.abs(t - celsius) <= SAME);
  if (same !== undefined) return { columns: [same], words: "was tested: its column is marked." };
  const below = tested.filter((t) => t < celsius);
  const above = tested.filter((t) => t > celsius);
  if (below.length === 0) return { columns: [above[0]], words: "is colder than any tested: the coldest column is marked, and nothing is known below it." };
  if (above.length === 0) return { columns: [below.at(-1)], words: "is warmer than any tested: the warmest column is marked, and nothing is known above it." };
  return { columns: [below.at(-1), above[0]], words: "lies between two tested ones: both columns are marked." };
}

/** Mounted in steps; returns what gives the rows that are shown. */
export function* mountDays(article) {
  const form = article.querySelector(".compare-line");
  const heads = [...article.querySelectorAll(".days-table thead th[data-at]")];
  const tested = heads.map((head) => Number(head.dataset.at));
  const said = form.querySelector(".line-said");
  const field = (name) => document.getElementById(`line-${name}`);
  let at = null;
  let list = null;

  function show() {
    const marked = at === null ? { columns: [], words: "" } : besides(tested, at);
    for (const row of article.querySelectorAll(".days-table tr")) {
      tested.forEach((t, i) => row.children[i + 1].classList.toggle("beside", marked.columns.includes(t)));
    }
    if (at !== null) said.textContent = `${shownTemperature(at)} ${marked.words}`;
  }

  const set = linkTemperature({ range: field("range"), c: field("c"), f: field("f"), said }, (celsius, complaint) => {
    at = complaint ? null : celsius;
    said.textContent = complaint;
    show();
    list?.update();
  });
  const orders = { coldest: { read: (row) => numberOf(row.dataset.coldest), without: "without any measured days" } };
  for (const head of heads) {
    const name = `data-at-${head.dataset.at}`;
    orders[`at-${head.dataset.at}`] = { read: (row) => numberOf(row.getAttribute(name) ?? ""), without: `without days measured at ${head.dataset.at} °C` };
  }
  form.hidden = tested.length === 0;
  form.addEventListener("submit", (event) => event.preventDefault());
  if (tested.length > 0) set(START);
  yield;
  list = mountRows(article, {
    orders,
    fits: () => true,
    line: {
      state: () => ({ at: at === null ? "" : Math.round(at * 10) / 10 }),
      restore: (state) => { if (Number.isFinite(Number.parseFloat(state.at))) set(Number.parseFloat(state.at)); },
    },
  });
  onUnitSwitch(show);
  return list.shown;
}
