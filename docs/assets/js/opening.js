// A page opens part by part, as much in a frame as fits: laid out all at once, a long one would hold up a slow phone.
// It runs ahead of what it is about (build_tools/finish_page.py). Without scripts a page is whole at once, as in print.

const FRAME = 8; // ms, of a frame's 16, in which one more part may be begun
const SMALL = 40; // elements; a part with more is taken apart
const TOGETHER = 12; // elements that are shown before the time is looked at …
const GROWTH = 1 / 20; // … or this share of those that stand, since each time costs more the more there are
const WHOLE = "a, p, svg, details:not([open])"; // never taken apart
const LATER = "data-later"; // what has it is not shown (site.css)
const AROUND = ".md-container"; // the theme's, around the article and …
const LAST = ".md-footer"; // … this
const FOLDED = "details:not([open]) :is(input, select, textarea, button)";

const parts = []; // in the order of the page
const folded = []; // fields: at the end of reading the browser lays them out too, all at once, since it looks for some to fill in
let awaited = false; // a frame
let gaveWay = false;
let standing = 0; // elements

/** Whoever comes to a heading, or back to where they were, finds it at its place only in a whole page. */
function opensWhole() {
  return /^#[^=]+$/.test(window.location.hash) || document.visibilityState !== "visible" || window.performance.getEntriesByType("navigation")[0]?.type !== "navigate";
}

function keepBack(nodes) {
  for (const node of nodes) {
    if (node.nodeType !== Node.ELEMENT_NODE) continue;
    node.setAttribute(LATER, "");
    parts.push(node);
  }
  next();
}

function next() {
  if (awaited || parts.length + folded.length === 0) return;
  awaited = true;
  window.requestAnimationFrame(frame);
}

const size = (part) => part.getElementsByTagName("*").length + 1;

/** The page is read no further than into this part. */
function growing(part) {
  let last = document.body;
  while (last.lastElementChild !== null) last = last.lastElementChild;
  return document.readyState === "loading" && part.contains(last);
}

function large(part) {
  const text = [...part.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim() !== "");
  return (size(part) > SMALL || growing(part)) && !part.matches(WHOLE) && !text;
}

/** In other layouts, and in columns, what is inside moves with every part that comes. */
function comesApart({ display, tableLayout, columnCount, columnWidth }) {
  if (display === "table") return tableLayout === "fixed";
  return ["block", "flow-root", "list-item", "table-row-group"].includes(display) && columnCount === "auto" && columnWidth === "auto";
}

/** Show a part; of a large one that comes apart only what holds its parts, which are next. False: a large one that does not had better begin a frame, and waits. */
function show(part, beginsFrame) {
  const inside = [...part.children];
  const divided = large(part);
  if (divided) inside.forEach((one) => one.setAttribute(LATER, ""));
  part.removeAttribute(LATER);
  if (divided) {
    if (comesApart(window.getComputedStyle(part))) {
      parts.unshift(...inside);
      if (document.readyState === "loading") read.observe(part, { childList: true });
      standing += 1;
      return true;
    }
    inside.forEach((one) => one.removeAttribute(LATER));
    if (!beginsFrame) {
      part.setAttribute(LATER, "");
      parts.unshift(part);
      return false;
    }
  }
  standing += size(part);
  folded.push(...part.querySelectorAll(FOLDED));
  return true;
}

function frame() {
  const start = window.performance.now();
  const stood = standing;
  const full = () => window.performance.now() - start > FRAME;
  const layOut = () => document.body.offsetHeight;
  layOut();
  gaveWay = full() && !gaveWay; // what stands already took long: nothing more in this frame, but not twice
  for (let more = !gaveWay; more; more &&= !full()) {
    const enough = standing + Math.max(TOGETHER, standing * GROWTH);
    while (more && standing < enough) more = parts.length > 0 && show(parts.shift(), standing === stood);
    layOut();
  }
  if (parts.length === 0 && !gaveWay) do folded.shift()?.getBoundingClientRect(); while (folded.length > 0 && !full());
  awaited = false;
  next();
}

function readOn(records) {
  for (const { target, addedNodes } of records) keepBack(target.matches(AROUND) ? [...addedNodes].filter((node) => node.matches?.(LAST)) : addedNodes);
}

function readFrom() {
  const article = document.querySelector(".md-content__inner");
  if (article === null) return;
  begun.disconnect();
  keepBack([...article.children, ...document.querySelectorAll(LAST)]);
  for (const container of [article, article.closest(AROUND)]) read.observe(container, { childList: true });
}

const read = new MutationObserver(readOn);
const begun = new MutationObserver(readFrom);
if (!opensWhole()) {
  begun.observe(document.body, { childList: true, subtree: true });
  document.addEventListener("readystatechange", () => {
    if (begun.takeRecords().length > 0) readFrom();
    readOn(read.takeRecords());
    begun.disconnect();
    read.disconnect();
  }, { once: true });
  document.addEventListener("visibilitychange", () => { while (parts.length > 0) show(parts.shift(), true); }, { once: true });
}
