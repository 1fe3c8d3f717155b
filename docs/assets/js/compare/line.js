// The line through all rows: where it stands, and dragging it.

const SIDEWAYS = 6; // pixels that a finger moves before it is taken for dragging, not scrolling

/** Put the line of every row at `percent` of the width; null hides it. */
export function placeLine(article, percent) {
  for (const mark of article.querySelectorAll(".compare-list .reader-mark")) {
    if (percent === null) {
      mark.setAttribute("visibility", "hidden");
      continue;
    }
    for (const end of ["x1", "x2"]) mark.setAttribute(end, `${Math.round(percent * 1000) / 1000}%`);
    mark.setAttribute("visibility", "visible");
  }
}

/** Let the line be dragged on any row; `moved(share)` hears of it, 0 to 1 of the chart's width. */
export function dragLine(list, moved) {
  let held = null;
  list.classList.add("line-moves");
  const share = (event) => {
    const { left, width } = held.chart.getBoundingClientRect();
    moved(Math.min(1, Math.max(0, (event.clientX - left) / width)));
  };
  list.addEventListener("pointerdown", (event) => {
    const chart = event.target.closest?.(".compare-chart");
    if (!chart || event.button !== 0) return;
    held = { chart, x: event.clientX, dragging: event.pointerType === "mouse" };
    if (!held.dragging) return;
    event.preventDefault(); // else the mouse would mark text
    share(event);
  });
  window.addEventListener("pointermove", (event) => {
    if (!held) return;
    held.dragging ||= Math.abs(event.clientX - held.x) > SIDEWAYS;
    if (held.dragging) share(event);
  });
  for (const end of ["pointerup", "pointercancel"]) window.addEventListener(end, () => { held = null; });
}

/** Call `changed` when the reader switches the unit in the header. */
export function onUnitSwitch(changed) {
  new MutationObserver(changed).observe(document.documentElement, { attributes: true, attributeFilter: ["data-unit"] });
}
