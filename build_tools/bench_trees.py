"""Made-up projects for measuring: the real data with its crops copied many times over, and plain MkDocs Material."""

from __future__ import annotations

import csv
import io
import re
import shutil
from pathlib import Path

from .read import read_tree


def synthetic_project(root: Path, target: Path, count: int) -> Path:
    """The project with `count` crops: the real ones, and copies of them under new ids and names, in tables too."""
    for name in ("build_tools", "docs", "schema", "data"):
        shutil.copytree(root / name, target / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(root / "mkdocs.yml", target)
    originals = sorted(p.stem for p in (root / "data" / "crops").glob("*.yml"))
    copies: dict[str, list[str]] = {}
    for number in range(count - len(originals)):
        original = originals[number % len(originals)]
        new = f"copy-{number:05d}"
        copies.setdefault(original, []).append(new)
        text = (root / "data" / "crops" / f"{original}.yml").read_text(encoding="utf-8")
        text = text.replace(f"id: {original}\n", f"id: {new}\n", 1)
        text = re.sub(r'(  common: ")([^"]*)"', rf'\g<1>\g<2> {number}"', text, count=1)
        (target / "data" / "crops" / f"{new}.yml").write_text(text, encoding="utf-8")
    for source in read_tree(root / "data").sources.values():
        for table in source.tables.values():
            if "crop_id" in table.columns:
                _add_copies(target / table.file, copies)
    return target


def _add_copies(path: Path, copies: dict[str, list[str]]) -> None:
    """Append the copies' ids to every crop_id cell that names their original."""
    rows = list(csv.reader(io.StringIO(path.read_text(encoding="utf-8"))))
    place = rows[0].index("crop_id")
    for row in rows[1:]:
        ids = row[place].split(";")
        row[place] = ";".join(ids + [new for i in ids for new in copies.get(i, ())])
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    path.write_text(out.getvalue(), encoding="utf-8")


def plain_project(target: Path, pages: int) -> Path:
    """Plain MkDocs Material with as many pages of about 150 lines, three tables each, outside the navigation."""
    docs = target / "docs"
    docs.mkdir(parents=True)
    (target / "mkdocs.yml").write_text("site_name: Plain\ntheme:\n  name: material\n  font: false\nnav:\n  - Home: index.md\nvalidation:\n  omitted_files: ignore\n", encoding="utf-8")
    table = "| temperature | seedlings | days |\n| --- | --- | --- |\n" + "".join(f"| {t} °C | {t * 2} % | {50 - t} |\n" for t in range(0, 40, 2))
    text = "".join(f"\n## Part {part}\n\n" + "Seed comes up sooner in warm soil than in cold, and most seed has a limit at both ends.\n\n" * 5 + table for part in range(1, 4))
    for number in range(pages):
        name = "index" if not number else f"page-{number:05d}"
        (docs / f"{name}.md").write_text(f"# Page {number}\n{text}", encoding="utf-8")
    return target
