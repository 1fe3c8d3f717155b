// Make your poster: what is chosen, the preview, the address, printing.

import { element } from "../calculators/element.js";
import { matches, plain } from "../filters.js";
import { drawPage } from "../sheets/draw.js";
import { posterPages, posterSheet } from "../sheets/posters.js";
import { hangUp, typefaceReady } from "../sheets/hang_up.js";
import { printPages } from "../sheets/print.js";
import { inTasks, lastBegun } from "../steps.js";

const FIELDS = ["kind", "paper", "orientation", "units", "order"];
const START = "poster=1";
const CARRIED = 40; // crops that an address names; more is said as those left out

function* mount(form) {
  const data = JSON.parse(document.getElementById("poster-data").textContent);
  const preview = document.querySelector(".sheet-preview");
  const field = (name) => form.querySelector(`#poster-${name}`);
  const boxes = [...form.querySelectorAll("input[name=crop]")];
  const items = boxes.map((box) => [box.closest("li"), plain(box.closest("label").textContent)]);
  const kinds = new Map(data.crops.map((crop) => [crop.id, crop.kind]));
  const printing = form.querySelector(".poster-print");
  const drawings = lastBegun();
  let sheet = null;

  function chosen() {
    return boxes.filter((box) => box.checked).map((box) => box.value);
  }

  // `show` takes the steps that draw the preview.
  function update(show = drawings.now) {
    const kind = field("kind").value;
    const { orientations, title } = data.posters[kind];
    field("orientation").disabled = orientations.length === 1;
    if (orientations.length === 1) field("orientation").value = orientations[0];
    const sides = data.papers[field("paper").value];
    const crops = chosen();
    const all = crops.length === boxes.length;
    sheet = posterSheet(sides, field("orientation").value);
    const pages = crops.length === 0 ? [] : posterPages(data, kind, sides, field("orientation").value, field("units").value, all ? null : crops, field("order").value);
    preview.hidden = pages.length === 0;
    const without = data.crops.filter((crop) => crops.includes(crop.id) && crop[{ bands: "band", days: "days", "seed-life": "life" }[kind]] === null).length;
    form.querySelector(".poster-said").textContent = crops.length === 0 ? "Choose at least one crop."
      : `${all ? `All ${crops.length}` : crops.length} crop${crops.length === 1 ? "" : "s"}${without > 0 ? `, ${without} of them without a published value: they are named at the foot` : ""}. ${pages.length} page${pages.length === 1 ? "" : "s"}.`;
    offerFile(all);
    printing.disabled = true; // until it is whole
    show(drawing(pages.map((marks, i) => () => drawPage(marks, sheet, data, `${title}, page ${i + 1} of ${pages.length}`))));
  }

  function* drawing(pages) {
    const drawn = pages.map((draw) => draw());
    yield;
    yield* hangUp(preview, drawn);
    printing.disabled = pages.length === 0;
  }

  // The file that a visitor would get for the same choice, where there is one.
  function offerFile(all) {
    const link = form.querySelector(".poster-file");
    link.hidden = !(all && field("units").value === "both" && field("order").value === "name");
    const parts = [field("kind").value, field("paper").value, ...(field("orientation").value === "landscape" ? ["landscape"] : []), "both"];
    link.href = `../../downloads/posters/${parts.join("-")}.pdf`;
  }

  function writeAddress() {
    const crops = chosen();
    const out = boxes.filter((box) => !box.checked).map((box) => box.value);
    const parts = [START, ...FIELDS.map((name) => `${name}=${field(name).value}`)];
    if (out.length > 0) parts.push(crops.length <= CARRIED ? `crops=${crops.join(",")}` : `without=${out.join(",")}`);
    window.history.replaceState(null, "", `#${parts.join("&")}`);
  }

  // A link from somewhere else may hold anything: what is not a choice is left as it is.
  function readAddress() {
    const parts = window.location.hash.slice(1).split("&");
    if (parts[0] !== START) return;
    for (const [name, value] of parts.slice(1).map((part) => part.split("="))) {
      const list = new Set((value ?? "").split(","));
      if (FIELDS.includes(name) && [...field(name).options].some((option) => option.value === value)) field(name).value = value;
      else if (name === "crops") boxes.forEach((box) => { box.checked = list.has(box.value); });
      else if (name === "without") boxes.forEach((box) => { box.checked = !list.has(box.value); });
    }
  }

  form.addEventListener("input", (event) => {
    if (event.target === field("find")) {
      for (const [item, words] of items) item.hidden = !matches(words, field("find").value);
      return;
    }
    update();
    writeAddress();
  });
  form.addEventListener("click", (event) => {
    const wanted = event.target.dataset?.choose;
    if (!wanted) return;
    for (const box of boxes) box.checked = wanted === "all" || kinds.get(box.value) === wanted;
    update();
    writeAddress();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (!preview.hidden) printPages(preview, sheet.width * sheet.scale, sheet.height * sheet.scale);
  });
  window.addEventListener("hashchange", () => { readAddress(); update(); });
  form.hidden = false;
  readAddress();
  yield;
  update((work) => {
    const steps = drawings.soon(work);
    typefaceReady().then(() => inTasks(steps));
  });
}

const form = document.querySelector(".poster-form");
if (form) inTasks(mount(form));
