// Work in steps: a generator that yields where it can wait. What is shown first must not hold up a slow phone; what is typed is answered at once.

/** All of it, now. */
export function atOnce(work) {
  while (!work.next().done);
}

/** Each step in a task of its own, so that touches in between are answered. */
export function inTasks(work) {
  window.setTimeout(() => work.next().done || inTasks(work));
}
