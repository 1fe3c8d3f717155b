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

/** What a key reaches in a table that scrolls sideways comes into sight: a browser leaves it where a corner of it shows, if only a blank one. */
export function mountReached(document) {
  document.addEventListener("focusin", ({ target }) => {
    if (target.closest(".scroll") !== null && target.matches(":focus-visible:not(.scroll)")) target.scrollIntoView({ block: "nearest", inline: "nearest" });
  });
}
