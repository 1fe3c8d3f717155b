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
    for name in ("mkdocs.yml", "requirements.lock"):
        shutil.copy(root / name, target)
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
        _follow_renamed_rows(target / source.document.file, source, copies)
        _follow_in_figures(target / "data" / "figures.yml", source, copies)
    return target


def _grown(source, copies: dict[str, list[str]]) -> dict[str, str]:
    """First cells of the tables without printed names, as they were and as they are: crop_ids that have just grown."""
    cells = {row["crop_id"] for table in source.tables.values() if table.columns[0] == "crop_id" for row in table.rows if row["crop_id"]}
    return {cell: ";".join([*cell.split(";"), *(new for i in cell.split(";") for new in copies.get(i, ()))]) for cell in cells}


def _follow_renamed_rows(path: Path, source, copies: dict[str, list[str]]) -> None:
    """Doubts name a row by its first cell."""
    text = path.read_text(encoding="utf-8")
    for cell, grown in _grown(source, copies).items():
        text = text.replace(f'row: "{cell}"\n', f'row: "{grown}"\n')
    path.write_text(text, encoding="utf-8")


def _follow_in_figures(path: Path, source, copies: dict[str, list[str]]) -> None:
    """So do figures, in the part of the file that is the source's."""
    head, name, rest = path.read_text(encoding="utf-8").partition(f"\n{source.document.data['id']}:\n")
    own = re.match(r"(?:  .*\n)*", rest)[0]
    changed = own
    for cell, grown in _grown(source, copies).items():
        changed = changed.replace(f'row: "{cell}",', f'row: "{grown}",')
    if name and changed != own:
        path.write_text(head + name + changed + rest[len(own) :], encoding="utf-8")


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
    """Plain MkDocs Material with as many pages outside the navigation, each of about 150 lines: three tables, three inline charts of 5 kB."""
    docs = target / "docs"
    docs.mkdir(parents=True)
    (target / "mkdocs.yml").write_text("site_name: Plain\ntheme:\n  name: material\n  font: false\nnav:\n  - Home: index.md\nvalidation:\n  omitted_files: ignore\n", encoding="utf-8")
    table = "| temperature | seedlings | days |\n| --- | --- | --- |\n" + "".join(f"| {t} °C | {t * 2} % | {50 - t} |\n" for t in range(0, 40, 2))
    marks = "".join(f'<rect x="{x}" y="{x % 50}" width="6" height="{100 - x % 50}"/><text x="{x}" y="120">{x}</text>' for x in range(0, 400, 8))
    chart = f'\n<svg viewBox="0 0 400 130" role="img" xmlns="http://www.w3.org/2000/svg">{marks}</svg>\n\n'
    text = "".join(f"\n## Part {part}\n\n" + "Seed comes up sooner in warm soil than in cold, and most seed has a limit at both ends.\n\n" * 12 + chart + table for part in range(1, 4))
    for number in range(pages):
        name = "index" if not number else f"page-{number:05d}"
        (docs / f"{name}.md").write_text(f"# Page {number}\n{text}", encoding="utf-8")
    return target
