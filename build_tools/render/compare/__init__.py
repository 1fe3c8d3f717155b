"""The pages that show all crops beside one another: warmth, days, seed life. Each whole without scripts; a chart to explore on request."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ...model.reference import Crop, Reference

ROOT = "../../"


@dataclass(frozen=True)
class Comparison:
    """One page: its address below compare/, what it is called and says, and the short name in the links between the pages."""

    name: str
    title: str
    short: str
    description: str


PAGES = (
    Comparison("warmth", "Warmth, crop by crop", "Warmth", "Soil temperatures for germination of all crops on one scale: minimum, best range, optimum, maximum, and what to expect at yours."),
    Comparison("days", "Days, crop by crop", "Days", "Days until seedlings come up, measured at each soil temperature, for all crops in one table; and days as advised or recorded."),
    Comparison("seed-life", "Seed life, crop by crop", "Seed life", "How many years seed keeps, for all crops on one scale, and what to do with seed as old as yours."),
)


def add(rendered, reference: Reference, environment, root) -> None:
    """Add the three pages, their figures to explore and the script that shows those."""
    from .. import Page
    from ..rows import by_name
    from . import days, explore, seed_life, warmth

    crops = by_name(reference)
    library = explore.library()
    for page, module in zip(PAGES, (warmth, days, seed_life), strict=True):
        def body(page=page, module=module):
            return environment.get_template(f"compare/{page.name}.html").render(
                root=ROOT, page=page, pages=PAGES, explore=library, **module.context(reference, crops),
            )

        summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(page.title, page.description)
        rendered.pages[f"compare/{page.name}.md"] = Page(page.title, page.description, body, str(summary))
        rendered.files[f"compare/{page.name}/figure.json"] = lambda module=module: explore.figure_json(*module.figure(reference, crops))
    rendered.files[library.file] = explore.script


def about(crop: Crop) -> dict:
    """What sorting and filtering need of any crop: {id, name, kind, season, words}."""
    return {
        "id": crop.id, "name": crop.name, "kind": crop.kind, "season": crop["season"].choice or "",
        "words": " ".join([crop.name, crop.botanical, crop.family, *crop.other_names]).lower(),
    }
