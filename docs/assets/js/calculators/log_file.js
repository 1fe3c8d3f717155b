// Opening a log from a file into a field of many lines. The file stays on the reader's device.

import { element } from "./element.js";

const MOST_BYTES = 5e6;

/** Put an "Open a file" button under the field `name`; what the file holds is shown in the field as if typed. */
export function offerLogFile(section, state, name) {
  const field = section.querySelector(`[data-field="${name}"]`);
  const input = element("input", "");
  Object.assign(input, { type: "file", accept: ".csv,.tsv,.txt,text/csv,text/plain", hidden: true });
  const button = element("button", "open-file", "Open a log from a file");
  button.type = "button";
  const told = element("span", "field-hint");
  told.setAttribute("role", "status");
  button.addEventListener("click", () => input.click());
  input.addEventListener("change", async () => {
    const [file] = input.files;
    if (!file) return;
    input.value = ""; // so that the same file, mended, can be opened again
    if (file.size > MOST_BYTES) {
      told.textContent = `${file.name} is too large for a log of days. Choose another file.`;
      return;
    }
    state.open({ ...state.entry(), example: false, [name]: (await file.text()).trim() });
    told.textContent = `Read from ${file.name}; nothing was sent anywhere.`;
  });
  field.querySelector(".field-row").after(element("p", "row-buttons", button, told, input));
}
