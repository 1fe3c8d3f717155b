"""Charts to explore: figures in the form that plotly reads, its browser script from the installed package. Nothing of it is loaded unless asked for."""

from __future__ import annotations

import hashlib
import html
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path

ZIPPED = 0.305  # of the script's size is left when a server compresses it; a test holds it to that


@dataclass(frozen=True)
class Library:
    """The browser script: its address in the site, its size in megabytes, whole and as most servers send it, and the id of a style it would put in."""

    file: str
    whole_mb: float
    sent_mb: float
    map_style: str


@cache
def script() -> bytes:
    """plotly.min.js of the installed package. Loading the package itself takes most of a second and is not needed for this."""
    found = find_spec("plotly")
    if found is None or not found.submodule_search_locations:
        raise FileNotFoundError("The Python package plotly is missing; it holds the script of the charts to explore. Install what requirements.lock lists.")
    return (Path(found.submodule_search_locations[0]) / "package_data" / "plotly.min.js").read_bytes()


MAP_STYLE = re.compile(rb'getElementById\("([0-9a-f]{64})"\)\)\{var \w+=document\.createElement\("style"\)')


def map_style() -> str:
    """The id of the style of maps that the script puts into a page unless it finds that id there; empty where it does no such thing.

    No chart here is a map, and the page's policy lets no style be put in: an element with the id keeps the script from trying.
    """
    found = MAP_STYLE.search(script())
    return found[1].decode() if found else ""


def library() -> Library:
    """Name and size of the script; a new version gets a new name, so browsers may keep it for good."""
    content = script()
    name = hashlib.sha256(content).hexdigest()[:12]
    return Library(f"assets/js/plotly-{name}.min.js", round(len(content) / 1e6, 1), round(len(content) * ZIPPED / 1e6, 1), map_style())


def crops_axis(rows) -> dict:
    """The axis of crops, in order from the top."""
    return {"type": "category", "autorange": "reversed", "categoryorder": "array", "categoryarray": [row.crop.name for row in rows], "fixedrange": True, "automargin": True}


def trace(kind: str, **properties) -> dict:
    """A trace in the form that plotly reads; what is None or empty is left out. Tests hold every figure against plotly's own definitions."""
    return {**_in_order({key: value for key, value in properties.items() if value not in (None, {})}), "type": kind}


def layout(name: str, title: str, scale: str, ends: tuple[float, float], begin: list[str] | None = None, **axes) -> dict:
    """A layout without colours, which the page gives: `scale` is celsius or years, `ends` its whole span, `begin` the crops shown at first (None: all)."""
    titles = {"celsius": "soil temperature, °C", "years": "years"}
    return _in_order({
        "title": {"text": title, "x": 0, "xanchor": "left", "font": {"size": 16}}, "margin": {"l": 8, "r": 12, "t": 44, "b": 8}, "hovermode": "closest",
        "xaxis": {"title": {"text": titles[scale]}, "range": list(ends), "zeroline": False, "automargin": True},
        "legend": {"orientation": "h", "yanchor": "top", "y": -0.12, "yref": "paper", "x": 0}, "meta": {"name": name, "scale": scale, "ends": list(ends), "begin": begin}, **axes,
    })


def _in_order(properties: dict) -> dict:
    """By name, as plotly would write them; what is ours in `meta` as it stands."""
    return {key: _in_order(value) if isinstance(value, dict) and key != "meta" else value for key, value in sorted(properties.items())}


def as_letters(value):
    """The value with every text in it escaped, line ends as <br>: plotly takes names and hover texts for markup of its own."""
    if isinstance(value, str):
        return html.escape(value, quote=False).replace("\n", "<br>")
    if isinstance(value, Mapping):
        return {key: as_letters(inner) for key, inner in value.items()}
    return [as_letters(inner) for inner in value] if isinstance(value, (list, tuple)) else value


def figure_json(traces: list[dict], layout_: dict) -> str:
    """The figure as JSON: plain data, since plotly's objects would take longer to load than all figures to make."""
    figure = as_letters({"data": traces, "layout": layout_})
    return json.dumps(figure, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
