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
const AT_REST = 250; // ms after the last move
const SETTLED = 3000; // ms after a page has loaded

/**
 * Who comes to a heading, or back to where they were, stays there, until they move, while calculators above it grow: not every browser sees to that.
 * Where they were (the heading or entry above, and how far from it) stands in the tab's history, which ends with the tab.
 */
export function mountStay(document) {
  const window = document.defaultView;
  const { history } = window;
  const article = document.querySelector(".md-content__inner");
  if (article === null) return;
  const from = (place) => place.getBoundingClientRect().top;
  const keep = () => {
    const places = [...article.querySelectorAll(":is(h2, h3, details)[id]")];
    const place = places.findLast((one) => one.checkVisibility() && from(one) < window.innerHeight / 2) ?? article;
    try {
      history.replaceState({ ...history.state, place: place.id, below: from(place) }, "");
    } catch {
      // Refused for being too many in a row.
    }
  };
  let rest = 0;
  window.addEventListener("scroll", () => { // what is kept only as a page is left, one loaded again may not find
    window.clearTimeout(rest);
    rest = window.setTimeout(keep, AT_REST);
  }, { passive: true });

  const comes = window.performance.getEntriesByType("navigation")[0]?.type === "navigate";
  const { place, below } = history.state ?? {};
  const heading = document.getElementById(document.location.hash.slice(1));
  const back = () => {
    const one = place === "" ? article : document.getElementById(place); // in an answer it comes late
    if (one !== null) window.scrollBy(0, from(one) - below);
  };
  if (comes ? heading === null || heading.matches("h1") : !Number.isFinite(below)) return; // above a page's title nothing grows
  const stay = comes ? () => heading.scrollIntoView() : back;
  const growth = new window.ResizeObserver(stay);
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
