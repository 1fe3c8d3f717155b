// Taking the result away: a printed sheet, a line of text, the link.

import { dateText } from "../date_words.js";
import { element } from "./element.js";
import { todayIso } from "./format.js";

const MOST_LINES = 14; // of a log on the sheet
const LONGEST_LINK = 2000; // characters that anybody might type off a sheet

/** What was typed, and the link, as they stand on the printed sheet; hidden on screen. */
export function sheet(title, form, example, link) {
  const used = (row) => [...row.querySelectorAll("[data-column]")];
  const rows = [...form.querySelectorAll(".entry-row")];
  const columns = rows.length === 0 ? [] : used(rows[0]).map((field) => field.dataset.column)
    .filter((column) => rows.some((row) => valueOf(row.querySelector(`[data-column="${column}"]`)) !== ""));
  const name = (column) => rows[0].querySelector(`[data-column="${column}"] label`).textContent;
  const head = (text) => {
    const made = element("th", "", text);
    made.scope = "col";
    return made;
  };
  const table = columns.length === 0 ? null : element("table", "sheet-counts", element("caption", "unseen", "What was counted"),
    element("thead", "", element("tr", "", head(form.querySelector(".rows").dataset.rowName), ...columns.map((column) => head(name(column))))),
    element("tbody", "", ...rows.map((row, i) => element("tr", "", element("td", "", String(i + 1)),
      ...columns.map((column) => element("td", "", valueOf(row.querySelector(`[data-column="${column}"]`))))))));
  const facts = [...form.querySelectorAll("[data-field]")]
    .filter((field) => field.closest("[hidden]") === null && valueOf(field) !== "")
    .map((field) => `${field.querySelector("label, legend").textContent}: ${valueOf(field)}.`.replace("?:", "?"));
  if (example) facts.push("Example figures, not your own.");
  facts.push(`Printed on ${dateText(todayIso())}.`);
  return element("div", "result-sheet", element("p", "sheet-title", title),
    element("p", "sheet-facts", facts.join(" ")), table, element("p", "sheet-link", link.length <= LONGEST_LINK ? link : `${link.split("#")[0]} (the link with everything typed is too long to print)`));
}

// The text of a field as a reader would say it: the chosen option's words, the unit behind a number.
function valueOf(field) {
  const said = [...field.querySelectorAll("input, select, textarea")].map((input) => {
    if (input.tagName === "SELECT") return input.value === "" ? "" : input.selectedOptions[0]?.textContent ?? "";
    return input.tagName === "TEXTAREA" ? linesOf(input.value) : input.value.trim();
  });
  if (said[0] === "") return "";
  const unit = field.querySelector(".field-unit")?.textContent ?? "";
  return [...said, unit].filter((part) => part !== "").join(" ");
}

// Lines on one line; of many the first and the last.
function linesOf(text) {
  const lines = text.split("\n").map((line) => line.trim()).filter((line) => line !== "");
  return lines.length <= MOST_LINES ? lines.join("; ") : `${lines.length} lines, from “${lines[0]}” to “${lines.at(-1)}”`;
}

/**
 * Print only the calculator: its ancestors are marked so that the style sheet can hide the rest.
 * `only`, a class of one of its children, prints that child alone.
 */
export function printSheet(section, only = "") {
  const path = [];
  for (let node = section.parentElement; node !== null; node = node.parentElement) path.push(node);
  const after = () => {
    document.body.classList.remove("printing-calculator");
    for (const node of path) node.classList.remove("printing-path");
    section.removeAttribute("data-only");
    window.removeEventListener("afterprint", after);
  };
  for (const node of path) node.classList.add("printing-path");
  document.body.classList.add("printing-calculator");
  if (only) section.dataset.only = only;
  window.addEventListener("afterprint", after);
  window.print();
}

/** Copy text; where the browser refuses, show it selected to be copied by hand. */
export async function copyText(actions, text, done) {
  const note = actions.querySelector(".copy-note");
  const fallback = actions.querySelector(".copy-fallback");
  try {
    await navigator.clipboard.writeText(text);
    fallback.hidden = true;
    note.textContent = done;
  } catch {
    const area = fallback.querySelector("textarea");
    fallback.hidden = false;
    area.value = text;
    area.focus();
    area.select();
    note.textContent = "This browser does not let the page copy. The text below is selected: copy it by hand.";
  }
}

/** Offer a text as a file to save. */
export function saveText(name, text, type) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  window.setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
