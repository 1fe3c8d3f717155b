"""Every control of every page that has some is reached by Tab, in order, seen there, and left again (WCAG 2.2: 2.1.1, 2.1.2, 2.4.1, 2.4.3, 2.4.7, 2.4.11)."""

from __future__ import annotations

import pytest

from tests.site.access.keys import check_walk, walk
from tests.site.access.states import CALCULATORS, CORRECT, State, calculator_path, explore, file_of_lots, menu, open_page, search, spoil, typed_correction, wrong_labels

pytestmark = pytest.mark.browser

WALKED = (
    *(State(f"calculator {name}", calculator_path(name)) for name in CALCULATORS),
    *(State(f"calculator {name} on a phone", calculator_path(name), spoil, 360) for name in ("count", "daily-counts", "soil", "sowing-times")),
    *(State(f"compare {name}", f"compare/{name}/", explore) for name in ("warmth", "days", "seed-life")),
    State("lots", "calculators/lots/", file_of_lots),
    State("labels", "print/labels/", wrong_labels),
    State("poster", "print/poster/"),
    State("correct", CORRECT, typed_correction),
    State("crop", "crops/lettuce/"),
    State("crop on a phone", "crops/lettuce/", width=360),
    State("home", ""),
    State("crops", "crops/"),
)


@pytest.mark.parametrize("state", WALKED, ids=lambda state: state.name)
def test_every_control_is_reached_in_order_and_seen(looking, site, state):
    open_page(looking, site, state)
    check_walk(walk(looking))
