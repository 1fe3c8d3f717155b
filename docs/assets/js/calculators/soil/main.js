// Soil by date: from when until when the soil holds what a crop wants.

import { mountCalculator } from "../frame.js";
import { preferredUnit } from "../temperature.js";
import { workOut } from "./answer.js";
import { FIELDS, LONG_LOG, SOURCES, monthTexts, readEntry, sameMonths, turned } from "./entry.js";
import { offerFile } from "./file.js";
import { tableButton } from "./tables.js";
import { show } from "./view.js";

const following = []; // what each calculator of the page does with every entry, right or wrong

function settle(entry, data, bound) {
  const source = SOURCES.includes(entry.source) ? entry.source : SOURCES[0];
  bound.offer("months", source === "months");
  bound.offer("log", source === "daily");
  bound.offer("readings", source === "readings");
  const depth = data.crops[entry.crop]?.depth;
  const range = depth ? (depth[0] === depth[1] ? `${depth[0]}` : `${depth[0]}–${depth[1]}`) : null;
  bound.hint("depth", range ? `Empty: the ${range} mm advised for ${data.crops[entry.crop].name}.` : `Empty: ${data.plain_depth} mm. For the season depth hardly matters.`);
  for (const follow of following) follow(entry);
}

function extra(section, state) {
  const field = (name) => section.querySelector(`[data-field="${name}"]`);
  const offer = offerFile(section, state);
  section.querySelector(".print-sheet").after(tableButton(section, state.last));
  following.push((entry) => {
    offer(entry);
    section.classList.toggle("long-link", [entry.log, entry.readings].some((text) => text.length > LONG_LOG));
  });
  // The sheet prints what is typed; a log of hundreds of lines is told in a sentence of the answer instead.
  section.addEventListener("click", (event) => {
    if (!event.target.closest(".print-sheet")) return;
    const long = ["log", "readings"].map(field).filter((box) => !box.hidden && box.querySelector("textarea").value.length > LONG_LOG);
    for (const box of long) box.hidden = true;
    window.setTimeout(() => long.forEach((box) => (box.hidden = false)));
  }, true);
  followPlace(section, state);
}

// The invented place follows the unit and the hemisphere chosen; months of the reader's own are never rewritten.
function followPlace(section, state) {
  const { months } = state.data.place;
  let unit = state.entry().unit;
  const keep = () => {
    unit = state.entry().unit;
  };
  section.querySelector("[name=unit]").addEventListener("change", () => {
    const entry = state.entry();
    for (const known of [months, turned(months)]) {
      if (sameMonths(entry, monthTexts(known, unit))) state.open({ ...entry, ...monthTexts(known, entry.unit) });
    }
    keep();
  });
  section.querySelector("[name=hemisphere]").addEventListener("change", () => {
    const entry = state.entry();
    const [from, to] = entry.hemisphere === "south" ? [months, turned(months)] : [turned(months), months];
    if (entry.source === "months" && sameMonths(entry, monthTexts(from, entry.unit))) state.open({ ...entry, ...monthTexts(to, entry.unit) });
  });
  following.push(() => {
    // A change by the reader is handled above, before the unit is remembered.
    window.setTimeout(keep);
  });
}

mountCalculator({
  name: "soil",
  fields: FIELDS,
  lines: ["log", "readings"],
  example: (crop, data) => {
    const unit = preferredUnit();
    return {
      example: true, crop: data.example_crop, source: "months", unit, depth: "", depthunit: "mm", hold: "5", hemisphere: "auto", cover: "none",
      ...monthTexts(data.place.months, unit), log: "", readings: "",
    };
  },
  read: readEntry,
  workOut,
  show,
  settle,
  extra,
});
