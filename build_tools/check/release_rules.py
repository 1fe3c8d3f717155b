"""Rules about the releases of the data."""

from __future__ import annotations

from ..problem import did_you_mean
from ..read import DataTree
from ..registry import rule


def entries_of(tree: DataTree):
    """(document, index, entry) of every release in data/releases.yml; nothing without the file."""
    document = tree.singles.get("releases")
    for index, entry in enumerate(document.data["releases"] if document else ()):
        yield document, index, entry


def ordered(version: str) -> tuple[int, ...]:
    """For ordering versions: "2026.11" before "2026.11.1" before "2026.12"."""
    return tuple(int(part) for part in version.split("."))


@rule("release-order")
def release_order(tree: DataTree):
    """Releases stand newest first, by version and by date, and no version twice."""
    earlier = None
    for document, index, entry in entries_of(tree):
        if earlier is not None:
            if ordered(entry["version"]) >= ordered(earlier["version"]):
                yield document.problem(("releases", index, "version"), "release-order", f'"{entry["version"]}" stands below "{earlier["version"]}".', "Put the newest release first, each version once.")
            elif entry["date"] > earlier["date"]:
                yield document.problem(("releases", index, "date"), "release-order", f'{entry["version"]} is dated {entry["date"]}, later than {earlier["version"]} ({earlier["date"]}).', "Correct one of the dates.")
        earlier = entry


@rule("release-of-data")
def release_of_data(tree: DataTree):
    """The data_version in data/library.yml has an entry in data/releases.yml, so that the page What changed says what readers hold."""
    versions = [entry["version"] for _, _, entry in entries_of(tree)]
    library = tree.singles["library"]
    if versions and library.data["data_version"] not in versions:
        yield library.problem(("data_version",), "release-of-data", f'There is no release "{library.data["data_version"]}" in data/releases.yml; the newest is "{versions[0]}".', "Record it with “changes BASE --release VERSION”, or put the version back.")


@rule("release-entry")
def release_entry(tree: DataTree):
    """Every table in data/releases/ belongs to a release of data/releases.yml; the first release has none, since nothing came before it."""
    versions = [entry["version"] for _, _, entry in entries_of(tree)]
    for version, table in tree.releases.items():
        if version not in versions:
            yield table.problem(None, None, "release-entry", f'There is no release "{version}" in data/releases.yml.', did_you_mean(version, versions) or "Add its entry, or delete the table.")
        elif version == versions[-1]:
            yield table.problem(None, None, "release-entry", f'"{version}" is the first release: nothing came before it that could have changed.', "Delete the table, or add the entry of the release before it.")


@rule("release-crop")
def release_crop(tree: DataTree):
    """Every crop that a table of data/releases/ names is a crop file, or was one: some release says that it was removed or renamed."""
    gone = {row["crop"] for table in tree.releases.values() for row in table.rows if row["kind"] == "removed"}
    gone |= {row["before"] for table in tree.releases.values() for row in table.rows if row["kind"] == "renamed" and row["what"] == "crop"}
    known = set(tree.crops) | gone
    for table in tree.releases.values():
        for row in table.rows:
            if row["crop"] and row["crop"] not in known:
                yield table.problem(row, "crop", "release-crop", f'"{row["crop"]}" is no crop, and no release says that it was removed.', did_you_mean(row["crop"], known))
