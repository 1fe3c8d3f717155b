"""Line drawings of treatments, of the towel test and of sowing: one template each, for pages (colours of the page) and for print (real colours)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

WIDTH, HEIGHT = 320, 200  # units of every drawing
PRINTED = {"ink": "#000000", "paper": "#ffffff", "water": "#c9dfec", "soil": "#dcc9a8", "towel": "#f2ead6"}
FAMILY = "Source Sans Pro"


@dataclass(frozen=True)
class Drawing:
    """A drawing: its name, what it is called, what is seen and why it is done so, the ids of the treatments it shows, a line to stand under it."""

    id: str
    title: str
    description: str
    shows: tuple[str, ...] = ()
    caption: str = ""


DRAWINGS = {
    drawing.id: drawing
    for drawing in (
        Drawing(
            "towel-lay", "Seeds in rows on a damp towel",
            "Ten seeds lie in two rows on a damp paper towel, none touching its neighbour, so that mould does not pass from one to the next and roots do not tangle.",
            ("presprout", "chill"), "Lay the seeds on the damp towel without touching.",
        ),
        Drawing(
            "towel-roll", "The towel rolled up and put into a labelled bag",
            "The towel is rolled up over the seeds and put into a bag. The bag has a few holes, which let air in, and a label with lines for crop, lot and date, so that lots are not mixed up.",
            ("presprout", "chill"), "Roll it, bag it, leave it some air, and label the bag.",
        ),
        Drawing(
            "towel-count", "The opened towel, counted in groups",
            "The towel is open again and what lies on it is put in groups: six normal seedlings, each with a root, a shoot and two leaves; one that is not normal, with a stub for a root and a bent shoot; one seed that has not sprouted. Tally marks stand under each group, since only normal seedlings count as germinated.",
            (), "Put normal seedlings apart from the rest, and count each group.",
        ),
        Drawing(
            "soak-under-towel", "Seed kept under water by a wet towel",
            "A bowl of water cut through. A wet towel lies on the water, wholly inside the bowl. Some seeds rest on the bottom; the ones that would float are held under by the towel, so that they drink too.",
            ("soak",), "A wet towel on the water keeps floating seed under.",
        ),
        Drawing(
            "nick", "A large seed nicked opposite its eye",
            "Pliers hold a large seed; the hand is at the far end of their handles. The eye, the scar where the seed was attached, faces the pliers. Nail clippers take a sliver off the coat at the other end, away from the fingers: none is in line with the blades, and the germ beside the eye is not hurt.",
            ("scarify",), "Hold the seed in pliers and nick it opposite the eye, away from your fingers.",
        ),
        Drawing(
            "sandpaper", "Small seed rubbed between two sheets of sandpaper",
            "A sheet of sandpaper lies on a table, rough side up, with small seeds on it. A second sheet lies on the seeds, rough side down; one turned-up corner shows it. Two hands lie flat on the upper sheet and move it to and fro: the fingers stay above the paper and touch neither seed nor grit.",
            ("scarify",), "Rub many small seeds between two sheets, hands flat on the upper one.",
        ),
        Drawing(
            "depth-and-light", "Three depths: pressed in, lightly covered, two to three times its thickness",
            "Soil cut through, with a ruler that starts at the surface. One seed is only pressed into the surface and sunlight falls on it; one is lightly covered; one lies as deep as two to three such seeds are thick, shown by their outlines stacked above it.",
            (), "Pressed in for seed that wants light; lightly covered; or two to three times as deep as the seed is thick.",
        ),
        Drawing(
            "dome-off", "The dome comes off when the first seedlings are up",
            "On the left a tray of bare soil under a clear dome, with drops on its inside: it keeps the soil moist. On the right the first seedlings are up, and the dome is lifted off so that they get air and light and do not rot.",
            ("bottom-heat",), "When the first seedlings are up, take the dome off.",
        ),
        Drawing(
            "warm-place", "A covered tray on a heat mat, its probe in the mix",
            "A covered tray stands in a drip tray on a flat heat mat. The thermostat is plugged in on the wall, above the tray; its probe sits in the mix among the seeds, where the warmth matters. The mat’s cable hangs below the table before it goes up to the plug, so that water drips off the loop and does not run into the plug.",
            ("bottom-heat",), "Probe in the mix, drip tray under the tray, plug above it, cable in a loop.",
        ),
        Drawing(
            "label", "A packet and a stick label to fill in",
            "A seed packet with empty lines for crop, lot, date and count. Beside it a pot with a stick label and a pencil: what was sown, when and how many is written down at once, since nobody remembers it.",
            (), "Write down crop, lot, date and count at once.",
        ),
    )
}


class _Colours:
    """How a template paints: on a page by classes and currentColor, in print by real colours."""

    def __init__(self, printed: bool):
        self.printed = printed
        self.ink = PRINTED["ink"] if printed else "currentColor"

    def fill(self, name: str) -> Markup:
        """The attribute that fills a shape with a tint, or with the paper."""
        return Markup('fill="{}"').format(PRINTED[name]) if self.printed else Markup('class="{}"').format(name)

    def line(self, name: str) -> Markup:
        """The attribute that draws a line in the paper's colour, or a tint's."""
        return Markup('stroke="{}"').format(PRINTED[name]) if self.printed else Markup('class="{}-line"').format(name)


def _render(name: str, environment: Environment, printed: bool, prefix: str) -> Markup:
    drawing = DRAWINGS[name]
    text = environment.get_template(f"drawings/{name}.svg").render(drawing=drawing, colours=_Colours(printed), prefix=prefix, width=WIDTH, height=HEIGHT, family=FAMILY)
    return Markup("".join(line.strip() for line in text.splitlines()))


def inline(name: str, environment: Environment, prefix: str) -> Markup:
    """A drawing as SVG for a page; its ids begin with `prefix`, which must be the page's only one for this drawing. KeyError for unknown names."""
    return _render(name, environment, False, prefix)


def again(name: str, prefix: str, first: str) -> Markup:
    """The drawing that `inline(name, …, first)` puts on the same page, shown once more for a few bytes."""
    drawing = DRAWINGS[name]
    return Markup(
        '<svg class="drawing" role="img" aria-labelledby="{p}-title {p}-desc" viewBox="0 0 {w} {h}" width="{w}" height="{h}"><title id="{p}-title">{t}</title>'
        '<desc id="{p}-desc">{d}</desc><use href="#{f}-art"/></svg>'
    ).format(p=prefix, w=WIDTH, h=HEIGHT, t=drawing.title, d=drawing.description, f=first)


@lru_cache(maxsize=1)
def _own_environment() -> Environment:
    return Environment(loader=FileSystemLoader(Path(__file__).parent / "templates"), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)


@lru_cache(maxsize=None)
def standalone(name: str) -> str:
    """A drawing as a complete SVG document in real colours, for the typesetter. KeyError for unknown names."""
    return str(_render(name, _own_environment(), True, name))


class PageDrawings:
    """The drawings of one page: each is drawn the first time, or where the page said it will be, and only referred to elsewhere."""

    def __init__(self, environment: Environment, later: tuple[str, ...] = ()):
        self._environment, self._shown, self._later = environment, dict.fromkeys(DRAWINGS, 0), set(later)

    def svg(self, name: str, here: bool = False) -> Markup:
        """The drawing, or a reference to it. `here`: this is the place of one named in `later`."""
        first = f"drawing-{name}"
        if here or (name not in self._later and not self._shown[name]):
            self._later.discard(name)
            self._shown[name] += 1
            return inline(name, self._environment, first)
        self._shown[name] += 1
        return again(name, f"{first}-{self._shown[name]}-again", first)

    def figure(self, name: str, here: bool = False) -> Markup:
        """The drawing with its line under it."""
        return Markup('<figure class="drawn">{}<figcaption>{}</figcaption></figure>').format(self.svg(name, here), DRAWINGS[name].caption)

    @staticmethod
    def of(treatment: str) -> list[str]:
        """The names of the drawings that show a treatment, in the order of its steps."""
        return [d.id for d in DRAWINGS.values() if treatment in d.shows]
