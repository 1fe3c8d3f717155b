"""Every rule fires on its bad example, at the right place, and on nothing in the good tree."""

import shutil
from pathlib import Path

import pytest

from build_tools.check import check_tree
from build_tools.registry import RULES
from build_tools.check.schema_rules import SchemaSet
from build_tools.printers import as_annotations, as_json, as_text
from build_tools.read import read_tree

from .cases import CASES

GOOD = Path(__file__).parent / "good" / "data"


@pytest.fixture(scope="module")
def schemas(root):
    return SchemaSet.load(root / "schema")


def copy_good(root: Path, target: Path) -> Path:
    """The small good tree, with the project's own vocabulary, library, place, cautions and posters, at target/data."""
    shutil.copytree(GOOD, target / "data")
    for name in ("quantities.yml", "library.yml", "place.yml", "cautions.yml", "posters.yml"):
        shutil.copy(root / "data" / name, target / "data")
    return target / "data"


@pytest.fixture
def tree_at(root, tmp_path):
    """A copy of the good tree to spoil."""
    return copy_good(root, tmp_path)


def spoil(data: Path, file: str, old, new) -> None:
    path = data / file
    if old is None:
        path.unlink()
        return
    if old == "symlink":
        path.symlink_to(new)
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    text = path.read_bytes() if path.exists() else b""
    old, new = (v.encode() if isinstance(v, str) else v for v in (old, new))
    assert old in text, f"{file} no longer holds {old!r}"
    path.write_bytes(text.replace(old, new, 1) if old else text + new)


def test_good_tree_has_no_problem(tree_at, schemas):
    assert check_tree(read_tree(tree_at), schemas) == []


@pytest.mark.parametrize("rule, file, old, new, line", CASES, ids=[c[0] for c in CASES])
def test_rule_fires_at_its_place(rule, file, old, new, line, tree_at, schemas):
    spoil(tree_at, file, old, new)
    if rule == "citation-without-row":  # a source with a table about another kind only
        spoil(tree_at, "sources/lists-gamma/source.yml", "", 'id: lists-gamma\ntitle: "T"\npublisher: "P"\nyear: "1"\ncopy_read: "c"\nverified: "v"\nevidence: advice\nfamily: g\ntables:\n  - {file: life.csv, kind: seed-life, caption: "c"}\n')
        spoil(tree_at, "sources/lists-gamma/life.csv", "", "crop_as_printed,crop_id,years_as_printed,years_min,years_max\nGamma,gamma,2,2,2\n")
        spoil(tree_at, "other-kinds.yml", "gamma: {", "gamma: {page: false, ")
    if rule == "citation-prints-otherwise":  # a second source that prints another life
        spoil(tree_at, "sources/table-three/source.yml", "", 'id: table-three\ntitle: "T"\npublisher: "P"\nyear: "1"\ncopy_read: "c"\nverified: "v"\nevidence: advice\nfamily: table-three\ntables:\n  - {file: life.csv, kind: seed-life, caption: "c"}\n')
        spoil(tree_at, "sources/table-three/life.csv", "", "crop_as_printed,crop_id,years_as_printed,years_min,years_max\nBeta,beta,6,6,6\n")
    problems = check_tree(read_tree(tree_at), schemas)
    found = [p for p in problems if p.rule == rule]
    assert found, f"{rule} did not fire; found:\n{as_text(problems)}"
    assert all(p.message and p.file.startswith("data/") and p.line >= 1 and p.column >= 1 for p in problems)
    if line is not None:
        assert line in {p.line for p in found}, as_text(found)
    if rule not in ("unknown-table", "missing-file"):
        assert any(Path(p.file).name == Path(file).name or rule in ("unreadable", "too-little-evidence", "doubt-matches") for p in found), as_text(found)


def test_every_rule_of_meaning_has_a_bad_example_and_a_text():
    assert set(RULES) <= {case[0] for case in CASES}
    assert all(len(rule.text) > 30 for rule in RULES.values())


def test_all_problems_are_collected_not_only_the_first(tree_at, schemas):
    spoil(tree_at, "crops/alpha.yml", "optimum_c:", "optimun_c:")
    spoil(tree_at, "crops/beta.yml", "kind: herb", "kind: no")
    spoil(tree_at, "sources/table-two/life.csv", "Alpha,alpha,3,3,3", "Alpha,alpha,3,three,3")
    rules = {p.rule for p in check_tree(read_tree(tree_at), schemas)}
    assert {"unknown-key", "yaml-word", "wrong-cell"} <= rules


def test_misspelt_key_message_names_the_right_one(tree_at, schemas):
    spoil(tree_at, "crops/alpha.yml", "optimum_c:", "optimun_c:")
    problem = next(p for p in check_tree(read_tree(tree_at), schemas) if p.rule == "unknown-key")
    assert (problem.file, problem.line, problem.column) == ("data/crops/alpha.yml", 15, 3)
    assert problem.text == '"optimun_c" is not a key of "temperature". Did you mean "optimum_c"?'


MESSAGES = [
    ("crops/alpha.yml", "id: alpha", "id: Alpha", "lower-case letters"),
    ("crops/alpha.yml", "[table-one, table-two]", "[table-one, table-one]", "table-one twice"),
    ("crops/alpha.yml", "[table-one, table-two]", "[]", "Name at least one"),
    ("crops/alpha.yml", "kind: vegetable", "\tkind: vegetable", "indent with spaces"),
    ("crops/alpha.yml", "kind: vegetable", "<<<<<<< mine\nkind: vegetable", "unfinished merge"),
    ("sources/table-two/life.csv", "crop_as_printed,crop_id,years_as_printed,years_min,years_max", "crop_as_printed;crop_id;years_as_printed;years_min;years_max", "semicolons"),
    ("sources/table-two/life.csv", "crop_as_printed,", b"\xef\xbb\xbfcrop_as_printed,", "without a byte-order mark"),
    ("crops/gamma.yaml", "", "id: gamma", "Name it .yml"),
]


@pytest.mark.parametrize("file, old, new, words", MESSAGES, ids=[m[3] for m in MESSAGES])
def test_message_says_how_to_mend_it(file, old, new, words, tree_at, schemas):
    spoil(tree_at, file, old, new)
    problems = check_tree(read_tree(tree_at), schemas)
    assert any(words in p.text for p in problems), as_text(problems)


def test_a_missing_schema_is_a_problem_not_a_crash(tree_at, schemas):
    fewer = SchemaSet({name: v for name, v in schemas.validators.items() if name != "crop"})
    assert [p.file for p in check_tree(read_tree(tree_at), fewer)] == ["schema/crop.schema.json"]


def test_a_deleted_crop_is_reported_once_not_for_every_row(tree_at, schemas):
    spoil(tree_at, "crops/alpha.yml", None, None)
    found = [p for p in check_tree(read_tree(tree_at), schemas) if p.rule == "unknown-crop-id"]
    assert len(found) == 1 and "more rows name it" in found[0].message


def test_printers_agree_on_the_place(tree_at, schemas):
    spoil(tree_at, "crops/alpha.yml", "optimum_c: {value: 24,", "optimum_c: {value: 23.9,")
    problems = check_tree(read_tree(tree_at), schemas)
    assert "data/crops/alpha.yml:15:" in as_text(problems) and "1 problem." in as_text(problems)
    assert "::error file=data/crops/alpha.yml,line=15,col=" in as_annotations(problems)
    assert '"line": 15' in as_json(problems)
