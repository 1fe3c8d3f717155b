// Germination-rate calculator: what one count of seedlings says about the lot.

import { temperatureHint } from "./checks.js";
import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { COUNTS, MOST_REPLICATES, SINGLE_FIELDS, emptyReplicate, exampleEntry, readEntry } from "./entry.js";
import { todayIso } from "../format.js";
import { show } from "./view.js";

function settle(entry, data, bound) {
  const crop = data.crops[entry.crop];
  const [first, final] = [crop?.first_count_days, crop?.final_count_days];
  bound.hint("day", final == null ? "From setting the seed to this count."
    : `Official counts: ${first == null ? "" : `day ${first} and `}day ${final}.`);
  bound.hint("temperature", temperatureHint(crop, entry.unit));
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
});
