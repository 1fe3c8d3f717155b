"""axe-core in a page: the faults of accessibility that a program can see (WCAG 2.2 A and AA, and good practice)."""

from __future__ import annotations

from importlib.resources import files

SCRIPT = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
OF_COLOUR = ("color-contrast", "link-in-text-block")
RUN = """async (options) => (await axe.run(options.within ?? document, options)).violations.map((v) =>
  `${v.id} (${v.nodes.length}): ${v.help}\\n` + v.nodes.slice(0, 5).map((n) => `    ${n.target.join(" ")}\\n    ${n.html.slice(0, 160)}\\n    ${n.failureSummary.replace(/\\s+/g, " ")}`).join("\\n"))"""

# Of children that are alike, with all that is in them, three stay: contrast is slow to find, and a table's rows have the same colours.
THIN = """(most) => {
  const known = new WeakMap();
  const shape = (e) => {
    if (!known.has(e)) known.set(e, `${e.tagName}.${e.getAttribute("class") ?? ""}(${[...new Set([...e.children].map(shape))].join()})`);
    return known.get(e);
  };
  for (const parent of document.querySelectorAll("body *")) {
    if (!parent.isConnected || parent.children.length <= most || parent.matches("select, svg.sheet-page")) continue;
    const seen = new Map();
    for (const child of [...parent.children]) {
      const found = (seen.get(shape(child)) ?? 0) + 1;
      seen.set(shape(child), found);
      if (found > most) child.remove();
    }
  }
}"""


def load(page) -> None:
    """Bring axe into the page, if it is not there yet."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(SCRIPT)


def faults(page) -> list[str]:
    """What is wrong with the page, colours apart; a text a rule, with its first five places."""
    load(page)
    return page.evaluate(RUN, _options({"type": "tag", "values": TAGS}, rules={name: {"enabled": False} for name in OF_COLOUR}))


def thin(page) -> None:
    """Take away what is there many times over: what stays has every shape, and every colour."""
    page.evaluate(THIN, 3)


def faults_of_colour(page, scheme: str) -> list[str]:
    """What is wrong with the colours of the page in the scheme "light" or "dark".

    Sheets to print have one scheme, and tests/sheets/test_contrast.py of their own: axe cannot see what is under a text in a drawing.
    """
    load(page)
    page.emulate_media(color_scheme=scheme)
    wanted = {"light": "paper", "dark": "night"}[scheme]
    page.wait_for_function("(wanted) => document.body.dataset.mdColorScheme === wanted", arg=wanted)
    return page.evaluate(RUN, _options({"type": "rule", "values": OF_COLOUR}, within={"exclude": [".sheet-page"]}))


def _options(only: dict, **more) -> dict:
    return {"runOnly": {**only, "values": list(only["values"])}, "resultTypes": ["violations"], "preload": False, **more}
