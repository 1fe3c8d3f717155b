"""Every text of a poster stands out from what lies under it: WCAG 2.2, success criterion 1.4.3, 4.5 to 1."""

import pytest

from build_tools.render.sheets.marks import flat
from build_tools.render.sheets.palette import PALETTE
from build_tools.render.sheets.posters import page_data, poster_pages


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour, as WCAG 2.2 defines it."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_published_pairs():
    """#777777 on white is 4.48 and #767676 is 4.54: the usual example of a colour just under and just over the line."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005) and contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("poster", ["bands", "days", "seed-life"])
def test_texts_stand_out_from_what_lies_under_them(reference, poster):
    found = 0
    painted: list[dict] = []
    for mark in flat(poster_pages(page_data(reference), poster, "A3", "portrait", "both")[0]):
        if mark["mark"] == "rect" and mark["fill"]:
            painted.append(mark)
        elif mark["mark"] in ("text", "lines"):
            under = [r["fill"] for r in painted if r["x"] <= mark["x"] <= r["x"] + r["width"] and r["y"] <= mark["y"] - mark["size"] / 3 <= r["y"] + r["height"]]
            assert contrast(PALETTE[mark["ink"]], PALETTE[under[-1] if under else "paper"]) >= 4.5, mark
            found += 1
    assert found > 150


def test_shades_of_days_fall_in_lightness():
    """Sooner is darker, by steps that survive a grey print."""
    lights = [luminance(PALETTE[f"days-{i}"]) for i in range(1, 6)]
    assert all((lighter + 0.05) / (darker + 0.05) >= 1.3 for darker, lighter in zip(lights, lights[1:], strict=False))
