// Replicates and repeated tests: average them, or test again?

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { COLUMNS, FIELDS, MOST_COUNTS, readEntry } from "./entry.js";
import { show } from "./view.js";

mountCalculator({
  name: "repeated-tests",
  fields: FIELDS,
  columns: COLUMNS,
  leastRows: 2,
  mostRows: MOST_COUNTS,
  nextRow: (rows) => ({ seeds: rows.at(-1).seeds, normal: "" }),
  example: () => ({ example: true, kind: "replicates", confidence: "95", rows: [{ seeds: "25", normal: "21" }, { seeds: "25", normal: "17" }] }),
  read: readEntry,
  workOut,
  show,
});
