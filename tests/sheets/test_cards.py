"""Crop cards: every size in every unit, nothing cut, nothing overlapping, every number that of the model, tagged and embedded."""

import re
from dataclasses import replace

import pytest

from build_tools.commands.__main__ import main
from build_tools.model.reference import Words
from build_tools.render import Rendered, crop_page, print_cards
from build_tools.render.environment import make_environment
from build_tools.render.rows import by_name
from build_tools.render.sheets.card_text import card_data
from build_tools.render.sheets.cards import DROPPED, CardMaker, card_pages, cards_pdf
from build_tools.render.sheets.cut_sheets import CUT_SHEETS, cut_marks
from build_tools.render.sheets.marks import flat
from build_tools.render.sheets.poster_data import UNITS
from build_tools.render.sheets.typeset import forget

from .boxes import POINTS, SLACK, missing_in_pdf, overlapping, text_boxes
from .test_posters import (
    check_tagged,
    embedded_fonts,
    fahrenheit,
    numbers_of,
    odd,
    open_pdf,
)

UNKNOWN = "no published value found"
# mm. ISO 216 (A4, A6), ANSI/ASME Y14.1 size A (Letter), 4 × 6 inches of 25.4 mm; the last two: cards to a page.
PUBLISHED = {"A6": (105, 148, 1), "4x6": (101.6, 152.4, 1), "A4-4": (210, 297, 4), "A4-8": (297, 210, 8), "Letter-4": (215.9, 279.4, 4), "Letter-8": (279.4, 215.9, 8)}
LEAST_POINTS = {"A6": 6.5, "4x6": 6.5, "A4-4": 6.5, "Letter-4": 6.5, "A4-8": 5.5, "Letter-8": 5.5}
LEAST_MARGIN = 5.0  # mm; what home printers leave blank at the edge is 3 to 5 mm (common practice, no source)


@pytest.fixture(scope="module")
def data(reference):
    return card_data(reference)


def words_of(marks):
    return [mark["text"] if mark["mark"] == "text" else " ".join(mark["lines"]) for mark in flat(marks) if mark["mark"] in ("text", "lines")]


def rows_of(marks):
    """What stands beside each label of a card, with plain spaces."""
    words = [w.replace("\u00a0", " ") for w in words_of(marks)]
    last = {name: place for place, name in enumerate(words)}  # "best" also stands over the band, which comes before
    return {name: words[last[name] + 1] for name in ("minimum", "best", "optimum", "maximum", "Sow above", "Days", "Depth", "Light", "Seed keeps", "First", "Towel test") if name in last}


def strays(marks, sheet):
    """Texts, pictures and frames of a card nearer to its edge than LEAST_MARGIN."""
    boxes = text_boxes(marks) + [(m["mark"], m["x"], m["y"], m["x"] + m["width"], m["y"] + m["height"]) for m in flat(marks) if m["mark"] in ("rect", "picture")]
    return [box[0] for box in boxes if box[1] < LEAST_MARGIN or box[2] < LEAST_MARGIN or box[3] > sheet.card_width - LEAST_MARGIN + SLACK or box[4] > sheet.card_height - LEAST_MARGIN + SLACK]


def covered(marks):
    """Texts that reach into the code to scan, or half out of a frame."""
    code = next(m for m in marks if m["mark"] == "picture")
    frames = [m for m in marks if m["mark"] == "rect" and m["edge"] == "ink"]
    bad = [b[0] for b in text_boxes(marks) if b[3] > code["x"] - 1.0 and b[4] > code["y"] - 1.0]
    for f in frames:
        for words, left, top, right, bottom in text_boxes(marks):
            meets = bottom > f["y"] + SLACK and top < f["y"] + f["height"] - SLACK
            if meets and not (left >= f["x"] and right <= f["x"] + f["width"] and top >= f["y"] - SLACK and bottom <= f["y"] + f["height"] + SLACK):
                bad.append(words)
    return bad


def check_card(marks, sheet):
    assert strays(marks, sheet) == []
    assert overlapping(marks) == []
    assert covered(marks) == []
    assert min(m["size"] for m in flat(marks) if m["mark"] in ("text", "lines")) * POINTS >= LEAST_POINTS[sheet.id] - 1e-6


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("size", CUT_SHEETS)
def test_every_card_keeps_inside_itself_and_drops_nothing(data, size, units):
    maker = CardMaker(data, CUT_SHEETS[size], units)
    for crop in data["cards"]:
        check_card(maker.marks(crop), maker.sheet)
        assert maker.dropped(crop) == (), crop


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("size", CUT_SHEETS)
def test_every_pdf_has_its_pages_and_size_tagged_with_fonts_embedded(reference, data, size, units):
    content = cards_pdf(reference, size, units, data=data)
    width, height, to_a_page = PUBLISHED[size]
    with open_pdf(content) as pdf:
        assert len(pdf.pages) == -(-len(reference.crops) // to_a_page)
        assert [pdf.pages[0].width, pdf.pages[0].height] == pytest.approx([width * POINTS, height * POINTS], abs=0.1)
        check_tagged(pdf, content)
        assert embedded_fonts(pdf) == {"SourceSansPro-Regular", "SourceSansPro-Semibold"}


@pytest.mark.parametrize("size, units, pages", [("A4-8", "both", 10), ("A6", "C", 3), ("Letter-4", "F", 1)])
def test_every_text_stands_whole_at_its_place_in_the_pdf(reference, data, size, units, pages):
    marks = card_pages(data, size, units, [crop.id for crop in by_name(reference)])
    with open_pdf(cards_pdf(reference, size, units, data=data)) as pdf:
        for page, wanted in list(zip(pdf.pages, marks, strict=True))[:pages]:
            assert missing_in_pdf(page, wanted, 1.0) == []


@pytest.mark.parametrize("unit", ["C", "F"])
@pytest.mark.parametrize("size", ["A6", "Letter-8"])
def test_every_number_is_that_of_the_model(reference, data, size, unit):
    maker = CardMaker(data, CUT_SHEETS[size], unit)
    for crop in reference.crops.values():
        rows, (low, best_low, best_high, optimum, high) = rows_of(maker.marks(crop.id)), (crop[q].low for q in ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c"))
        if any(v is not None for v in (low, best_low, optimum, high)):
            for name, ends in (("minimum", (low, low)), ("best", (best_low, best_high)), ("optimum", (optimum, optimum)), ("maximum", (high, high))):
                assert rows[name] == (UNKNOWN if ends[0] is None else f"{numbers_of(*ends, unit)} °{unit}"), (crop.id, name)
        else:
            assert "minimum" not in rows and f"Soil temperature: {UNKNOWN}" in words_of(maker.marks(crop.id))
        check_rows(reference, crop, rows, unit)


def check_rows(reference, crop, rows, unit):
    """Days, depth, light, seed life and towel test of a card, each reckoned anew from the model."""
    depth, life, method = crop["sowing_depth_mm"], crop["seed_life_years"], crop.method
    measured = {(f"{value:g}", f"{at:g}" if unit == "C" else fahrenheit(at)) for row in crop.days for at, value in row.points()}
    said = re.findall(r"(\d+) days? at (\S+) °", rows["Days"])
    assert set(said) <= measured and (said or "advised" in rows["Days"] or rows["Days"] == UNKNOWN)
    if not depth.known:
        assert rows["Depth"] == UNKNOWN
    elif depth.high == 0:
        assert rows["Depth"] == "on the surface"
    else:
        assert rows["Depth"].startswith(f"{depth.low:g}–{depth.high:g} mm (" if depth.low != depth.high else f"{depth.low:g} mm (")
    assert rows["Seed keeps"] == (f"about {numbers_of(life.low, life.high, 'C')} year{'' if life.low == life.high == 1 else 's'}" if life.known else UNKNOWN)
    assert (rows["Light"] == UNKNOWN) == (not crop["light"].known)
    if method and method.low_c is not None:
        assert rows["Towel test"].startswith(f"at {numbers_of(method.low_c, method.high_c, unit)} °{unit}")
    counts = [day for day in ((method.first_count_days, method.final_count_days) if method else ()) if day]
    assert re.findall(r"day (\d+)", rows["Towel test"]) == [str(day) for day in counts]
    if not counts:
        assert f"at least {reference.practice['towel_least_days']['value']:g} days, common practice" in rows["Towel test"]
    least, warm = crop["minimum_c"].low, reference.practice["warm_season_soil_c"]["value"]
    if least is not None:
        wanted = max(least, warm) if crop["season"].choice == "warm" else least
        assert rows["Sow above"].startswith(f"{numbers_of(wanted, wanted, unit)} °{unit}")
        assert ("common practice" in rows["Sow above"]) == (wanted > least)


# Harrington and Minges 1954, as reprinted by Oregon State University: days to emergence of tomato and of lettuce by °C (as in test_posters).
@pytest.mark.parametrize("crop, published", [("tomato", {"15": "14", "20": "8", "25": "6", "30": "6"}), ("lettuce", {"5": "15", "10": "7", "15": "4", "20": "3", "25": "2"})])
def test_days_are_those_published(data, crop, published):
    said = re.findall(r"(\d+) days? at (\S+) °C", rows_of(CardMaker(data, CUT_SHEETS["A6"], "both").marks(crop))["Days"])
    assert len(said) == 2 and all(published[at] == days for days, at in said)


@pytest.mark.parametrize("size", CUT_SHEETS)
def test_cautions_stand_in_full(reference, data, size):
    maker = CardMaker(data, CUT_SHEETS[size], "both")
    for crop in reference.crops.values():
        words = " ".join(words_of(maker.marks(crop.id))).replace("\u00a0", " ")
        assert all(caution.text in words for caution in crop.cautions)
        assert ("Take care." in words) == bool(crop.cautions)


@pytest.mark.parametrize("size", ["4x6", "A4-8"])
def test_names_library_address_version_and_code(reference, data, size):
    maker, own = CardMaker(data, CUT_SHEETS[size], "F"), reference.library
    for crop in reference.crops.values():
        marks = maker.marks(crop.id)
        words = " ".join(words_of(marks))
        for part in (crop.name, crop.botanical, *crop.other_names, own["name"], f"Data version {own['data_version']}"):
            assert part in words, (crop.id, part)
        address = f"{own['site_url']}crops/{crop.id}/"
        assert address.removeprefix("https://") in words.replace("/ ", "/")
        assert [m["alt"] for m in marks if m["mark"] == "picture"] == [f"Code to scan: {address}"]


def test_the_code_of_a_card_holds_its_page(reference, data):
    from build_tools.render.sheets.posters import code_svg

    assert data["codes"]["tomato"] == code_svg(f"{reference.library['site_url']}crops/tomato/")
    assert len(set(data["codes"].values())) == len(reference.crops)


def test_the_band_is_drawn_where_its_numbers_say(reference, data):
    """Edges read back from the marks by the ticks of the scale are the model's temperatures, and the diamond's tip is the optimum."""
    figure = next(m for m in CardMaker(data, CUT_SHEETS["A6"], "C").marks("tomato") if m["mark"] == "group")["marks"]
    ticks = {m["text"]: m["x"] for m in figure if m["mark"] == "text" and m["text"] in ("0", "40")}
    a_degree = (ticks["40"] - ticks["0"]) / 40
    parts = {m["fill"]: (m["x"], m["x"] + m["width"]) for m in figure if m["mark"] == "rect" and m["fill"]}
    crop = reference.crops["tomato"]
    for part, edge, quantity in (("slow", 0, "minimum_c"), ("best", 0, "optimum_low_c"), ("best", 1, "optimum_high_c"), ("hot", 0, "maximum_c")):
        assert (parts[part][edge] - ticks["0"]) / a_degree == pytest.approx(crop[quantity].low, abs=0.01)
    diamond = next(m for m in figure if m["mark"] == "polygon")["points"]
    assert (min(diamond, key=lambda p: p[1])[0] - ticks["0"]) / a_degree == pytest.approx(crop["optimum_c"].low, abs=0.01)


@pytest.mark.parametrize("size", [s for s in CUT_SHEETS if CUT_SHEETS[s].cards > 1])
def test_cut_marks_lie_on_the_edges_of_cards(size):
    sheet, found = CUT_SHEETS[size], cut_marks(CUT_SHEETS[size])
    assert len(found) == 2 * (sheet.columns - 1) + 2 * (sheet.rows - 1) + 2 * (sheet.columns - 1) * (sheet.rows - 1)
    for mark in found:
        upright = mark["x1"] == mark["x2"]
        at, step = (mark["x1"], sheet.card_width) if upright else (mark["y1"], sheet.card_height)
        assert at / step == pytest.approx(round(at / step)) and 0 < round(at / step) < (sheet.columns if upright else sheet.rows)
        assert abs(mark["y2"] - mark["y1"]) + abs(mark["x2"] - mark["x1"]) <= 10.0
    assert cut_marks(CUT_SHEETS["A6"]) == []


def test_cards_fill_sheets_row_by_row(data):
    page = card_pages(data, "A4-8", "C", ["tomato", "lettuce", "basil", "dill", "pea"])[0]
    places = {m["lines"][0]: (m["x"], m["y"]) for m in flat(page) if m.get("level") == 1}
    sheet = CUT_SHEETS["A4-8"]
    assert {name: (int(x // sheet.card_width), int(y // sheet.card_height)) for name, (x, y) in places.items()} == {"Tomato": (0, 0), "Lettuce": (1, 0), "Basil": (2, 0), "Dill": (3, 0), "Pea": (0, 1)}


def test_same_crops_same_bytes(reference, data):
    one = cards_pdf(reference, "A4-4", "both", data=data)
    forget()
    assert one == cards_pdf(reference, "A4-4", "both", data=card_data(reference))


# Odd data

@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("size", CUT_SHEETS)
def test_odd_crops_survive(reference, size, units):
    maker = CardMaker(card_data(odd(reference, 3)), CUT_SHEETS[size], units)
    for crop in ("odd-1", "odd-2", "odd-3"):
        check_card(maker.marks(crop), maker.sheet)
    assert rows_of(maker.marks("odd-1"))["maximum"] == UNKNOWN
    unknown = rows_of(maker.marks("odd-2"))
    assert {unknown[name] for name in ("Sow above", "Days", "Depth", "Light", "Seed keeps")} == {UNKNOWN}
    assert "nn" in words_of(maker.marks("odd-3"))[0]


def test_300_crops(reference):
    many = odd(reference, 300)
    with open_pdf(cards_pdf(many, "Letter-8", "both")) as pdf:
        assert len(pdf.pages) == 38  # 300 / 8, rounded up


def with_cautions(reference, sentences):
    crop = reference.crops["tomato"]
    text = " ".join(f"This is sentence {i} of a warning that goes on about gloves, labels, children and animals." for i in range(sentences))
    return replace(reference, crops={"tomato": replace(crop, cautions=(Words(text, ("common practice",)),))}), text


@pytest.mark.parametrize("size", CUT_SHEETS)
@pytest.mark.parametrize("sentences", [3, 8, 35])
def test_a_long_caution_is_whole_or_its_first_sentence(reference, size, sentences):
    long, text = with_cautions(reference, sentences)
    maker = CardMaker(card_data(long), CUT_SHEETS[size], "both")
    check_card(maker.marks("tomato"), maker.sheet)
    words = " ".join(words_of(maker.marks("tomato")))
    if "cautions in full" in maker.dropped("tomato"):
        assert "Take care: see the page. This is sentence 0 of a warning that goes on about gloves, labels, children and animals." in words and "sentence 1" not in words
        assert sentences > 3
    else:
        assert f"Take care. {text}" in words
    assert sentences < 35 or "cautions in full" in maker.dropped("tomato")


def test_rows_go_in_the_stated_order_and_the_card_says_which(reference):
    crop = reference.crops["tomato"]
    crowded = replace(crop, other_names=tuple(f"Very long other name number {i}" for i in range(60)))
    maker = CardMaker(card_data(replace(reference, crops={"tomato": crowded})), CUT_SHEETS["A4-8"], "both")
    check_card(maker.marks("tomato"), maker.sheet)
    dropped = [name for name in maker.dropped("tomato") if name in DROPPED]
    assert dropped == list(DROPPED[: len(dropped)]) == ["Other names"]
    words = " ".join(words_of(maker.marks("tomato")))
    assert "Also on the page: other names." in words and "number 1" not in words and "Towel test" in words


def test_words_of_data_are_never_read_as_typesetting_code(reference):
    nasty = replace(reference, crops={"x": replace(reference.crops["tomato"], id="x", name='#panic("no") $x$ *b* <y> [z] \\ "q"')})
    with open_pdf(cards_pdf(nasty, "A6", "C")) as pdf:
        assert '#panic("no")' in pdf.pages[0].extract_text()


# Command and site

def run(capsys, *words):
    status = main(["cards", *map(str, words)])
    said = capsys.readouterr()
    return status, said.out, said.err


def test_command_writes_chosen_cards(tmp_path, capsys):
    status, out, _ = run(capsys, "--size", "a6, 4×6", "--units", "F", "--crops", "tomato,pepper", "--out", tmp_path / "new")
    assert status == 0 and {p.name for p in (tmp_path / "new").iterdir()} == {"cards-A6-F.pdf", "cards-4x6-F.pdf"}
    assert "Cards of Tomato, Hot pepper, Sweet pepper" in out
    with open_pdf((tmp_path / "new" / "cards-A6-F.pdf").read_bytes()) as pdf:
        texts = [page.extract_text() for page in pdf.pages]
    assert [text.split("\n")[0] for text in texts] == ["Tomato", "Hot pepper", "Sweet pepper"] and "°C" not in "".join(texts)


@pytest.mark.parametrize("words, said", [
    (["--crops", "tomatto"], 'No crop is called "tomatto". Did you mean "tomato"?'),
    (["--crops", ","], "--crops names no crop"),
    (["--size", "A7"], "--size A7: there is no such size of card. Known: A6, 4x6, A4-4, A4-8, Letter-4, Letter-8."),
])
def test_command_refuses_with_a_remedy(tmp_path, capsys, words, said):
    status, out, err = run(capsys, *words, "--out", tmp_path / "cards")
    assert status == 2 and said in err and "No card was written." in err and out == "" and list(tmp_path.iterdir()) == []


def test_command_cannot_write(tmp_path, capsys):
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    status, _, err = run(capsys, "--crops", "tomato", "--out", blocked)
    assert status == 1 and "Choose another folder with --out" in err


def test_crop_pages_lead_to_their_card(reference, root):
    environment, rendered = make_environment(reference), Rendered()
    print_cards.add(rendered, reference, environment, root)
    assert set(rendered.files) == {path for _, path in print_cards.offered(reference)}
    content = rendered.files["downloads/cards/cards-A6-both.pdf"]()
    with open_pdf(content) as pdf:
        for crop in ("artichoke", "pepper-sweet", "zinnia"):
            link = re.search(r'href="\.\./\.\./downloads/cards/cards-A6-both\.pdf#page=(\d+)"', crop_page.body(reference, environment, reference.crops[crop]))
            assert pdf.pages[int(link[1]) - 1].extract_text().startswith(reference.crops[crop].name)


def test_a_site_of_very_many_crops_offers_no_cards_of_all(reference, root):
    environment, rendered = make_environment(reference), Rendered()
    many = odd(reference, print_cards.MOST_CROPS + 1)
    print_cards.add(rendered, many, environment, root)
    assert {path.rsplit("/", 1)[1] for path in rendered.files} == {"towel-test-record-A4.pdf", "towel-test-record-Letter.pdf"}
    assert "cards-A6" not in crop_page.body(reference, environment, reference.crops["tomato"])
