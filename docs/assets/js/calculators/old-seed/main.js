// Age and test together: what to expect of a lot, and when to test it again.

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { FIELDS, example, readEntry } from "./entry.js";
import { show } from "./view.js";

function settle(entry, data, bound) {
  const crop = data.crops[entry.crop];
  const years = crop?.seed_life_years ?? null;
  bound.hint("life", crop === undefined ? "Choose a crop, or type it."
    : years === null ? `None is recorded for ${crop.name}; type one.` : `${crop.name}: ${years} ${years === 1 ? "year" : "years"} unless you type another.`);
}

mountCalculator({ name: "old-seed", fields: FIELDS, example, read: readEntry, workOut, show, settle });
