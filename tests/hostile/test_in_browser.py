"""In real Chromium: nothing of a harmful text runs, in pages built from data, in addresses, in what is typed and in opened files."""

import json
from urllib.parse import quote

import pytest

from tests.site.browser import serve, watched_context

from .payloads import PAYLOADS

pytestmark = pytest.mark.browser
CANARY = """window.fired = []; window.canary = () => { window.fired.push(new Error().stack); return 0; }; window.alert = window.canary;
document.addEventListener("securitypolicyviolation", (event) => window.fired.push(event.violatedDirective));"""
ODD_WORDS = ("__proto__", "constructor", "-1", "1e999", "NaN", "９", "\u202e1", "%E0%A4%A", "", "9" * 400, "x" * 5_000)
# Each breaks out of another place.
MARKUP = ('"><img src=x onerror=canary()>', "</script><script>canary()</script>", "<svg onload=canary()>", "javascript:canary()", "${canary()}", "' onfocus='canary()' autofocus='")


@pytest.fixture(scope="module")
def base(spoiled):
    with serve(spoiled.site) as address:
        yield address


@pytest.fixture(scope="module")
def watched(browser):
    with watched_context(browser, locale="en-GB", viewport={"width": 1280, "height": 900}) as (context, trouble):
        context.add_init_script(CANARY)
        yield context, trouble


@pytest.fixture(scope="module")
def tab(watched):
    return watched[0].new_page()


@pytest.fixture
def page(watched, tab):
    """The tab; fails the test when a text has run, or anything has gone wrong in the console."""
    trouble = watched[1]
    trouble.clear()
    yield tab
    assert tab.evaluate("window.fired ?? []") == []
    assert trouble == []


def kinds_of_pages(spoiled) -> list[str]:
    """Every page but those of crops, of which three stand for all."""
    pages = [name for name in spoiled.pages if name != "404.html" and not name.startswith("crops/")]
    return [name.removesuffix("index.html") for name in [*pages, "crops/index.html", "crops/tomato/index.html", "crops/lettuce/index.html", "crops/bean-snap/index.html"]]


def test_nothing_runs_on_any_kind_of_page(page, base, spoiled):
    addresses = kinds_of_pages(spoiled)
    assert len(addresses) > 25
    for address in addresses:
        page.goto(base + address)
        page.wait_for_load_state("load")
        assert page.evaluate("window.fired") == [], address
        assert page.locator("[canary], canary-x, article img[src=x]").count() == 0, address
        assert page.locator("[href^='javascript:' i]").count() == 0, address


def test_a_crops_name_is_shown_letter_for_letter(page, base, spoiled):
    for crop in ("tomato", "lettuce", "asparagus", "basil", "beet", "carrot", "celery"):
        page.goto(base + f"crops/{crop}/")
        name = spoiled.given[f"crops/{crop}.names.common"]
        assert page.locator("h1").first.text_content().strip() == name
        assert page.title().startswith(name)


def test_the_search_shows_texts(page, base, spoiled):
    for words in ("canary", "onerror", "script", "eval", "img", "x"):
        page.goto(base)
        page.locator(".md-search__input").fill(words)
        page.wait_for_timeout(300)
        page.wait_for_timeout(500)
        assert page.locator(".md-search-result [canary], .md-search-result canary-x, .md-search-result img, .md-search-result svg[onload], .md-search-result script").count() == 0
        assert page.evaluate("window.fired") == []


@pytest.mark.parametrize("name", ["warmth", "days", "seed-life"])
def test_the_chart_to_explore_shows_texts(name, page, base, spoiled):
    page.goto(base + f"compare/{name}/")
    page.locator(".explore-open").click()
    page.locator(".explore-chart .main-svg").first.wait_for()
    page.evaluate("""() => { for (const box of document.querySelectorAll("input[name=crop]")) box.checked = true;
        document.querySelector("input[name=crop]").dispatchEvent(new Event("change", { bubbles: true })); }""")
    page.wait_for_timeout(1500)
    page.set_viewport_size({"width": 1280, "height": 4000})  # the whole picture is in view
    page.locator(".explore-chart").scroll_into_view_if_needed()
    page.wait_for_timeout(500)
    area = page.locator(".explore-chart .nsewdrag").first.bounding_box()
    names = {text for place, text in spoiled.given.items() if place.startswith("crops/") and place.endswith(".names.common")}
    shown = set()
    for step in range(400):  # the mouse goes over the picture, and again while a busy machine has not answered
        for share in (0.2, 0.35, 0.5):
            page.mouse.move(area["x"] + share * area["width"], area["y"] + area["height"] * (step % 40 + 0.5) / 40)
            page.wait_for_timeout(15)
            shown.add("".join(page.locator(".explore-chart .hoverlayer text").all_text_contents()))
        named = [text for text in shown if any(name_ in text for name_ in names)]
        if step >= 39 and len(named) >= 3:
            break
    page.set_viewport_size({"width": 1280, "height": 900})
    assert len(named) >= 3, shown
    labels = page.locator(".explore-chart .ytick text, .explore-chart .legendtext").all_text_contents()
    assert len({label for label in labels if label in names}) >= 5, labels
    assert page.locator(".explore-chart :is(a[href], img, script, [canary], foreignObject)").count() == 0


def calculators(spoiled) -> list[str]:
    return [name.split("/")[-2] for name in spoiled.pages if name.startswith("calculators/") and name.count("/") == 2]


def test_addresses_of_calculators_run_nothing(page, base, spoiled):
    """Each field of each calculator, set from a shared address to markup and to words that mean something to the language itself."""
    names = calculators(spoiled)
    assert len(names) > 8
    for name in names:
        page.goto(base + f"calculators/{name}/")
        fields = page.evaluate("() => [...new Set([...document.querySelectorAll('form :is(input, select, textarea)')].flatMap((e) => [e.name, e.id.split('-').pop()]).filter(Boolean))]")
        for text in (*MARKUP, *ODD_WORDS):
            value = quote(text, safe="")
            fragment = "&".join([f"{name}=1", f"r={value},{value},{value}", *(f"{field}={value}" for field in fields), f"crop={value}"])
            page.evaluate("(fragment) => { location.hash = fragment; }", fragment)
            page.wait_for_timeout(10)
        page.goto(base + f"calculators/{name}/#{name}=1&r={quote(MARKUP[0])}&" + "&".join(f"{field}=__proto__" for field in fields))
        page.reload()
        page.wait_for_load_state("load")
        assert page.evaluate("window.fired") == [], name
        assert page.locator("article img[src=x], article svg[onload]").count() == 0, name


@pytest.mark.parametrize("address", ["compare/warmth/", "compare/days/", "compare/seed-life/", "crops/", "crops/tomato/", "print/poster/", "print/labels/", "correct/", "calculator/", ""])
def test_addresses_of_other_pages_run_nothing(address, page, base, watched):
    page.goto(base + address)
    keys = page.evaluate("() => [...document.querySelectorAll('form')].flatMap((f) => [...f.elements].flatMap((e) => [e.name, e.dataset.field, e.id])).filter(Boolean)")
    start = {"compare": "compare=1", "print": "labels=1", "correct": "correct=1"}.get(address.split("/")[0], "x=1")
    for text in (*MARKUP, *ODD_WORDS):
        value = quote(text, safe="")
        words = "&".join(f"{key}={value}" for key in {*keys, "name", "sort", "at", "age", "crop", "crops", "tests", "title", "value", "shown", "quantity", "source", "file", "line", "q", "h"})
        page.evaluate("(hash) => { location.hash = hash; }", f"{start}&{words}")
        page.wait_for_timeout(10)
        page.goto(base + f"{address}?{words[:6000]}#{start}&{words[:6000]}")
        page.wait_for_load_state("load")
        assert page.evaluate("window.fired") == [], text
        assert page.locator("article img[src=x], article svg[onload]").count() == 0
    if address == "correct/":  # it asks this same site for a crop of the name that the address gives, when that is the form of an id
        watched[1][:] = [told for told in watched[1] if "status of 404" not in told]


def test_what_is_typed_runs_nothing(page, base, spoiled):
    """Every field of every form that takes words."""
    typed = 0
    for address in [*(f"calculators/{name}/" for name in calculators(spoiled)), "calculator/", "print/poster/", "print/labels/", "correct/", "compare/warmth/", "crops/"]:
        page.goto(base + address)
        page.wait_for_load_state("load")
        for text in MARKUP:
            typed += page.evaluate("""(text) => { let typed = 0;
                for (const field of document.querySelectorAll("article :is(input:not([type=checkbox], [type=radio], [type=range], [type=file], [type=number], [type=date], [type=button], [type=submit]), textarea)")) {
                  field.value = text; typed += 1;
                  for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true })); }
                return typed; }""", text)
            page.wait_for_timeout(20)
        assert page.evaluate("window.fired") == [], address
        assert page.locator("article :is(img[src=x], [onerror], [onload])").count() == 0, address
    assert typed > 100


# What the site keeps in the browser; the theme's own keys have "__" in them.
KEPT = ["unit", "labels-tests", "soil /calculators/soil/"]
LOTS = "lot,crop,variety,tested,seeds,normal,note\n"


def hostile_lots() -> dict[str, str]:
    """Files of lots that people could be sent."""
    def cell(text: str) -> str:
        return '"' + text.replace('"', '""') + '"'

    rows = "".join(f"{cell(text)},tomato,{cell(text)},2026-03-12,10,9,{cell(text)}\n" for text in PAYLOADS)
    return {
        "markup": LOTS + rows,
        "markup-as-crop": LOTS + "".join(f"L{n},{cell(text)},,2026-03-12,10,9,\n" for n, text in enumerate(PAYLOADS)),
        "markup-as-heading": ",".join(cell(text) for text in MARKUP) + "\n" + ",".join("1" for _ in MARKUP) + "\n",
        "words-of-the-language": LOTS + "".join(f"{word},{word},{word},2026-03-12,10,9,\n" for word in ("__proto__", "constructor", "toString")),
        "numbers": LOTS + "".join(f"L{n},tomato,,2026-03-12,{number},{number},\n" for n, number in enumerate(("NaN", "Infinity", "1e999", "-1", "９", "1_0", "9" * 400))),
        "one-quote": LOTS + '"',
        "nothing": "",
        "hidden": LOTS + "L\u202e1,tomato,a\u200bb,2026-03-12,10,9,\x1b[31m\n",
    }


def test_opened_files_of_lots_run_nothing(page, base):
    for name, text in hostile_lots().items():
        page.goto(base + "calculators/lots/")
        page.locator("input[type=file]").first.set_input_files({"name": f"{MARKUP[0].replace('/', '')}.csv", "mimeType": "text/csv", "buffer": text.encode("utf-8", "surrogatepass")})
        page.wait_for_timeout(400)
        assert page.evaluate("window.fired") == [], name
        assert page.locator("article :is(img[src=x], [onerror], [onload], script:not([type='application/json']):not([src]))").count() == 0, name
        page.locator("input[type=file]").first.set_input_files({"name": "bytes.csv", "mimeType": "text/csv", "buffer": bytes(range(256)) * 40})
        page.wait_for_timeout(200)
    assert page.evaluate("window.fired") == []


def test_pasted_lots_run_nothing(page, base):
    for name, text in hostile_lots().items():
        page.goto(base + "print/labels/")
        page.locator("article textarea").first.fill(text)
        page.wait_for_timeout(300)
        assert page.evaluate("window.fired") == [], name
        assert page.locator("article :is(img[src=x], [onerror], [onload])").count() == 0, name


def test_opened_logs_of_days_run_nothing(page, base, spoiled):
    opened = 0
    for name in calculators(spoiled):
        page.goto(base + f"calculators/{name}/")
        for index in range(page.locator("input[type=file]").count()):
            for text in (*MARKUP, "date,low,high\n2026-05-01,<svg onload=canary()>,1e999\n", "\n".join(f"{n},{n}" for n in range(3000)), '"'):
                page.locator("input[type=file]").nth(index).set_input_files({"name": "x<img src=x onerror=canary()>.csv", "mimeType": "text/csv", "buffer": text.encode()})
                page.wait_for_timeout(60)
                opened += 1
            assert page.evaluate("window.fired") == [], name
            assert page.locator("article :is(img[src=x], [onerror], [onload])").count() == 0, name
    assert opened > 10


def test_what_is_remembered_is_not_trusted(page, base):
    """Another page of the same host, or an old version, may have left anything in the browser's memory."""
    for text in (*MARKUP, "{", "null", "[]", '{"__proto__":{"x":1}}', json.dumps({"unit": MARKUP[0]})):
        page.goto(base + "crops/tomato/")
        page.evaluate("""([text, words]) => { for (const store of [localStorage, sessionStorage]) for (const key of [...words, ...Object.keys(store)]) if (!key.includes("__")) store.setItem(key, text); }""", [text, KEPT])
        for address in ("crops/tomato/", "compare/warmth/", "print/labels/", "calculators/soil/"):
            page.goto(base + address)
            page.wait_for_load_state("load")
            assert page.evaluate("window.fired") == [], text
    page.evaluate("() => { localStorage.clear(); sessionStorage.clear(); }")
