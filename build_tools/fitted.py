"""Curves through measured points, fitted once: what scipy works out is kept from one build to the next (see kept.py), and scipy's slow part is loaded only for new points."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from importlib.metadata import version

from . import kept

KIND = "curves"


def pchip(x: Sequence[float], y: Sequence[float]) -> tuple[tuple[float, ...], ...]:
    """The pieces of the PCHIP curve through two points or more, as (a, b, c, d) of a·u³ + b·u² + c·u + d, u from the left end of a piece.

    As scipy.interpolate.PchipInterpolator has them. Raises ValueError unless x rises strictly.
    """
    points = [[float(v) for v in x], [float(v) for v in y]]
    name = kept.key(_scipy(), repr(points).encode())
    content = kept.get(KIND, name)
    if content is not None:
        return tuple(map(tuple, json.loads(content)))
    from scipy.interpolate import PchipInterpolator  # half a second to load

    pieces = tuple(tuple(float(v) for v in piece) for piece in PchipInterpolator(*points).c.T)
    kept.put(KIND, name, json.dumps(pieces).encode())
    return pieces


@cache
def _scipy() -> bytes:
    return version("scipy").encode()
