// All crops, cool and warm season apart, and printing them.

import { element, table } from "../element.js";
import { printSheet } from "../sheet.js";
import { temperatureRange } from "../temperature.js";
import { temperatureText } from "../format.js";
import { publishedText } from "./covers.js";
import { cellText, depthText } from "./words.js";

const GROUPS = [["cool", "Cool-season crops"], ["warm", "Warm-season crops"], [null, "Crops whose season is not published"]];

/** A block with a table for each season, and the names of those of which no temperature is published. */
export function cropTables(crops, values, level) {
  const { unit, series } = values;
  const told = crops.filter(({ minimum, best }) => minimum !== null || best !== null);
  const untold = crops.filter((entry) => !told.includes(entry)).map(({ crop }) => crop.name);
  const tables = GROUPS.map(([season, name]) => {
    const rows = told.filter(({ crop }) => (crop.season ?? null) === season); // they come by name
    return rows.length === 0 ? null : table(name, ["Crop", "Minimum held", "Best range held"], rows.map((row) => [row.crop.name, minimumCell(row, unit, series.full), bestCell(row, unit, series.full)]));
  });
  return element("div", "soil-crops",
    element(`h${level}`, "answer-heading", values.cover === null ? "Every crop" : `Every crop under ${values.cover.cover}`),
    values.cover === null ? null : element("p", "", `Soil taken to be ${publishedText(values.cover, unit)}, all year and for every crop: in summer that can be far from true.`),
    element("p", "", `Soil at ${depthText(values)}, held for ${values.hold} days in a row. Each end is a range of days; “until” joins the range of the start to the range of the end.`),
    ...tables,
    untold.length > 0 ? element("p", "", `No minimum and no best range is published here for: ${untold.join(", ")}.`) : null);
}

function minimumCell({ crop, minimum }, unit, full) {
  return minimum === null ? "no minimum published" : `${temperatureText(crop.minimum, unit)}: ${cellText(minimum, full)}`;
}

function bestCell({ crop, best }, unit, full) {
  if (best !== null) return `${temperatureRange(crop.low, crop.high, unit)}: ${cellText(best, full)}`;
  return crop.best === undefined ? "none published" : `no range published; best named: ${temperatureText(crop.best, unit)}`;
}

/** The button that prints the tables alone, headed by what they rest on. */
export function tableButton(section, last) {
  const button = element("button", "print-table", "Print the table of crops");
  button.type = "button";
  button.addEventListener("click", () => {
    section.querySelector(".tally-sheet")?.remove();
    const copy = section.querySelector(".soil-crops").cloneNode(true);
    section.append(element("div", "tally-sheet soil-sheet", element("p", "sheet-title", "Soil by date"), element("p", "", last().trust), copy));
    printSheet(section, "tally-sheet");
  });
  return button;
}
