"""From “correct this” beside a value to the three ways of sending a correction, in real Chromium; and what a hostile address can do there: nothing."""

import json
import re
from urllib.parse import parse_qs, parse_qsl, urlencode, urlsplit

import pytest
import yaml
from playwright.sync_api import expect

from build_tools.check.evidence import compare
from build_tools.check.printed import collect
from build_tools.model.build import CHOICES, QUANTITIES
from build_tools.read import read_tree
from build_tools.units import celsius_from_fahrenheit, half_degree, inches
from tests.site.browser import STANDS, watched_context

pytestmark = pytest.mark.browser


def open_page(page, site, **parts):
    page.goto(f"{site}correct/?{urlencode(parts)}")
    page.wait_for_selector("article.correct-page[data-ready]")


def lettuce_maximum(reference):
    lettuce = reference.crops["lettuce"]
    return {"crop": "lettuce", "quantity": "maximum_c", "shown": "29.5 °C (85 °F)", "source": "osu-harrington-2013", "file": lettuce.file, "line": str(lettuce["maximum_c"].line)}


def parameters(page, selector):
    return dict(parse_qsl(urlsplit(page.locator(selector).get_attribute("href")).query))


# From a page of values


def test_from_a_crop_page_to_the_page_of_corrections(page, site, reference):
    page.goto(site + "crops/tomato/")
    page.locator("dl.glance dd", has_text="13 mm").get_by_role("link", name="correct this of depth at a glance").click()
    page.wait_for_selector("article.correct-page[data-ready]")
    tomato = reference.crops["tomato"]
    given = {key: value for key, (value,) in parse_qs(urlsplit(page.url).query).items()}
    assert given == {"crop": "tomato", "quantity": "sowing_depth_mm", "file": tomato.file, "line": str(tomato["sowing_depth_mm"].line), "shown": "13 mm (½ in)"}
    facts = dict(zip(page.locator(".correct-given dt").all_inner_texts(), page.locator(".correct-given dd").all_inner_texts()))
    assert facts == {"Crop": "Tomato", "Value": "Sowing depth", "Shown": "13 mm (½ in)", "Kept in": f"{tomato.file}, line {tomato['sowing_depth_mm'].line}"}
    expect(page.locator(".correct-standing")).to_contain_text("Now: 13 mm.")


def test_by_keyboard_and_with_the_sources_of_the_value(page, site, reference):
    page.goto(site + "crops/tomato/")
    link = page.locator("table.evidence tr", has_text="Maximum soil temperature").locator("a.correct")
    link.focus()
    page.keyboard.press("Enter")
    page.wait_for_selector("article.correct-page[data-ready]")
    given = {key: value for key, (value,) in parse_qs(urlsplit(page.url).query).items()}
    assert given["shown"] == "35 °C (95 °F)" and given["source"] == ", ".join(reference.crops["tomato"]["maximum_c"].sources[:4])
    for _ in range(40):  # from the top of the page to the field, by the keyboard alone
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == "correct-should-be":
            break
    page.keyboard.type("36")
    expect(page.locator("#correct-verdict")).to_contain_text("36 °C")


def test_a_text_is_carried_as_it_is_shown(page, site, reference):
    page.goto(site + "treatments/")
    page.locator("#soak ~ ul li").first.locator("a.correct").click()
    page.wait_for_selector("article.correct-page[data-ready]")
    given = {key: value for key, (value,) in parse_qs(urlsplit(page.url).query).items()}
    soak = reference.treatments["soak"]
    assert given["file"] == soak.file and given["line"] == str(soak.lines["evidence.0"])
    assert given["shown"].endswith("…") and soak.evidence[0].text.startswith(given["shown"][:-1]) and len(given["shown"]) <= 120


def test_links_are_not_printed_and_quiet_on_screen(page, site):
    page.goto(site + "crops/tomato/")
    links = page.locator("a.correct:visible")
    assert links.count() > 20
    size = page.evaluate("parseFloat(getComputedStyle(document.querySelector('dl.glance a.correct')).fontSize) / parseFloat(getComputedStyle(document.querySelector('dl.glance dd')).fontSize)")
    assert size < 0.8
    assert page.evaluate("[...document.querySelectorAll('dl.glance a.correct')].every(a => a.getBoundingClientRect().height >= 24)")
    page.emulate_media(media="print")
    assert page.locator("a.correct:visible, a.line:visible").count() == 0


# The three ways


def test_the_addresses_of_the_three_ways_are_exact(page, site, reference, root):
    given = lettuce_maximum(reference)
    open_page(page, site, **given)
    page.locator("#correct-should-be").fill("35")
    page.locator("#correct-printed").fill("A & B: Table 2,\nyear 1999? “p. 3” #4")
    page.locator("#correct-name").fill("Ada Quill")
    host = reference.library["repository_url"]
    assert page.locator(".correct-open-line").get_attribute("href") == f"{host}/{reference.library['repository_edit_path']}{given['file']}#L{given['line']}"
    form = page.locator(".correct-open-form").get_attribute("href")
    assert form.startswith(f"{host}/issues/new?template=correct-a-value.yml&")
    sent = dict(parse_qsl(urlsplit(form).query))
    assert sent == {
        "template": "correct-a-value.yml", "crop": "lettuce", "quantity": "Maximum soil temperature", "shown": given["shown"], "should_be": "35 °C",
        "source": "A & B: Table 2,\nyear 1999? “p. 3” #4", "file": f"{given['file']}, line {given['line']}",
    }
    fields = yaml.safe_load((root / ".github/ISSUE_TEMPLATE/correct-a-value.yml").read_text(encoding="utf-8"))["body"]
    by_id = {field["id"]: field for field in fields if "id" in field}
    assert set(sent) - {"template"} == set(by_id) and f"{sent['quantity']};" in by_id["quantity"]["attributes"]["description"]
    assert all(by_id[name]["type"] in ("input", "textarea") for name in sent if name != "template")  # lists can't be filled in
    mail = page.locator(".correct-mail").get_attribute("href")
    assert mail.startswith(f"mailto:{reference.library['contact_email']}?subject=Correction%3A%20Lettuce%2C%20Maximum%20soil%20temperature&body=")
    body = dict(parse_qsl(urlsplit(mail).query))["body"]
    for line in ("Crop: Lettuce (lettuce)", "It should be: 35 °C", "Printed in, or known from: A & B: Table 2,", f"File: {given['file']}, line {given['line']}", "Name to thank: Ada Quill", f"Data version: {reference.library['data_version']}"):
        assert line in body.split("\r\n"), line
    assert "\n" not in body.replace("\r\n", "")
    text = page.locator("#correct-message").input_value()
    assert text == f"Correction: Lettuce, Maximum soil temperature\n\n{body.replace(chr(13), '')}\n"


@pytest.mark.parametrize("file, quantity, named", [
    ("data/treatments/soak.yml", "", "A pretreatment"), ("data/sources/cfr-201-31/source.yml", "", "A published source and the tables read from it"),
    ("data/sources/cfr-201-31/minimum-germination.csv", "minimum-germination", "Minimum germination"), ("data/crops/tomato.yml", "notes", "Notes"),
])
def test_the_form_is_told_what_it_is_about(page, site, file, quantity, named):
    open_page(page, site, file=file, line="3", **({"quantity": quantity} if quantity else {}))
    assert parameters(page, ".correct-open-form")["quantity"] == named


def test_the_text_is_copied(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    page.locator("#correct-should-be").fill("35")
    page.get_by_role("button", name="Copy the text").click()
    expect(page.locator(".correct-copied")).to_have_text("Copied.")
    assert page.evaluate("navigator.clipboard.readText()").replace("\r\n", "\n") == page.locator("#correct-message").input_value()


def test_where_copying_is_forbidden_the_text_is_selected(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    page.evaluate("Object.defineProperty(navigator, 'clipboard', {value: {writeText: () => Promise.reject(new Error('no'))}, configurable: true})")
    page.get_by_role("button", name="Copy the text").click()
    expect(page.locator(".correct-copied")).to_contain_text("copy it by hand")
    assert page.evaluate("document.activeElement.selectionEnd - document.activeElement.selectionStart") == len(page.locator("#correct-message").input_value())


def test_a_text_too_long_for_an_address_is_said(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    page.locator("#correct-printed").fill("°" * 600)
    expect(page.locator(".correct-mail")).to_contain_text("paste the text below")
    assert "body=" not in page.locator(".correct-mail").get_attribute("href")
    assert page.locator("#correct-message").input_value().count("°") > 600


# What is printed


def test_a_fahrenheit_value_becomes_the_half_degree_of_the_data(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    page.locator("#correct-unit").select_option("f")
    page.locator("#correct-should-be").fill("85")
    expect(page.locator("#correct-verdict")).to_contain_text("That is the value shown now. 29.5 °C (85 °F) lies inside")
    assert parameters(page, ".correct-open-form")["should_be"] == "85 °F, which the data holds as 29.5 °C (85 °F)"
    page.locator("#correct-should-be").fill("30 °C")  # a unit typed goes before the one chosen
    expect(page.locator("#correct-verdict")).to_contain_text("30 °C (86 °F) lies inside")
    assert parameters(page, ".correct-open-form")["should_be"] == "30 °C"
    page.locator("#correct-should-be").fill("warm")
    expect(page.locator("#correct-verdict")).to_have_text("")


def test_a_depth_in_inches_becomes_whole_millimetres(page, site, reference):
    tomato = reference.crops["tomato"]
    open_page(page, site, crop="tomato", quantity="sowing_depth_mm", file=tomato.file, line=str(tomato["sowing_depth_mm"].line))
    assert page.locator("#correct-unit option").all_inner_texts() == ["mm", "inches"]
    page.locator("#correct-should-be").fill("½")
    page.locator("#correct-unit").select_option("in")
    expect(page.locator("#correct-verdict")).to_contain_text("That is the value shown now. 13 mm lies inside")
    assert parameters(page, ".correct-open-form")["should_be"] == "½ inches, which the data holds as 13 mm"
    page.locator("#correct-should-be").fill("6 mm")
    assert parameters(page, ".correct-open-form")["should_be"] == "6 mm"


def test_inches_are_those_of_the_model(page, modules):
    """Each eighth of an inch up to four, against units.py: its millimetres name the same mark of the ruler."""
    page.goto(modules)
    marks = [inches(eighths * 25.4 / 8) for eighths in range(1, 33)]
    got = page.evaluate("async ([base, marks]) => { const { millimetres } = await import(`${base}correct/typed.js`); return marks.map(millimetres); }", [modules, marks])
    assert [inches(mm) for mm in got] == marks and [abs(mm - eighths * 25.4 / 8) <= 0.5 for eighths, mm in enumerate(got, 1)] == [True] * 32


def test_outside_what_is_printed_is_said_and_asks_for_a_reason(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    reason = page.locator("#correct-reason")
    expect(reason).to_be_hidden()
    page.locator("#correct-should-be").fill("45")
    verdict = page.locator("#correct-verdict")
    expect(verdict).to_contain_text("45 °C (113 °F) is outside what is printed: 24–35 °C")
    expect(verdict).to_contain_text("departs")
    expect(reason).to_be_visible()
    reason.fill("Measured here, 400 seeds.")
    assert parameters(page, ".correct-open-form")["source"] == "Measured here, 400 seeds."
    assert "Why it is right all the same: Measured here, 400 seeds." in page.locator("#correct-message").input_value()
    page.locator("#correct-should-be").fill("30")
    expect(reason).to_be_hidden()
    assert "Measured here" not in page.locator("#correct-message").input_value()


def test_the_present_value_and_each_family_are_shown(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    standing = page.locator(".correct-standing")
    expect(standing).to_contain_text("Now: 29.5 °C (85 °F).")
    families = reference.crops["lettuce"]["maximum_c"].families
    assert standing.locator("li").count() == len(families)
    said = standing.locator("ul").text_content()
    printed = [item for family in families for item in family.printed]
    assert all(item.as_printed in said for item in printed)
    addresses = [dict(parse_qsl(urlsplit(a).query)) for a in standing.locator("a.correct").evaluate_all("links => links.map((a) => a.href)")]
    assert sorted((a["file"], a["line"]) for a in addresses) == sorted((item.file, str(item.line)) for item in printed)
    standing.locator("summary").click()
    standing.locator("a.correct").first.click()  # a printed value may be copied wrongly too
    page.wait_for_url(re.compile(r"[?&]file=data%2Fsources"))
    page.wait_for_selector("article.correct-page[data-ready]")
    assert page.locator(".correct-open-line").get_attribute("href").endswith(f"{addresses[0]['file']}#L{addresses[0]['line']}")
    expect(page.locator(".correct-given")).to_contain_text(families[0].printed[0].as_printed)
    open_page(page, site, crop="lettuce", quantity="light", file="data/crops/lettuce.yml", line="20")
    page.locator("#correct-should-be").fill("dark")
    expect(page.locator("#correct-verdict")).to_contain_text("dark")
    unknown = next(c for c in reference.crops.values() if not c["sowing_depth_mm"].known)
    open_page(page, site, crop=unknown.id, quantity="sowing_depth_mm", file=unknown.file, line="1")
    expect(standing).to_contain_text("No published value is shown here yet")


def test_the_browser_judges_as_the_check_does(page, modules, built, reference, root):
    """Twin of check/evidence.py: every value of every crop, moved a little and a lot."""
    page.goto(modules)
    printed, cases = collect(read_tree(root / "data")), []
    for crop in reference.crops.values():
        published = json.loads((built / "api" / "v1" / "crops" / f"{crop.id}.json").read_text(encoding="utf-8"))["crop"]["values"]
        for quantity in QUANTITIES:
            judged, items = crop[quantity], printed.get((crop.id, quantity), ())
            if not judged.known:
                continue
            families = published[quantity]["families"]
            if quantity in CHOICES:
                tried = [{"choice": word} for word in reference.choices[quantity]]
            else:
                tried = [{"low": judged.low + by, "high": judged.high + by} for by in (0, 0.25, -0.25, 0.5, -0.5, 1, -2, 5, -20, 20)]
            for value in tried:
                found = compare({**value, "sources": ["from memory"]}, items)
                counted = [f for f in found.families if f.counts] or list(found.families)
                cases.append([value, families, None if not counted else [found.status == "departs", sum(f.stands in ("inside", "same") for f in counted), len(counted)]])
    assert len(cases) > 5000 and sum(c[2] is not None and c[2][0] for c in cases) > 500
    wrong = page.evaluate("""async ({base, cases}) => {
      const { compare } = await import(`${base}correct/standing.js`);
      return cases.map(([value, families, want]) => {
        const got = compare(value, families);
        return [JSON.stringify(got === null ? null : [got.outside, got.inside, got.families]), JSON.stringify(want), value];
      }).filter(([got, want]) => got !== want);
    }""", {"base": modules, "cases": json.loads(json.dumps(cases))})
    assert wrong == [], wrong[:3]


def test_half_degrees_are_those_of_the_data(page, modules):
    page.goto(modules)
    typed = [round(-40 + 0.1 * i, 1) for i in range(1900)]
    got = page.evaluate("""async ({base, typed}) => {
      const { celsiusFromFahrenheit, halfDegree } = await import(`${base}correct/typed.js`);
      return typed.map((value) => [celsiusFromFahrenheit(value), halfDegree(value)]);
    }""", {"base": modules, "typed": typed})
    assert all(tuple(pair) == (celsius_from_fahrenheit(value), half_degree(value)) for value, pair in zip(typed, got))


@pytest.mark.parametrize("typed, unit, read", [
    ("10", "c", [10, 10]), ("10,5", "c", [10.5, 10.5]), ("50", "f", [10, 10]), ("9.9", "c", [10, 10]),
    ("½", "in", [13, 13]), ("1/2", "in", [13, 13]), ("1 1/2", "in", [38, 38]), ("1½", "in", [38, 38]), ("¼–½", "in", [6, 13]), ("1/4 to 1/2", "in", [6, 13]), ("0.5", "in", [13, 13]), ("0", "in", [0, 0]), ("1/0", "in", None), ("⅛⅛", "in", None), ("60–85", "f", [15.5, 29.5]), ("−8 to −6", "", [-8, -6]), ("-8--6", "", [-8, -6]), ("6-13", "mm", [6, 13]), ("4 years", "", [4, 4]),
    ("13-6", "", [6, 13]), ("ten", "", None), ("1e3", "", None), ("99999", "", None), ("", "", None), ("10 or 20", "", None),
])
def test_what_is_typed_is_read_as_meant(page, modules, typed, unit, read):
    page.goto(modules)
    got = page.evaluate("async ([base, typed, unit]) => (await import(`${base}correct/typed.js`)).readTyped(typed, unit)", [modules, typed, unit])
    assert (got and [got["low"], got["high"]]) == read


# A hostile address

CANARY = "<img src=x onerror=canary()>"
HOSTILE = [
    {"crop": CANARY}, {"quantity": CANARY}, {"shown": CANARY}, {"source": CANARY}, {"source": "javascript:canary()"},
    {"file": "data/../../etc/passwd", "line": "1"}, {"file": "https://evil.example/data/x", "line": "1"}, {"file": "data/crops/..%2f..%2fx.yml", "line": "1"}, {"file": "data//evil.example", "line": "1"},
    {"file": "data/./x.yml", "line": "2"}, {"file": "data/crops/tomato.yml\n", "line": "1\n2"}, {"file": "DATA/crops/tomato.yml", "line": "1"}, {"file": "data/crops/tomato.yml", "line": "-1"},
    {"file": "data/crops/tomato.yml", "line": "1e3"}, {"file": "data/crops/tomato.yml", "line": "1#L2"}, {"file": "data/crops/tomato.yml?x=//evil.example", "line": "1"}, {"file": "data/" + "a" * 400, "line": "1"},
    {"crop": "../../../evil", "quantity": "__proto__"}, {"crop": "constructor", "quantity": "constructor"}, {"shown": "x" * 5000}, {"shown": "a\u202eb\u0000c"}, {"quantity": "toString"},
]


@pytest.mark.parametrize("parts", HOSTILE, ids=[f"{i}-{'-'.join(p)}" for i, p in enumerate(HOSTILE)])
def test_a_hostile_address_does_nothing(browser, site, reference, parts):
    with watched_context(browser, site) as (context, trouble):
        context.add_init_script("window.canary = () => { document.documentElement.dataset.canary = 'sung'; };")
        page = context.new_page()
        open_page(page, site, **parts)
        page.locator("#correct-should-be").fill("12")
        assert page.evaluate("document.documentElement.dataset.canary") is None
        article = page.locator("article.correct-page")
        assert article.locator("img, iframe, object, embed, svg").count() == 0
        host = reference.library["repository_url"]
        for address in article.locator("a").evaluate_all("links => links.map((a) => a.href)"):
            assert address.startswith((site, f"{host}/edit/main/data/", f"{host}/issues/new?template=correct-a-value.yml", f"mailto:{reference.library['contact_email']}?")) or address == host, address
        refused = set(parts) - {"shown", "source"}
        if "line" in parts or refused & {"crop"} and CANARY in parts.values() or any(len(text) > 300 for text in parts.values()):
            expect(page.locator(".correct-odd")).to_be_visible()
            expect(page.locator(".correct-odd")).to_contain_text("It is left out.")
        if "line" in parts:
            assert page.locator(".correct-open-line").get_attribute("href") == host
        # A crop that is none is asked for once and not found: that is all the browser may complain of.
        assert [line for line in trouble if "404" not in line] == []


def test_a_repeated_parameter_is_left_out(page, site):
    page.goto(site + "correct/?file=data/crops/tomato.yml&file=data/crops/pea.yml&line=3")
    page.wait_for_selector("article.correct-page[data-ready]")
    expect(page.locator(".correct-odd")).to_contain_text("more than once")
    assert page.locator(".correct-open-line").inner_text() == "Open the data files"


# Without scripts, on a phone, for everybody


def test_without_scripts_the_page_explains_the_ways(browser, site, reference):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site + "correct/?crop=lettuce&file=data/crops/lettuce.yml&line=3")
    expect(page.get_by_text("Where they are off, write these things")).to_be_visible()
    assert page.locator(".correct-way").count() == 3 and not page.locator(".correct-form").is_visible()
    assert page.locator(".correct-mail").get_attribute("href") == f"mailto:{reference.library['contact_email']}?subject=Correction"
    assert page.locator(".correct-open-form").get_attribute("href") == f"{reference.library['repository_url']}/{reference.library['form_path']}"
    context.close()


def test_nothing_typed_is_sent(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    address = page.url
    for field in ("should-be", "printed", "name"):
        page.locator(f"#correct-{field}").fill("ZZTOP")
        page.locator(f"#correct-{field}").press("Enter")
    assert asked == [] and page.url == address
    assert page.evaluate("JSON.stringify([{...localStorage}, {...sessionStorage}])").count("ZZTOP") == 0


@pytest.mark.parametrize("path", ["correct/", "correct/?crop=lettuce&quantity=maximum_c&file=data/crops/lettuce.yml&line=20&shown=" + "m" * 300, "fields/", "credits/", "contributing/"])
def test_no_page_for_contributors_is_wider_than_a_phone(path, browser, site):
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(site + path)
    page.wait_for_function(STANDS)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    context.close()


def test_every_field_has_a_label_and_the_verdict_is_announced(page, site, reference):
    open_page(page, site, **lettuce_maximum(reference))
    page.locator("#correct-should-be").fill("45")
    unnamed = page.evaluate("[...document.querySelectorAll('.correct-page :is(input, select, textarea)')].filter((f) => !f.labels.length && !f.getAttribute('aria-label')).length")
    assert unnamed == 0
    assert page.locator("#correct-verdict").get_attribute("aria-live") == "polite"
    assert re.search(r"\bcorrect-verdict\b", page.locator("#correct-should-be").get_attribute("aria-describedby"))
