"""Property-based: whatever bytes stand in the files, the reader and the check tell of problems with valid places, and never fail."""

import json
import random
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from build_tools.check import check_tree
from build_tools.check.schema_rules import SchemaSet
from build_tools.form import CannotFix, Shape, fix_csv, fix_yaml
from build_tools.printers import as_annotations, as_json, as_text
from build_tools.read import read_tree
from build_tools.read.yaml_file import parse_yaml

from .corpus import TREE
from .fuzz_reader import read_anything

ROOT = Path(__file__).resolve().parents[2]
REAL = [path for path in sorted((ROOT / "data").rglob("*.*")) if path.suffix in (".yml", ".csv") and path.stat().st_size < 6_000]
SMALL = [path.relative_to(TREE).as_posix() for path in sorted(TREE.rglob("*.*")) if path.suffix in (".yml", ".csv")]
GUIDES = [f"../docs/guides/{path.name}" for path in sorted((TREE.parent / "docs" / "guides").iterdir())]
BOUNDED = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow], derandomize=True)
# Pieces that mean something to a reader of YAML or CSV, and what numbers and names are broken by.
PIECES = (
    b"&a ", b"*a", b"!!int ", b"- ", b": ", b"? ", b"{", b"}", b"[", b"]", b"|\n", b">-\n", b"# ", b" #", b"---\n", b"...\n", b"%YAML 1.1\n", b"<<: ", b'"', b"'", b",", b";", b"\t", b"\n", b"\r", b"\r\n", b"\x00", b"\x85",
    b"\xff", b"\xe2\x80\xae", b"\xef\xbb\xbf", b"\xcc\x81", b"\\u202e", b"\\", b"null", b"~", b"no", b"2024-01-01", b"1:30", b".nan", b"-.inf", b"1e999", b"9" * 30, b"-0", b"0x1", b"=1+1", b"../", b"id: index\n", b"[" * 30, b"{a: " * 12,
)


@st.composite
def spoilt(draw, raw: bytes) -> bytes:
    """Bytes with up to eight changes: bytes flipped, pieces put in, stretches cut, doubled or moved, lines dropped."""
    raw = bytearray(raw)
    for _ in range(draw(st.integers(1, 8))):
        place = draw(st.integers(0, max(0, len(raw) - 1)))
        length = draw(st.integers(1, 40))
        kind = draw(st.sampled_from(("flip", "piece", "cut", "double", "line", "any")))
        if kind == "flip" and raw:
            raw[place] ^= 1 << draw(st.integers(0, 7))
        elif kind == "piece":
            raw[place:place] = draw(st.sampled_from(PIECES))
        elif kind == "cut":
            del raw[place : place + length]
        elif kind == "double":
            raw[place:place] = raw[place : place + length]
        elif kind == "line":
            lines = bytes(raw).split(b"\n")
            random.Random(place).shuffle(lines) if length > 30 else lines.pop(place % len(lines))
            raw = bytearray(b"\n".join(lines))
        else:
            raw[place:place] = draw(st.binary(max_size=6))
    return bytes(raw)


@pytest.fixture(scope="module")
def schemas(root):
    return SchemaSet.load(root / "schema")


@given(st.sampled_from(REAL).flatmap(lambda path: spoilt(path.read_bytes())))
@BOUNDED
def test_the_reader_reads_any_bytes(tmp_path, raw):
    read_anything(raw, tmp_path)


@given(st.one_of(st.binary(max_size=300), st.text(max_size=200).map(lambda text: text.encode("utf-8", "surrogatepass")), st.lists(st.sampled_from(PIECES), max_size=30).map(b"".join)))
@BOUNDED
def test_the_reader_reads_what_is_no_file_at_all(tmp_path, raw):
    read_anything(raw, tmp_path)


@given(st.data())
@settings(BOUNDED, max_examples=120)
def test_the_check_never_fails(tmp_path, schemas, data):
    """One or two files of the sound tree are spoilt; every printer copes with what is found."""
    project = tmp_path / "project"
    shutil.rmtree(project, ignore_errors=True)
    shutil.copytree(TREE.parent, project)
    for file in data.draw(st.lists(st.sampled_from(SMALL + GUIDES), min_size=1, max_size=2, unique=True)):
        path = project / "data" / file
        path.write_bytes(data.draw(spoilt(path.read_bytes())))
    problems = check_tree(read_tree(project / "data"), schemas)
    for problem in problems:
        path = project / problem.file
        lines = path.read_bytes().count(b"\n") + 1 if path.is_file() else 1
        assert 1 <= problem.line <= lines and problem.column >= 1 and problem.message, problem
    for printer in (as_text, as_annotations, as_json, lambda found: as_text(found, project)):
        printer(problems).encode("utf-8")


# A value of a schema's key exchanged for one of another kind: the check must say so, or bear it.
VALUES = st.recursive(
    st.one_of(st.booleans(), st.integers(-(10**14), 10**14), st.floats(-1e9, 1e9).map(lambda number: round(number, 3)), st.text(st.characters(exclude_categories=("Cs", "Cc", "Cf", "Co", "Cn", "Zl", "Zp")), max_size=40)),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text("abcdefgh_-", min_size=1, max_size=8), inner, max_size=3)), max_leaves=5,
)


@given(st.data())
@settings(BOUNDED, max_examples=60)
def test_values_of_another_kind_are_told(tmp_path, schemas, data):
    project = tmp_path / "project"
    shutil.rmtree(project, ignore_errors=True)
    shutil.copytree(TREE.parent, project)
    path = project / "data" / data.draw(st.sampled_from([file for file in SMALL if file.endswith(".yml")]))
    document, problems = parse_yaml(path.read_text(encoding="utf-8"), path.name)
    assert not problems
    places = list(_places(document.data))
    for holder, key in data.draw(st.lists(st.sampled_from(places), min_size=1, max_size=3)):
        holder[key] = data.draw(VALUES)
    path.write_text(json.dumps(document.data, ensure_ascii=False, indent=1), encoding="utf-8")
    for problem in check_tree(read_tree(project / "data"), schemas):
        assert problem.line >= 1 and problem.column >= 1 and problem.message, problem


def _places(node):
    """(holder, key) of every value inside."""
    for key, value in node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ():
        yield node, key
        yield from _places(value)


@given(st.sampled_from([path for path in REAL if path.suffix == ".yml" and path.parent.name == "crops"]).flatmap(lambda path: spoilt(path.read_bytes())))
@settings(BOUNDED, max_examples=80)
def test_what_is_put_in_form_keeps_its_values(schemas, raw):
    """`fix` either says why it can't, or changes no value, and a second time changes nothing."""
    text = raw.decode("utf-8", "replace")
    shape = Shape(schemas.validators["crop"].schema, schemas.validators["crop"].schema)
    try:
        fixed = fix_yaml(text, shape, "../../schema/crop.schema.json", "data/crops/any.yml")
    except CannotFix:
        return
    before, after = parse_yaml(text, "any"), parse_yaml(fixed, "any")
    assert after[1] == [] and after[0].data == before[0].data
    assert fix_yaml(fixed, shape, "../../schema/crop.schema.json", "data/crops/any.yml") == fixed


@given(st.sampled_from([path for path in REAL if path.suffix == ".csv"]).flatmap(lambda path: spoilt(path.read_bytes())))
@settings(BOUNDED, max_examples=80)
def test_tables_put_in_form_stay_in_form(raw):
    text = raw.decode("utf-8", "replace")
    try:
        fixed = fix_csv(text)
    except CannotFix:
        return
    assert fix_csv(fixed) == fixed
