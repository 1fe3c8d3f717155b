"""Charts as SVG: unchanged from what is stored, told in words for who cannot see them, and in colours that stay apart.

The stored charts are in snapshots/; to renew them: python -m tests.render.write_snapshots
"""

import re
import xml.etree.ElementTree as ElementTree

import pytest

from build_tools.units import fahrenheit, number
from tests.sheets.test_contrast import contrast

from .write_snapshots import CROPS, FOLDER, charts

SVG = "{http://www.w3.org/2000/svg}"
SCHEMES = ("light", "dark", "print")
# Machado, Oliveira & Fernandes 2009, "A physiologically-based model for simulation of color vision deficiency", severity 1.0, on linear RGB;
# the coefficients agree in several public programs.
DEFICIENCIES = {
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritan": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
HATCHED = ("cold", "hot")
LEAST_APART = 12  # CIE 1976 colour difference of neighbours, for any of these eyes: our own bound; about 2 is just noticed (from memory)
LEAST_LIGHTNESS = 10  # CIE L* of neighbours in grey, unless one of them is hatched


@pytest.fixture(scope="module")
def made(reference):
    return charts(reference)


def tidy(text):
    return re.sub(r"\n+", "\n", text.strip()) + "\n"


@pytest.mark.parametrize("crop", CROPS)
def test_charts_are_as_stored(made, crop):
    for name, text in made.items():
        if name.startswith(f"{crop}-"):
            path = FOLDER / f"{name}.svg"
            assert path.exists() == bool(text), f"{name}: renew the stored charts and look at them"
            assert not text or path.read_text(encoding="utf-8") == tidy(text), f"{name} changed"


def test_no_stored_chart_is_left_over(made):
    assert {path.stem for path in FOLDER.glob("*.svg")} == {name for name, text in made.items() if text}


def parsed(text):
    return ElementTree.fromstring(text)


def told(text):
    """Title and description of a chart, which its aria-labelledby must name."""
    svg = parsed(text)
    title, description = svg.get("aria-labelledby").split()
    assert svg.get("role") == "img"
    by_id = {e.get("id"): e for e in svg.iter() if e.get("id")}
    assert by_id[title].tag == SVG + "title" and by_id[description].tag == SVG + "desc"
    return by_id[title].text, by_id[description].text


def test_every_chart_names_its_numbers_in_words(made, reference):
    seen = 0
    for name, text in made.items():
        if not text:
            continue
        title, description = told(text)
        crop = reference.crops[next(c for c in CROPS if name.startswith(f"{c}-"))]
        assert title.startswith(f"{crop.name}: ")
        for said in shown(crop, name.removeprefix(f"{crop.id}-"), text):
            assert re.search(rf"(?<![\d.]){re.escape(said)}(?![\d.])", description), (name, said, description)
            seen += 1
    assert seen > 100


def shown(crop, kind, text):
    """The numbers that a chart draws, as text: from the model, and the labels of its points."""
    found = []
    if kind in ("bands", "row-warmth"):
        quantities = ("minimum_c", "optimum_c", "maximum_c") + (("optimum_low_c", "optimum_high_c") if kind == "row-warmth" else ())
        for value in (crop[q].low for q in quantities if crop[q].known):
            found += [number(value), str(fahrenheit(value))]
    elif kind == "emergence":
        found += [e.text for e in parsed(text).iter(SVG + "text") if "point-label" in (e.get("class") or "")]
    elif crop["seed_life_years"].known:
        families = [f for f in crop["seed_life_years"].families if f.low is not None and (f.counts or kind == "seed-life")]
        ends = [v for f in families for v in (f.low, f.high)]
        found += [number(v) for v in [crop["seed_life_years"].low, *(ends if kind == "seed-life" else (min(ends), max(ends)) if ends else ())]]
    return found


def test_what_is_unknown_is_said_and_not_drawn(made):
    """Cowpea has an optimum alone; endive no best range; arugula a best range alone."""
    _, cowpea = told(made["cowpea-row-warmth"])
    assert cowpea == "Optimum 36 °C (97 °F); no published minimum, best range or maximum."
    assert 'class="band' not in made["cowpea-row-warmth"] and made["cowpea-row-warmth"].count('class="open-end"') == 2
    assert "band-between" in made["endive-row-warmth"] and not re.search("band-(best|slow|fading)", made["endive-row-warmth"])
    assert "no published best range" in told(made["endive-row-warmth"])[1]
    assert len(re.findall('class="band', made["arugula-row-warmth"])) == 1 and made["arugula-row-warmth"].count('class="open-end"') == 2
    assert made["artichoke-bands"] == made["artichoke-row-warmth"] == made["artichoke-emergence"] == ""


@pytest.fixture(scope="module")
def palette(root):
    """Colours by scheme and name, as the style sheets have them; what print does not name is that of the light scheme."""
    found = {scheme: {} for scheme in SCHEMES}
    for name in ("site", "compare"):
        css = (root / "docs/assets/css" / f"{name}.css").read_text(encoding="utf-8")
        blocks = {
            "light": re.search(r':root,\s*\[data-md-color-scheme="paper"\] \{(.*?)\}', css, re.S)[1],
            "dark": re.search(r'\n\[data-md-color-scheme="night"\] \{(.*?)\}', css, re.S)[1],
            "print": re.search(r"@media print \{\s*:root,\s*\[data-md-color-scheme\] \{(.*?)\}", css, re.S)[1],
        }
        for scheme, block in blocks.items():
            found[scheme] |= {k: long(v) for k, v in re.findall(r"--([\w-]+):\s*(#[0-9a-f]{3,6})", block)}
    found["print"] = {**found["light"], **found["print"]}
    assert {"band-slow", "days-5", "on-days-1", "ink"} <= set(found["dark"])
    fallback = re.search(r"--on-fading, (#[0-9a-f]{6})", (root / "docs/assets/css/charts.css").read_text(encoding="utf-8"))[1]
    return {scheme: {"on-fading": fallback, **colours} for scheme, colours in found.items()}


def long(colour):
    return colour if len(colour) == 7 else "#" + "".join(c * 2 for c in colour[1:])


def linear(colour):
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    return [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]


def lab(rgb):
    """CIE L*a*b* (D65) of linear sRGB, clipped to what a screen can show."""
    r, g, b = (min(1.0, max(0.0, v)) for v in rgb)
    xyz = ((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047, 0.2126 * r + 0.7152 * g + 0.0722 * b, (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883)
    x, y, z = (t ** (1 / 3) if t > (6 / 29) ** 3 else t / (3 * (6 / 29) ** 2) + 4 / 29 for t in xyz)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def seen_by(colour, eye):
    rgb = linear(colour)
    return lab(rgb if eye == "usual" else [sum(m * v for m, v in zip(row, rgb, strict=True)) for row in DEFICIENCIES[eye]])


def apart(one, other, eye="usual"):
    return sum((a - b) ** 2 for a, b in zip(seen_by(one, eye), seen_by(other, eye), strict=True)) ** 0.5


def test_lab_of_published_colours():
    """sRGB white is L* 100; mid grey #777777 is L* 50.0 and red (255, 0, 0) is 53.2, 80.1, 67.2: standard values, from memory."""
    assert lab(linear("#ffffff")) == pytest.approx((100, 0, 0), abs=0.05)
    assert lab(linear("#777777"))[0] == pytest.approx(50.0, abs=0.1)
    assert lab(linear("#ff0000")) == pytest.approx((53.2, 80.1, 67.2), abs=0.2)
    for eye in DEFICIENCIES:  # each row sums to 1: greys stay grey
        assert lab([sum(row) for row in DEFICIENCIES[eye]]) == pytest.approx((100, 0, 0), abs=0.1)
    assert apart("#c00000", "#507000", "protan") < apart("#c00000", "#507000") / 2  # red and green draw together without L cones


@pytest.mark.parametrize("scheme", SCHEMES)
def test_text_stands_out_from_its_band(palette, scheme):
    """WCAG 2.2, 1.4.3: at least 4.5 to 1."""
    colours = palette[scheme]
    pairs = [("on-best", "band-best"), ("on-light", "band-cold"), ("on-light", "band-slow"), ("on-fading", "band-fading"), ("on-hot", "band-hot")]
    pairs += [(f"on-days-{i}", f"days-{i}") for i in range(1, 6)] + [("ink", "paper"), ("ink-soft", "paper"), ("ink", "panel")]
    assert {pair: contrast(colours[pair[0]], colours[pair[1]]) for pair in pairs if contrast(colours[pair[0]], colours[pair[1]]) < 4.5} == {}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_graphics_stand_out_from_the_paper(palette, scheme, root):
    """WCAG 2.2, 1.4.11: at least 3 to 1. On these pages every band and every shade of days has a border of the colour band-line; cold and hot are hatched besides."""
    colours = palette[scheme]
    css = (root / "docs/assets/css/compare.css").read_text(encoding="utf-8")
    assert re.search(r"\.compare \.chart \.band \{ stroke: var\(--band-line\)", css)
    assert re.search(r"\.shade-5\) \{ border: 1px solid var\(--band-line\)", css)
    for name in ("band-line", "ink", "good", "bad", "warn", "accent", "ink-soft"):  # borders, marks, and the lines of the chart to explore
        assert contrast(colours[name], colours["paper"]) >= 3, name
    assert contrast(colours["band-line"], colours["band-cold"]) >= 3  # the hatch
    for name in ("band-best", "band-hot"):
        assert contrast(colours[name], colours["paper"]) >= 3, name


@pytest.mark.parametrize("eye", ["usual", *DEFICIENCIES])
@pytest.mark.parametrize("scheme", SCHEMES)
def test_neighbours_stay_apart_for_every_eye(palette, scheme, eye):
    for one, other in neighbours():
        assert apart(palette[scheme][one], palette[scheme][other], eye) >= LEAST_APART, (one, other)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_neighbours_stay_apart_in_grey(palette, scheme):
    for one, other in neighbours():
        if not {one, other} & {f"band-{part}" for part in HATCHED}:
            assert abs(seen_by(palette[scheme][one], "usual")[0] - seen_by(palette[scheme][other], "usual")[0]) >= LEAST_LIGHTNESS, (one, other)


def neighbours():
    bands = ["band-cold", "band-slow", "band-best", "band-fading", "band-hot"]
    shades = [f"days-{i}" for i in range(1, 6)]
    return [*zip(bands, bands[1:], strict=False), *zip(shades, shades[1:], strict=False)]
