// Days to emergence at the reader's temperature.

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { FIELDS, example, readEntry } from "./entry.js";
import { show } from "./view.js";

mountCalculator({ name: "emergence", fields: FIELDS, example, read: readEntry, workOut, show });
