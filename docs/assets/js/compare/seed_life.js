// Seed life: the age of the reader's seed as a line through all rows, with what it means for each crop.

import { dragLine, placeLine } from "./line.js";
import { tie } from "../tied.js";
import { mountRows } from "./rows.js";

const OLDEST = 50; // years; more is a year of harvest, or a slip

const yearsText = (low, high) => `${low === high ? low : `${low}–${high}`} year${high === 1 ? "" : "s"}`;

/** What an age in years means beside the usual life: no promise, since storage decides. */
export function ageWords(age, low, high) {
  const usual = `the usual ${yearsText(low, high)}`;
  if (age < low) return `Younger than ${usual}: usually still good if it was kept cool and dry; only a test tells.`;
  if (age <= high) return `At ${usual}: test it first.`;
  return `Beyond ${usual}: test it first, and expect fewer and weaker seedlings.`;
}

/** Mounted in steps; returns what gives the rows that are shown. */
export function* mountSeedLife(article) {
  const form = article.querySelector(".compare-line");
  const number = document.getElementById("line-years");
  const range = document.getElementById("line-range");
  const rows = [...article.querySelectorAll(".compare-list > li")];
  const said = form.querySelector(".line-said");
  const mark = tie([number], said, "line-said");
  const holds = article.querySelector(".compare-holds");
  const most = Number(range.max);
  let age = null;
  let list = null;

  function show() {
    placeLine(article, age === null ? null : (Math.min(age, most) / most) * 100);
    const counts = { Younger: 0, At: 0, Beyond: 0 };
    for (const row of rows) {
      const words = row.querySelector(".compare-said");
      words.hidden = age === null;
      if (age === null) continue;
      words.textContent = ageWords(age, Number(row.dataset.low), Number(row.dataset.high));
      counts[words.textContent.split(" ")[0]] += 1;
    }
    holds.hidden = age === null;
    if (age !== null) holds.textContent = `Last line of each crop: seed ${yearsText(age, age)} old. Younger than the usual life: ${counts.Younger} crops; at it: ${counts.At}; beyond it: ${counts.Beyond}.`;
  }

  function set(value, from) {
    const usable = Number.isFinite(value) && value >= 0 && value <= OLDEST;
    age = usable ? value : null;
    mark(usable ? null : from);
    said.textContent = usable ? "" : !Number.isFinite(value) ? "Type an age in years, such as 3." : value < 0 ? "Seed can’t be younger than 0 years." : `${value} years is hardly the age of seed. Type its age, not the year of harvest.`;
    if (usable && from !== range) range.value = value;
    if (usable && from !== number) number.value = value;
    show();
    list?.update();
  }

  range.addEventListener("input", () => set(Number(range.value), range));
  number.addEventListener("input", () => set(number.value === "" ? NaN : Number(number.value), number));
  form.hidden = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  set(3);
  yield;
  list = mountRows(article, {
    orders: {
      shortest: { read: (row) => Number(row.dataset.low), without: "" },
      longest: { read: (row) => Number(row.dataset.high), sign: -1, without: "" },
    },
    fits: () => true,
    line: {
      state: () => ({ age: age === null ? "" : age }),
      restore: (state) => { if (Number.isFinite(Number.parseFloat(state.age))) set(Number.parseFloat(state.age)); },
    },
  });
  dragLine(article.querySelector(".compare-list"), (share) => set(Math.round(share * most * 2) / 2));
  return list.shown;
}
