// Order and filter of the rows, the count in words, and the choice kept in the address.

import { matches, plain } from "../filters.js";
import { keepState, readState } from "./state.js";

/** A number kept in a row's data, null when there is none. */
export const numberOf = (text) => (text === undefined || text === "" ? null : Number(text));

const byName = (a, b) => a.dataset.name.localeCompare(b.dataset.name, "en");

/** Smallest (or largest) first; rows without the number last, then by name. */
function byNumber(read, sign) {
  return (a, b) => {
    const [x, y] = [read(a), read(b)];
    if (x === null || y === null) return (x === null) - (y === null) || byName(a, b);
    return sign * (x - y) || byName(a, b);
  };
}

/**
 * Mount the form over all lists of the page. `orders` gives for a value of "Order" {read(row) → number or null, sign, without}; "name" needs none.
 * `fits(row)` decides for the checkbox "only"; `line` is {state() → object, restore(state)} of the line, kept in the same address.
 * Returns {update, shown}: update() after the line moved, shown() the rows that are shown, in their order.
 */
export function mountRows(article, { orders, fits, line }) {
  const form = article.querySelector(".compare-form");
  const count = article.querySelector(".compare-count");
  const fields = Object.fromEntries([...form.querySelectorAll("[data-field]")].map((field) => [field.dataset.field, field]));
  const lists = [...article.querySelectorAll(".compare-list")];
  const rows = lists.flatMap((list) => [...list.children]);
  rows.forEach((row) => { row.dataset.plain = plain(row.dataset.words); });
  let sorted = "name";

  function sort() {
    const order = fields.sort.value;
    if (order === sorted) return;
    sorted = order;
    const compare = order === "name" ? byName : byNumber(orders[order].read, orders[order].sign ?? 1);
    for (const list of lists) list.append(...[...list.children].sort(compare)); // the nodes move, so that reading follows
  }

  function words(shown) {
    if (shown.length === 0) return "No crop fits. Try part of a name, or fewer conditions.";
    const order = orders[fields.sort.value];
    const last = order ? shown.filter((row) => order.read(row) === null).length : 0;
    return `${shown.length} of ${rows.length} crops.${last > 0 ? ` ${last} ${order.without} ${last === 1 ? "comes" : "come"} last, by name.` : ""}`;
  }

  function update() {
    sort();
    for (const row of rows) {
      row.hidden = !(matches(row.dataset.plain, fields.name.value) && (!fields.kind.value || row.dataset.kind === fields.kind.value)
        && (!fields.season.value || row.dataset.season === fields.season.value) && (!fields.only?.checked || fits(row)));
    }
    for (const part of article.querySelectorAll(".compare-part")) part.hidden = !part.querySelector(".compare-list > :not([hidden])");
    const said = words(api.shown());
    if (count.textContent !== said) count.textContent = said;
  }

  function state() {
    return { name: fields.name.value, kind: fields.kind.value, season: fields.season.value, sort: fields.sort.value === "name" ? "" : fields.sort.value, only: fields.only?.checked ? "1" : "", ...line.state() };
  }

  // A link from elsewhere may hold anything: what is no choice is left at its start.
  function restore() {
    const found = readState(window.location.hash);
    if (found === null) return;
    for (const [name, field] of Object.entries(fields)) {
      const value = found[name] ?? "";
      if (field.type === "checkbox") field.checked = value === "1";
      else if (field.tagName !== "SELECT") field.value = value;
      else field.value = [...field.options].some((option) => option.value === value) ? value : field.options[0].value;
    }
    line.restore(found);
  }

  const api = {
    update: () => { update(); keepState(state()); },
    shown: () => lists.flatMap((list) => [...list.children]).filter((row) => !row.hidden),
  };
  form.hidden = false;
  form.addEventListener("input", api.update);
  form.addEventListener("submit", (event) => event.preventDefault());
  window.addEventListener("hashchange", () => { restore(); update(); });
  window.addEventListener("pageshow", update); // going back brings the typed words with it
  restore();
  update();
  return api;
}
