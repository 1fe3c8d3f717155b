/* A link to a folded entry unfolds it. */

/** Open the <details> that the address points to, now and on every later jump. */
export function mountTargets(document) {
  const open = () => {
    const target = document.getElementById(document.location.hash.slice(1)); // ids are plain words: nothing to decode
    if (target instanceof document.defaultView.HTMLDetailsElement) target.open = true;
  };
  document.defaultView.addEventListener("hashchange", open);
  open();
}
