"""The theme's style sheets without what no page can use: every page looks as it did with them whole."""

from __future__ import annotations

from pathlib import Path

import material
import pytest

from build_tools.theme_styles import can_match, pruned, selectors

WHOLE = Path(material.__file__).parent / "templates" / "assets" / "stylesheets"
PAGES = ["", "crops/lettuce/", "guides/testing/", "guides/glossary/", "calculator/", "calculators/lots/", "compare/days/", "print/labels/", "sources/", "methods/", "api/"]
# Of every element that differs from others in its name, classes or neighbours, and of its before and after: a word for all computed style.
STYLES = """() => {
  const own = (element) => (element ? `${element.localName}.${element.getAttribute("class") ?? ""}` : "");
  const seen = new Map();
  for (const element of document.querySelectorAll("body, body *")) {
    const key = [element, element.parentElement, element.parentElement?.parentElement, element.previousElementSibling].map(own).join(" < ");
    if (seen.has(key)) continue;
    seen.set(key, [null, "::before", "::after"].map((part) => {
      const style = getComputedStyle(element, part);
      if (part !== null && style.content === "none") return "";
      let word = 0;
      for (const name of [...style].sort()) { const text = style.getPropertyValue(name); for (let i = 0; i < text.length; i += 1) word = (word * 31 + text.charCodeAt(i)) | 0; }
      return word;
    }).join());
  }
  return Object.fromEntries(seen);
}"""


def everything():
    class All(set):
        def __contains__(self, word):
            return True

    return All()


@pytest.mark.parametrize("sheet", sorted(path.name for path in WHOLE.glob("*.css")))
def test_nothing_goes_when_every_class_is_known(sheet):
    text = (WHOLE / sheet).read_text(encoding="utf-8")
    assert len(text) > 10_000 and pruned(text, everything()) == text


@pytest.mark.parametrize("css, words, left", [
    (".a{color:red}.b{color:blue}", {"a"}, ".a{color:red}"),
    (".a,.b{color:red}", {"a"}, ".a{color:red}"),
    (".a .b,.a>c{color:red}", {"a"}, ".a>c{color:red}"),
    (".a:not(.b){x:y}", {"a"}, ".a:not(.b){x:y}"),
    (":is(.b,.c:not(.d)),.e{x:y}", set(), ":is(.b,.c:not(.d)){x:y}"),
    ("[data-x=\"a,b\"].a,.b{x:y}", {"a"}, "[data-x=\"a,b\"].a{x:y}"),
    ("@media print{.a{x:y}.b{x:y}}", {"a"}, "@media print{.a{x:y}}"),
    ("@media print{.b{x:y}}p{x:y}", set(), "p{x:y}"),
    ("@keyframes k{0%{x:y}to{x:z}}", set(), "@keyframes k{0%{x:y}to{x:z}}"),
    ("@charset \"UTF-8\";.b{x:y}", set(), "@charset \"UTF-8\";"),
    (".a{content:\"}\";x:url('a{b.svg')}.b{x:y}", {"a"}, ".a{content:\"}\";x:url('a{b.svg')}"),
    ("@supports (x:y){@media (min-width:1em){.a{x:y}.b{x:y}}}", {"a"}, "@supports (x:y){@media (min-width:1em){.a{x:y}}}"),
    (".md\\:wide{x:y}", {"md:wide"}, ".md\\:wide{x:y}"),
    ("", set(), ""),
])
def test_rules_go_whose_classes_are_nowhere(css, words, left):
    assert pruned(css, words) == left


@pytest.mark.parametrize("css", ["a{b:c", "a{b:c}}", "@media print{a{b:c}"])
def test_braces_that_do_not_pair_are_refused(css):
    with pytest.raises(ValueError, match="brace"):
        pruned(css, set())


def test_selectors_come_apart_at_outer_commas():
    assert selectors("a:is(b,c:not(d,e)),f[x=\"1,2\"],g") == ["a:is(b,c:not(d,e))", 'f[x="1,2"]', "g"]
    assert can_match("a:not(.x) .b", {"b"}) and not can_match("a:not(.x) .b.c", {"b"})


@pytest.mark.browser
@pytest.mark.parametrize("media, width", [("screen", 360), ("screen", 1280), ("print", 1280)])
def test_every_element_looks_the_same_with_the_sheets_whole(media, width, built, site, browser):
    for scheme in ("light", "dark") if media == "screen" else ("light",):
        context = browser.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme, reduced_motion="reduce")
        pruned_page, whole_page = context.new_page(), context.new_page()
        whole_page.route("**/assets/stylesheets/*.css", lambda route: route.fulfill(path=WHOLE / route.request.url.rsplit("/", 1)[1], content_type="text/css"))
        for name in PAGES:
            for page in (pruned_page, whole_page):
                page.emulate_media(media=media)
                page.goto(site + name + "#top", wait_until="networkidle")  # opened whole: what comes near the screen does not depend on when its parts came
            for _ in range(12):  # until typefaces and the theme's measurements have settled on both
                if media == "print":  # the theme opens the folds it finds; those of a form may come after
                    for page in (pruned_page, whole_page):
                        page.evaluate("() => document.querySelectorAll('details').forEach((fold) => { fold.open = true; })")
                seen = [page.evaluate(STYLES) for page in (pruned_page, whole_page)]
                if seen[0] == seen[1]:
                    break
                pruned_page.wait_for_timeout(300)
            assert len(seen[0]) > 40 and seen[0].keys() == seen[1].keys(), name
            assert [element for element, word in seen[0].items() if seen[1][element] != word] == [], name
        context.close()
    sizes = [sum(path.stat().st_size for path in folder.glob("*.css")) for folder in (built / "assets" / "stylesheets", WHOLE)]
    assert sizes[0] < 0.75 * sizes[1]
