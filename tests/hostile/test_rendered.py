"""A harmful text in every free field of the data stays a text: in pages, data files, tables, pictures, PDFs and the search."""

import csv
import io
import json
import re
import xml.etree.ElementTree as ElementTree

import pdfplumber
import pytest
from icalendar import Calendar

from build_tools.icalendar import calendar_text
from build_tools.render.sheets import fonts
from build_tools.spreadsheet import guarded

from .harm import Page
from .payloads import PAYLOADS

SHOWN_OF_A_CROP = re.compile(r"crops/([a-z0-9-]+)\.(names\.(common|botanical|family|other\.\d+)|(notes|cautions|disagreements|pretreatments)\.\d+\.text)")
LEAST_GIVEN = 5_000  # places with a harmful text; fewer means that fields have been lost


def plain(text: str) -> str:
    return " ".join(text.split())


def test_every_kind_of_file_and_of_text_is_there(spoiled):
    assert len(spoiled.given) > LEAST_GIVEN
    kinds = {re.split(r"[/.]", place)[0] for place in spoiled.given}
    assert kinds >= {"crops", "sources", "treatments", "library", "place", "posters", "cautions", "quantities", "other-kinds", "data", "demo", "docs", "guides", "figures", "glossary"}
    for text in PAYLOADS:
        assert any(text in given for given in spoiled.given.values()), text


def test_the_search_for_harm_finds_it():
    harmful = ('<b onclick="x">', "<img src=x>", "<p canary>", "<a href='JavaScript:x'>", "<script>canary()</script>", "<!-- canary -->", "<iframe>", '<p style="canary">', "<style>canary</style>", "<base href='/'>", "<canary-x>")
    assert all(Page(html).harm for html in harmful)
    assert not Page('<p title="canary()">&lt;img src=x onerror=canary()&gt;</p><script type="application/json">"canary()"</script>').harm


def test_no_page_takes_a_text_for_markup(spoiled):
    assert len(spoiled.pages) > 100
    assert {name: page.harm for name, page in spoiled.pages.items() if page.harm} == {}


def test_a_crops_page_shows_its_texts_letter_for_letter(spoiled):
    library, seen = spoiled.given["library.name"], 0
    for place, text in spoiled.given.items():
        if match := SHOWN_OF_A_CROP.fullmatch(place):
            page = spoiled.pages[f"crops/{match[1]}/index.html"]
            assert text in page.all_text, place
            seen += 1
            if match[2] == "names.common":
                assert plain(page.title).startswith(f"{text} - ") and library in page.title
                assert text in page.description and [text] == [heading.strip() for heading in page.headings]
    assert seen > 400


def test_a_guide_shows_its_texts_letter_for_letter(spoiled):
    """Markdown's own signs apart: stars, underlines, backticks, brackets and backslashes are notation there, and entities are letters."""
    seen = 0
    for place, text in spoiled.given.items():
        if place.startswith("docs/guides/") and not re.search(r"[*_`\\&\[\]]", text):
            name = place.removeprefix("docs/guides/").partition(":")[0]
            page = spoiled.pages["guides/index.html" if name == "index" else f"guides/{name}/index.html"]
            assert plain(text) in plain(page.all_text), (place, text)
            seen += 1
    assert seen > 200


@pytest.mark.parametrize("place, page", [
    (r"treatments/[a-z-]+\.(name|what)", "treatments/index.html"), (r"sources/[a-z0-9-]+/source\.(title|publisher|copy_read|verified)", "sources/index.html"),
    (r"cautions\.storage\.\d+\.text", "calculators/storage/index.html"), (r"place\.name", "calculators/sowing-times/index.html"),
])
def test_other_pages_show_theirs(place, page, spoiled):
    texts = {place_: text for place_, text in spoiled.given.items() if re.fullmatch(place, place_)}
    assert texts
    everything = spoiled.pages[page].all_text + "".join(str(json.loads(data)) for data in spoiled.pages[page].data)
    assert [place_ for place_, text in texts.items() if text not in everything] == []


def test_scripts_of_data_are_json(spoiled):
    found = [(name, data) for name, page in spoiled.pages.items() for data in page.data]
    assert len(found) > 100
    for name, data in found:
        json.loads(data)
        assert "<" not in data, name


def test_json_files_hold_the_texts_verbatim(spoiled):
    files = [path for path in spoiled.site.rglob("*.json")]
    assert len(files) > 80
    for path in files:
        json.loads(path.read_text(encoding="utf-8"))
    crops = {crop["id"]: crop for crop in json.loads((spoiled.site / "api/v1/crops.json").read_text(encoding="utf-8"))["crops"]}
    for crop in crops:
        assert crops[crop]["names"]["common"] == spoiled.given[f"crops/{crop}.names.common"]


def test_no_cell_of_a_table_is_a_formula(spoiled):
    files = [*spoiled.site.rglob("*.csv")]
    assert len(files) > 300
    for path in files:
        cells = [cell for row in csv.reader(io.StringIO(path.read_text(encoding="utf-8"))) for cell in row]
        harmful = [cell for cell in cells if cell.startswith(("=", "@", "\t", "\r")) or guarded(cell) != cell and re.search(r"[|!(]", cell)]
        assert harmful == [], path.name


def test_pictures_are_well_formed(spoiled):
    count = 0
    for path in spoiled.site.rglob("*.svg"):
        ElementTree.fromstring(path.read_text(encoding="utf-8"))
    for path in (spoiled.site / "crops").rglob("index.html"):
        for svg in _pictures(path.read_text(encoding="utf-8")):
            root = ElementTree.fromstring(svg if "xmlns=" in svg.partition(">")[0] else svg.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"', 1))
            assert {element.tag.rpartition("}")[2] for element in root.iter()} <= {"svg", "title", "desc", "g", "rect", "line", "path", "text", "tspan", "circle", "polygon", "polyline", "defs", "pattern", "use", "a", "ellipse"}
            count += 1
    assert count > 100


def _pictures(html: str) -> list[str]:
    """Every outermost picture of a page that has a title."""
    found, depth, start = [], 0, 0
    for tag in re.finditer(r"<svg\b|</svg>", html):
        if tag[0] == "<svg":
            start, depth = (start, depth + 1) if depth else (tag.start(), 1)
        else:
            depth -= 1
            if depth == 0 and 'role="img"' in html[start : html.index(">", start)]:
                found.append(html[start : tag.end()])
    return found


def test_the_search_index_holds_texts_and_no_markup(spoiled):
    docs = json.loads((spoiled.site / "search/search_index.json").read_text(encoding="utf-8"))["docs"]
    titles = {doc["location"]: doc["title"] for doc in docs}
    for doc in docs:  # both are put into the page as HTML
        assert "<" not in doc["title"], doc
        assert {tag.lower() for tag in re.findall(r"<\s*/?\s*([a-zA-Z!?][\w-]*)", doc["text"])} <= {"p", "li", "ul", "ol", "code", "pre", "sub", "sup"}, doc
    for place, text in spoiled.given.items():
        if place.startswith("crops/") and place.endswith(".names.common"):
            crop = place.removeprefix("crops/").removesuffix(".names.common")
            shown = Page(titles[f"crops/{crop}/"]).all_text
            assert shown == text


def test_the_site_map_is_xml(spoiled):
    assert len(ElementTree.fromstring((spoiled.site / "sitemap.xml").read_text(encoding="utf-8"))) > 100


def test_printed_sheets_say_the_texts_letter_for_letter(spoiled):
    """Names on cards and posters; a question mark stands for a letter that the typeface lacks."""
    names = {place.split("/")[1].split(".")[0]: text for place, text in spoiled.given.items() if re.fullmatch(r"crops/[a-z0-9-]+\.names\.common", place)}
    printed = {path.name: _words(path) for path in sorted(spoiled.site.glob("downloads/cards/*.pdf"))[:1] + sorted(spoiled.site.glob("downloads/posters/*.pdf"))[:3]}
    assert printed
    cards = next(words for name, words in printed.items() if "card" in name)
    lost = [name for name in names.values() if _squeezed(name) not in cards]
    assert lost == []


def _squeezed(text: str) -> str:
    return "".join(letter if letter in fonts.drawn() else "?" for letter in text if not letter.isspace())


def _words(path) -> str:
    with pdfplumber.open(path) as pdf:
        return "".join("".join(letter["text"] for letter in page.chars if not letter["text"].isspace()) for page in pdf.pages)


@pytest.mark.parametrize("text", [*PAYLOADS, "a\r\nBEGIN:VEVENT\r\nSUMMARY:x", "a;b,c\\n", "x\x00y"])
def test_a_calendar_file_keeps_a_text_inside_its_event(text):
    event = {"uid": "x@y", "first": "2026-05-01", "last": "2026-05-08", "summary": text, "description": text, "categories": [text]}
    written = calendar_text([event], "20261101T000000Z")
    calendar = Calendar.from_ical(written)
    events = calendar.walk("VEVENT")
    assert len(events) == 1
    wanted = text.replace("\r\n", "\n").replace("\x00", " ")
    assert str(events[0]["SUMMARY"]) == wanted == str(events[0]["DESCRIPTION"])
