// Saving a test as a file and opening one. The files stay on the reader's device.

import { csvCell } from "../../csv.js";
import { element } from "../element.js";
import { grouped } from "../fields.js";
import { saveText } from "../sheet.js";
import { MOST_ROWS } from "./entry.js";
import { readCourses } from "./file.js";

const MOST_TOLD = 12; // problems shown of one file

/** A test file of one test: columns test, seeds, day, new. */
export function fileText({ n, name, days, fresh }) {
  const rows = days.map((day, i) => [csvCell(name), n, day, fresh[i]].join(","));
  return `${["test,seeds,day,new", ...rows].join("\n")}\n`;
}

/** "Row 3, early" as "row-3-early-counts.csv" */
export function fileName(name) {
  const plain = name.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 40);
  return `${plain || "test"}-counts.csv`;
}

/** What the form shows of a test from a file; the rest of the entry stays as it is. */
export function entryOf(course, entry) {
  return {
    ...entry, example: false, seeds: String(course.seeds), counts: "new", name: course.name, date: "",
    rows: course.days.map((day, i) => ({ day: String(day), count: String(course.fresh[i]) })),
  };
}

/** Put the buttons on the page; `state` is that of frame.js. */
export function offerFiles(section, state) {
  const save = button("save-file", "Save as test file", () => {
    const { values } = state.last().answer;
    saveText(fileName(values.name), fileText(values), "text/csv;charset=utf-8");
  });
  section.querySelector(".print-sheet").after(save);

  const input = element("input", "");
  Object.assign(input, { type: "file", accept: ".csv,.tsv,.txt,text/csv", hidden: true });
  const told = element("div", "file-told");
  told.setAttribute("role", "status");
  const choice = element("div", "file-choice");
  const form = section.querySelector(".calculator-form");
  form.after(element("div", "test-file", element("p", "", button("open-file", "Open a test file", () => input.click()), input), told, choice));

  const show = (course) => state.open(entryOf(course, state.entry()));
  input.addEventListener("change", async () => {
    const [file] = input.files;
    if (!file) return;
    choice.replaceChildren();
    told.replaceChildren(element("p", "", "Reading …"));
    const { fitting, problems } = await readFile(file);
    input.value = ""; // so that the same file, mended, can be opened again
    told.replaceChildren(...tell(file.name, fitting, problems));
    if (fitting.length > 1) choice.replaceChildren(chooser(fitting, show));
    if (fitting.length > 0) show(fitting[0]);
  });
}

function button(name, text, act) {
  const made = element("button", name, text);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}

// {fitting: tests that the form can take, problems: texts}
async function readFile(file) {
  try {
    const { courses, problems } = await readCourses(file);
    const long = courses.filter(({ days }) => days.length > MOST_ROWS);
    return {
      fitting: courses.filter(({ days }) => days.length <= MOST_ROWS),
      problems: [
        ...problems.map(({ line, rule, message, hint }) => `Line ${line}${["file", "row"].includes(rule) ? "" : `, column ${rule}`}: ${message} ${hint}`),
        ...long.map(({ name, days }) => `${name || "The test"} has ${days.length} counts; this page takes ${MOST_ROWS}. The command time-course takes any number.`),
      ],
    };
  } catch {
    return { fitting: [], problems: ["The file could not be read. Open the page anew and try again."] };
  }
}

function tell(name, fitting, problems) {
  const count = fitting.length === 1 ? "One test" : `${grouped(fitting.length)} tests`;
  const start = fitting.length === 0 ? `No test could be read from ${name}.` : `${count} read from ${name}; nothing was sent anywhere.`;
  const shown = problems.slice(0, MOST_TOLD);
  const rest = problems.length - shown.length;
  return [
    element("p", "", start),
    problems.length === 0 ? null : element("ul", "file-problems", ...shown.map((text) => element("li", "", text)),
      rest > 0 ? element("li", "", `And ${grouped(rest)} more.`) : null),
  ].filter(Boolean);
}

// Which of several tests the form shows.
function chooser(courses, show) {
  const select = element("select", "");
  select.id = "calculator-test-of-file";
  courses.forEach(({ name }, i) => select.append(new Option(name || "Test without a name", i)));
  select.addEventListener("change", () => show(courses[Number(select.value)]));
  const label = element("label", "", "Test of this file");
  label.htmlFor = select.id;
  return element("div", "field", label, element("div", "field-row", select));
}
