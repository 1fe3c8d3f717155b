// Work in steps: a generator that yields where it can wait. What a page opens with must not hold up a slow phone; what is typed is answered at once.

/** Each step in a task of its own, so that touches in between are answered. */
export function inTasks(work) {
  window.setTimeout(() => work.next().done || inTasks(work));
}

/** All steps at once. */
export function atOnce(work) {
  while (!work.next().done);
}

/** The same as inTasks() for an async function: `await pause()` between its steps. */
export function pause() {
  return new Promise((done) => window.setTimeout(done));
}

/** What a work yields when all that is read at once stands. */
export const TOLD = Symbol("told");
const AT_ONCE = 4; // ms of a frame's 16 that a work may take before what comes after TOLD waits for tasks of its own

/**
 * Works of which the last begun counts. now(work): at once up to TOLD, or all of it, and then as much as a frame allows, the rest in tasks;
 * soon(work): its steps, to be yielded, until another is begun; whole(): what is left of the last.
 */
export function lastBegun() {
  let begun = { next: () => ({ done: true }) };
  const soon = function* (work) {
    while (begun === work && !work.next().done) yield;
  };
  return {
    now(work) {
      const start = performance.now();
      begun = work;
      for (let told = false; !told || performance.now() - start < AT_ONCE;) {
        const step = work.next();
        if (step.done) return;
        told ||= step.value === TOLD;
      }
      inTasks(soon(work));
    },
    soon(work) {
      begun = work;
      return soon(work);
    },
    whole() {
      atOnce(begun);
    },
  };
}
