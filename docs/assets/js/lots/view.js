// What the page shows of the results: table, problems, and the sheet to print. Texts only ever become text nodes.

import { VERDICTS } from "./columns.js";
import { FILE, ROW } from "./read.js";

/** Element with class, attributes and children (text or nodes; null is left out). */
export function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children.filter((child) => child !== null));
  return made;
}

const KINDS = { lend: "good", "lend marked": "good", "do not lend unmarked": "bad", hold: "warn", "repeat the test": "warn" };

/** One row of the results. On a phone rows are blocks, so every element keeps its role of a table. */
export function resultRow(result) {
  const cell = (label, className, ...children) => (
    element("td", { role: "cell", class: className, "data-label": label }, ...children));
  const variety = result.variety === "" ? null : element("span", { class: "lots-variety" }, result.variety);
  return element("tr", { role: "row" },
    element("th", { scope: "row", role: "rowheader" }, result.lot),
    cell("", "lots-crop", result.crop, variety === null ? null : ", ", variety),
    cell("Tested", "lots-day", result.tested || "not tested"),
    cell("", "lots-words", result.words),
    cell("", `lots-verdict ${KINDS[result.verdict] ?? ""}`.trim(), result.verdict),
    cell("Next test", "lots-day", result.next_test || "none"));
}

/** "Line 12, seeds: what was seen. What to do." */
export function problemItem({ line, column, level, words }) {
  const place = [FILE, ROW].includes(column) ? `Line ${line}: ` : `Line ${line}, ${column}: `;
  return element("li", { class: level }, element("span", { class: "lots-place" }, place), words);
}

/** The sheet to print: {title, about, invented, said, rows, problems, more}. */
export function sheet({ title, about, invented, said, rows, problems, more }) {
  const head = ["Lot", "Crop, variety", "Tested", "Why", "Verdict", "Next test"];
  const used = [...VERDICTS].filter(([verdict]) => rows.some((row) => row.verdict === verdict));
  return element("section", { class: "lots-sheet", "aria-label": title },
    element("h1", {}, title),
    element("p", {}, about),
    invented ? element("p", { class: "lots-invented" }, "Invented example: library, varieties and counts do not exist.") : null,
    element("p", {}, said),
    element("table", {},
      element("thead", {}, element("tr", {}, ...head.map((text) => element("th", { scope: "col" }, text)))),
      element("tbody", {}, ...rows.map(resultRow))),
    element("h2", {}, "What the verdicts mean"),
    element("dl", {}, ...used.flatMap(([verdict, meaning]) => [element("dt", {}, verdict), element("dd", {}, meaning)])),
    element("p", {}, "Percentages are counts of normal seedlings with their 95 % interval."),
    problems.length === 0 ? null : element("h2", {}, "Rows left out, and notes"),
    problems.length === 0 ? null : element("ul", {}, ...problems.map(problemItem)),
    more > 0 ? element("p", {}, `And ${more} more.`) : null);
}

/** Print a sheet alone: the rest of the page is hidden by the style sheet until it is done. */
export function printSheet(made) {
  const after = () => {
    window.removeEventListener("afterprint", after);
    document.body.classList.remove("printing-lots");
    made.remove();
  };
  document.body.append(made);
  document.body.classList.add("printing-lots");
  window.addEventListener("afterprint", after);
  window.print();
}
