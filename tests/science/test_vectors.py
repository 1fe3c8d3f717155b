"""The committed vectors are what the Python science gives now."""

from __future__ import annotations

import json
import math

import pytest

from tests.science.write_vectors import CASES, FOLDER, TABLE_MARKS, vectors_of


def differences(now, committed, where=""):
    """Every place where two JSON values differ by more than 1e-12."""
    if isinstance(now, dict) and isinstance(committed, dict):
        if now.keys() != committed.keys():
            return [f"{where}: keys {sorted(now)} and {sorted(committed)}"]
        return [d for key in now for d in differences(now[key], committed[key], f"{where}.{key}")]
    if isinstance(now, list) and isinstance(committed, list):
        if len(now) != len(committed):
            return [f"{where}: {len(now)} entries and {len(committed)}"]
        pairs = enumerate(zip(now, committed, strict=True))
        return [d for i, (a, b) in pairs for d in differences(a, b, f"{where}[{i}]")]
    numbers = (int, float)
    if isinstance(now, numbers) and isinstance(committed, numbers) and not (
        isinstance(now, bool) or isinstance(committed, bool)
    ):
        # Relative only for the far tails of the normal quantile; every probability is below 1.
        same = math.isclose(now, committed, rel_tol=1e-12, abs_tol=1e-12)
        return [] if same else [f"{where}: {now} and {committed}"]
    return [] if now == committed and type(now) is type(committed) else [
        f"{where}: {now!r} and {committed!r}"
    ]


@pytest.mark.parametrize("module", CASES)
def test_committed_vectors_are_current(module):
    committed = json.loads((FOLDER / f"{module}.json").read_text(encoding="utf-8"))
    found = differences(vectors_of(module), committed)
    assert not found, f"run python -m tests.science.write_vectors; first: {found[:3]}"


@pytest.mark.parametrize("module", CASES)
def test_vectors_are_wide(module):
    committed = json.loads((FOLDER / f"{module}.json").read_text(encoding="utf-8"))
    assert committed.keys() - TABLE_MARKS == CASES[module].keys()
    for name, case in committed.items():
        if name not in TABLE_MARKS:
            assert len(case["rows"]) >= 5, name
    if module == "proportions":
        for name in ("wilson", "clopper_pearson"):
            rows = committed[name]["rows"]
            assert {n for _, n, _, _ in rows} >= set(range(1, 401)) | {100_000}
            assert {c for _, _, c, _ in rows} == {0.8, 0.9, 0.95, 0.99}


def test_a_changed_vector_is_noticed():
    assert differences({"a": [1.0, 2.0]}, {"a": [1.0, 2.0 + 1e-11]}) == [
        ".a[1]: 2.0 and 2.00000000001"
    ]
    assert differences([True], [1]) == ["[0]: True and 1"]
