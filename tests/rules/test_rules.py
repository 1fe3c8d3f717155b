"""Every rule fires on its bad example, at the right place, and on nothing in the good tree."""

import shutil
from pathlib import Path

import pytest

from build_tools.check import check_tree
from build_tools.check.registry import RULES
from build_tools.check.schema_rules import SchemaSet
from build_tools.problem import as_annotations, as_json, as_text
from build_tools.read import read_tree

from .cases import CASES

GOOD = Path(__file__).parent / "good" / "data"


@pytest.fixture(scope="module")
def schemas(root):
    return SchemaSet.load(root / "schema")


@pytest.fixture
def tree_at(tmp_path):
    """A copy of the good tree to spoil."""
    shutil.copytree(GOOD, tmp_path / "data")
    return tmp_path / "data"


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


def test_printers_agree_on_the_place(tree_at, schemas):
    spoil(tree_at, "crops/alpha.yml", "optimum_c: {value: 24,", "optimum_c: {value: 23.9,")
    problems = check_tree(read_tree(tree_at), schemas)
    assert "data/crops/alpha.yml:15:" in as_text(problems) and "1 problem." in as_text(problems)
    assert "::error file=data/crops/alpha.yml,line=15,col=" in as_annotations(problems)
    assert '"line": 15' in as_json(problems)
