"""Rules across files: ids resolve both ways, nothing is cited or kept in vain."""

from __future__ import annotations

from collections import defaultdict

from ..problem import did_you_mean
from ..read import DataTree
from ..registry import rule
from .guide_rules import guide_citations
from .meaning_rules import WORDS_FOR_SOURCES, values_of
from .tables import KINDS_OF_EVIDENCE, evidence_kinds, tables_of


def sources_in(document):
    """(document, path, source id or word) of every `sources` list of a file."""
    stack = [((), document.data)]
    while stack:
        path, node = stack.pop()
        if isinstance(node, dict):
            stack += [(path + (key,), value) for key, value in node.items()]
            if isinstance(node.get("sources"), list):
                for index, source in enumerate(node["sources"]):
                    yield document, path + ("sources", index), source
        elif isinstance(node, list):
            stack += [(path + (index,), value) for index, value in enumerate(node)]


def citations(tree: DataTree):
    """The same of every crop and treatment file."""
    for document in [*tree.crops.values(), *tree.treatments.values()]:
        yield from sources_in(document)


def all_citations(tree: DataTree):
    """The same of the files that stand alone as well."""
    yield from citations(tree)
    for document in tree.singles.values():
        yield from sources_in(document)


@rule("unknown-source")
def unknown_source(tree: DataTree):
    """Every source id that a file cites is a folder of data/sources/."""
    for document, path, source in all_citations(tree):
        if source not in WORDS_FOR_SOURCES and source not in tree.sources:
            yield document.problem(path, "unknown-source", f'There is no source "{source}" in data/sources/.', did_you_mean(source, list(tree.sources) + list(WORDS_FOR_SOURCES)))


@rule("unused-source", acceptable=True)
def unused_source(tree: DataTree):
    """Every source folder is cited by a file, or holds a table that the site shows."""
    cited = {source for _, _, source in all_citations(tree)} | {source for _, _, source in guide_citations(tree)}
    for name, source in tree.sources.items():
        if name not in cited and not source.tables:
            yield source.document.problem((), "unused-source", f'Nothing cites "{name}" and it holds no table.', "Cite it, add its table, or delete the folder.")


@rule("citation-without-row", acceptable=True)
def citation_without_row(tree: DataTree):
    """A source cited for a crop names that crop in one of its tables, unless it holds no table about crops."""
    named: dict[str, set[str]] = defaultdict(set)
    about_crops: dict[str, tuple] = {}
    for name, entry, table in tables_of(tree):
        if "crop_id" in table.columns:
            about_crops[name] = (*about_crops.get(name, ()), table.see(column="crop_id"))
            for row in table.rows:
                named[name].update(row["crop_id"].split(";"))
    for crop, document in tree.crops.items():
        for path, key, value in values_of(document.data):
            for index, source in enumerate(value["sources"]):
                if source in about_crops and crop not in named[source]:
                    yield document.problem(path + ("sources", index), "citation-without-row", f'{key} cites "{source}", whose tables have no row for {crop}.', "Cite the source that prints it, or give the row its crop_id.", see=about_crops[source][:3])


@rule("unknown-treatment")
def unknown_treatment(tree: DataTree):
    """Every treatment named by a crop or a table is a file of data/treatments/."""
    for document in tree.crops.values():
        for index, entry in enumerate(document.data.get("pretreatments", [])):
            if entry["treatment"] not in tree.treatments:
                yield document.problem(("pretreatments", index, "treatment"), "unknown-treatment", f'There is no treatment "{entry["treatment"]}".', did_you_mean(entry["treatment"], tree.treatments))
    for _, entry, table in tables_of(tree):
        if entry.get("kind") == "treatment-evidence":
            for row in table.rows:
                if row["treatment"] not in tree.treatments:
                    yield table.problem(row, "treatment", "unknown-treatment", f'There is no treatment "{row["treatment"]}".', did_you_mean(row["treatment"], tree.treatments))


@rule("unused-treatment", acceptable=True)
def unused_treatment(tree: DataTree):
    """Every treatment is used by a crop or by a table of evidence."""
    used = {entry["treatment"] for document in tree.crops.values() for entry in document.data.get("pretreatments", [])}
    used |= {row["treatment"] for _, entry, table in tables_of(tree) if entry.get("kind") == "treatment-evidence" for row in table.rows}
    for name, document in tree.treatments.items():
        if name not in used:
            yield document.problem((), "unused-treatment", f'Nothing uses the treatment "{name}".', "Use it or delete the file.")


@rule("unknown-crop-id")
def unknown_crop_id(tree: DataTree):
    """Every crop_id in a printed table is a crop file or a kind listed in data/other-kinds.yml."""
    others = set(tree.singles["other-kinds"].data) if "other-kinds" in tree.singles else set()
    known = set(tree.crops) | others
    found: dict[str, list] = defaultdict(list)
    for _, _, table in tables_of(tree):
        for row in table.rows if "crop_id" in table.columns else ():
            for crop in filter(None, row["crop_id"].split(";")):
                if crop not in known:
                    found[crop].append((table, row))
    for crop, places in found.items():  # one problem a name: a deleted crop file would else be reported a hundred times
        table, row = places[0]
        more = f" {len(places) - 1} more rows name it." if len(places) > 1 else ""
        yield table.problem(row, "crop_id", "unknown-crop-id", f'"{crop}" is neither a crop nor listed in data/other-kinds.yml.{more}', did_you_mean(crop, known), see=tuple(t.see(r, "crop_id") for t, r in places[1:3]))


@rule("seed-oil-crop")
def seed_oil_crop(tree: DataTree):
    """Every key of data/seed-oil.yml is a crop of the reference: an oil content of anything else is shown nowhere."""
    document = tree.singles["seed-oil"]
    for crop in document.data:
        if crop not in tree.crops:
            yield document.problem((crop,), "seed-oil-crop", f'There is no crop "{crop}" in data/crops/.', did_you_mean(crop, tree.crops) or "Delete this entry, or write the crop's file.")


@rule("kind-without-page")
def kind_without_page(tree: DataTree):
    """A kind listed in data/other-kinds.yml has no crop file, occurs in a table, and lacks the evidence for a page (two of: temperature table, official test method, seed life) unless its entry says `page: false`."""
    if "other-kinds" not in tree.singles:
        return
    document, kinds = tree.singles["other-kinds"], evidence_kinds(tree)
    for name in document.data:
        if name in tree.crops:
            yield document.problem((name,), "kind-without-page", f'"{name}" has a crop file.', "Delete this entry.", see=(tree.crops[name].see(),))
        elif name not in kinds and not _occurs(tree, name):
            yield document.problem((name,), "kind-without-page", f'"{name}" occurs in no table.', "Delete this entry.")
        elif len(kinds.get(name, ())) >= 2 and document.data[name].get("page") is not False:
            yield document.problem((name,), "kind-without-page", f'"{name}" has {" and ".join(sorted(kinds[name]))}: enough for a page.', "Write data/crops/ a file for it, or say `page: false` and why.")


def _occurs(tree: DataTree, crop: str) -> bool:
    return any(crop in row["crop_id"].split(";") for _, _, table in tables_of(tree) for row in table.rows)


@rule("too-little-evidence", acceptable=True)
def too_little_evidence(tree: DataTree):
    """A crop has a page only with at least two of: a temperature table, an official test method, a seed life."""
    kinds = evidence_kinds(tree)
    for crop, document in tree.crops.items():
        if len(kinds.get(crop, ())) < 2:
            has = f"a table of one kind only: {next(iter(kinds[crop]))}" if kinds.get(crop) else "no table"
            yield document.problem((), "too-little-evidence", f"For {crop} there is {has}; a page needs two of {', '.join(KINDS_OF_EVIDENCE)}.", "Add a table that names it, or list it in data/other-kinds.yml.")


@rule("name-taken")
def name_taken(tree: DataTree):
    """A crop's common name is no common or other name of another crop."""
    names: dict[str, str] = {}
    for crop, document in tree.crops.items():
        names.setdefault(document.data["names"]["common"].casefold(), crop)
    for crop, document in tree.crops.items():
        found = document.data["names"]
        for path, name in [(("names", "common"), found["common"])] + [(("names", "other", i), n) for i, n in enumerate(found.get("other", ()))]:
            owner = names.get(name.casefold(), crop)
            if owner != crop:
                yield document.problem(path, "name-taken", f'"{name}" is the common name of {owner}.', "Choose a name that tells them apart.", see=(tree.crops[owner].see(("names", "common")),))


@rule("family-named", acceptable=True)
def family_named(tree: DataTree):
    """A family of reprints is named in at least two sources, or begins the id of its only source: a misspelt family would count as an independent witness."""
    members = defaultdict(list)
    for name, source in tree.sources.items():
        members[source.document.data["family"]].append(name)
    for family, names in members.items():
        if len(names) == 1 and not names[0].startswith(family):
            others = [f for f in members if f != family]
            yield tree.sources[names[0]].document.problem(("family",), "family-named", f'"{family}" is the family of this source only.', did_you_mean(family, others) or f'Name it "{names[0]}", or as the family it copies.')
