// The page of a file of lots: choosing a file, telling how far it is, showing and giving away the results.
// Reading and judging run in worker.js; nothing is sent anywhere or kept.

import { Conversation } from "./conversation.js";
import { todayIso } from "./dates.js";
import { mountDrop } from "./drop.js";
import { printSheet, problemItem, resultRow, sheet } from "./view.js";
import { handOver } from "../labels/handed_over.js";
import { blobFile } from "../data_file.js";
import { pageAddress } from "../from_folder.js";
import { grouped } from "../words.js";

const PAGE = 100; // lots shown at a time
const MOST_PRINTED = 2000;
const MOST_HANDED = 1_000_000; // bytes given to the page of labels
const WAIT = 150; // milliseconds after a key before a filter is looked up

const section = document.querySelector("section.lots");
const catalogue = JSON.parse(document.getElementById("lots-data").textContent);
const part = (name) => section.querySelector(`.lots-${name}`);
const field = (name) => section.querySelector(`#lots-${name}`);

let source = null; // {name, invented} of the file at hand
let done = null; // the worker's word on the file at hand
let from = 0;
let latest = 0; // number of the last question for rows to show
let timer = 0;

// Lending line

/** The lending line as typed, or null with the field marked. */
function typedLine() {
  const text = field("line").value.trim().replace(/ ?%$/, "").replace(",", ".");
  const good = /^\d{1,3}(\.\d)?$/.test(text) && Number(text) <= 100;
  field("line").setAttribute("aria-invalid", String(!good));
  part("line-message").textContent = good ? ""
    : `“${field("line").value.slice(0, 24)}” is not a percentage. Type 0 to 100, such as 70 or 72.5.`;
  return good ? Number(text) : null;
}

// The file

async function readDemo() {
  part("demo").disabled = true;
  try {
    start(await blobFile(part("demo").dataset.address), "demo-lots.csv", catalogue.library_invented);
  } catch {
    say("The demo file could not be fetched. Check the connection and try again, or choose a file of your own.", true);
  } finally {
    part("demo").disabled = false;
  }
}

function start(file, name, invented = false) {
  const line = typedLine();
  if (line === null) {
    say("The file was not read: mend the lending line first.", true);
    field("line").focus();
    return;
  }
  stop();
  source = { name, invented, file };
  done = null;
  from = 0;
  field("filter-text").value = "";
  part("output").hidden = true;
  part("busy").hidden = false;
  showProgress("Opening", 0, 1);
  say(`Reading ${name}.`);
  reader.begin({ kind: "read", file, name, catalogue, line, today: todayIso() });
}

// The page of labels reads the same file again: it is left for it in this tab, and nowhere else.
async function toLabels() {
  try {
    if (source.file.size > MOST_HANDED) throw new RangeError();
    handOver(await source.file.text());
  } catch {
    say("This file is too long to be handed to the page of labels. The command does it: python3 -m build_tools labels FILE.csv", true);
    return;
  }
  window.location.assign(pageAddress(part("labels").dataset.address));
}

function stop() {
  reader.end();
  part("busy").hidden = true;
}

const reader = new Conversation({
  progress({ stage, done: so, total, rows }) {
    const words = stage === "read" ? `${grouped(rows)} rows read` : `${grouped(so)} of ${grouped(total)} lots judged`;
    part("busy").hidden = false;
    showProgress(words, (stage === "read" ? 0 : 0.5) + 0.5 * (total > 0 ? so / total : 1), 1);
  },
  done(told) {
    done = told;
    part("busy").hidden = true;
    showDone();
  },
  failed() {
    stop();
    say("Something went wrong while this file was read; nothing of it is shown. Please report it, with the file if it may be seen by others.", true);
  },
}, () => {
  stop();
  say("This browser could not run the part of the page that reads files. Reload the page, or use a newer browser; the command described below does the same.", true);
});

// Showing

function say(text, wrong = false) {
  part("said").textContent = text;
  part("said").classList.toggle("wrong", wrong);
}

function showProgress(words, value, most) {
  const bar = section.querySelector("progress");
  bar.max = most;
  bar.value = value;
  part("progress-words").textContent = `${words} …`;
}

function showDone() {
  const some = done.lots > 0;
  say(some ? done.said : "No lot could be read. What stood in the way is listed below.", !some);
  part("output").hidden = false;
  part("results").hidden = !some;
  part("about").textContent = `${done.counts} From ${source.name}, as on ${done.today}, lending line ${done.line} %.`;
  part("invented").hidden = !source.invented;
  showProblems();
  if (some) {
    showVerdicts();
    find();
  }
}

function showVerdicts() {
  const select = field("filter-verdict");
  const chosen = select.value;
  const option = (value, text) => {
    const made = document.createElement("option");
    made.value = value;
    made.textContent = text;
    return made;
  };
  select.replaceChildren(option("", `All (${grouped(done.lots)})`), ...Object.entries(done.verdicts)
    .filter(([, count]) => count > 0).map(([verdict, count]) => option(verdict, `${verdict} (${grouped(count)})`)));
  select.value = chosen;
  if (select.selectedIndex < 0) select.value = "";
}

function showProblems() {
  const { problems, problemCount, leftOut } = done;
  part("problems").hidden = problemCount === 0;
  part("problems-heading").textContent = leftOut > 0 || done.lots === 0 ? "Rows left out" : "Notes on the file";
  part("jump").hidden = problemCount === 0;
  part("jump").querySelector("a").textContent = part("problems-heading").textContent;
  part("problem-list").replaceChildren(...problems.map(problemItem));
  part("problems-more").textContent = problemCount > problems.length
    ? `These are the first ${problems.length} of ${grouped(problemCount)}. All are in the file of problems.` : "";
}

function filter() {
  return { verdict: field("filter-verdict").value, text: field("filter-text").value };
}

function find(focus = false) {
  const mine = reader.ask({ kind: "find", ...filter(), from, count: PAGE }, ({ total, rows }) => {
    if (mine === latest) showRows(total, rows, focus);
  });
  latest = mine;
}

function showRows(total, rows, focus) {
  part("rows").replaceChildren(...rows.map(resultRow));
  part("table").hidden = total === 0;
  const shown = total === 0 ? "No lot fits. Try part of a name, or another verdict."
    : total <= PAGE ? `${grouped(total)} ${total === 1 ? "lot" : "lots"}`
      : `Lots ${grouped(from + 1)} to ${grouped(from + rows.length)} of ${grouped(total)}`;
  part("shown").textContent = shown;
  part("pages").hidden = total <= PAGE;
  part("previous").disabled = from === 0;
  part("next").disabled = from + PAGE >= total;
  if (focus) {
    part("shown").focus({ preventScroll: true });
    part("shown").scrollIntoView({ block: "start" });
  }
}

// Taking away

const stem = () => source.name.replace(/\.[^.]*$/, "");

function save(kind, name) {
  reader.ask({ kind }, ({ blob }) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  });
}

function print() {
  reader.ask({ kind: "find", ...filter(), from: 0, count: MOST_PRINTED }, ({ total, rows }) => {
    if (total > MOST_PRINTED) {
      part("note").textContent = `${grouped(total)} lots are too many to print: at most ${grouped(MOST_PRINTED)} fit a sheet. Choose a verdict or type part of a name above, or save them as CSV.`;
      return;
    }
    part("note").textContent = "";
    printSheet(sheet({
      title: `Seed lots, ${done.today}`,
      about: `${catalogue.library_name}. From ${source.name}; lending line ${done.line} %.${total < done.lots ? ` ${grouped(total)} of ${grouped(done.lots)} lots, as chosen on the page.` : ""}`,
      invented: source.invented, said: `${done.said} ${done.counts}`, rows, problems: done.problems,
      more: done.problemCount - done.problems.length,
    }));
  });
}

// What the reader does

function mount() {
  const input = field("file");
  input.addEventListener("change", () => {
    const [file] = input.files;
    if (file) start(file, file.name);
    input.value = ""; // the same file, once mended, can be chosen again
  });
  part("demo").addEventListener("click", readDemo);
  part("cancel").addEventListener("click", () => {
    stop();
    part("output").hidden = true;
    say("Stopped. Nothing was kept.");
    input.focus();
  });

  mountDrop(part("drop"), (files) => {
    if (files.length > 1) say("Several files were dropped. Drop one at a time.", true);
    else if (files.length === 1) start(files[0], files[0].name);
  });

  field("line").addEventListener("change", () => {
    const line = typedLine();
    if (line !== null && done !== null && line !== done.line && reader.isOn) {
      from = 0;
      reader.tell({ kind: "line", line });
    }
  });
  field("filter-verdict").addEventListener("change", () => {
    from = 0;
    find();
  });
  field("filter-text").addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      from = 0;
      find();
    }, WAIT);
  });
  part("previous").addEventListener("click", () => turn(-PAGE));
  part("next").addEventListener("click", () => turn(PAGE));
  part("labels").addEventListener("click", toLabels);
  part("csv").addEventListener("click", () => save("csv", `${stem()}-results.csv`));
  part("print").addEventListener("click", print);
  part("save-problems").addEventListener("click", () => save("problems", `${stem()}-problems.txt`));
  part("form").addEventListener("submit", (event) => event.preventDefault());

  part("form").hidden = false;
  part("waiting").remove();
}

function turn(by) {
  from += by;
  find(true);
}

mount();
