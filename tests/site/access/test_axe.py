"""axe finds no fault in any kind of page, on a desk and on a phone, in light and in dark."""

from __future__ import annotations

import pytest

from tests.site.access import axe
from tests.site.access.states import STATES, open_page

pytestmark = pytest.mark.browser
WIDTHS = (1280, 360)


@pytest.mark.parametrize("state", STATES, ids=lambda state: state.name)
def test_no_fault(looking, site, state):
    open_page(looking, site, state)
    found = axe.faults(looking)
    axe.thin(looking)
    for width in (state.width,) if state.width == 360 else WIDTHS:
        looking.set_viewport_size({"width": width, "height": 900})
        if width != state.width:
            found += axe.faults(looking)
        for scheme in ("light", "dark"):
            found += [f"{scheme}, {width} px: {fault}" for fault in axe.faults_of_colour(looking, scheme)]
    assert not found, "\n".join(found)


SPOILT = {  # rule: what breaks it, and a style of it
    "image-alt": ("<img src='../../assets/images/library.svg'>", ""),
    "label": ("<input type='text'>", ""),
    "list": ("<ul><p>No item</p></ul>", ""),
    "target-size": ("<button>x</button><button>y</button>", "width:9px;height:9px;padding:0;min-width:0;min-height:0;display:inline-block"),
    "heading-order": ("<h5>Deep</h5>", ""),
    "scrollable-region-focusable": ("<div><p>Long, and again long, and again long, and again long</p></div>", "width:3em;height:1em;overflow:auto;display:block"),
}


@pytest.mark.parametrize("rule", SPOILT)
def test_a_fault_is_found(looking, site, rule):
    looking.set_viewport_size({"width": 1280, "height": 900})
    looking.goto(site + "guides/warmth/")
    looking.evaluate("([html, style]) => { const made = document.createElement('section'); made.innerHTML = html; document.querySelector('article.guide').append(made); for (const one of made.children) one.style.cssText = style; }", SPOILT[rule])
    assert [fault for fault in axe.faults(looking) if fault.startswith(f"{rule} ")]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_fault_of_colour_is_found_behind_others_of_its_shape(looking, site, scheme):
    looking.set_viewport_size({"width": 1280, "height": 900})
    looking.goto(site + "guides/warmth/")
    looking.evaluate("() => { const list = document.createElement('ul'); list.innerHTML = '<li>One</li>'.repeat(6) + '<li class=\"faint\">Faint</li>'; document.querySelector('article').append(list); list.lastChild.style.color = '#888'; list.lastChild.style.background = '#999'; }")
    axe.thin(looking)
    assert [fault for fault in axe.faults_of_colour(looking, scheme) if fault.startswith("color-contrast ")]
