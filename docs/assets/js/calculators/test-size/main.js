// How many seeds to test: for a range of a wanted width, or to tell a good lot from a bad one.

import { mountCalculator } from "../frame.js";
import { element } from "../element.js";
import { printSheet } from "../sheet.js";
import { workOut } from "./answer.js";
import { FIELDS, example, readEntry } from "./entry.js";
import { tallySheet } from "./tally.js";
import { show } from "./view.js";

function settle(entry, data, bound) {
  bound.offer("width-fields", entry.goal !== "lots");
  bound.offer("lots-fields", entry.goal === "lots");
}

// The tally sheet belongs to the plan in tens, so its button shows with that goal alone.
function extra(section, state) {
  const button = element("button", "print-tally", "Print tally sheet");
  button.type = "button";
  section.querySelector(".print-sheet").after(button);
  button.addEventListener("click", () => {
    section.querySelector(".tally-sheet")?.remove();
    section.append(tallySheet(state.last().answer));
    printSheet(section, "tally-sheet");
  });
  return (answer) => { button.hidden = answer.goal !== "lots"; };
}

mountCalculator({ name: "test-size", fields: FIELDS, example, read: readEntry, workOut, show, settle, extra });
