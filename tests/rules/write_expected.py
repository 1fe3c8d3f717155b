"""Writes what check says of each bad example into its expected.txt: `python -m tests.rules.write_expected`. Read the difference before committing."""

from __future__ import annotations

import tempfile
from pathlib import Path

from build_tools.check.schema_rules import SchemaSet

from .trees import HERE, cases, found_in

if __name__ == "__main__":
    schemas = SchemaSet.load(HERE.parents[1] / "schema")
    for case in [*cases("bad"), *sorted((HERE / "terrible").iterdir())]:
        with tempfile.TemporaryDirectory() as scratch:
            (case / "expected.txt").write_text(found_in(case, Path(scratch), schemas), encoding="utf-8")
