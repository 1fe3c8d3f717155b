"""What a crop card says, in words, from the model: the same numbers as the crop's page."""

from __future__ import annotations

import re

from ...model.reference import Crop, Reference
from ...units import number
from ..rows import band_row, sow_from
from ..short_answer import days_at_two, days_short, first
from ..wording import NOT_FOUND, temperature_plain, value_text
from .fonts import widths
from .poster_data import library
from .posters import code_svg

NEITHER = "somewhere evenly warm"
SENTENCE = re.compile(r"(?<=[.!?]) ")
SEE_PAGE = "Take care: see the page."


def plain(words) -> str:
    """Text of HTML or text."""
    return str(words.striptags()) if hasattr(words, "striptags") else str(words)


def card_data(reference: Reference) -> dict:
    """Everything cards of any crops need: {library, widths, cards: {id: card}, codes: {id: SVG}}. Temperatures stand in both units."""
    own = library(reference)
    return {
        "library": own, "widths": widths(),
        "cards": {crop.id: card(reference, crop) for crop in reference.crops.values()},
        "codes": {crop.id: code_svg(page_address(own["site"], crop.id)) for crop in reference.crops.values()},
    }


def page_address(site: str, crop_id: str) -> str:
    """The address of a crop's page."""
    return f"{site.rstrip('/')}/crops/{crop_id}/"


def card(reference: Reference, crop: Crop) -> dict:
    """One card: {id, name, names, parts, optimum, numbers: [name, words], rows: [name, words], cautions: [words]}; no parts when nothing is known."""
    band = band_row(crop)
    return {
        "id": crop.id, "name": crop.name, "other": f"also {', '.join(crop.other_names)}" if crop.other_names else "", "botanical": crop.botanical,
        "parts": [[p["part"], p["low"], p["high"]] for p in band.drawn], "optimum": band.optimum, "known": band.known,
        "numbers": [
            ["minimum", _degrees(band.minimum)], ["best", _degrees(band.best_low, band.best_high)],
            ["optimum", _degrees(band.optimum)], ["maximum", _degrees(band.maximum)],
        ],
        "rows": [
            ["Sow above", sow_above(reference, crop) or NOT_FOUND], ["Days", days(crop)], ["Depth", plain(value_text(crop["sowing_depth_mm"]))], ["Light", plain(value_text(crop["light"]))],
            ["Seed keeps", plain(value_text(crop["seed_life_years"]))], ["First", beforehand(crop)], ["Towel test", towel_test(reference, crop)],
        ],
        "cautions": [caution.text for caution in crop.cautions],
    }


def _degrees(low: float | None, high: float | None = None) -> str:
    return NOT_FOUND if low is None else temperature_plain(low, high)


def sow_above(reference: Reference, crop: Crop) -> str | None:
    """How warm the soil should be before sowing: the minimum, the trade's for warm-season crops, or what advisers say; None when nobody does."""
    least, by_rule = sow_from(reference, crop)
    if least is not None:
        return temperature_plain(least) + (", common practice" if by_rule else "")
    advised = [celsius for celsius, _ in crop.sowing_thresholds]
    return f"{temperature_plain(min(advised), max(advised))}, as advised" if advised else None


def days(crop: Crop) -> str:
    """Days to emergence: measured ones with their temperatures, else as advised."""
    measured = days_at_two(crop)
    if measured:
        return ", ".join(f"{d.days:g} day{'' if d.days == 1 else 's'} at {temperature_plain(d.celsius)}" for d in measured)
    words = plain(days_short(crop))
    return re.sub(r"^([\d–]+) as advised", lambda m: f"{m[1]} day{'' if m[1] == '1' else 's'}, as advised", words)


def beforehand(crop: Crop) -> str:
    """What to do before sowing, in a few words."""
    words = plain(first(crop)).replace("; see what", "; see the page for what")
    return words[:1].lower() + (words[1:].rstrip(".") if words.count(".") == 1 else words[1:])


def towel_test(reference: Reference, crop: Crop) -> str:
    """Temperature and count days of a towel test; without an official count the trade's least days."""
    method = crop.method
    if method and method.low_c is not None:
        warmth = f"at {temperature_plain(method.low_c, method.high_c)}"
    elif crop["optimum_low_c"].known:
        warmth = f"at {temperature_plain(crop['optimum_low_c'].low, crop['optimum_high_c'].low)}"
    elif crop["optimum_c"].known:
        warmth = f"near {temperature_plain(crop['optimum_c'].low)}"
    else:
        warmth = NEITHER
    light = ", in the light" if method and method.light == "required" else ""
    counts = [day for day in ((method.first_count_days, method.final_count_days) if method else ()) if day]
    if counts:
        return f"{warmth}{light}; count on {' and '.join(f'day {day}' for day in counts)}".replace("day ", "day\u00a0")
    return f"{warmth}{light}; wait at least {number(float(reference.practice['towel_least_days']['value']))}\u00a0days, common practice"


def short_cautions(cautions: list[str]) -> list[str]:
    """The first sentence of each caution, after a word that the page has the rest."""
    return [SEE_PAGE + " " + " ".join(SENTENCE.split(caution)[0] for caution in cautions)]
