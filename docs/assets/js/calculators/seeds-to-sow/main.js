// Seeds to sow: how many seeds for so many plants, in one place, in cells or in a row.

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { FIELDS, example, readEntry } from "./entry.js";
import { show } from "./view.js";
import { perGramText } from "./weight.js";

// Only the fields that belong to what was chosen.
function settle(entry, data, bound) {
  const where = ["cells", "row"].includes(entry.where) ? entry.where : "place";
  const packet = entry.known === "packet";
  bound.offer("tested", !packet);
  bound.offer("percent", packet);
  bound.offer("plants", where !== "row");
  for (const name of ["cells", "chance"]) bound.offer(name, where === "cells");
  bound.offer("percell", where === "cells" && entry.chance === "own");
  for (const name of ["rowlength", "spacing"]) bound.offer(name, where === "row");
  // Cells that are simply filled need no certainty of so many plants.
  bound.offer("certainty", where !== "cells" || entry.plants.trim() !== "");
  bound.hint("plants", where === "cells" ? "Leave empty to fill the cells you have." : "");
  bound.hint("cells", where === "cells" ? "Leave empty to see how many the plants need." : "");
  const crop = data.crops[entry.crop];
  bound.hint("samplecount", crop === undefined ? "Or choose a crop for its published number."
    : crop.seeds_per_gram === null ? `No number is recorded for ${crop.name}.` : `${crop.name}: ${perGramText(crop.seeds_per_gram)} a gram unless you count your own.`);
}

mountCalculator({ name: "seeds-to-sow", fields: FIELDS, example, read: readEntry, workOut, show, settle });
