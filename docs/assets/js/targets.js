/* What a link or a key leads to is there and in sight. */

/** Open the <details> that the address points to, now and on every later jump. */
export function mountTargets(document) {
  const window = document.defaultView;
  const open = () => {
    const target = document.getElementById(document.location.hash.slice(1)); // ids are plain words: nothing to decode
    if (!(target instanceof window.HTMLDetailsElement)) return;
    target.open = true;
    // Entries near it are laid out only now (content-visibility), and a busy browser does not always make up for their heights.
    window.requestAnimationFrame(() => window.requestAnimationFrame(() => target.scrollIntoView()));
  };
  window.addEventListener("hashchange", open);
  open();
}

const MOVES = ["wheel", "touchstart", "pointerdown", "keydown"];
const SETTLED = 3000; // ms after a page has loaded

/** Who comes to a heading stays with it, until they move, while calculators above it grow: not every browser sees to that. */
export function mountStay(document) {
  const window = document.defaultView;
  const target = document.getElementById(document.location.hash.slice(1));
  const article = document.querySelector(".md-content__inner");
  if (target === null || article === null || window.performance.getEntriesByType("navigation")[0]?.type !== "navigate") return;
  const growth = new window.ResizeObserver(() => target.scrollIntoView());
  const end = () => growth.disconnect();
  growth.observe(article);
  for (const move of MOVES) window.addEventListener(move, end, { once: true, passive: true });
  window.addEventListener("load", () => window.setTimeout(end, SETTLED), { once: true });
}

/** What a key reaches in a table that scrolls sideways comes into sight: a browser leaves it where a corner of it shows, if only a blank one. */
export function mountReached(document) {
  document.addEventListener("focusin", ({ target }) => {
    if (target.closest(".scroll") !== null && target.matches(":focus-visible:not(.scroll)")) target.scrollIntoView({ block: "nearest", inline: "nearest" });
  });
}
