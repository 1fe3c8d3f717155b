// Opening a file of days. It stays on the reader's device.

import { element } from "../element.js";

const LARGEST = 4e6; // bytes; a century of days has about 1 MB
const FIELD = { daily: "log", readings: "readings" };

/** Put the button on the page; returns a function that shows it for the entries that a file fits. `state` is that of frame.js. */
export function offerFile(section, state) {
  const input = element("input", "");
  Object.assign(input, { type: "file", accept: ".csv,.tsv,.txt,text/csv,text/plain", hidden: true });
  const button = element("button", "open-file", "Open a file");
  button.type = "button";
  button.addEventListener("click", () => input.click());
  const told = element("p", "file-told");
  told.setAttribute("role", "status");
  const box = element("div", "test-file", element("p", "", button, input), told);
  section.querySelector(".calculator-form").after(box);
  input.addEventListener("change", async () => {
    const [file] = input.files;
    if (!file) return;
    const { text, problem } = await read(file);
    input.value = ""; // so that the same file, mended, can be opened again
    told.textContent = problem ?? `${file.name} opened; nothing was sent anywhere.`;
    const field = FIELD[state.entry().source];
    if (problem === null && field) state.open({ ...state.entry(), example: false, [field]: text });
  });
  return (entry) => {
    box.hidden = !(entry.source in FIELD);
    if (box.hidden) told.textContent = "";
  };
}

async function read(file) {
  if (file.size > LARGEST) {
    return { text: "", problem: `${file.name} has ${Math.round(file.size / 1e6)} MB; a century of days has about 1. Leave out the columns and years that are not needed.` };
  }
  const text = await file.text();
  if (text.includes("\0")) return { text: "", problem: `${file.name} is not plain text. Save it from the spreadsheet as CSV, and open that.` };
  return { text: text.trim(), problem: null };
}
