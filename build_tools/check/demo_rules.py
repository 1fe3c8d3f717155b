"""Rules about the invented files in data/demo/."""

from __future__ import annotations

import re
from dataclasses import replace

from ..lots import catalogue_of, read_lots
from ..problem import Problem
from ..read import DataTree
from ..registry import rule

DAY = re.compile(rb"\b\d{4}-\d{2}-\d{2}\b")


@rule("demo-lots")
def demo_lots(tree: DataTree):
    """The demo file of lots reads without a problem, and its first row says that it is invented."""
    raw = tree.demo.get("lots.csv")
    if raw is None:
        return
    crops = {crop: {"name": d.data["names"]["common"], "names": d.data["names"].get("other", []), "seed_life_years": None} for crop, d in tree.crops.items()}
    library = tree.singles["library"].data
    data = {
        "crops": crops, "practice": {}, "lending_line_percent": library["lending_line_percent"], "library_name": library["name"],
        "library_invented": library["invented"], "replicate_range_percent": [], "two_test_range": [],
    }
    # Read as on the last day it names: a demo does not become wrong by the calendar.
    latest = max(DAY.findall(raw), default=b"2026-01-01").decode()
    reading = read_lots(raw, "data/demo/lots.csv", catalogue_of(data), latest)
    for problem in reading.problems:
        yield replace(problem, rule="demo-lots", message=f"{problem.rule}: {problem.message}")
    if not reading.problems and "invented" not in raw.decode("utf-8-sig").split("\n", 2)[1].lower():
        yield Problem("data/demo/lots.csv", 2, 1, "demo-lots", "The first row of the demo does not say that it is invented.", "Say so in its note.")
