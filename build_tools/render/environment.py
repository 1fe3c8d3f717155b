"""The Jinja environment: autoescape on, strict about undefined names, and the words of wording.py as helpers."""

from __future__ import annotations

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from ..compiled import Compiled
from ..model import Reference
from ..units import fahrenheit, number, span
from . import correct_links, drawings, guides, wording


def make_environment(reference: Reference) -> Environment:
    """A Jinja environment for one Reference; templates live in render/templates/."""
    environment = Environment(loader=FileSystemLoader(Path(__file__).parent / "templates"), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True, bytecode_cache=Compiled("ours"))
    environment.filters["units"] = wording.with_units
    environment.globals.update(
        reference=reference,
        library=reference.library,
        t=wording.temperature,
        number=number,
        span=span,
        fahrenheit=fahrenheit,
        depth=wording.depth,
        years=wording.years,
        weeks=wording.weeks,
        value_text=wording.value_text,
        sentence=wording.sentence,
        names_line=wording.names_line,
        drawing=drawings.inline,
        DRAWINGS=drawings.DRAWINGS,
        drawings_of=drawings.drawings_of,
        STATUS_WORDS=wording.STATUS_WORDS,
        GRADE_WORDS=wording.GRADE_WORDS,
        ADVICE_WORDS=wording.ADVICE_WORDS,
        NOT_FOUND=wording.NOT_FOUND,
        quantity_name=lambda quantity: wording.quantity_name(reference, quantity),
        others_say=lambda judged, root: wording.others_say(reference, judged, root),
        source_label=lambda source: wording.source_label(reference, source),
        source_link=lambda source, root: wording.source_link(reference, source, root),
        source_links=lambda sources, root: wording.source_links(reference, sources, root),
        correct=correct_links.correct_link,
        guide_address=lambda guide, root: root + guides.address_of(guide),
        guides_for=lambda part, crop=None: guides.guides_for(reference, part, crop),
        safety=lambda root, hazard="": guides.safety_link(reference, root, hazard),
        guides_on=lambda treatment: guides.guides_on(reference, treatment),
        edit_address=lambda file, line: wording.edit_address(reference, file, line),
    )
    return environment
