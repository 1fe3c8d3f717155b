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


SPOILT = {
    "image-alt": "<img src='/assets/images/library.svg'>",
    "label": "<input type='text'>",
    "duplicate-id-aria": "<b id='twice'>a</b><b id='twice'>b</b><input aria-label='x' aria-describedby='twice'>",
    "target-size": "<button style='width:9px;height:9px;padding:0'>x</button><button style='width:9px;height:9px;padding:0'>y</button>",
    "heading-order": "<h5>Deep</h5>",
    "scrollable-region-focusable": "<div style='height:20px;overflow:auto'><p style='height:200px'>Long</p></div>",
}


@pytest.mark.parametrize("rule", SPOILT)
def test_a_fault_is_found(looking, site, rule):
    looking.goto(site + "guides/warmth/")
    looking.evaluate("(html) => document.querySelector('article').insertAdjacentHTML('beforeend', html)", SPOILT[rule])
    assert [fault for fault in axe.faults(looking) if fault.startswith(f"{rule} ")]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_fault_of_colour_is_found_behind_others_of_its_shape(looking, site, scheme):
    looking.goto(site + "guides/warmth/")
    looking.evaluate("() => { const list = document.createElement('ul'); list.innerHTML = '<li>One</li>'.repeat(6) + '<li class=\"faint\">Faint</li>'; document.querySelector('article').append(list); list.lastChild.style.color = '#888'; list.lastChild.style.background = '#999'; }")
    axe.thin(looking)
    assert [fault for fault in axe.faults_of_colour(looking, scheme) if fault.startswith("color-contrast ")]
