// The chart to explore: its script and figure are fetched when the reader asks; everything it does works by keyboard too.

import { jsonFile } from "../data_file.js";
import { tie } from "../tied.js";
import { rememberedUnit } from "../units.js";
import { drawing } from "./figure.js";

const FAILED = "The chart to explore could not be loaded: the site did not send it, or there is no connection. The chart above holds the same numbers. Try again later.";
const toC = (fahrenheit) => (fahrenheit - 32) / 1.8;
const toF = (celsius) => celsius * 1.8 + 32;
const shortened = (value) => Math.round(value * 10) / 10;

function loadScript(address) {
  if (window.Plotly) return Promise.resolve();
  return new Promise((done, failed) => {
    const script = document.createElement("script");
    script.src = address;
    script.addEventListener("load", done);
    script.addEventListener("error", () => { script.remove(); failed(new Error("not loaded")); });
    document.head.append(script);
  });
}

/** Mount the section of a page; `shownRows()` gives the rows that the page shows, in their order. */
export function mountExplore(article, shownRows) {
  const section = article.querySelector(".explore");
  const chart = section.querySelector(".explore-chart");
  const form = section.querySelector(".explore-form");
  const said = section.querySelector(".explore-said");
  const open = section.querySelector(".explore-open");
  const [from, to] = ["from", "to"].map((name) => section.querySelector(`#explore-${name}`));
  const zoomed = section.querySelector(".explore-zoomed");
  const mark = tie([from, to], zoomed, "explore-zoomed");
  const boxes = [...form.querySelectorAll("input[name=crop]")];
  const names = new Map(boxes.map((box) => [box.value, box.closest("label").textContent.trim()]));
  let figure = null;
  let range = null; // [from, to] in °C or years, null for the whole scale

  const unit = () => form.querySelector("input[name=explore-unit]:checked")?.value ?? "c";
  const inF = () => figure.layout.meta.scale === "celsius" && unit() === "f";
  const colour = (name) => window.getComputedStyle(chart).getPropertyValue(name).trim();

  // In the order of the rows above; crops that those do not show come after, by name.
  function chosen() {
    const order = shownRows().map((row) => row.dataset.id);
    const place = (id) => (order.includes(id) ? order.indexOf(id) : order.length);
    return boxes.filter((box) => box.checked).map((box) => box.value).sort((a, b) => place(a) - place(b));
  }

  function choose(wanted) {
    const shown = new Set(shownRows().map((row) => row.dataset.id));
    for (const box of boxes) box.checked = wanted === "all" || (wanted === "shown" && shown.has(box.value));
  }

  function showRange() {
    for (const [field, value] of [[from, (range ?? figure.layout.meta.ends)[0]], [to, (range ?? figure.layout.meta.ends)[1]]]) {
      field.value = shortened(inF() ? toF(value) : value);
    }
  }

  async function draw() {
    const crops = chosen();
    const still = window.matchMedia("(pointer: coarse)").matches; // a finger scrolls the page; the fields zoom
    const { data, layout } = drawing(figure, { crops, names, unit: unit(), range, colour, font: window.getComputedStyle(chart).fontFamily, width: chart.clientWidth, still });
    said.textContent = crops.length === 0 ? "No crop is chosen: choose one or more below." : `The chart is there, with ${crops.length} of ${boxes.length} crops.`;
    for (const button of form.querySelectorAll("[data-save]")) button.disabled = crops.length === 0;
    await window.Plotly.react(chart, data, layout, { displayModeBar: false, displaylogo: false, responsive: true, scrollZoom: false, doubleClick: false });
  }

  function zoom() {
    const typed = [from, to].map((field) => (field.value === "" ? NaN : Number(field.value)));
    if (!typed.every(Number.isFinite) || typed[0] >= typed[1]) {
      zoomed.textContent = "Expected are two numbers, the smaller first.";
      mark(Number.isFinite(typed[0]) ? to : from);
      return;
    }
    zoomed.textContent = "";
    mark(null);
    range = inF() ? typed.map(toC) : typed;
    draw();
  }

  function whole() {
    range = null;
    zoomed.textContent = "";
    mark(null);
    showRange();
    draw();
  }

  // Zooming with the mouse: the fields follow.
  function followed(change) {
    const ends = change["xaxis.range"] ?? ("xaxis.range[0]" in change ? [change["xaxis.range[0]"], change["xaxis.range[1]"]] : null);
    if (ends === null) return;
    range = inF() ? ends.map(toC) : [...ends];
    showRange();
  }

  async function save(format) {
    const { clientWidth: width, clientHeight: height } = chart;
    await window.Plotly.downloadImage(chart, { format, filename: `${figure.layout.meta.name}-crops`, width, height, scale: format === "png" ? 2 : 1 });
  }

  function mountChart() {
    chart.on("plotly_relayout", followed);
    chart.on("plotly_doubleclick", whole);
    form.addEventListener("change", (event) => {
      if (event.target.name === "crop") draw();
      else if (event.target.name === "explore-unit") { showRange(); draw(); }
      else zoom();
    });
    form.addEventListener("click", (event) => {
      const { choose: wanted, save: format } = event.target.dataset;
      if (wanted) { choose(wanted); draw(); }
      if (format) save(format);
    });
    form.querySelector(".explore-whole").addEventListener("click", whole);
    form.addEventListener("submit", (event) => event.preventDefault());
    new MutationObserver(() => draw()).observe(document.body, { attributes: true, attributeFilter: ["data-md-color-scheme"] });
  }

  open.addEventListener("click", async () => {
    if (open.getAttribute("aria-disabled") === "true") return;
    open.setAttribute("aria-disabled", "true"); // not disabled: that would lose the keyboard's place
    said.textContent = "Loading …";
    const room = section.querySelector(".explore-room");
    try {
      [figure] = await Promise.all([jsonFile(section.dataset.figure), loadScript(section.dataset.script)]);
      const begin = figure.layout.meta.begin && new Set(figure.layout.meta.begin);
      for (const box of boxes) box.checked = !begin || begin.has(box.value);
      const radio = form.querySelector(`input[name=explore-unit][value=${rememberedUnit() === "f" ? "f" : "c"}]`);
      if (radio) radio.checked = true;
      room.hidden = false;
      showRange();
      await draw();
      mountChart();
      section.querySelector(".explore-offer").hidden = true;
      section.querySelector("#explore").focus();
    } catch {
      room.hidden = true;
      said.textContent = FAILED;
      open.removeAttribute("aria-disabled");
    }
  });
  section.hidden = false;
}
