// What every calculator has in common: form on top, answer under it, state in the address,
// a line to copy, a link, a printed sheet. No request is made and nothing typed leaves the device.

import { fromFragment, toFragment } from "./address.js";
import { element, replaceAnswer } from "./element.js";
import { bindForm } from "./form.js";
import { patch } from "./patch.js";
import { announcer } from "./spoken.js";
import { copyText, printSheet, sheet } from "./sheet.js";
import { TOLD, inTasks, lastBegun } from "../steps.js";

const ADDRESS_DELAY = 200; // ms; browsers refuse too many address changes in a row

/**
 * Mount a calculator on every section.calculator of the page. `calculator` is
 *   name              the start of its address fragment
 *   lines             which of its fields are of many lines; optional
 *   fields, columns   names of its single fields, and of the columns of its repeated rows (if any)
 *   mostRows, leastRows, nextRow(rows)   for repeated rows
 *   example(crop, data, unit)   the entry a reader finds first; `unit` is undefined until the reader changes that field
 *   read(entry, data)       {values, messages}: values null while any field has a message
 *   workOut(values, data)   the answer, as numbers
 *   show(answer, data, level)   {title, headline, trust, rest: nodes, line, workings: [term, text] pairs};
 *                           `level` is that of its headings; a generator of nodes where they take long, which may yield nothing in between
 *   settle(entry, data, bound)  hints and hidden fields that depend on what was chosen; optional
 *   extra(section, state)   buttons of its own; optional. What it returns is called with every new answer.
 *                           `state` has entry(), last(), data, and open(entry), which shows an entry as if it had been typed
 */
export function mountCalculator(calculator) {
  for (const section of document.querySelectorAll("section.calculator")) inTasks(mount(section, calculator));
}

function* mount(section, calculator) {
  const shape = { columns: [], mostRows: 0, ...calculator };
  const data = JSON.parse(section.querySelector("#calculator-data").textContent);
  const form = section.querySelector(".calculator-form");
  const output = section.querySelector(".calculator-output");
  const spoken = output.querySelector(".calculator-spoken");
  const rest = output.querySelector(".calculator-rest");
  const actions = section.querySelector(".calculator-actions");
  const ownCrop = section.dataset.crop;
  const level = Number(section.dataset.headingLevel);
  const say = announcer(output);
  const stored = `${shape.name} ${window.location.pathname}`;
  const fresh = (crop = ownCrop, unit = undefined) => ({ rows: [], ...calculator.example(crop, data, unit) });
  let entry = fresh();
  let last = null; // the last good answer, as shown
  let below = []; // steps that are left to show what stands below its headline
  let timer = 0;
  const answers = lastBegun();

  const bound = bindForm(form, shape, (changed) => {
    const converted = exampleIn(changed);
    if (converted === null) update(changed);
    else open(converted);
    window.clearTimeout(timer);
    timer = window.setTimeout(writeAddress, ADDRESS_DELAY);
  });

  // The example's temperatures follow the unit. What a reader has typed never does: the unit says what it was read in.
  function exampleIn(changed) {
    if (!shape.fields.includes("unit") || changed.unit === entry.unit) return null;
    const before = fresh(entry.crop, entry.unit);
    const untouched = shape.fields.every((field) => before[field] === entry[field]) && JSON.stringify(before.rows) === JSON.stringify(entry.rows);
    const after = fresh(entry.crop, changed.unit);
    return untouched && after.unit === changed.unit ? after : null;
  }

  // In steps. Of what is typed the headline is told at once, and what stands below it as soon as there is time.
  function* answering(changed) {
    entry = { ...changed };
    if (shape.fields.includes("crop")) {
      entry.crop = ownCrop || (Object.hasOwn(data.crops, changed.crop) ? changed.crop : "");
    }
    const { values, messages } = calculator.read(entry, data);
    bound.mark(messages);
    calculator.settle?.(entry, data, bound);
    // An attribute: when a class changes, the theme's rules for tables without one have everything below it styled anew.
    section.toggleAttribute("data-stale", values === null);
    reveal();
    yield;
    if (values === null) {
      warnStale(messages.size);
      if (last === null) below = []; // of an answer that was never told
    } else {
      const answer = calculator.workOut(values, data);
      yield;
      const found = { ...calculator.show(answer, data, level), answer };
      yield;
      below = showingBelow(found);
      if (last === null) yield* below; // what moves down, moves once
      last = found;
      patch(spoken, [element("p", "headline", last.headline), element("p", "trust", last.trust)]);
      afterAnswer?.(answer);
    }
    section.setAttribute("data-answered", ""); // the room kept until now is given back with the answer
    say(values === null ? bound.wrong() : `${last.headline} ${last.trust}`);
    actions.hidden = last === null;
    // Half-mended figures must not reach a packet; the link may carry them.
    for (const button of actions.querySelectorAll("button:not(.copy-link)")) button.disabled = values === null;
    rest.setAttribute("aria-busy", "true");
    yield TOLD;
    yield* below; // after a wrong figure, those that the answer which still stands had left
    rest.removeAttribute("aria-busy");
  }

  const update = (changed) => answers.now(answering(changed));

  function* showingBelow(found) {
    const nodes = [];
    for (const node of found.rest) {
      if (node) nodes.push(node);
      yield;
    }
    yield* replaceAnswer(rest, nodes);
    showWorkings(section.querySelector(".calculator-workings"), found.workings);
  }

  function reveal() {
    if (!form.hidden) return;
    section.querySelector(".calculator-waiting").remove();
    for (const fold of section.querySelectorAll(".until-scripts-run")) {
      fold.open = false;
      fold.classList.remove("until-scripts-run");
    }
    form.hidden = false;
  }

  // The fields say what is wrong; here stands only what the answer below belongs to.
  function warnStale(count) {
    const fields = count === 1 ? "the marked field" : `the ${count} marked fields`;
    const text = last === null ? `No answer yet: mend ${fields} above.`
      : `Mend ${fields} above. The answer below is still the last complete one.`;
    const old = spoken.querySelector(".stale-note");
    if (old?.textContent === text) return;
    old?.remove();
    spoken.prepend(element("p", "stale-note", text));
  }

  function link() {
    return window.location.href.split("#")[0] + toFragment(entry, shape);
  }

  function writeAddress() {
    window.clearTimeout(timer);
    const fragment = toFragment(entry, shape);
    try {
      window.sessionStorage.setItem(stored, fragment);
    } catch {
      // Storage is off: the address alone holds the state.
    }
    try {
      window.history.replaceState(window.history.state, "", fragment);
    } catch {
      // Refused for being too many in a row; the next change writes it again.
    }
  }

  // A jump to a heading takes the state out of the address; a reload or going back finds it again here.
  function restored() {
    const [visit] = window.performance.getEntriesByType("navigation");
    if (!["reload", "back_forward"].includes(visit?.type)) return null;
    try {
      return inAddress(window.sessionStorage.getItem(stored) ?? "");
    } catch {
      return null;
    }
  }

  function forget() {
    try {
      window.sessionStorage.removeItem(stored);
    } catch {
      // Storage is off: there is nothing to forget.
    }
  }

  const inAddress = (fragment) => fromFragment(fragment, fresh(), shape);

  function* opening(found) {
    const shown = "crop" in found ? { ...found, crop: ownCrop || found.crop } : found;
    yield* bound.show(shown);
    yield* answering(shown);
  }

  const open = (found) => answers.now(opening(found));

  form.querySelector(".start-again").addEventListener("click", () => {
    window.clearTimeout(timer);
    window.history.replaceState(window.history.state, "",
      window.location.pathname + window.location.search);
    forget();
    open(fresh());
    form.querySelector("input").focus();
  });
  actions.querySelector(".copy-line").addEventListener("click", (event) => {
    copyText(actions, last.line, event.target.dataset.done);
  });
  actions.querySelector(".copy-link").addEventListener("click", () => {
    writeAddress();
    copyText(actions, link(), "Link copied. It holds everything typed here.");
  });
  actions.querySelector(".print-sheet").addEventListener("click", () => {
    section.querySelector(".result-sheet")?.remove();
    output.before(sheet(last.title, form, entry.example, link()));
    printSheet(section);
  });
  const afterAnswer = calculator.extra?.(section, {
    entry: () => entry, last: () => last, data,
    open: (found) => {
      open(found);
      writeAddress();
    },
  });

  // What is pressed, and what is printed, is about the whole answer.
  section.addEventListener("click", answers.whole, true);
  window.addEventListener("beforeprint", answers.whole);
  window.addEventListener("hashchange", (event) => {
    window.clearTimeout(timer); // an address still to be written is that of the entry before
    const found = inAddress(new URL(event.newURL).hash);
    if (found === null) return;
    [last, below] = [null, []];
    for (const part of output.children) part.replaceChildren();
    open(found);
  });
  yield;
  yield* answers.soon(opening(inAddress(window.location.hash) ?? restored() ?? fresh()));
  if (window.location.hash.startsWith(`#${shape.name}=`)) section.scrollIntoView();
}

function showWorkings(place, pairs) {
  const told = pairs.flatMap(([term, text]) => [element("dt", "", term), element("dd", "", text)]);
  patch(place, [element("details", "workings", element("summary", "", "How this is worked out"), element("dl", "", ...told))]);
}
