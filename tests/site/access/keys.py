"""Walking through a page by the keyboard alone: where the focus goes, and whether it can be seen there."""

from __future__ import annotations

from dataclasses import dataclass

# What can be reached in `within`, in the order of the document. Of a group of radio buttons the chosen one alone is a stop.
EXPECTED = """(within) => {
  window.stops = [];
  const all = document.querySelectorAll(`${within} :is(a[href], button, input, select, textarea, summary, [tabindex]:not([tabindex="-1"]))`);
  for (const one of all) {
    const shown = one.checkVisibility({ visibilityProperty: true }) && one.getClientRects().length > 0; // a box of no size, as the theme's switches have, is one
    if (!shown || one.tabIndex < 0 || one.disabled || one.type === "hidden" || one.matches("[type=radio]:not(:checked)")) continue;
    if (one.matches("summary") && one.parentElement.firstElementChild !== one) continue;
    window.stops.push(one);
  }
  return window.stops.map((one) => one.outerHTML.slice(0, 110));
}"""

# The focused element: its place in the list above, whether it can be seen, and the contrast of what shows that it has the focus.
FOCUSED = """(within) => {
  const one = document.activeElement;
  if (one === null || one === document.body) return null;
  const box = one.getBoundingClientRect();
  const shows = (element) => element !== null && (one.matches(".md-option") && one.nextElementSibling.contains(element) || one === element || one.contains(element) || [...(one.labels ?? [])].some((label) => label.contains(element)));
  const spots = [...(one.matches(".md-option") ? one.nextElementSibling : one).getClientRects()].slice(0, 3).flatMap((r) => [0.1, 0.5, 0.9].flatMap((x) => [0.15, 0.5, 0.85].map((y) => [r.left + x * r.width, r.top + y * r.height])));
  const seen = spots.filter(([x, y]) => shows(document.elementFromPoint(x, y))).length;
  const parts = (colour) => {
    const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data];
  };
  const light = ([r, g, b]) => [r, g, b].map((c) => c / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)).reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const behind = (element) => {
    for (let at = element; at !== null; at = at.parentElement) {
      const colour = parts(getComputedStyle(at).backgroundColor);
      if (colour[3] === 255) return colour;
    }
    return [255, 255, 255, 255];
  };
  const outlined = [one, ...(one.labels ?? []), one.closest("label"), one.matches(".md-option") ? one.nextElementSibling : null].filter((e) => e).map((element) => {
    const style = getComputedStyle(element);
    if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2 || getComputedStyle(element).opacity === "0") return 0;
    const inward = parseFloat(style.outlineOffset) < 0;
    const [a, b] = [light(parts(style.outlineColor)), light(behind(inward ? element : element.parentElement))];
    return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  });
  return { place: (window.stops ?? []).indexOf(one), html: one.outerHTML.slice(0, 110), within: one.closest(within) !== null,
    seen, spots: spots.length, over: document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2)?.outerHTML.slice(0, 90) ?? "the window's edge", contrast: Math.max(...outlined), inView: box.bottom > 0 && box.top < innerHeight };
}"""


@dataclass(frozen=True)
class Walk:
    """What can be reached, where the focus went (places in that list; -1: elsewhere), and what was wrong on the way."""

    expected: list[str]
    places: list[int]
    wrong: list[str]


def walk(page, within: str = "article.md-content__inner") -> Walk:
    """Tab from the beginning of the element `within` until the focus leaves it."""
    expected = page.evaluate(EXPECTED, within)
    page.evaluate("(within) => { const one = document.querySelector(within); one.tabIndex = -1; one.focus(); one.removeAttribute('tabindex'); }", within)
    places, wrong = [], []
    for _ in range(4 * len(expected) + 20):
        page.keyboard.press("Tab")
        at = page.evaluate(FOCUSED, within)
        if at is None or at["place"] == -1 and not at["within"] or at["place"] in places[:-1] and at["place"] != -1:
            break
        if places and at["place"] == places[-1] != -1:
            continue  # the parts of a date
        places.append(at["place"])
        if at["contrast"] < 3:
            wrong.append(f"no visible focus ({at['contrast']:.1f}): {at['html']}")
        if not at["inView"] or not at["seen"]:
            wrong.append(f"out of sight ({at['seen']} of {at['spots']} points; there is {at['over']}): {at['html']}")
    else:
        wrong.append(f"the focus does not get out: {page.evaluate(FOCUSED, within)}")
    return Walk(expected, places, wrong)


def check_walk(walked: Walk) -> None:
    """Everything was reached, once, in the order of the document, and could be seen there."""
    reached = [place for place in walked.places if place >= 0]
    left_out = [walked.expected[i] for i in range(len(walked.expected)) if i not in reached]
    assert not left_out and not walked.wrong, "\n".join([*(f"not reached: {html}" for html in left_out[:12]), *walked.wrong[:12]])
    assert reached == sorted(reached), [walked.expected[i] for i in reached][:80]
