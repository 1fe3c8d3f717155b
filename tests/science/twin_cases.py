"""What the browser twins must give, module by module, for the tests in a browser and for the mutants.

{"rows": [[function, arguments, result, tolerance]], "refused": [[function, arguments, words of the message]], "constants", "tables"}; function names
as in the browser. Results are the committed vectors, the published values, and for special.js those of scipy.
"""

from __future__ import annotations

import json

from tests.science.published import ALL
from tests.science.published_edges import EDGES
from tests.science.published_trials import TRIALS
from tests.science.refused import REFUSED
from tests.science.refused_edges import REFUSED_EDGES
from tests.science.special_cases import SPECIAL
from tests.science.write_vectors import CASES, FOLDER, MODULES, TABLE_MARKS, TABLES

AGREEMENT = 1e-9


def camel_case(name: str) -> str:
    first, *rest = name.split("_")
    return first + "".join(part.capitalize() for part in rest)


def vector_rows(module: str) -> list[list]:
    vectors = json.loads((FOLDER / f"{module}.json").read_text(encoding="utf-8"))
    return [[camel_case(name), row[:-1], row[-1], AGREEMENT] for name, case in vectors.items() if name not in TABLE_MARKS for row in case["rows"]]


def published_rows(module: str) -> list[list]:
    return [[camel_case(check.function), list(check.arguments), list(check.expected) if isinstance(check.expected, tuple) else check.expected, check.tolerance]
            for check in [*ALL, *TRIALS, *EDGES] if check.module == module]


def constants(module: str) -> dict:
    """Numbers in capitals; the browser may have fewer, but those must be the same."""
    return {name: value for name, value in vars(MODULES[module]).items() if name.isupper() and isinstance(value, int | float)}


def twin_cases() -> dict[str, dict]:
    """{path of the browser module: its cases}, JSON-ready."""
    found = {"science/special.js": {"rows": SPECIAL, "refused": [], "constants": {}, "tables": {}}}
    for module in CASES:
        found[f"science/{module}.js"] = {
            "rows": [*published_rows(module), *vector_rows(module)], "constants": constants(module), "tables": dict(TABLES.values()),
            "refused": [[camel_case(function), arguments, *says] for its, function, arguments, *says in [*REFUSED_EDGES, *((*case, "") for case in REFUSED)] if its == module],
        }
    return found
