"""The words "correct this" beside a value: a link to the page Correct a value, which is told in the address what is to be corrected."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote_plus

from markupsafe import Markup

from ..model.reference import Crop, Reference

PAGE = "correct/"
VOCABULARY = "data/quantities.yml"


def correct_address(root: str, file: str, line: int, quantity: str = "", crop: str = "") -> str:
    """Address of the page Correct a value for one line of a data file; empty parts are left out.

    What is shown, and its sources, are added in the browser when the link is used (docs/assets/js/correct/complete.js): written
    out a hundred times on a crop page they would weigh more than the values.
    """
    parts = {"crop": crop, "quantity": quantity, "file": file, "line": str(line)}
    return f"{root}{PAGE}?" + "&".join(f"{key}={quote_plus(value, safe='/')}" for key, value in parts.items() if value)


def correct_link(root: str, what: str, file: str, line: int, quantity: str = "", crop: str = "") -> Markup:
    """The link, with `what` it is about for those who hear the page."""
    return Markup('<a class="correct" href="{}">correct this<span class="of"> of {}</span></a>').format(correct_address(root, file, line, quantity, crop), what)


@dataclass(frozen=True)
class Place:
    """Where a value that a page shows comes from: the quantity's id, its file and line."""

    quantity: str
    file: str
    line: int


def glance_places(crop: Crop, reference: Reference, warm_soil_c: float) -> dict[str, Place]:
    """Where each of the short rows at the top of a crop page comes from, by its label."""
    def judged(quantity: str) -> Place:
        return Place(quantity, crop.file, crop[quantity].line)

    return {
        "Soil": _soil(crop, reference, warm_soil_c, judged), "Depth": judged("sowing_depth_mm"), "Light": judged("light"),
        "Days": _days(crop), "Seed keeps": judged("seed_life_years"), "First": _first(crop),
    }


def _soil(crop: Crop, reference: Reference, warm_soil_c: float, judged) -> Place:
    least = crop["minimum_c"]
    if least.known and crop["season"].choice == "warm" and least.low < warm_soil_c:
        return Place("practice", VOCABULARY, reference.vocabulary_lines["practice.warm_season_soil_c"])
    if not least.known and crop.rows.get("sowing-thresholds"):
        row = crop.rows["sowing-thresholds"][0]
        return Place("minimum_c", row.file, row.line)
    known = next((q for q in ("minimum_c", "optimum_low_c", "optimum_c") if crop[q].known), "minimum_c")
    return judged(known)


def _days(crop: Crop) -> Place:
    rows = [*crop.days[:1], *(r for kind in ("germination-temperature", "days-usual") for r in crop.rows.get(kind, ()) if r.cells.get("days_as_printed"))]
    return Place("days", rows[0].file, rows[0].line) if rows else Place("days", crop.file, 1)


def _first(crop: Crop) -> Place:
    advised = sorted(crop.pretreatments, key=lambda entry: entry.advice != "worth-doing")
    return Place("pretreatments", crop.file, advised[0].line) if advised else Place("pretreatments", crop.file, 1)
