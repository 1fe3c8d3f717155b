"""What stands alone in a paragraph of a guide: drawings, cautions, and tables made from the model."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

from ...model.guides import Guide
from ...model.reference import OfficialMethod, Reference
from ...read.guide_text import Pull
from .. import drawings, wording


def graded(reference: Reference) -> dict:
    """How many sources there are of each grade of evidence, from the firmest."""
    return {"grades": [(grade, meaning, sum(source.evidence == grade for source in reference.sources.values())) for grade, meaning in reference.choices["evidence"].items()]}


def lives(reference: Reference) -> dict:
    """The crops by how long their seed keeps, shortest first: [(lowest and highest years, crops)], and those without a published life."""
    known: dict[tuple[float, float], list] = {}
    for crop in sorted(reference.crops.values(), key=lambda crop: crop.name.casefold()):
        life = crop["seed_life_years"]
        known.setdefault((life.low, life.high) if life.known else (0.0, 0.0), []).append(crop)
    unknown = known.pop((0.0, 0.0), [])
    return {"lives": sorted(known.items()), "unknown": unknown}


CELSIUS = re.compile(r"(-?\d+(?:\.\d+)?) °C")
SHORTER = ((" hours a day", " h"), (" hours", " h"), (" all day", ""))
LIGHT = {"required": "yes", "if_dormant": "if dormant"}


def warmth_of(method: OfficialMethod) -> Markup:
    """The method's temperatures in few words and both units: 20 °C (68 °F) for 16 h and 30 °C (86 °F) for 8 h, or 25 °C (77 °F)."""
    text = method.temperatures or "–"
    for long, short in SHORTER:
        text = text.replace(long, short)
    return Markup(CELSIUS.sub(lambda m: str(wording.temperature(float(m[1]))), str(escape(text))))


def official_tests(reference: Reference) -> dict:
    """The crops that have an official method, by name, each with its warmth and whether light is asked for, and the sources that print the methods."""
    tested = sorted((crop for crop in reference.crops.values() if crop.method), key=lambda crop: crop.name.casefold())
    return {
        "tested": [(crop, warmth_of(crop.method), LIGHT.get(crop.method.light, crop.method.light or "–")) for crop in tested],
        "sources": sorted({crop.method.source for crop in tested}),
    }


CONTEXTS = {"count-days": official_tests, "grades": graded, "seed-life": lives}  # what a table needs beside the reference


class Blocks:
    """Makes the blocks of one guide's page."""

    def __init__(self, reference: Reference, environment, guide: Guide, up: str):
        self.reference, self.environment, self.guide, self.up = reference, environment, guide, up

    def __call__(self, pull: Pull) -> Markup:
        """The block's HTML. KeyError for a name that the checks would have refused."""
        return Markup("").join({"drawing": self.drawing, "cautions": self.cautions, "table": self.table}[pull.kind](name) for name in pull.names)

    def drawing(self, name: str) -> Markup:
        return Markup('<figure class="figure drawn">{}<figcaption>{}.</figcaption></figure>').format(drawings.inline(name), drawings.DRAWINGS[name].title)

    def cautions(self, name: str) -> Markup:
        return self._template("cautions.html", hazard=name, cautions=self.reference.cautions[name])

    def table(self, name: str) -> Markup:
        return self._template(f"tables/{name}.html", **CONTEXTS.get(name, lambda reference: {})(self.reference))

    def _template(self, name: str, **more) -> Markup:
        return Markup(self.environment.get_template(f"guides/{name}").render(root=self.up, guide=self.guide, **more))
