"""Stored SVG text of charts: what tests/render/test_chart_svgs.py compares with. Renew: python -m tests.render.write_snapshots

Look at what changed (git diff tests/render/snapshots) before you keep it.
"""

from __future__ import annotations

import re
from pathlib import Path

from build_tools.model import load
from build_tools.render.charts.bands import band_chart
from build_tools.render.charts.emergence import emergence_chart
from build_tools.render.charts.scale import Linear
from build_tools.render.charts.seed_life import seed_life_chart
from build_tools.render.compare import seed_life, warmth
from build_tools.render.environment import make_environment
from build_tools.render.rows import band_row, life_row

ROOT = Path(__file__).resolve().parents[2]
FOLDER = Path(__file__).parent / "snapshots"
# Whole; no minimum and no maximum; an optimum alone; an optimum between minimum and maximum without a best range; no optimum; nothing known.
CROPS = ("tomato", "arugula", "cowpea", "endive", "calendula", "spinach", "asparagus", "artichoke")


def charts(reference) -> dict[str, str]:
    """name → SVG text, "" where there is no chart."""
    environment = make_environment(reference)
    life_scale = Linear(0, seed_life.most_years([life_row(c) for c in reference.crops.values() if life_row(c).known]))
    made = {}
    for crop in map(reference.crops.get, CROPS):
        made[f"{crop.id}-bands"] = str(band_chart(crop, reference, environment))
        made[f"{crop.id}-emergence"] = str(emergence_chart(crop, environment))
        made[f"{crop.id}-seed-life"] = str(seed_life_chart(crop, reference, environment))
        made[f"{crop.id}-row-warmth"] = row(environment, "band", warmth.drawn(band_row(crop)), [(t, warmth.X(t)) for t in warmth.TICKS]) if band_row(crop).known else ""
        made[f"{crop.id}-row-seed-life"] = row(environment, "life", seed_life.drawn(life_row(crop), life_scale), [(t, life_scale(t)) for t in range(7)]) if life_row(crop).known else ""
    return made


def row(environment, template: str, drawn: dict, ticks: list) -> str:
    """The SVG of one row of a page "Compare"."""
    return environment.get_template(f"compare/{template}.svg").render(r=drawn, ticks=ticks)


def main() -> None:
    """Write every chart; remove files of charts that are no more."""
    reference, problems = load(ROOT)
    assert not problems, problems
    FOLDER.mkdir(exist_ok=True)
    made = {name: text for name, text in charts(reference).items() if text}
    for path in FOLDER.glob("*.svg"):
        if path.stem not in made:
            path.unlink()
    for name, text in made.items():
        (FOLDER / f"{name}.svg").write_text(re.sub(r"\n+", "\n", text.strip()) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
