// Old seed and storage: two stores side by side.

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { FIELDS, chosenSet, example, readEntry } from "./entry.js";
import { show } from "./view.js";

// The choices are the same for every crop; their words are those of its sets.
function nameSets(sets) {
  for (const option of document.getElementById("calculator-set")?.options ?? []) {
    const set = sets[Number(option.value) - 1];
    option.textContent = set === undefined ? `Set ${option.value}: none for this crop` : `${option.value}: ${set.name}${set.doubt ? " (doubtful)" : set.single ? " (one temperature)" : ""}`;
    option.disabled = set === undefined;
  }
}

function settle(entry, data, bound) {
  const crop = data.crops[entry.crop];
  const sets = crop?.sets ?? [];
  nameSets(sets);
  bound.offer("set", sets.length > 1);
  bound.offer("tested", sets.length > 0);
  bound.hint("set", sets.length > 1 ? `${sets.length} sets are published; percentages and years are by this one. ${setHint(sets[chosenSet(entry, sets)])}` : "");
  bound.hint("oil", crop === undefined ? "To turn humidity into moisture. Choose a crop, or type it."
    : crop.oil === null ? `None is recorded for ${crop.name}. To turn humidity into moisture, type one.`
      : `${crop.name}: ${crop.oil.percent} % unless you type another (${crop.oil.how}).`);
  for (const i of [1, 2]) {
    const [jar, humid] = [entry[`kind${i}`] === "jar", entry[`know${i}`] !== "moisture"];
    bound.offer(`humidity${i}`, humid);
    bound.offer(`room${i}`, humid && jar);
    bound.offer(`moisture${i}`, !humid);
    bound.hint(`humidity${i}`, jar ? "Of the air in which the seed lay until it was closed in, some weeks at least." : "Of the air in the store, on average.");
    bound.hint(`temp${i}`, jar ? "Where the jar stands, on average." : "On average over the year or the season.");
  }
}

function setHint(set) {
  if (set.doubt) return `Doubtful: ${set.doubt}`;
  return set.single ? "Tested at one storage temperature; its temperature constants are universal ones." : "";
}

mountCalculator({ name: "storage", fields: FIELDS, example, read: readEntry, workOut, show, settle });
