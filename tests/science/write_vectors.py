"""Write the vectors that the Python science and its browser twins must both reproduce.

    python -m tests.science.write_vectors

One JSON file per module: {"function": {"arguments": [names], "rows": [[arguments..., result]]}}.
Function names are the Python ones; the twin test turns them into camelCase.
"""

from __future__ import annotations

import json
from pathlib import Path

from build_tools.science import counting, lot, proportions, replicates, sowing
from tests.science import (
    vector_cases,
    vector_cases_dilution,
    vector_cases_soil,
    vector_cases_sowing_times,
    vector_cases_storage,
    vector_cases_warmth,
)
from tests.science.published import replicate_range_table
from tests.science.published_trials import two_test_table

FOLDER = Path(__file__).parent / "vectors"
CONFIDENCES = (0.80, 0.90, 0.95, 0.99)
LARGE_COUNTS = (
    (0, 100_000), (1, 100_000), (7, 100_000), (50_000, 100_000), (86_421, 100_000),
    (99_999, 100_000), (100_000, 100_000), (3, 99_991), (70_123, 99_991),
    (640_000, 800_000), (799_999, 800_000),
)


def counts_of(n: int) -> list[int]:
    """None, one, quarters, all but one and all of n seeds."""
    return sorted({0, 1, n // 4, n // 2, 3 * n // 4, n - 1, n})


def every_count() -> list[tuple[int, int]]:
    """(k, n) for n = 1..400, then the large ones."""
    return [(k, n) for n in range(1, 401) for k in counts_of(n)] + list(LARGE_COUNTS)


def cycling_confidence() -> list[list]:
    """Every count with one of the four confidences in turn, the large ones with all four."""
    rows = [[k, n, CONFIDENCES[(i + n) % 4]] for i, (k, n) in enumerate(every_count())]
    return rows + [[k, n, c] for k, n in LARGE_COUNTS for c in CONFIDENCES]


def thresholds() -> list[list]:
    levels = (0.0, 0.05, 0.35, 0.5, 0.55, 0.7, 0.75, 0.8, 0.9, 0.99, 1.0)
    return [[k, n, levels[(i + n) % len(levels)]] for i, (k, n) in enumerate(every_count())]


def replicate_designs() -> list[tuple[list[int], list[int]]]:
    """Equal and unequal replicates, alike and far apart, up to the largest exact case."""
    designs = [
        ([8, 10], [10, 10]), ([0, 0], [10, 10]), ([10, 10, 10], [10, 10, 10]), ([0, 10], [10, 10]),
        ([9, 6], [10, 10]), ([1, 0], [1, 1]), ([8, 9, 7], [10, 11, 9]), ([3, 20], [4, 25]),
        ([5, 9, 7, 8], [10, 10, 10, 10]), ([20, 22, 25, 24], [25, 25, 25, 25]),
        ([95, 88, 91, 90], [100] * 4), ([70, 86, 80, 84], [100] * 4), ([99, 97], [100, 100]),
        ([45, 30], [50, 50]), ([12, 15, 9, 14, 13, 11, 10, 16], [20] * 8),
        ([1, 2, 3, 4, 5, 6, 7, 8], [9, 10, 11, 12, 13, 14, 15, 16]),
        ([430, 450, 18, 400, 300, 410, 370, 380], [500, 499, 20, 497, 400, 490, 501, 502]),
        ([1990, 1900], [2000, 2000]), ([3000, 700], [3100, 900]),
        ([490] * 7 + [470], [500] * 8), ([1, 0], [3999, 1]),
    ]
    for n in (5, 20, 33, 50, 120):
        for m in range(2, 9):
            counts = [(n * (60 + 5 * ((3 * i) % 8))) // 100 for i in range(m)]
            designs.append((counts, [n] * m))
    return designs


def judged() -> list[list]:
    table = replicate_range_table()
    extra = [
        ([98, 93, 95, 94], [100] * 4), ([98, 88, 95, 94], [100] * 4), ([83, 96], [100, 100]),
        ([100, 97], [100, 100]), ([100, 100, 100, 100], [100] * 4), ([80], [100]),
        ([8000, 8500], [10_000, 10_000]), ([80_000, 80_300, 79_900], [100_000] * 3),
        ([8, 90_000], [10, 100_000]), ([100_000] * 8, [100_000] * 8), ([0, 0], [50_000, 10]),
    ]
    return [[counts, seeds, table] for counts, seeds in replicate_designs() + extra]


def sowings() -> list[list]:
    rows = []
    tests = ((8, 10), (10, 10), (40, 50), (1, 10), (5, 8), (395, 400), (77_000, 100_000))
    for i, (k, n) in enumerate(tests):
        for j, plants in enumerate((1, 2, 6, 12, 72, 400)):
            for factor in (1.0, 0.6):
                rows.append([plants, CONFIDENCES[(i + j) % 4], k, n, factor])
    # No promise possible, or only beyond the limit; many plants with a low factor.
    rows += [[12, 0.9, 0, 10, 1.0], [1, 0.8, 0, 1, 0.5], [5000, 0.99, 1, 100, 0.5]]
    return rows + [[3000, 0.9, 80, 100, 0.5], [1, 0.99, 400, 400, 1.0]]


def enough_plants() -> list[list]:
    rows = []
    for k, n in ((0, 10), (8, 10), (10, 10), (40, 50), (399, 400), (90_000, 100_000)):
        for plants, seeds in ((1, 1), (5, 4), (12, 15), (12, 22), (72, 98), (500, 700)):
            rows += [[plants, seeds, k, n, 1.0], [plants, seeds, k, n, 0.75]]
    return rows + [[3000, 7000, 80, 100, 0.5], [4000, 20_000, 9, 10, 0.3]]


def stages() -> list[list]:
    schedules = ((5, 14), (None, 7), (4, None), (None, None), (7, 7), (0, 3))
    days = (None, 0, 1, 4, 5, 6, 7, 13, 14, 15, 400)
    return [[day, first, final] for first, final in schedules for day in days]


CASES = {
    "proportions": {
        "normal_quantile": (["probability"], lambda: [
            [p] for p in (1e-300, 1e-12, 1e-6, 0.001, 0.02425, 0.075, 0.1, 0.25, 0.4999, 0.5,
                          0.6, 0.9, 0.925, 0.95, 0.975, 0.995, 0.999999, 1 - 1e-12)]),
        "wilson": (["k", "n", "confidence"], cycling_confidence),
        "clopper_pearson": (["k", "n", "confidence"], cycling_confidence),
    },
    "lot": {
        "chance_at_least": (["k", "n", "threshold"], thresholds),
        "chance_count_at_least": (["k", "n", "fraction"], thresholds),
        "chance_count_at_most": (["k", "n", "fraction"], thresholds),
    },
    "replicates": {
        "miles_factor": (["replicates"], lambda: [[m] for m in range(2, 9)]),
        "miles_tolerance": (["fraction", "seeds", "replicates"], lambda: [
            [p / 20, n, m] for p in range(21) for n, m in ((10, 2), (50, 3), (100, 4), (7, 8))]),
        "published_limit": (["table", "average_percent", "replicates"], lambda: [
            [replicate_range_table(), a, m] for a in range(0, 101, 7) for m in (2, 3, 4)]),
        "chance_of_range": (["counts", "seeds"], lambda: [list(d) for d in replicate_designs()]),
        "largest_common_range": (["fraction", "seeds", "replicates"], lambda: [
            [p, n, m] for p in (0.1, 0.5, 0.7, 0.8, 0.9, 0.99)
            for n, m in ((10, 4), (25, 4), (25, 2), (50, 2), (10, 8))]),
        "judge_replicates": (["counts", "seeds", "table"], judged),
    },
    "sowing": {
        "chance_of_enough": (["plants", "seeds", "k", "n", "field_factor"], enough_plants),
        "seeds_needed": (["plants", "certainty", "k", "n", "field_factor"], sowings),
    },
    "counting": {"reading_stage": (["day", "first_count_days", "final_count_days"], stages)},
    **vector_cases.CASES, **vector_cases_warmth.CASES,
    **vector_cases_dilution.CASES,
    **vector_cases_storage.CASES,
    **vector_cases_soil.CASES,
    **vector_cases_sowing_times.CASES,
}
MODULES = {
    "proportions": proportions, "lot": lot, "replicates": replicates,
    "sowing": sowing, "counting": counting, **vector_cases.MODULES, **vector_cases_warmth.MODULES,
    **vector_cases_dilution.MODULES,
    **vector_cases_storage.MODULES,
    **vector_cases_soil.MODULES,
    **vector_cases_sowing_times.MODULES,
}
# A table is long and the same in every row: it is stored once and named in the rows.
TABLES = {
    "replicates": ("replicate_range_table", replicate_range_table()),
    "repeated_tests": ("two_test_table", two_test_table()),
}
TABLE_MARKS = {mark for mark, _ in TABLES.values()}


def vectors_of(module: str) -> dict:
    """Arguments and results, now, of every function listed for one module."""
    found = {}
    for name, (arguments, make_rows) in CASES[module].items():
        function = getattr(MODULES[module], name)
        found[name] = {
            "arguments": arguments,
            "rows": [[*mark_table(module, row), function(*row)] for row in make_rows()],
        }
    if module in TABLES:
        mark, table = TABLES[module]
        found[mark] = table
    return json.loads(json.dumps(found))  # as a reader of the file sees it: tuples become lists


def mark_table(module: str, row: list) -> list:
    mark, table = TABLES.get(module, (None, None))
    return [mark if mark and value == table else value for value in row]


def as_text(vectors: dict) -> str:
    """JSON with one row a line, so that a change shows as a changed line."""
    parts = []
    for name, case in vectors.items():
        if name in TABLE_MARKS:
            parts.append(f' "{name}": {json.dumps(case)}')
            continue
        rows = ",\n   ".join(json.dumps(row, separators=(",", ":")) for row in case["rows"])
        parts.append(f' "{name}": {{"arguments": {json.dumps(case["arguments"])}, "rows": [\n'
                     f"   {rows}\n ]}}")
    return "{\n" + ",\n".join(parts) + "\n}\n"


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    for module in CASES:
        path = FOLDER / f"{module}.json"
        path.write_text(as_text(vectors_of(module)), encoding="utf-8", newline="\n")
        print(f"{path.name}: {path.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
