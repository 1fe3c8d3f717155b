"""What reads or looks otherwise: both versions are rendered with today's code, and pages, charts, layouts and files compared.

Where in a file a value stands is no part of what readers read, so both sides are rendered without lines; and with the later version's
record of the library, since that stands on every page and sheet. Sheets are judged by their layouts: no PDF is set.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from ..check import check_tree
from ..model import Reference, build_reference
from ..problem import errors
from ..read import DataTree, Document, SourceFolder, Table
from ..render import Rendered, render
from ..render.charts.bands import band_chart
from ..render.charts.emergence import emergence_chart
from ..render.charts.seed_life import seed_life_chart
from ..render.environment import make_environment
from ..render.print_cards import UNITS, offered
from ..render.print_pages import standard_set
from ..render.sheets.card_text import card
from ..render.sheets.cards import CardMaker
from ..render.sheets.cut_sheets import CUT_SHEETS
from ..render.sheets.fonts import widths
from ..render.sheets.paper import poster_sheet
from ..render.sheets.poster_data import library
from ..render.sheets.posters import POSTERS, page_data, poster_pages, steps_pages_of
from ..render.sheets.record_sheet import RECORD_PAPERS, TITLE, record_pages
from ..render.sheets.type import Type
from .plain import clean
from .report import Touched
from .versions import Version, schemas_of

TEXT_FILES = (".csv", ".json", ".ics")
FRAGMENT = re.compile(r"\[\[([a-z-]+)\]\]")
HEADING = re.compile(r"^# ([^{\n]+)", re.MULTILINE)
SVG = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
OF_GUIDES = ("figures", "glossary", "guides")  # their pages are new where they are new
CHARTS = {"warmth": band_chart, "days and percentages": lambda crop, reference, environment: emergence_chart(crop, environment), "seed life": seed_life_chart}


class Side(NamedTuple):
    """One version's model and what is generated from it."""

    reference: Reference
    rendered: Rendered


def touched(base: Version, head: Version, root: Path) -> Touched:
    """What differs between two versions that both pass today's checks; else why that is not known."""
    trees, notes = _alike_trees(base, head)
    schemas = schemas_of(root)
    for version, tree in zip((base, head), trees):
        problems = [*version.links, *(version.problems if tree is version.tree else errors(check_tree(tree, schemas)))]
        if problems:
            first = min(problems)
            return Touched(why_not=f"{version.name} does not pass today’s checks ({len(problems)} problem{'s' if len(problems) != 1 else ''}, the first in {clean(first.file, 120)}: {clean(first.message, 200)})")
    with TemporaryDirectory(prefix="germination-changes-") as temporary:
        old, new = (_side(tree, trees[1], _project(root, version, Path(temporary) / name)) for tree, version, name in zip(trees, (base, head), ("base", "head")))
        return _compared(old, new, root, notes)


def _project(root: Path, version: Version, place: Path) -> Path:
    """The project as it is now with the data of a version: what is rendered reads schemas and tables from there, and guides from the tree."""
    place.mkdir()
    for entry in root.iterdir():
        if not entry.name.startswith(".") and entry.name not in ("data", "build"):
            (place / entry.name).symlink_to(entry.resolve(), target_is_directory=entry.is_dir())
    (place / "data").symlink_to(version.data.resolve(), target_is_directory=True)
    return place


def _alike_trees(base: Version, head: Version) -> tuple[tuple[DataTree, DataTree], list[str]]:
    """Both trees; a file that stands alone and that only one version has is lent to the other (but for those of guides), so that a new kind of file does not hide everything."""
    trees, notes = [], []
    for version, other in ((base, head), (head, base)):
        lent = [name for name in other.tree.singles if name not in (*version.tree.singles, *OF_GUIDES)]
        missing = {f"data/{name}.yml" for name in lent}
        if not lent or any(p.rule != "missing-file" and p.file in missing for p in version.tree.problems):
            trees.append(version.tree)
            continue
        tree = version.tree
        trees.append(replace(tree, singles={**tree.singles, **{name: other.tree.singles[name] for name in lent}}, problems=[p for p in tree.problems if p.file not in missing]))
        notes.append(f"Only one version has {', '.join(sorted(missing))}; for what is touched, both were taken to have it.")
    records = [getattr(version.tree.singles.get("library"), "data", None) for version in (base, head)]
    if records[0] != records[1]:
        notes.append("The library’s own record (name, address, data version) changed. It stands on every page and sheet, so it was taken as it is now on both sides.")
    return (trees[0], trees[1]), notes


def _without_lines(tree: DataTree, library_of: DataTree) -> DataTree:
    def plain(document: Document) -> Document:
        return replace(document, places=dict.fromkeys(document.places, (1, 1)))

    def table(found: Table) -> Table:
        return replace(found, rows=[replace(row, line=1) for row in found.rows])

    def all_of(documents: dict) -> dict:
        return {key: plain(document) for key, document in documents.items()}

    sources = {key: SourceFolder(plain(s.document), {name: table(t) for name, t in s.tables.items()}) for key, s in tree.sources.items()}
    singles = {**tree.singles, **({"library": library_of.singles["library"]} if "library" in library_of.singles else {})}
    return replace(tree, crops=all_of(tree.crops), sources=sources, treatments=all_of(tree.treatments), singles=all_of(singles), problems=[])


def _side(tree: DataTree, later: DataTree, place: Path) -> Side:
    """The version rendered; `place` is the project with its data."""
    reference = build_reference(_without_lines(tree, later))
    return Side(reference, render(reference, place))


def _compared(old: Side, new: Side, root: Path, notes: list[str]) -> Touched:
    pages, charts, crops = [], [], []
    for path in dict.fromkeys([*old.rendered.pages, *new.rendered.pages]):
        one, other = old.rendered.pages.get(path), new.rendered.pages.get(path)
        bodies = [page.body() if page else "" for page in (one, other)]
        if bodies[0] != bodies[1] or one is None or other is None or (one.title, one.description, one.summary) != (other.title, other.description, other.summary):
            title = (other or one).title
            pages.append(title + ("" if one and other else " (new)" if other else " (gone)"))
            if path.startswith("crops/") and path != "crops/index.md":
                crops.append(path.removeprefix("crops/").removesuffix(".md"))
            else:
                charts += [title] if SVG.findall(bodies[0]) != SVG.findall(bodies[1]) else []
    fragments = {name for name in old.rendered.fragments.keys() | new.rendered.fragments.keys() if old.rendered.fragments.get(name) != new.rendered.fragments.get(name)}
    for page in sorted((root / "docs").glob("**/*.md")) if fragments else ():
        text = page.read_text(encoding="utf-8")
        if fragments & set(FRAGMENT.findall(text)):
            heading = HEADING.search(text)
            pages.append(clean(heading[1] if heading else page.stem, 80))
    charts = _crop_charts(old, new, crops) + charts
    downloads = []
    for name in dict.fromkeys([*old.rendered.files, *new.rendered.files]):
        if name.endswith(TEXT_FILES) and not name.startswith("schema/"):
            contents = [side.rendered.files.get(name) for side in (old, new)]
            if _content(contents[0]) != _content(contents[1]):
                downloads.append(name + ("" if None not in contents else " (new)" if contents[0] is None else " (gone)"))
    return Touched(tuple(pages), tuple(charts), tuple(_posters(old.reference, new.reference)), tuple(_cards(old.reference, new.reference)), tuple(downloads), "", tuple(notes))


def _content(make) -> bytes | None:
    content = make() if callable(make) else make
    return content.encode("utf-8") if isinstance(content, str) else content


def _crop_charts(old: Side, new: Side, ids: list[str]) -> list[str]:
    """Charts that are drawn otherwise, by crop and subject; `ids` are the crops whose pages, which hold them, differ."""
    environments = [make_environment(side.reference) for side in (old, new)]
    found = []
    for crop in ids:
        crops = [side.reference.crops.get(crop) for side in (old, new)]
        for subject, draw in CHARTS.items():
            drawn = [str(draw(c, side.reference, environment) or "") if c else "" for c, side, environment in zip(crops, (old, new), environments)]
            if drawn[0] != drawn[1]:
                found.append(f"{(crops[1] or crops[0]).name}, {subject}")
    return found


def _posters(old: Reference, new: Reference) -> list[str]:
    """Posters laid out otherwise on any paper, and the blank record of a test."""
    data = [page_data(reference) for reference in (old, new)]
    found = []
    for poster in POSTERS.values():
        for name, orientation, paper in dict.fromkeys([*standard_set(old), *standard_set(new)]):
            if name != poster.name or poster.title in found:
                continue
            if poster.of_crops:
                laid = [poster_pages(d, name, paper, orientation, UNITS) for d in data] if data[0] != data[1] else [0, 0]
            else:
                laid = [steps_pages_of(reference, name, paper, orientation, UNITS) for reference in (old, new)]
            if laid[0] != laid[1]:
                found.append(poster.title)
    for paper in RECORD_PAPERS:
        laid = [record_pages(Type(d["widths"]), poster_sheet(paper, "portrait"), reference, library(reference), UNITS) for d, reference in zip(data, (old, new))]
        if laid[0] != laid[1] and TITLE not in found:
            found.append(TITLE)
    return found


def _cards(old: Reference, new: Reference) -> list[str]:
    """Crops whose card is laid out otherwise on any sheet; where no cards are offered, none."""
    if not any("cards-" in path for reference in (old, new) for _, path in offered(reference)):
        return []
    found = []
    for crop in dict.fromkeys([*old.crops, *new.crops]):
        said = [card(reference, reference.crops[crop]) if crop in reference.crops else None for reference in (old, new)]
        if said[0] != said[1] and (None in said or _laid(old, said[0], crop) != _laid(new, said[1], crop)):
            found.append((said[1] or said[0])["name"])
    return found


def _laid(reference: Reference, said: dict, crop: str) -> list:
    """A card's marks on every sheet."""
    data = {"library": library(reference), "widths": widths(), "cards": {crop: said}}
    return [CardMaker(data, sheet, UNITS).marks(crop) for sheet in CUT_SHEETS.values()]


