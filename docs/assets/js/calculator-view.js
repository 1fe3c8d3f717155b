// The answer on the page: sentence, numbers, picture, and how it is worked out.

import { replicatesText, sowingText, timingText, warmthText } from "./calculator-checks.js";
import { chanceText, percentOfCount, percentRange } from "./calculator-format.js";
import { method } from "./calculator-method.js";
import { picture } from "./calculator-picture.js";
import {
  RETEST, canSay, cannotSay, countText, headline, lines, others, packetLine, trust,
} from "./calculator-words.js";

// Figures like "80 % (49–94 %)" stay on one line; the text itself keeps plain spaces for copying.
const FIGURE = /(\d[\d.,]*(?:–\d[\d.,]*)? (?:%|°C|°F)(?: \(\d[\d.]*–\d[\d.]* %\))?)/;

/** Element with class and children; text children have their figures kept together. */
export function element(name, className, ...children) {
  const made = document.createElement(name);
  if (className) made.className = className;
  for (const child of children) {
    if (typeof child === "string") made.append(...keepFigures(child));
    else if (child) made.append(child);
  }
  return made;
}

function keepFigures(text) {
  return text.split(FIGURE).filter((part) => part !== "").map((part) => {
    if (!FIGURE.test(part)) return part;
    const figure = document.createElement("span");
    figure.className = "figure";
    figure.textContent = part;
    return figure;
  });
}

function list(sentences) {
  return element("ul", "", ...sentences.map((sentence) => element("li", "", sentence)));
}

// A check with its verdict in a word as well as in colour.
function verdict(told, good, bad) {
  if (told === null) return null;
  const word = { true: good, false: bad, null: "" }[told.good];
  const kind = { true: "good", false: "caution", null: "" }[told.good];
  return element("p", `verdict ${kind}`.trim(),
    word ? element("strong", "", `${word}. `) : null, told.text);
}

function row(name, value) {
  const head = element("th", "", name);
  head.scope = "row";
  return element("tr", "", head, element("td", "", value));
}

function numbers(answer, data) {
  const { k, n, values, minimum, lending, sowing } = answer;
  const confidence = `${Math.round(values.confidence * 100)} %`;
  const rows = [
    row("Counted", `${countText(k, n)}, ${percentOfCount(k, n)}`),
    row(`Range, ${confidence} confidence (Wilson)`, percentRange(answer.wilson, n)),
    row(`Guaranteed range, at least ${confidence} (Clopper–Pearson)`, percentRange(answer.guaranteed, n)),
  ];
  if (minimum) rows.push(row(`Chance of the official minimum, ${minimum.percent} %`, chanceText(minimum.chance)));
  if (lending) rows.push(row(`Chance of the lending line, ${lending.percent} %`, chanceText(lending.chance)));
  if (sowing) rows.push(row(`Seeds to sow for ${sowing.plants} ${sowing.plants === 1 ? "plant" : "plants"}`, sowing.seeds === null ? "can’t be said" : String(sowing.seeds)));
  return element("table", "answer-numbers", element("tbody", "", ...rows));
}

/** Show how an answer is worked out; a reader who opened it keeps it open while typing. */
export function showWorkings(place, answer) {
  const told = method(answer).flatMap(([name, text]) => [
    element("dt", "", name), element("dd", "", text)]);
  const details = element("details", "workings", element("summary", "", "How this is worked out"),
    element("dl", "", ...told));
  details.open = place.querySelector(".workings")?.open ?? false;
  place.replaceChildren(details);
}

/**
 * Show an answer in `output`. `date` is the date in words, `level` the heading level.
 * Returns the packet line.
 */
export function showAnswer(output, answer, data, date, level) {
  const heading = (text) => element(`h${level}`, "answer-heading", text);
  const line = packetLine(answer, date);
  const sowing = sowingText(answer);
  const slot = element("div", "picture-slot");
  const parts = [
    ["What this count can say", list(canSay(answer))],
    ["What it can’t say", list([...cannotSay(answer), RETEST])],
    ["Is the lot good enough?", list(lines(answer, data))],
    ["Do the replicates agree?", verdict(replicatesText(answer), "Yes", "No")],
    ...(sowing === null ? [] : [["How many to sow", element("p", "sowing", sowing)]]),
  ].map(([name, body]) => element("div", "answer-part", heading(name), body));
  // Only the first sentences are read out by screen readers at each change, not the whole page.
  output.querySelector(".calculator-spoken").replaceChildren(
    element("p", "headline", headline(answer)),
    element("p", "trust", trust(answer)),
  );
  output.querySelector(".calculator-rest").replaceChildren(
    verdict(timingText(answer), "Time", "Wait") ?? "",
    verdict(warmthText(answer), "Warmth", "Warmth") ?? "",
    ...others(answer).map((text) => element("p", "", text)),
    numbers(answer, data),
    slot,
    element("div", "answer-parts", ...parts),
    heading("For the packet"),
    element("p", "packet-line", line),
  );
  if (answer.values.example) {
    output.querySelector(".packet-line").after(
      element("p", "field-hint", "These are the example figures: count your own before you write on a packet."));
  }
  drawPicture(output, answer);
  return line;
}

/** Draw the picture for the present width; to be called again when the width changes. */
export function drawPicture(output, answer) {
  const slot = output.querySelector(".picture-slot");
  const width = Math.min(Math.max(slot.clientWidth, 280), 760);
  if (slot.dataset.width === String(width)) return;
  slot.dataset.width = width;
  slot.replaceChildren(picture(answer, width));
}
