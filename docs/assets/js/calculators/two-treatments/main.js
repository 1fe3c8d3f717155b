// Two treatments side by side: what the difference between them may be.

import { mountCalculator } from "../frame.js";
import { readEntry } from "./entry.js";
import { show } from "./view.js";
import { workOut } from "./answer.js";
import { FIELDS } from "./entry.js";

mountCalculator({
  name: "two-treatments",
  fields: FIELDS,
  example: () => ({ example: true, name1: "Soaked", seeds1: "10", normal1: "9", name2: "Not soaked", seeds2: "10", normal2: "6", difference: "20", confidence: "95" }),
  read: readEntry,
  workOut,
  show,
});
