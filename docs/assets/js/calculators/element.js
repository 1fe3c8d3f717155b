// Building what the answer is made of.

import { patch, patching } from "./patch.js";

const NAMESPACE = "http://www.w3.org/2000/svg";
// Figures like "80 % (49–94 %)" stay on one line; the text itself keeps plain spaces for copying.
const FIGURE = /((?:[<>] )?\d[\d.,]*(?:–\d[\d.,]*)? (?:%|°C|°F)(?: \(\d[\d.]*–\d[\d.]* %\))?)/;

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

/** SVG element with attributes and children. */
export function draw(name, attributes, ...children) {
  const made = document.createElementNS(NAMESPACE, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

/** A list of sentences. */
export function list(sentences) {
  return element("ul", "", ...sentences.map((sentence) => element("li", "", sentence)));
}

/** A check, {good: true, false or null, text}, with its verdict in a word as well as in colour. */
export function verdict(told, good, bad) {
  if (told === null) return null;
  const word = { true: good, false: bad, null: "" }[told.good];
  const kind = { true: "good", false: "caution", null: "" }[told.good];
  return element("p", `verdict ${kind}`.trim(),
    word ? element("strong", "", `${word}. `) : null, told.text);
}

/** The numbers: a table of [name, text] pairs; pairs that are null are left out. */
export function numbers(pairs) {
  const rows = pairs.filter((pair) => pair !== null).map(([name, text]) => {
    const head = element("th", "", name);
    head.scope = "row";
    return element("tr", "", head, element("td", "", text));
  });
  const made = element("table", "answer-numbers", element("tbody", "", ...rows));
  made.setAttribute("aria-label", "Numbers of this answer");
  return made;
}

/** A table with a heading row: `head` a list of texts, `rows` lists of texts, the first of each a row heading. */
export function table(caption, head, rows) {
  const cell = (name, text, scope) => {
    const made = element(name, "", text);
    if (scope) made.scope = scope;
    return made;
  };
  const holder = element("div", "table-holder", element("table", "answer-table",
    element("caption", "", caption),
    element("thead", "", element("tr", "", ...head.map((text) => cell("th", text, "col")))),
    element("tbody", "", ...rows.map((row) => element("tr", "",
      cell("th", row[0], "row"), ...row.slice(1).map((text) => cell("td", text)))))));
  // On a phone it may be wider than the page: then it scrolls, by the keyboard too.
  holder.tabIndex = 0;
  holder.setAttribute("role", "group");
  holder.setAttribute("aria-label", caption);
  return holder;
}

/** Steps that make `rest` say what these nodes say. Their pictures are drawn as wide as those before them, or as `rest`, and again when they turn out to be of another width. */
export function* replaceAnswer(rest, nodes) {
  const slotsIn = (node) => (node.matches(".picture-slot") ? [node] : [...node.querySelectorAll(".picture-slot")]);
  const before = slotsIn(rest);
  const whole = before.length > 0 ? 0 : rest.clientWidth; // asked for while nothing waits to be laid out
  for (const [i, slot] of nodes.flatMap(slotsIn).entries()) {
    drawPicture(slot, Number((before[i] ?? before.at(-1))?.dataset.width ?? whole));
    yield;
  }
  if (rest.firstChild === null) patch(rest, nodes); // what comes into the page with it, comes at once
  else yield* patching(rest, nodes);
  for (const slot of before) widths.unobserve(slot);
  for (const slot of slotsIn(rest)) widths.observe(slot);
}

/** Named parts of an answer, [heading, node] pairs, beside one another where there is room. */
export function parts(level, pairs) {
  return element("div", "answer-parts", ...pairs.filter((pair) => pair !== null).map(([name, body]) => (
    element("div", "answer-part", element(`h${level}`, "answer-heading", name), body))));
}

/** Place for a picture; `make(width)` gives its SVG, and is called again when the width changes. */
export function pictureSlot(make) {
  const slot = element("div", "picture-slot");
  slot.makePicture = make;
  return slot;
}

// Told once the page is laid out: asking for a width would have all of it laid out at once, what is below the screen too.
const widths = new ResizeObserver((entries) => {
  for (const { target, contentRect } of entries) if (contentRect.width > 0) drawPicture(target, contentRect.width);
});

function drawPicture(slot, room) {
  const width = Math.round(Math.min(Math.max(room, 280), 760));
  if (slot.dataset.width === String(width)) return;
  slot.dataset.width = width;
  const picture = slot.makePicture(width);
  // Told by its title and description; single numbers of its scales would say nothing.
  for (const part of picture.querySelectorAll("svg > :not(title, desc)")) part.setAttribute("aria-hidden", "true");
  slot.replaceChildren(picture);
}
