// The links "correct this": what is shown, and its sources, are added to the address when a link is about to be used.

const LONGEST = 120; // characters of what is shown
const MOST_SOURCES = 4;

// What stands before the link: in its own paragraph or cell, since the link before it; in the evidence table, the value of its row.
function before(link) {
  const holder = link.closest("li, p, dd, td, th") ?? link.parentElement;
  const range = link.ownerDocument.createRange();
  const evidence = link.closest("table.evidence td:last-child");
  if (evidence) {
    range.selectNodeContents(evidence.parentElement.cells[1]);
  } else {
    const earlier = [...holder.querySelectorAll("a.correct")];
    const last = earlier[earlier.indexOf(link) - 1];
    range.selectNodeContents(holder);
    if (last) range.setStartAfter(last);
    range.setEndBefore(link);
  }
  return range.cloneContents();
}

/** What a link is about, as {shown, source}: text on one line, and ids of sources. */
export function saidBefore(link) {
  const part = before(link);
  const cited = [...part.querySelectorAll('a[href*="sources/#"]')].map((a) => a.getAttribute("href").split("#")[1]);
  const words = [...part.querySelectorAll(".word-source")].map((word) => word.textContent);
  for (const aside of part.querySelectorAll("small, .grade, .more, .line, a.correct")) aside.remove();
  const text = part.textContent.replace(/\s+/g, " ").replace(/^[\s.;,]+|[\s(]+$/g, "");
  return {
    shown: text.length > LONGEST ? `${text.slice(0, LONGEST - 1).trimEnd()}…` : text,
    source: [...new Set([...cited, ...words])].slice(0, MOST_SOURCES).join(", "),
  };
}

function complete(event) {
  const link = event.target.closest?.("a.correct");
  if (!link || link.dataset.whole) return;
  link.dataset.whole = "yes";
  const address = new URL(link.href);
  for (const [key, text] of Object.entries(saidBefore(link))) if (text !== "") address.searchParams.set(key, text);
  link.href = address.href;
}

/** Complete each link before it is followed, copied or opened elsewhere. */
export function mountCorrectLinks(document) {
  for (const kind of ["pointerdown", "focusin", "click"]) document.addEventListener(kind, complete, true);
}
