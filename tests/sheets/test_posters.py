"""Posters: every kind on every paper in every unit, nothing cut, nothing overlapping, every number that of the model, tagged and embedded."""

import io
import re
from dataclasses import replace
from datetime import datetime

import pdfplumber
import pytest
from pdfminer.pdftypes import resolve1

from build_tools.render.sheets import fonts, frame
from build_tools.render.sheets.marks import flat
from build_tools.render.sheets.palette import PALETTE
from build_tools.render.sheets.paper import PAPERS, poster_sheet
from build_tools.render.sheets.poster_data import UNITS
from build_tools.render.sheets.posters import (
    POSTERS,
    page_data,
    poster_pages,
    poster_pdf,
    steps_pages_of,
)
from build_tools.render.sheets.type_sizes import type_sizes
from build_tools.render.sheets.typeset import forget

from .boxes import POINTS, missing_in_pdf, outside, overlapping

KINDS = [(poster.name, orientation) for poster in POSTERS.values() for orientation in poster.orientations]
OF_CROPS = [(name, orientation) for name, orientation in KINDS if POSTERS[name].of_crops]


@pytest.fixture(scope="module")
def data(reference):
    return page_data(reference)


def pages_of(reference, data, poster, paper, orientation, units, crops=None):
    if POSTERS[poster].of_crops:
        return poster_pages(data, poster, paper, orientation, units, crops)
    return steps_pages_of(reference, poster, paper, orientation, units)


def fahrenheit(celsius):
    """°F to the nearest whole degree, as anybody would reckon it."""
    return f"{int(celsius * 9 / 5 + 32.5)}"


# Paper sizes in mm: ISO 216:2007 (A series); ANSI/ASME Y14.1 sizes A and B; 24 × 36 in is 609.6 × 914.4 mm.
PUBLISHED_SIZES = {"A2": (420, 594), "A3": (297, 420), "A4": (210, 297), "Letter": (215.9, 279.4), "Tabloid": (279.4, 431.8), "24x36": (609.6, 914.4)}


def test_papers_have_their_published_sizes():
    assert {paper: tuple(sides) for paper, sides in PAPERS.items()} == PUBLISHED_SIZES


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("poster, orientation", KINDS)
def test_one_page_nothing_outside_nothing_overlapping(reference, data, poster, orientation, units):
    for paper in PAPERS:
        sheet, pages = poster_sheet(paper, orientation), pages_of(reference, data, poster, paper, orientation, units)
        assert len(pages) == 1, paper
        assert outside(pages[0], sheet.width, sheet.height, frame.MARGIN) == [], paper
        assert overlapping(pages[0]) == [], paper


@pytest.mark.parametrize("poster, orientation", KINDS)
def test_marks_stay_on_the_sheet(reference, data, poster, orientation):
    for paper in PAPERS:
        sheet = poster_sheet(paper, orientation)
        for mark in flat(pages_of(reference, data, poster, paper, orientation, "both")[0]):
            if mark["mark"] in ("rect", "picture"):
                assert mark["width"] > 0 and mark["height"] > 0
                assert 0 <= mark["x"] and mark["x"] + mark["width"] <= sheet.width and 0 <= mark["y"] and mark["y"] + mark["height"] <= sheet.height


def open_pdf(content):
    return pdfplumber.open(io.BytesIO(content))


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("poster, orientation", KINDS)
def test_every_pdf_is_one_page_of_its_size_tagged_with_fonts_embedded(reference, data, poster, orientation, units):
    for paper in PAPERS:
        content = poster_pdf(reference, poster, paper, orientation, units, data=data)
        with open_pdf(content) as pdf:
            assert len(pdf.pages) == 1
            sides = PUBLISHED_SIZES[paper] if orientation == "portrait" else PUBLISHED_SIZES[paper][::-1]
            assert [pdf.pages[0].width, pdf.pages[0].height] == pytest.approx([side * POINTS for side in sides], abs=0.1)
            check_tagged(pdf, content)
            assert embedded_fonts(pdf) == {"SourceSansPro-Regular", "SourceSansPro-Semibold"}


def check_tagged(pdf, content):
    """What PDF/UA-1 (ISO 14289-1) asks of the file: marked, a structure tree, a language, a title shown, and its own claim in the metadata."""
    catalog = pdf.doc.catalog
    assert resolve1(catalog["MarkInfo"])["Marked"] is True
    assert "StructTreeRoot" in catalog and catalog["Lang"] == b"en"
    assert resolve1(catalog["ViewerPreferences"])["DisplayDocTitle"] is True
    assert b"<pdfuaid:part>1</pdfuaid:part>" in resolve1(catalog["Metadata"]).get_data()
    assert b"CreationDate" not in content


def embedded_fonts(pdf):
    """Names of fonts, each of which must carry its own font file."""
    names = set()
    for page in pdf.pages:
        for font in resolve1(resolve1(page.page_obj.resources)["Font"]).values():
            for descendant in resolve1(resolve1(font)["DescendantFonts"]):
                descriptor = resolve1(resolve1(descendant)["FontDescriptor"])
                assert "FontFile2" in descriptor or "FontFile3" in descriptor
                names.add(descriptor["FontName"].name.split("+")[1])
    return names


@pytest.mark.parametrize("poster, paper, orientation, units", [
    ("bands", "A3", "portrait", "both"), ("bands", "Letter", "landscape", "F"), ("days", "Tabloid", "portrait", "both"), ("days", "A2", "portrait", "C"),
    ("seed-life", "A4", "landscape", "C"), ("steps", "24x36", "landscape", "F"), ("towel-test", "Letter", "portrait", "both"), ("steps", "A4", "portrait", "C"),
])
def test_every_text_stands_whole_at_its_place_in_the_pdf(reference, data, poster, paper, orientation, units):
    pages = pages_of(reference, data, poster, paper, orientation, units)
    with open_pdf(poster_pdf(reference, poster, paper, orientation, units, data=data)) as pdf:
        assert missing_in_pdf(pdf.pages[0], pages[0], poster_sheet(paper, orientation).scale) == []


def rows_by_name(marks):
    """Crop name → the texts of its row, by the groups of a poster."""
    rows = {}
    for group in (mark for mark in marks if mark["mark"] == "group"):
        name = " ".join(next(m["lines"] for m in group["marks"] if m["mark"] == "lines"))
        rows[name] = [m["text"] for m in group["marks"] if m["mark"] == "text"]
    return rows


def numbers_of(low, high, unit):
    """A temperature or a range as the poster should print it, reckoned here from the model's °C."""
    if low is None:
        return "–"
    shown = [f"{v:g}" if unit == "C" else fahrenheit(v) for v in (low, high)]
    return shown[0] if shown[0] == shown[1] else "–".join(shown)


@pytest.mark.parametrize("unit", ["C", "F"])
def test_every_band_is_that_of_the_model(reference, data, unit):
    rows = rows_by_name(poster_pages(data, "bands", "A3", "portrait", unit)[0])
    for crop in reference.crops.values():
        low, best_low, best_high, optimum, high = (crop[q].low for q in ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c"))
        if all(v is None for v in (low, best_low, optimum, high)):
            assert crop.name not in rows
            continue
        best = numbers_of(best_low, best_high, unit) if best_low is not None else "–" if optimum is None else f"near {numbers_of(optimum, optimum, unit)}"
        assert rows.pop(crop.name) == [numbers_of(low, low, unit), best, numbers_of(high, high, unit)]
    assert rows == {}


def test_both_units_stand_one_above_the_other(data, reference):
    rows = rows_by_name(poster_pages(data, "bands", "A3", "portrait", "both")[0])
    crop = reference.crops["tomato"]
    assert rows["Tomato"][:2] == [f"{crop['minimum_c'].low:g} °C", f"{fahrenheit(crop['minimum_c'].low)} °F"]


def test_bands_are_drawn_where_their_numbers_say(reference, data):
    """A band's edges, read back from the marks by the axis's own ticks, are the model's temperatures."""
    marks = poster_pages(data, "bands", "A2", "landscape", "C", ["tomato"])[0]
    ticks = {m["text"]: m["x"] for m in flat(marks) if m["mark"] == "text" and m["text"] in ("0", "10", "20", "30", "40")}
    a_degree = (ticks["40"] - ticks["0"]) / 40
    group = next(m for m in marks if m["mark"] == "group")
    parts = {m["fill"]: (m["x"], m["x"] + m["width"]) for m in group["marks"] if m["mark"] == "rect"}
    crop = reference.crops["tomato"]
    for part, edge, quantity in (("slow", 0, "minimum_c"), ("best", 0, "optimum_low_c"), ("best", 1, "optimum_high_c"), ("hot", 0, "maximum_c")):
        assert (parts[part][edge] - ticks["0"]) / a_degree == pytest.approx(crop[quantity].low, abs=0.01)


def test_measured_days_are_those_of_the_model(reference, data):
    rows = rows_by_name(poster_pages(data, "days", "A3", "portrait", "C")[0])
    for crop in reference.crops.values():
        if crop.days:
            cells = [c for c in crop.days[0].cells if c.state != "blank"]
            printed = [(f"{c.value:g}" if c.state == "measured" else {"no germination": "none", "not tested": "–", "doubtful": "?"}[c.state]) + (" ?" if c.doubt and c.state != "doubtful" else "") for c in cells]
            assert rows[crop.name] == printed


# Harrington and Minges 1954, as reprinted by Oregon State University: days to emergence of tomato and lettuce at 15, 20 and 25 °C.
@pytest.mark.parametrize("name, published", [("Tomato", ["14", "8", "6"]), ("Lettuce", ["4", "3", "2"])])
def test_days_are_those_published(data, name, published):
    rows = rows_by_name(poster_pages(data, "days", "A3", "portrait", "C")[0])
    assert rows[name][3:6] == published


def test_days_have_the_shade_of_their_number(data):
    for group in (m for m in poster_pages(data, "days", "A3", "portrait", "C")[0] if m["mark"] == "group"):
        shades = [m["fill"] for m in group["marks"] if m["mark"] == "rect"]
        days = [float(m["text"].removesuffix(" ?")) for m in group["marks"] if m["mark"] == "text" and re.fullmatch(r"\d+( \?)?", m["text"])]
        assert len(shades) == len(days)
        for shade, value in zip(shades, days, strict=True):
            assert shade == ("days-1" if value <= 3 else "days-2" if value <= 7 else "days-3" if value <= 14 else "days-4" if value <= 30 else "days-5")


def test_seed_life_is_that_of_the_model_a_block_a_year(reference, data):
    for group in (m for m in poster_pages(data, "seed-life", "A3", "portrait", "C")[0] if m["mark"] == "group"):
        name = " ".join(next(m["lines"] for m in group["marks"] if m["mark"] == "lines"))
        years = next(c for c in reference.crops.values() if c.name == name)["seed_life_years"]
        assert len([m for m in group["marks"] if m["mark"] == "rect"]) == years.high == years.low
        assert [m["text"] for m in group["marks"] if m["mark"] == "text"] == [f"{years.low:g} year{'' if years.low == 1 else 's'}"]


@pytest.mark.parametrize("poster, key", [("bands", "band"), ("days", "days"), ("seed-life", "life")])
def test_every_crop_is_shown_or_named_as_unknown(data, poster, key):
    marks = poster_pages(data, poster, "A3", "portrait", "both")[0]
    small = " ".join(" ".join(m["lines"]) for m in flat(marks) if m["mark"] == "lines" and m["ink"] == "soft")
    shown = {" ".join(m["lines"]) for m in flat(marks) if m["mark"] == "lines" and m["weight"] == 600}
    for crop in data["crops"]:
        assert (crop["name"] in shown) == (crop[key] is not None)
        if crop[key] is None:
            assert crop["name"] in small


@pytest.mark.parametrize("poster, orientation", KINDS)
def test_foot_names_library_site_version_and_sources(reference, data, poster, orientation):
    marks = list(flat(pages_of(reference, data, poster, "A3", orientation, "both")[0]))
    words = " ".join(m["text"] if m["mark"] == "text" else " ".join(m["lines"]) for m in marks if m["mark"] in ("text", "lines"))
    library = reference.library
    for part in (library["name"], library["address_line"], library["site_url"], f"Data version {library['data_version']}, {datetime.strptime(library['data_version'], '%Y.%m'):%B %Y}.", "Sources: "):
        assert part in words
    assert any(m["mark"] == "picture" and m["name"] == "code" for m in marks)


def test_the_code_holds_the_address(reference):
    """Read back by the module matrix of the reference encoder at the same settings, from the path the sheet draws."""
    import segno

    from build_tools.render.sheets.posters import code_svg

    address = str(reference.library["site_url"])
    expected = segno.make(address, error="m", micro=False)
    svg = code_svg(address)
    assert f'width="{expected.symbol_size(border=0)[0]}"' in svg
    x = y = 0.0
    dark = set()
    for command, numbers in re.findall(r"([Mmh])([-\d. ]+)", re.search(r' d="([^"]+)"', svg)[1]):
        values = [float(v) for v in numbers.split()]
        if command == "M":
            x, y = values
        elif command == "m":
            x, y = x + values[0], y + values[1]
        else:
            dark |= {(int(x) + i, int(y)) for i in range(int(values[0]))}
            x += values[0]
    assert dark == {(column, row) for row, line in enumerate(expected.matrix) for column, module in enumerate(line) if module & 1}


def test_same_crops_same_bytes(reference, data):
    one = poster_pdf(reference, "bands", "A3", "portrait", "both", data=data)
    forget()
    assert one == poster_pdf(reference, "bands", "A3", "portrait", "both", data=page_data(reference))


def test_names_on_a2_can_be_read_at_two_metres(data):
    """At 2 m a capital of 10 minutes of arc is 5.8 mm high (tan of 10′ × 2,000 mm), 25 pt in this typeface."""
    sizes = {s["poster"].name: s for s in type_sizes(data) if s["paper"] == "A2"}
    for name in ("bands", "days", "seed-life"):
        assert sizes[name]["name_m"] >= 2.0 and sizes[name]["name_pt"] >= 25


def test_widths_are_those_of_the_typeface_in_the_pdf(reference, data):
    """The typesetter's own advance of a name, without kerning pairs in it, is what the layout reckoned with."""
    with open_pdf(poster_pdf(reference, "bands", "A2", "portrait", "C", data=data)) as pdf:
        chars = [c for c in pdf.pages[0].chars if c["text"] == "m" and "Semibold" in c["fontname"]]
        assert chars
        for char in chars[:5]:
            assert char["adv"] / char["size"] * 1000 == pytest.approx(fonts.widths()["600"]["m"], abs=1.5)


def test_colours_are_those_of_the_site_in_print(root):
    printed = (root / "docs" / "assets" / "css" / "site.css").read_text(encoding="utf-8").split("@media print", 1)[1]
    css = dict(re.findall(r"--([\w-]+):\s*(#[0-9a-fA-F]{3,6})", printed))
    for name in ("ink", "paper", "on-best", "on-light", "on-hot", *(f"band-{p}" for p in ("cold", "slow", "best", "fading", "hot", "line"))):
        long = "#" + "".join(c * 2 for c in css[name][1:]) if len(css[name]) == 4 else css[name]
        assert PALETTE[name.removeprefix("band-")] == long, name


# Odd data

def odd(reference, count):
    """The model with `count` crops: the first without a maximum, the second with nothing known, the third with a name of 30 letters."""
    crops = list(reference.crops.values())
    nothing = {q: replace(v, low=None, high=None, choice=None, status="none", families=()) for q, v in crops[0].values.items()}
    made = [
        replace(reference.crops["tomato"], id="odd-1", name="No maximum", values={**reference.crops["tomato"].values, "maximum_c": nothing["maximum_c"]}),
        replace(reference.crops["tomato"], id="odd-2", name="Nothing known", values=nothing, days=(), rows={}),
        replace(reference.crops["spinach"], id="odd-3", name="Donaudampfschifffahrtsgemüse".ljust(30, "n")),
    ]
    made += [replace(crops[i % len(crops)], id=f"copy-{i}", name=f"{crops[i % len(crops)].name} {i}") for i in range(count - 3)]
    return replace(reference, crops={crop.id: crop for crop in made[:count]})


@pytest.mark.parametrize("count", [3, 300])
@pytest.mark.parametrize("poster, orientation", OF_CROPS)
def test_odd_crops_survive(reference, poster, orientation, count):
    odd_data = page_data(odd(reference, count))
    for paper in ("A2", "Letter"):
        sheet, pages = poster_sheet(paper, orientation), poster_pages(odd_data, poster, paper, orientation, "both")
        assert len(pages) == 1 if count == 3 else len(pages) > 1
        for page in pages:
            assert outside(page, sheet.width, sheet.height, frame.MARGIN) == [] and overlapping(page) == []
        names = [" ".join(m["lines"]) for page in pages for m in flat(page) if m["mark"] == "lines" and m["weight"] == 600]
        key = {"bands": "band", "days": "days", "seed-life": "life"}[poster]
        assert sorted(names) == sorted(c["name"] for c in odd_data["crops"] if c[key] is not None)
        if count == 300:
            assert f"({len(pages)} of {len(pages)})" in next(m["text"] for m in pages[-1] if m.get("level") == 1)


def test_a_crop_without_a_maximum_has_an_open_end(reference):
    marks = poster_pages(page_data(odd(reference, 3)), "bands", "A3", "portrait", "C", ["odd-1"])[0]
    group = next(m for m in marks if m["mark"] == "group")
    assert [m["fill"] for m in group["marks"] if m["mark"] == "rect"] == ["cold", "slow", "best"]
    assert [m["text"] for m in group["marks"] if m["mark"] == "text"][-1] == "–"
    assert "most" not in group["alt"]


def test_300_crops_make_a_pdf_of_several_pages(reference):
    many = odd(reference, 300)
    with open_pdf(poster_pdf(many, "bands", "A3", "portrait", "both")) as pdf:
        pages = poster_pages(page_data(many), "bands", "A3", "portrait", "both")
        assert len(pdf.pages) == len(pages) > 3
        assert missing_in_pdf(pdf.pages[-1], pages[-1], poster_sheet("A3", "portrait").scale) == []


def test_words_of_data_are_never_read_as_typesetting_code(reference):
    nasty = replace(reference, crops={"x": replace(reference.crops["tomato"], id="x", name='#panic("no") $x$ *b* <y> [z] \\ "q"')})
    with open_pdf(poster_pdf(nasty, "bands", "A4", "portrait", "C")) as pdf:
        assert '#panic("no")' in pdf.pages[0].extract_text()


@pytest.mark.parametrize("order", ["minimum", "optimum"])
def test_order_from_cold_to_warm(data, order):
    rows = list(rows_by_name(poster_pages(data, "bands", "A3", "portrait", "C", None, order)[0]))
    values = [next(c for c in data["crops"] if c["name"] == name)["band"]["order"][order] for name in rows]
    known = [v for v in values if v is not None]
    assert known == sorted(known) and values[: len(known)] == known and len(rows) == len(set(rows))
