// Germination-rate calculator: finds section.calculator on the page and mounts itself.
// Form on top, answer under it, state in the address. No request is made.

import { fromFragment, toFragment } from "./calculator-address.js";
import { workOut } from "./calculator-answer.js";
import { officialRange } from "./calculator-checks.js";
import { exampleEntry, readEntry } from "./calculator-entry.js";
import { longDate, todayIso } from "./calculator-format.js";
import { bindForm } from "./calculator-form.js";
import { copyText, printSheet, sheet } from "./calculator-sheet.js";
import { drawPicture, element, showAnswer, showWorkings } from "./calculator-view.js";

const ADDRESS_DELAY = 200; // ms; browsers refuse too many address changes in a row

function mount(section) {
  const data = JSON.parse(section.querySelector("#calculator-data").textContent);
  const form = section.querySelector(".calculator-form");
  const output = section.querySelector(".calculator-output");
  const actions = section.querySelector(".calculator-actions");
  const ownCrop = section.dataset.crop;
  const level = Number(section.dataset.headingLevel);
  const fresh = () => exampleEntry(todayIso(), ownCrop);
  let entry = fresh();
  let last = null; // the last good answer, {answer, date, line}
  let timer = 0;
  const stored = `count ${window.location.pathname}`;

  const bound = bindForm(form, (changed) => {
    update(changed);
    window.clearTimeout(timer);
    timer = window.setTimeout(writeAddress, ADDRESS_DELAY);
  });

  function update(changed) {
    const chosen = Object.hasOwn(data.crops, changed.crop) ? changed.crop : "";
    entry = { ...changed, crop: ownCrop || chosen };
    const { values, messages } = readEntry(entry);
    bound.mark(messages);
    hints();
    section.classList.toggle("stale", values === null);
    if (values !== null) {
      const answer = workOut(values, data);
      const date = longDate(values.date ?? todayIso());
      last = { answer, date, line: showAnswer(output, answer, data, date, level) };
      showWorkings(section.querySelector(".calculator-workings"), answer);
    } else {
      warnStale(messages.size);
    }
    actions.hidden = last === null;
    // Half-mended figures must not reach a packet; the link may carry them.
    for (const name of [".copy-line", ".print-sheet"]) {
      actions.querySelector(name).disabled = values === null;
    }
  }

  // The fields say what is wrong; here stands only what the answer below belongs to.
  function warnStale(count) {
    const fields = count === 1 ? "the marked field" : `the ${count} marked fields`;
    const text = last === null ? `No answer yet: mend ${fields} above.`
      : `Mend ${fields} above. The answer below is still the last complete one.`;
    const spoken = output.querySelector(".calculator-spoken");
    const old = spoken.querySelector(".stale-note");
    if (old?.textContent === text) return;
    old?.remove();
    spoken.prepend(element("p", "stale-note", text));
  }

  function hints() {
    const crop = data.crops[entry.crop];
    const [first, final] = [crop?.first_count_days, crop?.final_count_days];
    bound.hint("day", final == null ? "From setting the seed to this count."
      : `Official counts: ${first == null ? "" : `day ${first} and `}day ${final}.`);
    const official = crop ? officialRange(crop, entry.unit) : "";
    bound.hint("temperature", official ? `Official test: ${official}.` : "Around the seed, not the room’s.");
  }

  function link() {
    return window.location.href.split("#")[0] + toFragment(entry);
  }

  function writeAddress() {
    window.clearTimeout(timer);
    try {
      window.sessionStorage.setItem(stored, toFragment(entry));
    } catch {
      // Storage is off: the address alone holds the state.
    }
    try {
      window.history.replaceState(window.history.state, "", toFragment(entry));
    } catch {
      // Refused for being too many in a row; the next change writes it again.
    }
  }

  // A jump to a heading takes the state out of the address; a reload or going back finds it again here.
  function restored() {
    const [visit] = window.performance.getEntriesByType("navigation");
    if (!["reload", "back_forward"].includes(visit?.type)) return false;
    try {
      return readAddress(window.sessionStorage.getItem(stored) ?? "");
    } catch {
      return false;
    }
  }

  function forget() {
    try {
      window.sessionStorage.removeItem(stored);
    } catch {
      // Storage is off: there is nothing to forget.
    }
  }

  function readAddress(fragment = window.location.hash) {
    const found = fromFragment(fragment, fresh());
    if (found === null) return false;
    last = null;
    for (const part of output.children) part.replaceChildren();
    open(found);
    return true;
  }

  function open(found) {
    bound.show({ ...found, crop: ownCrop || found.crop });
    update(found);
  }

  form.querySelector(".start-again").addEventListener("click", () => {
    window.clearTimeout(timer);
    window.history.replaceState(window.history.state, "",
      window.location.pathname + window.location.search);
    forget();
    open(fresh());
    form.querySelector("input").focus();
  });
  actions.querySelector(".copy-line").addEventListener("click", () => {
    copyText(actions, last.line, "Copied. Write or stick it on the packet.");
  });
  actions.querySelector(".copy-link").addEventListener("click", () => {
    writeAddress();
    copyText(actions, link(), "Link copied. It holds everything typed here.");
  });
  actions.querySelector(".print-sheet").addEventListener("click", () => {
    section.querySelector(".result-sheet")?.remove();
    output.before(sheet(last.answer, last.date, link()));
    printSheet(section);
  });

  section.querySelector(".calculator-waiting").remove();
  section.querySelector(".ten-seeds").open = false;
  form.hidden = false;
  if (!readAddress() && !restored()) open(fresh());
  window.addEventListener("hashchange", () => readAddress());
  new ResizeObserver(() => last !== null && drawPicture(output, last.answer)).observe(output);
  if (window.location.hash.startsWith("#count=")) section.scrollIntoView();
}

for (const section of document.querySelectorAll("section.calculator")) mount(section);
