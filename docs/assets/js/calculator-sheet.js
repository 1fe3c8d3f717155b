// Taking the result away: a printed sheet, the packet line, the link.

import { grouped } from "./calculator-fields.js";
import { temperatureText } from "./calculator-format.js";
import { COUNTS } from "./calculator-entry.js";
import { element } from "./calculator-view.js";

/** The inputs and the link as they stand on the printed sheet; hidden on screen. */
export function sheet(answer, date, link) {
  const { values, crop } = answer;
  const used = COUNTS.filter((name) => values.replicates.some((r) => r[name] !== null));
  const cell = (name, text) => {
    const made = element(name, "", text);
    if (name === "th") made.scope = "col";
    return made;
  };
  const table = element("table", "sheet-counts",
    element("thead", "", element("tr", "", cell("th", "Replicate"), ...used.map((name) => cell("th", NAMES[name])))),
    element("tbody", "", ...values.replicates.map((replicate, i) => element("tr", "",
      cell("td", String(i + 1)),
      ...used.map((name) => cell("td", replicate[name] === null ? "" : grouped(replicate[name])))))));
  const facts = [
    crop === null ? null : `Crop: ${crop.name}.`,
    `Counted: ${date}.`,
    values.day === null ? null : `Days since the start: ${values.day}.`,
    values.temperature === null ? null : `Temperature: ${temperatureText(values.temperature, values.unit)}.`,
    values.example ? "Example figures, not a test." : null,
  ].filter((fact) => fact !== null);
  return element("div", "result-sheet",
    element("p", "sheet-title", `Germination test${crop === null ? "" : `, ${crop.name}`}`),
    element("p", "", facts.join(" ")), table, element("p", "sheet-link", link));
}

const NAMES = {
  seeds: "Seeds set", normal: "Normal", abnormal: "Abnormal", hard: "Hard", fresh: "Fresh",
  dead: "Dead",
};

/** Print only the calculator: its ancestors are marked so that the style sheet can hide the rest. */
export function printSheet(section) {
  const path = [];
  for (let node = section.parentElement; node !== null; node = node.parentElement) path.push(node);
  const after = () => {
    document.body.classList.remove("printing-calculator");
    for (const node of path) node.classList.remove("printing-path");
    window.removeEventListener("afterprint", after);
  };
  for (const node of path) node.classList.add("printing-path");
  document.body.classList.add("printing-calculator");
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
