// Sowing calendar: windows of days for every crop, counted from the average last frost.

import { stampNow } from "../../icalendar.js";
import { element } from "../element.js";
import { mountCalculator } from "../frame.js";
import { saveText } from "../sheet.js";
import { workOut } from "./answer.js";
import { COLUMNS, EMPTY_ROW, FIELDS, MOST_ROWS, example, exampleRows, isInvented, readEntry } from "./entry.js";
import { calendarFile, csvFile } from "./events.js";
import { show } from "./view.js";

function settle(entry, data, bound) {
  const day = (name) => `${entry[`${name}month`].padStart(2, "0")}-${entry[`${name}day`].trim().padStart(2, "0")}`;
  const invented = isInvented(entry.place.trim(), day("last"), day("first"), data.place);
  bound.hint("place", invented ? "An invented example: type your own place and frost dates." : "For the print and the calendar file.");
}

function fileName({ values }, ending) {
  const plain = values.place.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 40);
  return `sowing-calendar-${plain ? `${plain}-` : ""}${values.year}.${ending}`;
}

function extra(section, state) {
  const answer = () => state.last().answer;
  const button = (className, text, act) => {
    const made = element("button", className, text);
    made.type = "button";
    made.addEventListener("click", act);
    return made;
  };
  section.querySelector(".print-sheet").after(
    button("save-calendar", "Save calendar file", () => saveText(fileName(answer(), "ics"), calendarFile(answer(), stampNow()), "text/calendar;charset=utf-8")),
    button("save-table", "Save table (CSV)", () => saveText(fileName(answer(), "csv"), csvFile(answer()), "text/csv;charset=utf-8")),
  );
  const rows = (found) => state.open({ ...state.entry(), rows: found, example: false });
  section.querySelector(".six-crops").addEventListener("click", () => rows(exampleRows(state.data)));
  section.querySelector(".one-crop").addEventListener("click", () => {
    rows([{ ...EMPTY_ROW }]);
    section.querySelector(".entry-row select").focus();
  });
  section.addEventListener("click", (event) => {
    const other = event.target.closest(".other-year");
    if (other === null) return;
    state.open({ ...state.entry(), year: other.dataset.year });
    section.querySelector("[name=year]").focus(); // the button is gone with the answer it stood in
  });
}

mountCalculator({
  name: "sowing-times",
  fields: FIELDS,
  columns: COLUMNS,
  mostRows: MOST_ROWS,
  nextRow: () => ({ ...EMPTY_ROW }),
  example,
  read: readEntry,
  workOut,
  show,
  settle,
  extra,
});
