"""Line drawings of the treatments and of the towel test: SVG written as code, for pages and for printed sheets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from markupsafe import Markup, escape

from . import scenes

WIDTH, HEIGHT = 320, 200
# Fills by name, as they stand on printed sheets; pages take theirs from docs/assets/css/charts.css.
TINTS = {"water": "#d5e3ec", "soil": "#d8c9ad", "towel": "#f0ede2", "seed": "#e3d3a0", "leaf": "#b9d4b6", "tool": "#dcdcdc", "paper": "#ffffff", "none": "none"}


@dataclass(frozen=True)
class Drawing:
    """A drawing: its caption, what is seen and why, and which treatments it belongs to."""

    id: str
    title: str
    description: str
    body: Callable[[], str]
    shows: tuple[str, ...] = ()


DRAWINGS = {
    drawing.id: drawing
    for drawing in (
        Drawing("towel-lay", "Seed laid out on a damp towel", "Ten seeds lie in two rows on a damp paper towel, spaced apart so that roots do not tangle.", scenes.towel_lay),
        Drawing("towel-roll", "The towel rolled, bagged and labelled", "The towel is rolled up with the seed inside and put into a bag with a few air holes; the bag carries a label for lot and date.", scenes.towel_roll),
        Drawing("towel-count", "What to count", "On the opened towel three seedlings have root, shoot and leaves: they are normal and count. One has a shoot but no root and one seed has done nothing: neither counts.", scenes.towel_count),
        Drawing("soak-under-towel", "A wet towel keeps floating seed under", "A bowl cut through: seed lies at the bottom of the water, and floating seed is held under by a wet towel laid over the bowl.", scenes.soak_under_towel, ("soak",)),
        Drawing("nick", "Nicked opposite the eye", "A large seed is held in pliers on the side of its eye, the scar where it was attached. Nail clippers cut the coat on the opposite side. The fingers stay back on the handles, away from the cut.", scenes.nick, ("scarify",)),
        Drawing("sandpaper", "Rubbed between two sheets of sandpaper", "Seed lies between two sheets of sandpaper on a table. The upper sheet is rubbed to and fro with a flat hand; no blade is needed.", scenes.sandpaper, ("scarify",)),
        Drawing("depth-and-light", "Three depths", "Soil cut through: one seed is pressed into the surface and lies in the light, one is just covered, a large one lies under twice its own thickness of soil.", scenes.depth_and_light),
        Drawing("dome-off", "The dome comes off when seedlings stand", "Left, a tray of sown seed under a clear dome. Right, seedlings are up and the dome has been lifted off.", scenes.dome_off),
        Drawing("warm-place", "Warmth from below, measured in the mix", "A tray stands on a heat mat. The probe of a thermostat is in the mix, and the thermostat hangs above the tray; its cable drops in a loop so that water runs off before the plug.", scenes.warm_place, ("bottom-heat",)),
        Drawing("plug-tray", "A test in a plug tray", "A row of five cells filled with mix and sown with one seed each: seedlings stand in three, two are empty. A stick label stands in the last.", scenes.plug_tray),
        Drawing("thermometer", "Measured where the seed lies, early in the day", "Soil cut through: the tip of a thermometer is as deep as the seed. A low sun says that it is early.", scenes.thermometer),
        Drawing("label", "What a packet and a label should say", "A packet with empty lines for crop, lot, year and test, and a stick label with lines for crop, the day sown and the number of seeds.", scenes.label),
    )
}


def drawings_of(treatment: str) -> list[Drawing]:
    """The drawings that show a treatment."""
    return [drawing for drawing in DRAWINGS.values() if treatment in drawing.shows]


def _group(drawing: Drawing) -> str:
    return f'<g fill="none" stroke="currentColor" stroke-width="2.5" stroke-linecap="round" stroke-linejoin="round">{drawing.body()}</g>'


def inline(name: str) -> Markup:
    """SVG for a page, coloured by its style sheet. One drawing stands once on a page: its ids are its name's. KeyError for an unknown name."""
    drawing = DRAWINGS[name]
    head = Markup('<svg class="drawing" role="img" viewBox="0 0 {} {}" aria-labelledby="drawing-{}-title drawing-{}-desc" xmlns="http://www.w3.org/2000/svg"><title id="drawing-{}-title">{}</title><desc id="drawing-{}-desc">{}</desc>').format(WIDTH, HEIGHT, name, name, name, drawing.title, name, drawing.description)
    return head + Markup(_group(drawing).replace("<g ", '<g aria-hidden="true" ', 1)) + Markup("</svg>")  # its letters are in the description


def standalone(name: str, family: str = "Source Sans Pro") -> str:
    """A whole SVG document in black with light tints, for printed sheets. KeyError for an unknown name."""
    drawing = DRAWINGS[name]
    body = _group(drawing).replace("currentColor", "#000000")
    for tint, colour in TINTS.items():
        body = body.replace(f'class="tint-{tint}"', f'fill="{colour}"')
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" height="{HEIGHT}" font-family="{escape(family)}"><title>{escape(drawing.title)}</title><desc>{escape(drawing.description)}</desc>{body}</svg>\n'
