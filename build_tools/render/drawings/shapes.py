"""Small parts that drawings are put together from, as SVG text. Lines take the ink of their group; fills are the tints of __init__.py."""

from __future__ import annotations

import math


def path(d: str, *, fill: str = "", width: float | None = None, dashed: bool = False) -> str:
    """A line or shape; `fill` is a tint's name."""
    filled = f' class="tint-{fill}"' if fill else ""
    thick = f' stroke-width="{width:g}"' if width else ""
    dash = ' stroke-dasharray="1 6"' if dashed else ""
    return f'<path d="{d}"{filled}{thick}{dash}/>'


def words(x: float, y: float, text: str, *, anchor: str = "middle", size: float = 14) -> str:
    return f'<text x="{x:g}" y="{y:g}" text-anchor="{anchor}" font-size="{size:g}" fill="currentColor" stroke="none">{text}</text>'


def seed(x: float, y: float, angle: float = 0, size: float = 8, *, dashed: bool = False) -> str:
    """An oval seed `size` from its middle to its tip."""
    dash = ' stroke-dasharray="2 4"' if dashed else ""
    tint = "none" if dashed else "seed"
    return f'<ellipse class="tint-{tint}" cx="{x:g}" cy="{y:g}" rx="{size:g}" ry="{size * 0.62:g}" transform="rotate({angle:g} {x:g} {y:g})"{dash}/>'


def seedling(x: float, y: float, height: float = 40, root: float = 26) -> str:
    """A normal seedling whose seed was at x, y: root below, stem and two leaves above."""
    top = y - height
    leaf = height * 0.42
    return (
        path(f"M{x:g} {y:g}C{x + 5:g} {y + root * 0.4:g} {x - 6:g} {y + root * 0.7:g} {x + 1:g} {y + root:g}")
        + path(f"M{x:g} {y:g}C{x - 4:g} {y - height * 0.4:g} {x + 3:g} {y - height * 0.7:g} {x:g} {top:g}")
        + path(f"M{x:g} {top:g}C{x - leaf * 0.3:g} {top - leaf * 0.7:g} {x - leaf:g} {top - leaf * 0.6:g} {x - leaf * 1.15:g} {top - leaf * 0.15:g}C{x - leaf * 0.7:g} {top + leaf * 0.2:g} {x - leaf * 0.3:g} {top + leaf * 0.1:g} {x:g} {top:g}Z", fill="leaf")
        + path(f"M{x:g} {top:g}C{x + leaf * 0.3:g} {top - leaf * 0.7:g} {x + leaf:g} {top - leaf * 0.6:g} {x + leaf * 1.15:g} {top - leaf * 0.15:g}C{x + leaf * 0.7:g} {top + leaf * 0.2:g} {x + leaf * 0.3:g} {top + leaf * 0.1:g} {x:g} {top:g}Z", fill="leaf")
    )


def arrow(x1: float, y1: float, x2: float, y2: float, *, both: bool = False) -> str:
    """A line with a head at its end, or at both ends."""
    def head(x, y, angle):
        left, right = angle + 2.6, angle - 2.6
        return f"M{x + 9 * math.cos(left):.1f} {y + 9 * math.sin(left):.1f}L{x:g} {y:g}L{x + 9 * math.cos(right):.1f} {y + 9 * math.sin(right):.1f}"

    angle = math.atan2(y2 - y1, x2 - x1)
    return path(f"M{x1:g} {y1:g}L{x2:g} {y2:g}{head(x2, y2, angle)}{head(x1, y1, angle + math.pi) if both else ''}", width=2)


def drop(x: float, y: float, size: float = 9) -> str:
    """A drop of water, its tip at x, y."""
    return path(f"M{x:g} {y:g}C{x + size * 0.9:g} {y + size:g} {x + size * 0.6:g} {y + size * 1.8:g} {x:g} {y + size * 1.8:g}C{x - size * 0.6:g} {y + size * 1.8:g} {x - size * 0.9:g} {y + size:g} {x:g} {y:g}Z", fill="water", width=2)


def tray(x: float, y: float, width: float, height: float = 34) -> str:
    """A seed tray from the side, filled with mix nearly to its rim; x, y is the left end of the rim."""
    slant = 8
    mix = f"M{x + 2:g} {y + 8:g}L{x + width - 2:g} {y + 8:g}L{x + width - slant:g} {y + height:g}L{x + slant:g} {y + height:g}Z"
    return path(mix, fill="soil", width=1) + path(f"M{x - 4:g} {y:g}L{x:g} {y:g}L{x + slant:g} {y + height:g}L{x + width - slant:g} {y + height:g}L{x + width:g} {y:g}L{x + width + 4:g} {y:g}")


def lines(x: float, y: float, width: float, count: int, step: float) -> str:
    """Empty lines to write on."""
    return "".join(path(f"M{x:g} {y + i * step:g}H{x + width:g}", width=1.5) for i in range(count))
