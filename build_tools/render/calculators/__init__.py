"""The calculators: for each its page and its data for the browser, and the page that lists them."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from ...model.reference import Crop, Reference


@dataclass(frozen=True)
class Calculator:
    """One calculator: its address, what it is called, the question it answers, and what its template needs.

    `context(reference)` gives further template variables; its "data" is what the browser gets.
    """

    path: str
    title: str
    question: str
    description: str
    template: str
    context: Callable[[Reference], dict]


def data_json(data: Mapping) -> Markup:
    """Data as JSON that may stand in a script element."""
    return Markup(json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c"))


def frame_context(data: Mapping, crop: Crop | None = None) -> dict:
    """The `calculator` variable that the frame macro needs; for a crop's own page with that crop."""
    crops = [(crop_id, entry["name"]) for crop_id, entry in data.get("crops", {}).items()]
    return {"crop_id": crop.id if crop else None, "heading_level": 3 if crop else 2, "data": data, "data_json": data_json(data), "crops": sorted(crops, key=lambda pair: pair[1].casefold())}


def grouped() -> dict[str, tuple[Calculator, ...]]:
    """Every calculator under the question a grower has, in the order in which the questions come up."""
    from . import (
        count,
        daily_counts,
        emergence,
        lots,
        old_seed,
        repeated_tests,
        seeds_to_sow,
        soil,
        sowing_times,
        storage,
        test_size,
        tray,
        treatment_times,
        two_treatments,
        warm_spots,
    )

    groups = {
        "Is the seed still good?": (test_size, count, daily_counts, repeated_tests, old_seed, storage),
        "How warm is it, and when to sow?": (emergence, warm_spots, soil, sowing_times),
        "How to prepare it, and how many to sow?": (treatment_times, two_treatments, seeds_to_sow),
        "It is sown: how far along is it?": (tray,),
        "A whole library": (lots,),
    }
    return {title: tuple(module.CALCULATOR for module in modules) for title, modules in groups.items()}


def listed() -> tuple[Calculator, ...]:
    """Every calculator, in the same order."""
    return tuple(calculator for group in grouped().values() for calculator in group)


def add(rendered, reference: Reference, environment, root) -> None:
    """Add a page for each calculator, and the one that lists them."""
    from .. import Page
    from . import sowing_times

    def page(path, template, title, description, context):
        depth = "../" * path.removesuffix(".md").removesuffix("/index").count("/") + "../"
        rendered.pages[path] = Page(title, description, lambda: environment.get_template(template).render(root=depth, title=title, **context()), str(Markup('<h1 id="top">{}</h1><p>{}</p>').format(title, description)))

    calculators = listed()
    for calculator in calculators:
        page(f"{calculator.path}.md", calculator.template, calculator.title, calculator.description, lambda calculator=calculator: calculator.context(reference))
    for name, content in reference.demo.items():
        rendered.files[f"downloads/demo-{name}"] = lambda content=content: content
    rendered.files.update(sowing_times.files(reference))
    page("calculators/index.md", "calculators/index.html", "Calculators", "Test seed and read the test, find the warmth and the date, prepare and sow enough: each with its range, worked out in your browser.", lambda: {"groups": grouped()})


def crop_links(crop: Crop, root: str) -> list[tuple[str, str]]:
    """(title, address) of the calculators that can be opened with a crop chosen."""
    return [(c.title, f"{root}{c.path}/#{c.path.rpartition('/')[2]}=1&example=1&crop={crop.id}") for c in listed() if c.path in WITH_CROP]


WITH_CROP = ("calculators/emergence", "calculators/tray", "calculators/warm-spots", "calculators/soil", "calculators/old-seed", "calculators/storage", "calculators/seeds-to-sow", "calculators/treatment-times")
