"""One page a crop: the answer first, then what was measured, then the evidence."""

from __future__ import annotations

import json

from markupsafe import Markup

from ..model.build import QUANTITIES
from ..model.reference import Crop, Judged, Reference
from ..science.emergence import RANGE_FACTOR
from . import short_answer
from .calculators import crop_links
from .calculators.count import calculator_context
from .charts.bands import band_chart, reference_parts, source_bands
from .charts.emergence import cell_text, emergence_chart, table_rows
from .charts.seed_life import seed_life_chart
from .correct_links import glance_places
from .downloads import crop_json
from .what_changed import changes_of
from .wording import temperature_plain, within, years

ROOT = "../../"
HEADINGS = (
    ("warmth", "How warm"), ("first", "What to do first"), ("days", "How many, how fast"), ("depth", "How deep, light or dark"),
    ("seed-life", "How long seed keeps"), ("test", "Test it"), ("when", "When to sow"), ("evidence", "Evidence"), ("near", "Crops like it"),
)
ADVICE_FIRST = ("worth-doing", "may-help", "avoid")  # shown open; the rest is folded away
TIMES = ("frost_class", "sow_indoors_weeks", "plant_out_weeks", "transplant_age_weeks", "sow_outdoors_weeks")


def disagreeing(crop: Crop) -> list[Judged]:
    """Reference values that lie apart from a countable family, or depart from all."""
    return [crop[q] for q in QUANTITIES if crop[q].status in ("within span", "departs")]


def describe(crop: Crop) -> str:
    """A plain description for search engines and link previews."""
    parts = []
    if crop["minimum_c"].known:
        parts.append(f"soil above {temperature_plain(crop['minimum_c'].low)}")
    if crop["optimum_low_c"].known:
        parts.append(f"best at {temperature_plain(crop['optimum_low_c'].low, crop['optimum_high_c'].low)}")
    if crop["seed_life_years"].known:
        parts.append(f"seed keeps about {years(crop['seed_life_years'].low)}")
    return f"Germination of {within(crop.name)}: " + (", ".join(parts) or "what is published") + "."


def reader_data(crop: Crop) -> str:
    """What the page's slider needs, as JSON: the band's ends and days and percent at every half degree."""
    known = {q: crop[q].low for q in ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c") if crop[q].known}
    points = {f"{a.celsius:g}": [a.days, a.percent] for a in crop.by_temperature}
    tested = [c.celsius for row in crop.days[:1] for c in row.cells if c.state == "measured"]
    none = [c.celsius for row in crop.days[:1] for c in row.cells if c.state == "no germination"]
    data = {"band": known, "at": points, "tested": [min(tested), max(tested)] if tested else None, "none": none, "factor": RANGE_FACTOR}
    return json.dumps(data, separators=(",", ":")).replace("<", "\\u003c")


def test_temperature(crop: Crop) -> str | None:
    """The warmth for a towel test at home: the official constant or range, as a plain text in both units."""
    method = crop.method
    return temperature_plain(method.low_c, method.high_c) if method and method.low_c is not None else None


def add(rendered, reference: Reference, environment, crop: Crop) -> None:
    """Add the crop's page and its data as JSON."""
    from . import Page

    rendered.pages[f"crops/{crop.id}.md"] = Page(crop.name, describe(crop), lambda: body(reference, environment, crop), summary(reference, environment, crop), HEADINGS)
    rendered.files[f"api/v1/crops/{crop.id}.json"] = lambda: crop_json(reference, crop)


def warm_soil(reference: Reference) -> float:
    """The trade's least soil warmth for warm-season crops, °C."""
    return float(reference.practice["warm_season_soil_c"]["value"])


def answer(reference: Reference, crop: Crop) -> list[Markup]:
    """The sentences of the short answer."""
    return [short_answer.warmth(crop, warm_soil(reference)), short_answer.days(crop), short_answer.depth_and_light(crop), short_answer.life(crop)]


def summary(reference: Reference, environment, crop: Crop) -> str:
    """What the site's search reads of the page: names and the short answer. The headings are those of every crop: they would lead to all of them."""
    return environment.get_template("crop_summary.html").render(crop=crop, answer=answer(reference, crop))


def body(reference: Reference, environment, crop: Crop) -> str:
    """The whole page as HTML."""
    return environment.get_template("crop.html").render(
        root=ROOT,
        crop=crop,
        answer=answer(reference, crop),
        glance=short_answer.glance(crop, warm_soil(reference)),
        places=glance_places(crop, reference, warm_soil(reference)),
        band_chart=band_chart(crop, reference, environment),
        parts=reference_parts(crop),
        bands=source_bands(crop, reference),
        emergence_chart=emergence_chart(crop, environment),
        measured=table_rows(crop),
        cell_text=cell_text,
        advised=[r for r in crop.rows.get("germination-temperature", ()) if r.cells.get("days_as_printed")],
        seed_life_chart=seed_life_chart(crop, reference, environment),
        treatments_first=[(reference.treatments[e.about], e) for advice in ADVICE_FIRST for e in crop.pretreatments if e.advice == advice],
        treatments_rest=[(reference.treatments[e.about], e) for e in crop.pretreatments if e.advice not in ADVICE_FIRST],
        test_temperature=test_temperature(crop),
        reader_data=Markup(reader_data(crop)),
        calculator=calculator_context(reference, crop),
        calculator_links=crop_links(crop, "../../"),
        quantities=[crop[q] for q in QUANTITIES],
        times=[crop[q] for q in TIMES],
        disagreeing=disagreeing(crop),
        changed=bool(changes_of(reference, crop.id)),
        sources=used_sources(reference, crop),
        neighbours=[reference.crops[n] for n in crop.neighbours],
    )


def used_sources(reference: Reference, crop: Crop) -> list:
    """Every source whose tables name the crop or that its file cites, by id."""
    return [s for s in reference.sources.values() if crop.id in s.crops or crop.id in s.cited_by]
