// Labels for packets: reading lots and tests, the sheet, the preview, printing.

import { Catalogue } from "../lots/catalogue.js";
import { todayIso } from "../lots/dates.js";
import { Judge } from "../lots/judge.js";
import { readLots } from "../lots/read.js";
import { problemWords } from "../lots/write.js";
import { drawPage } from "../sheets/draw.js";
import { doesNotFit } from "../sheets/label_sheets.js";
import { labelPages, labelWords, warmthWords } from "../sheets/labels.js";
import { hangUp, typefaceReady } from "../sheets/hang_up.js";
import { printPages } from "../sheets/print.js";
import { Type } from "../sheets/type.js";
import { element } from "../calculators/element.js";
import { takeOver } from "./handed_over.js";
import { inTasks, pause } from "../steps.js";
import { grouped, quoted } from "../words.js";

const START = "labels=1";
const CHOICES = ["sheet", "start", "copies", "units", "paper"];
const MEASURES = ["columns", "rows", "width", "height", "left", "top", "gap_x", "gap_y"];
const LONGEST = 1800; // characters of tests that an address carries
const MOST_COPIES = 100;
const MOST_LABELS = 2000; // drawn at once; more is for the command
const MOST_PROBLEMS = 20;
const WAIT = 200; // ms after a key

function* mount(form) {
  const data = JSON.parse(document.getElementById("labels-data").textContent);
  const preview = document.querySelector(".sheet-preview");
  const catalogue = new Catalogue(data.lots);
  const bands = new Map(data.crops.map((crop) => [crop.name, crop.band]));
  const type = new Type(data.widths);
  const field = (name) => form.querySelector(`#labels-${name}`);
  const list = form.querySelector(".labels-problems");
  let paper = null;
  let timer = 0;
  let asked = 0;

  function mark(name, message) {
    field(name).setAttribute("aria-invalid", String(message !== ""));
    form.querySelector(`#labels-${name}-message`).textContent = message;
    return message === "";
  }

  // A number as typed, or null with the field marked.
  function number(name, least, most, whole) {
    const typed = field(name).value.trim().replace(",", ".");
    const value = Number(typed);
    const good = /^\d+(\.\d+)?$/.test(typed) && value >= least && value <= most && (!whole || Number.isInteger(value));
    return mark(name, good ? "" : `${quoted(typed)} does not do. Type ${whole ? "a whole number" : "a number"} from ${least} to ${most}.`) ? value : null;
  }

  // The chosen sheet, or null with what is wrong said.
  function sheetOf() {
    const own = field("sheet").value === "own";
    form.querySelector(".labels-own").hidden = !own;
    if (!own) return data.sheets[field("sheet").value];
    const read = MEASURES.map((name) => number(name, name === "columns" || name === "rows" ? 1 : 0, name === "columns" || name === "rows" ? 30 : 420, name === "columns" || name === "rows"));
    if (read.includes(null)) return null;
    const sheet = { paper: field("paper").value, ...Object.fromEntries(MEASURES.map((name, i) => [name, read[i]])) };
    const wrong = doesNotFit(sheet, data.papers[sheet.paper]);
    return mark("width", wrong) ? sheet : null;
  }

  async function update() {
    const mine = (asked += 1);
    const button = form.querySelector(".poster-print");
    button.disabled = true; // until all of it hangs
    const sheet = sheetOf();
    const start = number("start", 1, sheet === null ? 900 : sheet.columns * sheet.rows, true);
    const copies = number("copies", 1, MOST_COPIES, true);
    const reading = await readLots(new Blob([field("tests").value]), "these rows", catalogue, todayIso());
    await pause();
    if (mine !== asked) return; // something was typed meanwhile
    const judge = new Judge(catalogue, catalogue.data.lending_line_percent, todayIso());
    const rows = [...reading.lots.values()].map((lot) => judge.texts(judge.decide(lot)));
    const good = sheet !== null && start !== null && copies !== null && rows.length > 0;
    const many = good && rows.length * copies > MOST_LABELS;
    await pause();
    if (mine !== asked) return;
    const pages = good && !many ? labelPages(type, sheet, rows.map((row) => labelWords(row, warmthWords(bands.get(row.crop), field("units").value), data.library.name)), { start, copies, outline: field("outline").checked }) : [];
    say(reading, rows.length, copies ?? 1, pages.length, many, sheet);
    preview.hidden = pages.length === 0;
    if (pages.length > 0) {
      await typefaceReady();
      await pause();
      if (mine !== asked) return;
      paper = data.papers[sheet.paper];
      const drawn = pages.map((marks, i) => drawPage(marks, { width: paper[0], height: paper[1], scale: 1 }, data, `Labels, page ${i + 1} of ${pages.length}`));
      for (const hanging = hangUp(preview, drawn); !hanging.next().done; await pause()) if (mine !== asked) return;
      button.disabled = false;
    }
  }

  function say(reading, lots, copies, pages, many, sheet) {
    const left = reading.problems.length;
    const words = lots === 0 ? "No lot could be read yet." : many ? `${grouped(lots * copies)} labels are too many for a browser: use the command, or fewer rows.`
      : pages === 0 ? "Mend what is marked, and the labels come." : `${grouped(lots * copies)} label${lots * copies === 1 ? "" : "s"} on ${pages} page${pages === 1 ? "" : "s"} of ${sheet.paper}.`;
    form.querySelector(".poster-said").textContent = left > 0 ? `${words} ${left} thing${left === 1 ? "" : "s"} to mend:` : words;
    list.hidden = left === 0;
    if (left > 0) field("tests").setAttribute("aria-invalid", "true");
    else field("tests").removeAttribute("aria-invalid");
    list.replaceChildren(...reading.problems.slice(0, MOST_PROBLEMS).map((problem) => element("li", "", `Line ${problem.line}: ${problemWords(problem)}`)));
  }

  function writeAddress() {
    const parts = [START, ...[...CHOICES, ...(field("sheet").value === "own" ? MEASURES : [])].map((name) => `${name}=${encodeURIComponent(field(name).value)}`)];
    if (field("tests").value.length <= LONGEST) parts.push(`tests=${encodeURIComponent(field("tests").value)}`);
    window.history.replaceState(null, "", `#${parts.join("&")}`);
  }

  function readAddress() {
    const parts = window.location.hash.slice(1).split("&");
    if (parts[0] !== START) return;
    for (const [name, ...rest] of parts.slice(1).map((part) => part.split("="))) {
      if (![...CHOICES, ...MEASURES, "tests"].includes(name)) continue;
      let value = rest.join("=");
      try {
        value = decodeURIComponent(value);
      } catch {
        continue; // a cut link
      }
      if (field(name).tagName !== "SELECT" || [...field(name).options].some((option) => option.value === value)) field(name).value = value;
    }
  }

  form.addEventListener("input", () => {
    window.clearTimeout(timer);
    timer = window.setTimeout(() => { update(); writeAddress(); }, WAIT);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (!preview.hidden) printPages(preview, paper[0], paper[1]);
  });
  window.addEventListener("hashchange", () => { readAddress(); update(); });
  form.hidden = false;
  field("tests").value = data.example;
  readAddress();
  field("tests").value = takeOver() ?? field("tests").value;
  yield;
  update();
}

const form = document.querySelector(".labels-form");
if (form) inTasks(mount(form));
