"""The evidence check: each status, on made-up printed values."""

import pytest

from build_tools.check.evidence import compare
from build_tools.check.printed import Printed
from build_tools.check.tables import days_cell


def printed(family, low, high=None, counts=True):
    return Printed(f"s-{family}", family, "data/x.csv", 2, f"{low} °C", float(low), float(low if high is None else high), counts=counts)


def word(family, choice):
    return Printed(f"s-{family}", family, "data/x.csv", 2, choice, None, None, choice)


def value(number, *sources):
    return {"value": number, "sources": list(sources) or ["s-a"]}


@pytest.mark.parametrize("given, families, status", [
    (value(10), [printed("a", 10), printed("b", 10)], "agrees"),
    (value(10), [printed("a", 9.8), printed("b", 10.2)], "agrees"),
    (value(10), [printed("a", 10), printed("b", 15)], "within span"),
    (value(12), [printed("a", 10), printed("b", 15)], "within span"),
    (value(4), [printed("a", 10), printed("b", 15)], "departs"),
    (value(16), [printed("a", 10), printed("b", 15)], "departs"),
    (value(10), [printed("a", 10)], "single family"),
    (value(10), [printed("a", 10), printed("a", 12)], "single family"),
    (value(11), [printed("a", 10), printed("a", 12), printed("b", 11)], "agrees"),
    (value(10), [printed("a", 10), printed("old", 20, counts=False)], "single family"),
    (value(20), [printed("old", 20, counts=False)], "not counted"),
    (value(10, "from memory"), [], "from memory"),
    (value(10, "common practice"), [], "common practice"),
    (value(10, "s-z"), [], "cited only"),
    ({"low": 6, "high": 13, "sources": ["s-a"]}, [printed("a", 13, 25), printed("b", 6)], "agrees"),
    ({"low": 6, "high": 6, "sources": ["s-a"]}, [printed("a", 13, 25), printed("b", 13)], "departs"),
    ({"choice": "light", "sources": ["s-a"]}, [word("a", "light"), word("b", "light")], "agrees"),
    ({"choice": "light", "sources": ["s-a"]}, [word("a", "light"), word("b", "dark")], "within span"),
    ({"choice": "light", "sources": ["s-a"]}, [word("a", "dark")], "departs"),
])
def test_status(given, families, status):
    assert compare(given, families).status == status


def test_reprints_count_once_and_widen_their_family():
    comparison = compare(value(11), [printed("a", 10), printed("a", 12), printed("b", 11)])
    assert [(f.family, f.low, f.high, f.stands) for f in comparison.families] == [("a", 10, 12, "inside"), ("b", 11, 11, "inside")]


@pytest.mark.parametrize("cell, days", [("12", 12), ("61(53)", 53), ("0(6)", 6), ("NG", None), ("NT", None), ("-", None), ("", None), ("0", 0)])
def test_days_cell(cell, days):
    assert days_cell(cell) == days
