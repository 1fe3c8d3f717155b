// Warm spots: which crops suit which place of the house or garden.

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { COLUMNS, FIELDS, MOST_PLACES, example, nextRow, readEntry } from "./entry.js";
import { show } from "./view.js";

mountCalculator({
  name: "warm-spots", fields: FIELDS, columns: COLUMNS, mostRows: MOST_PLACES, leastRows: 1, nextRow, example, read: readEntry, workOut, show,
});
