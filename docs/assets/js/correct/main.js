// Correct a value: reads what the address says, compares what is typed with what is printed, and prepares the ways to send it.
// The only request is for the published data of the crop, from this same site. Nothing typed is sent by the page.

import { preferredUnit } from "../calculators/temperature.js";
import { jsonFile } from "../data_file.js";
import { readParameters } from "./parameters.js";
import { valueText, verdict } from "./sentences.js";
import { compare } from "./standing.js";
import { readTyped, unitTyped, UNITS } from "./typed.js";
import { formAddress, lineAddress, mailAddress, message } from "./ways.js";
import { showGiven, showStanding } from "./view.js";

const FIELDS = { should_be: "should-be", printed: "printed", reason: "reason", name: "name" };

// The published data of a crop; null when there is none, or it cannot be had.
async function published(crop) {
  if (crop === "") return null;
  try {
    return (await jsonFile(`../api/v1/crops/${crop}.json`)).crop;
  } catch {
    return null;
  }
}

function hintFor(site, quantity) {
  if (site.choices[quantity]) return `One of: ${site.choices[quantity].map((word) => word.replaceAll("-", " ")).join(", ")}.`;
  const unit = site.units[quantity];
  if (unit === "°C") return "A temperature, such as 10; the data holds half degrees Celsius.";
  if (unit === "mm") return "A depth, or two such as 6–13; the data holds whole millimetres.";
  if (unit === "weeks" && quantity !== "transplant_age_weeks") return "Weeks from the average last frost, such as -8 to -6: negative before it.";
  return unit ? `In ${unit}: a number, or two such as 6–13.` : "In words or numbers, as you would have it shown.";
}

async function mount(page) {
  const site = JSON.parse(document.getElementById("correct-data").textContent);
  // An address may ask for any word: one that every object knows ("constructor") is no quantity.
  for (const words of ["quantities", "units", "choices", "statuses", "sources"]) Object.setPrototypeOf(site[words], null);
  const part = (name) => page.querySelector(`.correct-${name}`);
  const field = (name) => page.querySelector(`#correct-${name}`);
  const { given, odd } = readParameters(window.location.search);
  const unit = site.units[given.quantity] ?? "";
  const units = UNITS[unit] ?? []; // that the reader may choose between
  let crop = null;
  let judged = null;

  part("odd").querySelector("ul").replaceChildren(...odd.map((sentence) => Object.assign(document.createElement("li"), { textContent: sentence })));
  part("odd").hidden = odd.length === 0;
  part("nothing").hidden = Object.values(given).some((text) => text !== "");
  part("static").hidden = true;
  part("form").hidden = false;
  part("text").hidden = false;
  field("hint").textContent = hintFor(site, given.quantity);
  field("unit").append(...units.map(([value, words]) => new Option(words, value)));
  field("unit").hidden = units.length === 0;
  if (unit === "°C") field("unit").value = preferredUnit();

  // The value as typed beside what is printed; "" where it is no value that can be compared.
  function judge() {
    const typed = field("should-be").value.trim();
    const [own, text] = unitTyped(typed, unit); // a unit that is typed goes before the one that is chosen
    const inUnit = units.length === 0 ? "" : own ?? field("unit").value;
    const value = unit || site.choices[given.quantity] ? readTyped(text, inUnit, site.choices[given.quantity]) : null;
    const told = value === null || crop === null ? { outside: false, text: "" } : verdict(value, compare(value, judged?.families ?? []), judged, unit);
    field("verdict").textContent = told.text;
    field("verdict").classList.toggle("outside", told.outside);
    part("why").hidden = !told.outside;
    const inWords = units.find(([name]) => name === inUnit)?.[1] ?? "";
    const said = inWords === "" || text === "" || own ? typed : `${text} ${inWords}`;
    return { told, should_be: value !== null && ["f", "in"].includes(inUnit) ? `${said}, which the data holds as ${valueText(value, unit)}` : said };
  }

  function update() {
    const { told, should_be } = judge();
    const typed = Object.fromEntries(Object.entries(FIELDS).map(([key, id]) => [key, field(id).value.trim()]));
    if (!told.outside) typed.reason = "";
    Object.assign(typed, { should_be, verdict: told.text.split(". ")[0], crop_name: crop?.names.common ?? "" });
    const said = message(site, given, typed);
    field("message").value = `${said.subject}\n\n${said.text}\n`;
    const mail = mailAddress(site, said);
    part("mail").href = mail.href;
    part("mail").textContent = mail.whole ? "Write an e-mail" : "Write an e-mail and paste the text below into it";
    const form = formAddress(site, given, typed);
    if (form !== null) {
      part("open-form").href = form;
      part("filled").hidden = false;
    }
    const line = lineAddress(site, given);
    if (line !== null) {
      part("open-line").href = line;
      part("open-line").textContent = `Open line ${given.line}`;
      part("file-name").textContent = ` of ${given.file}`;
    }
  }

  function show() {
    showGiven(part("given"), site, given, crop);
    if (crop !== null && Object.hasOwn(crop.values, given.quantity)) {
      judged = crop.values[given.quantity];
      showStanding(part("standing"), site, given, judged, judged === null ? null : compare(judged.value === undefined ? judged : { low: judged.value, high: judged.value }, judged.families), unit);
    }
    update();
  }

  part("form").addEventListener("input", update);
  part("form").addEventListener("submit", (event) => event.preventDefault());
  part("copy").addEventListener("click", async () => {
    const area = field("message");
    try {
      await navigator.clipboard.writeText(area.value);
      part("copied").textContent = "Copied.";
    } catch {
      area.focus();
      area.select();
      part("copied").textContent = "This browser does not let the page copy. The text is selected: copy it by hand.";
    }
  });
  show();
  crop = await published(given.crop);
  if (crop !== null) show();
  page.dataset.ready = "yes";
}

const page = document.querySelector("article.correct-page");
if (page) mount(page);
