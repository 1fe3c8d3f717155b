"""Pages that list: home, crop index, treatments, sources, disagreements; and the definitions for the methods page."""

from __future__ import annotations

from collections import defaultdict

from markupsafe import Markup

from ..model.build import QUANTITIES
from ..model.reference import Reference
from .crop_page import disagreeing

DESCRIPTION = "How warm, how deep, how long, how many, and is the seed still good: germination of vegetables, herbs and flowers, with sources."
KINDS = (("vegetable", "Vegetables"), ("herb", "Herbs"), ("flower", "Flowers"))


def add(rendered, reference: Reference, environment, root) -> None:
    """Add the list pages and fragments."""
    from . import Page

    def page(path, template, title, description, root_path, headings=(), **context):
        summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(title, description) + Markup("").join(Markup('<h2 id="{}">{}</h2>').format(*h) for h in headings)
        rendered.pages[path] = Page(title, description, lambda: environment.get_template(template).render(root=root_path, **context), str(summary), tuple(headings))

    crops = sorted(reference.crops.values(), key=lambda c: c.name.casefold())
    page("index.md", "home.html", "Home", DESCRIPTION, "", kinds=[(plural, [c for c in crops if c.kind == kind]) for kind, plural in KINDS], crops=crops)
    page("crops/index.md", "crop_index.html", "Crops", f"Germination of {len(crops)} vegetables, herbs and flowers: warmth, days, depth, seed life.", "../", crops=crops)
    page(
        "treatments/index.md", "treatments.html", "Treatments", "Soaking, nicking, chilling, peroxide and other treatments before sowing: steps, evidence, cautions.", "../",
        [(t.id, t.name) for t in by_name(reference.treatments)], treatments=by_name(reference.treatments),
        uses={t: [(c, e) for c in crops for e in c.pretreatments if e.about == t] for t in reference.treatments}, tables=treatment_rows(reference),
    )
    families = defaultdict(list)
    for source in reference.sources.values():
        families[source.family].append(source)
    page("sources.md", "sources.html", "Sources", f"The {len(reference.sources)} published sources behind this reference: which copy was read, and how far to trust it.", "../", families={k: v for k, v in families.items() if len(v) > 1}, named_in=guides_naming(reference), sources=sorted(reference.sources.values(), key=lambda s: s.id))
    page(
        "disagreements.md", "disagreements.html", "Where the sources disagree", "Values on which published sources differ, misprints, and what this reference does about each.", "../",
        [("values", "Values that depart"), ("words", "Crop by crop"), ("doubts", "Suspect cells and misprints")],
        departs=[(c, c[q]) for c in crops for q in QUANTITIES if c[q].status == "departs"],
        crops=[(c, disagreeing(c)) for c in crops if c.disagreements or disagreeing(c)],
        doubts=[(s, t, d, line) for s in reference.sources.values() for t in s.tables for d, line in zip(t.doubts, t.doubt_lines)],
    )
    rendered.fragments["definitions"] = environment.get_template("definitions.html").render(root="../")


def by_name(items):
    return sorted(items.values(), key=lambda item: item.name.casefold())


def guides_naming(reference: Reference) -> dict[str, list]:
    """The guides that name a source, by source."""
    found = defaultdict(list)
    for guide in reference.guides.values():
        for source in dict.fromkeys(name for pull in guide.text.pulls() if pull.kind == "sources" for name in pull.names):
            found[source].append(guide)
    return found


def treatment_rows(reference: Reference) -> dict[str, list]:
    """(source, row cells, file, line) of every printed finding, by treatment."""
    rows = defaultdict(list)
    for source in reference.sources.values():
        for table in source.tables:
            if table.kind == "treatment-evidence":
                for row, line in zip(table.rows, table.row_lines):
                    rows[row["treatment"]].append((source, row, f"data/sources/{source.id}/{table.file}", line))
    return rows
