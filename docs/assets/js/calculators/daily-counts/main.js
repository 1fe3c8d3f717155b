// Follow a test day by day: when the seedlings came up, how fast and how evenly.

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { COLUMNS, EMPTY_ROW, FIELDS, KIND_HINTS, MOST_ROWS, readEntry, totalled } from "./entry.js";
import { offerFiles } from "./open-save.js";
import { show } from "./view.js";

function settle(entry, data, bound) {
  bound.hint("counts", KIND_HINTS[entry.counts] ?? KIND_HINTS.new);
}

function extra(section, state) {
  offerFiles(section, state);
  // The example follows the choice; counts of the reader's own are never rewritten.
  section.querySelector("[name=counts]").addEventListener("change", (event) => {
    const entry = state.entry();
    if (!entry.example) return;
    const { rows } = state.data.example;
    state.open({ ...entry, rows: event.target.value === "total" ? totalled(rows) : rows });
  });
}

mountCalculator({
  name: "daily-counts",
  fields: FIELDS,
  columns: COLUMNS,
  mostRows: MOST_ROWS,
  leastRows: MOST_ROWS, // a row is taken out by emptying it, so no row needs a button of its own
  nextRow: () => ({ ...EMPTY_ROW }),
  example: (crop, data) => ({ example: true, name: "", date: "", confidence: "95", ...data.example }),
  read: readEntry,
  workOut,
  show,
  settle,
  extra,
});
