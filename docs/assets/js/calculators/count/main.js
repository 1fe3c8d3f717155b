// Germination-rate calculator: what one count of seedlings says about the lot.

import { temperatureHint } from "./checks.js";
import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { COUNTS, MOST_REPLICATES, SINGLE_FIELDS, emptyReplicate, exampleEntry, readEntry } from "./entry.js";
import { todayIso } from "../format.js";
import { show } from "./view.js";
import { element } from "../element.js";

function settle(entry, data, bound) {
  const crop = data.crops[entry.crop];
  const [first, final] = [crop?.first_count_days, crop?.final_count_days];
  bound.hint("day", final == null ? "From setting the seed to this count."
    : `Official counts: ${first == null ? "" : `day ${first} and `}day ${final}.`);
  bound.hint("temperature", temperatureHint(crop, entry.unit));
}

// A link to the page of labels, with this count as a lot's test; a label names a crop, so there is none without.
function extra(section, state) {
  const link = element("a", "label-link", "Label for the packet");
  section.querySelector(".calculator-actions .print-sheet").after(link);
  return () => {
    const { crop, rows, date } = state.entry();
    link.hidden = crop === "";
    const tests = ["lot,crop,tested,seeds,normal", ...rows.map((row) => ["my lot", crop, date || todayIso(), row.seeds, row.normal].join(","))].join("\n");
    link.href = `${new URL("../../../../print/labels/", import.meta.url)}#labels=1&tests=${encodeURIComponent(tests)}`;
  };
}

mountCalculator({
  name: "count",
  fields: SINGLE_FIELDS,
  columns: COUNTS,
  mostRows: MOST_REPLICATES,
  nextRow: (rows) => emptyReplicate(rows.at(-1).seeds),
  example: (crop) => exampleEntry(todayIso(), crop),
  read: readEntry,
  workOut,
  show,
  settle,
  extra,
});
