// The form of a calculator: showing an entry, taking the typed texts back, marking messages.
// An entry is {example, rows: [{column: text}], field: text …}; everything in it is text as typed.

import { atOnce } from "../steps.js";

const MOST_TOLD = 2; // wrong fields, read out at once

/**
 * Binds the form element. `shape` is {fields, columns, mostRows, leastRows, nextRow}; `onChange(entry)`
 * is called after every change by the reader. Returns {show(entry): steps, mark(messages), hint(field, text), offer(field, shown), wrong()}.
 */
export function bindForm(form, shape, onChange) {
  const { fields, columns, mostRows, leastRows = 1, nextRow } = shape;
  const holder = form.querySelector(".rows");
  const template = form.querySelector(".row-template");
  const addButton = form.querySelector(".add-row");
  const example = form.querySelector(".calculator-example");
  let kept = {}; // fields that this form does not show, such as the crop on the crop's own page
  let current = null;

  const single = (name) => form.elements.namedItem(name);
  const rows = () => (holder ? [...holder.querySelectorAll(".entry-row")] : []);
  const input = (row, column) => row.querySelector(`[data-column="${column}"] :is(input, select)`);

  function build(i) {
    const row = template.content.firstElementChild.cloneNode(true);
    const name = holder.dataset.rowName;
    for (const column of columns) {
      const field = row.querySelector(`[data-column="${column}"]`);
      const made = field.querySelector("input, select");
      const message = field.querySelector(".field-message");
      made.dataset.name = column;
      made.id = `calculator-${i}-${column}`;
      message.id = `${made.id}-message`;
      field.querySelector("label").htmlFor = made.id;
      const unit = field.querySelector(".field-unit");
      if (unit) unit.id = `${made.id}-unit`;
      made.setAttribute("aria-describedby", unit ? `${unit.id} ${message.id}` : message.id);
    }
    row.querySelector("legend").textContent = `${name} ${i + 1}`;
    const remove = row.querySelector(".remove-row");
    remove.textContent = `Remove ${name.toLowerCase()} ${i + 1}`;
    remove.addEventListener("click", () => removeRow(i));
    holder.append(row);
    return row;
  }

  function fill(row, texts) {
    for (const column of columns) input(row, column).value = texts[column];
    for (const fold of row.querySelectorAll("details")) {
      fold.open = [...fold.querySelectorAll("input")].some((inside) => inside.value !== "");
    }
  }

  function* show(entry) {
    current = entry;
    kept = {};
    for (const name of fields) {
      const element = single(name);
      if (!element) {
        kept[name] = entry[name];
        continue;
      }
      const before = element.value;
      element.value = entry[name];
      if (element.tagName === "SELECT" && element.selectedIndex < 0) element.value = before;
    }
    const standing = rows();
    for (const [i, texts] of entry.rows.entries()) {
      fill(standing[i] ?? build(i), texts);
      yield;
    }
    for (const row of standing.slice(entry.rows.length)) row.remove();
    settle();
  }

  // What depends on the number of rows and on the example mark.
  function settle() {
    const count = rows().length;
    form.classList.toggle("single", count === 1);
    for (const button of form.querySelectorAll(".remove-row")) button.hidden = count <= leastRows;
    if (addButton) addButton.disabled = count >= mostRows;
    example.hidden = !current.example;
  }

  function take() {
    const entry = { example: current.example, rows: rows().map((row) => (
      Object.fromEntries(columns.map((column) => [column, input(row, column).value])))) };
    for (const name of fields) entry[name] = single(name)?.value ?? kept[name];
    return entry;
  }

  function changed(event) {
    const entry = take();
    // With rows of counts it is these that make an entry one's own; without, any field does.
    if (columns.length === 0 || event.target.dataset.name) entry.example = false;
    current = entry;
    settle();
    onChange(entry);
  }

  function rebuild(entry) {
    entry.example = false;
    atOnce(show(entry));
    onChange(entry);
  }

  function addRow() {
    const entry = take();
    entry.rows.push(nextRow(entry.rows));
    rebuild(entry);
    const added = rows().at(-1);
    const inputs = columns.map((column) => input(added, column));
    (inputs.find((made) => made.value === "") ?? inputs[0]).focus();
  }

  function removeRow(i) {
    const entry = take();
    entry.rows.splice(i, 1);
    rebuild(entry);
    input(rows()[Math.min(i, rows().length - 1)], columns[0]).focus();
  }

  /** Put each message, a Map of field ("day", or "0.seeds" in the first row) to text, beside its field. */
  function mark(messages) {
    rows().forEach((row, i) => {
      for (const column of columns) {
        markField(row.querySelector(`[data-column="${column}"]`), messages.get(`${i}.${column}`) ?? "");
      }
    });
    for (const field of form.querySelectorAll("[data-field]")) {
      if (field.querySelector(".field-message")) markField(field, messages.get(field.dataset.field) ?? "");
    }
  }

  function markField(field, text) {
    const made = field.querySelector("input, select, textarea");
    const message = field.querySelector(".field-message");
    if (message.textContent !== text) message.textContent = text;
    field.classList.toggle("wrong", text !== "");
    if (text === "") {
      made.removeAttribute("aria-invalid");
      return;
    }
    made.setAttribute("aria-invalid", "true");
    const folded = field.closest("details");
    if (folded) folded.open = true;
  }

  /** The small text under a field. */
  function hint(name, text) {
    const place = form.querySelector(`[data-field="${name}"] .field-hint`);
    if (place.textContent !== text) place.textContent = text;
  }

  /** Show or hide a whole field or a part of the form marked data-part. */
  function offer(name, shown) {
    form.querySelector(`[data-field="${name}"], [data-part="${name}"]`).hidden = !shown;
  }

  form.addEventListener("input", changed);
  form.addEventListener("submit", (event) => event.preventDefault());
  addButton?.addEventListener("click", addRow);
  /** What is wrong, for who does not see the marks: of each field its row, name and message. */
  function wrong() {
    const told = [...form.querySelectorAll(".wrong")].map((field) => {
      const row = field.closest(".entry-row")?.querySelector("legend").textContent;
      return `${row ? `${row}, ` : ""}${field.querySelector("label").textContent}: ${field.querySelector(".field-message").textContent}`;
    });
    return told.length > MOST_TOLD ? `${told.slice(0, MOST_TOLD).join(" ")} ${told.length - MOST_TOLD} more fields are marked.` : told.join(" ");
  }

  return { show, mark, hint, offer, wrong };
}
