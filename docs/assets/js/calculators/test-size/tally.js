// The tally sheet of a test in tens: printed, filled in by hand at the table.

import { element } from "../element.js";
import { planRows } from "./view.js";

/** An element that is shown in print alone. */
export function tallySheet(answer) {
  const { good, bad } = answer.values;
  const percent = (fraction) => `${Math.round(fraction * 1000) / 10} %`;
  const blank = (label) => element("p", "tally-blank", element("span", "", label), element("span", "tally-line"));
  const head = ["Seeds so far", "Dead in this ten", "Dead so far", "Pass if dead so far", "Flag if dead so far", "Otherwise", "Date, initials"].map((text) => {
    const cell = element("th", "", text);
    cell.scope = "col";
    return cell;
  });
  const rows = planRows(answer).map(([seeds, pass, flag, otherwise]) => element("tr", "",
    ...[seeds, "", "", pass, flag, otherwise, ""].map((text) => element("td", "", text))));
  return element("div", "tally-sheet",
    element("p", "sheet-title", "Germination test in tens"),
    element("p", "", `To tell a lot at ${percent(good)} from one at ${percent(bad)}. Take each ten at random from the mixed lot, lay them on damp paper, keep them warm and moist for the crop’s full time, then count. Dead is every seed that gave no normal seedling. Add up, look along the row, and stop as soon as it says pass or flag.`),
    element("div", "tally-blanks", ...["Crop and variety", "Lot", "Harvested", "Started", "Temperature", "Final count on day"].map(blank)),
    element("table", "tally-table", element("caption", "", "Tens to lay out"), element("thead", "", element("tr", "", ...head)), element("tbody", "", ...rows)),
    element("div", "tally-blanks", ...["Result: came up", "of seeds", "Pass, flag or in between"].map(blank)),
    element("p", "sheet-link", window.location.href.split("#")[0]));
}
