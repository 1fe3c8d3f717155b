"""Values by hand at the edges of what is allowed; the browser's side of the same list is in test_twins.py."""

from __future__ import annotations

import json

import pytest

from tests.science.published_edges import EDGES
from tests.science.write_vectors import MODULES


def apart(found, expected):
    """The worst difference of two JSON-like values; infinite where the kinds differ."""
    if isinstance(found, dict) and isinstance(expected, dict) and found.keys() == expected.keys():
        return max([apart(found[key], expected[key]) for key in found], default=0)
    if isinstance(found, list) and isinstance(expected, list) and len(found) == len(expected):
        return max(map(apart, found, expected), default=0)
    if isinstance(found, int | float) and isinstance(expected, int | float) and isinstance(found, bool) == isinstance(expected, bool):
        return abs(found - expected)
    return 0 if found == expected and type(found) is type(expected) else float("inf")


@pytest.mark.parametrize("check", EDGES, ids=str)
def test_value_at_the_edge(check):
    found = json.loads(json.dumps(getattr(MODULES[check.module], check.function)(*check.arguments)))
    assert apart(found, json.loads(json.dumps(check.expected))) <= check.tolerance, f"{check.source}: {found}"


def test_a_wrong_value_is_noticed():
    assert apart({"a": [1.0, None]}, {"a": [1.0, 0]}) == apart([True], [1]) == apart([1], [1, 2]) == float("inf")
    assert apart({"a": [1.0, 2]}, {"a": [1.5, 2.0]}) == 0.5
