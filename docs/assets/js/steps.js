// Work in steps: a generator that yields where it can wait. What a page opens with must not hold up a slow phone; what is typed is answered at once.

/** Each step in a task of its own, so that touches in between are answered. */
export function inTasks(work) {
  window.setTimeout(() => work.next().done || inTasks(work));
}

/** The same for an async function: `await pause()` between its steps. */
export function pause() {
  return new Promise((done) => window.setTimeout(done));
}

/** Works of which the last begun counts. {now(work): all of it; soon(work): its steps, to be yielded, until another is begun}. */
export function lastBegun() {
  let begun = null;
  return {
    now(work) {
      begun = work;
      while (!work.next().done);
    },
    soon(work) {
      begun = work;
      return (function* () {
        while (begun === work && !work.next().done) yield;
      })();
    },
  };
}
