// Soak and treatment times: amounts, and a list with clock times.

import { mountCalculator } from "../frame.js";
import { workOut } from "./answer.js";
import { FIELDS, chosen, example, readEntry } from "./entry.js";
import { exactText } from "./one_unit.js";
import { show } from "./view.js";

// Only the fields that the treatment uses, and only the ways that fit the crop.
function settle(entry, data, bound) {
  const { id, treatment, ways, way, no } = chosen(entry, data);
  const amounts = no === null ? treatment.amounts : {};
  offerWays(ways, way, entry.unit, data);
  bound.offer("way", ways.length > 1);
  bound.offer("weeks", no === null && treatment.ownWeeks);
  bound.offer("seeds", Boolean(amounts.water));
  bound.offer("bottle", Boolean(amounts.bottle));
  const wanted = entry.give === "wanted";
  for (const name of ["spoons", "cups"]) bound.offer(name, Boolean(amounts.bottle) && !wanted);
  bound.offer("strength", Boolean(amounts.bottle) && wanted);
  bound.offer("volume", Boolean(amounts.salt) || (Boolean(amounts.bottle) && wanted));
  bound.hint("treatment", entry.treatment === "" && treatment !== null ? `For this: ${treatment.name.toLowerCase()}.`
    : id === null ? "Nothing is needed for this crop." : "");
}

function offerWays(ways, way, unit, data) {
  const select = document.querySelector("#calculator-way");
  const name = (one) => (one.bath === null ? one.way.name
    : `${data.sources[one.bath.source]}: ${one.bath.bath.minutes} minutes at ${exactText(one.bath.bath, unit)}`);
  const wanted = ways.map((one) => [one.id, name(one)]);
  const shown = [...select.options].map((option) => [option.value, option.textContent]);
  if (JSON.stringify(wanted) !== JSON.stringify(shown)) {
    select.replaceChildren(...wanted.map(([value, text]) => new Option(text, value)));
  }
  select.value = way?.id ?? "";
}

mountCalculator({ name: "treatment-times", fields: FIELDS, example, read: readEntry, workOut, show, settle });
