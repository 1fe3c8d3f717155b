"""Coverage-guided fuzzing of the reader, by hand: never collected by pytest.

    python -m tests.hostile.fuzz_reader CORPUS_FOLDER -max_total_time=300

Needs the package atheris, which is no dependency of the project. The corpus folder is filled with the real data files and the
hostile cases when it is empty; further words go to the fuzzer. A finding is an exception, a value that no data file may hold, or a
problem without a valid place. Mend it and add it to cases/.
"""

from __future__ import annotations

import math
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))


def values(node):
    """Every value and key in parsed data."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield key
            yield from values(value)
    elif isinstance(node, list):
        for item in node:
            yield from values(item)
    else:
        yield node


def check_places(problems, lines: int) -> None:
    """Every problem has words and a place inside the file."""
    for problem in problems:
        assert 1 <= problem.line <= lines + 1 and problem.column >= 1, problem
        assert problem.message and problem.hint and len(problem.text) < 1000, problem


def read_anything(raw: bytes, folder: Path) -> None:
    """What must hold for any bytes, read as YAML and as CSV. Raises AssertionError, or whatever the reader wrongly raises."""
    from build_tools.read.csv_file import read_csv
    from build_tools.read.text_file import hidden_in
    from build_tools.read.yaml_file import read_yaml

    lines = raw.count(b"\n") + 1
    path = folder / "any.yml"
    path.write_bytes(raw)
    document, problems = read_yaml(path, "data/any.yml")
    assert document is not None or problems
    check_places(problems, lines)
    if document is not None and not problems:
        for value in values(document.data):
            assert isinstance(value, (str, int, float, bool)), value
            assert not isinstance(value, (int, float)) or math.isfinite(value) and abs(value) < 1e16, value
            assert not isinstance(value, str) or not hidden_in(value) and "\n" not in value, value
        for line, column in document.places.values():
            assert 1 <= line <= lines and column >= 1
    table, problems = read_csv(path, "data/any.csv")
    assert table is not None or problems
    check_places(problems, lines)
    if table is not None and not problems:
        assert len(set(table.columns)) == len(table.columns)
        for row in table.rows:
            assert list(row.cells) == table.columns and 1 < row.line <= lines
            for column in table.columns:
                assert not hidden_in(row[column]) and table.problem(row, column, "x", "x").column >= 1


def seeds(corpus: Path) -> None:
    """The real files and the hostile ones, when the corpus has none yet."""
    from tests.hostile.corpus import cases, text_of

    corpus.mkdir(parents=True, exist_ok=True)
    if any(corpus.iterdir()):
        return
    for number, path in enumerate(sorted((ROOT / "data").rglob("*.*"))[::4]):
        if path.suffix in (".yml", ".csv") and path.stat().st_size < 6_000:
            (corpus / f"real-{number}").write_bytes(path.read_bytes())
    for case in cases():
        for number, step in enumerate(case.do):
            text = text_of(step.get("new") or step.get("text") or "")
            if 0 < len(text) < 6_000:
                (corpus / f"{case.name}-{number}").write_bytes(text.encode(step.get("as", "utf-8"), "surrogatepass"))


def main() -> None:
    import tempfile

    import atheris

    with atheris.instrument_imports(include=["build_tools", "yaml", "csv"]):
        import build_tools.read.csv_file
        import build_tools.read.yaml_file  # noqa: F401
    seeds(Path(sys.argv[1]))
    scratch = Path(tempfile.mkdtemp(prefix="fuzz-reader-"))
    atheris.Setup(sys.argv, lambda raw: read_anything(raw, scratch))
    atheris.Fuzz()


if __name__ == "__main__":
    main()
