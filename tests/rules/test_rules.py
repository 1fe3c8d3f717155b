"""Every rule fires on its bad examples, at the right place and in the right words, and on none of its good ones.

Cases are folders: tests/rules/bad/<rule>/<case>, tests/rules/good/<rule>/<case>, tests/rules/terrible/<case>. `python -m tests.rules.write_expected`
renews what check says of the bad ones.
"""

import json

import pytest

from build_tools.check import check_tree
from build_tools.check.schema_rules import BY_KEYWORD, SchemaSet
from build_tools.printers import as_annotations, as_json, as_text
from build_tools.problem import Problem
from build_tools.read import read_tree
from build_tools.registry import RULES, STAGES, rule
from build_tools.rule_examples import HEAD, examples_of

from .trees import HERE, cases, changed_copy, copy_sound, found_in


@pytest.fixture(scope="module")
def schemas(root):
    return SchemaSet.load(root / "schema")


@pytest.fixture
def sound(tmp_path):
    """A copy of the sound tree to spoil; returns its data folder."""
    return copy_sound(tmp_path)


def names(folder):
    return {path.name for path in (HERE / folder).iterdir()}


def test_the_sound_tree_has_no_problem(sound, schemas):
    assert check_tree(read_tree(sound), schemas) == []


@pytest.mark.parametrize("case", cases("bad"), ids=lambda case: f"{case.parent.name}/{case.name}")
def test_a_bad_example_is_found_as_expected(case, tmp_path, schemas):
    found = found_in(case, tmp_path, schemas)
    assert case.parent.name in {match[3] for match in map(HEAD.fullmatch, found.split("\n")) if match}
    assert found == (case / "expected.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", cases("good"), ids=lambda case: f"{case.parent.name}/{case.name}")
def test_a_good_example_has_no_problem(case, tmp_path, schemas):
    assert any(path.is_file() for path in case.rglob("*")), "an example that changes nothing shows nothing"
    assert found_in(case, tmp_path, schemas) == ""


@pytest.mark.parametrize("case", sorted((HERE / "terrible").iterdir()), ids=lambda case: case.name)
def test_a_terrible_tree_is_told_everything_at_once(case, tmp_path, schemas):
    expected = (case / "expected.txt").read_text(encoding="utf-8")
    assert found_in(case, tmp_path, schemas) == expected
    assert len({match[3] for match in map(HEAD.fullmatch, expected.split("\n")) if match}) >= 20


def test_rules_and_examples_are_the_same_set():
    assert names("bad") == names("good") == set(RULES)
    assert all(r.stage in STAGES and len(r.text) > 30 and r.text.endswith(".") for r in RULES.values())


def test_each_rule_has_an_example_to_show(root):
    for rule_id in RULES:
        assert examples_of(root, rule_id), rule_id
    assert examples_of(root, "half-degree")[0].found.startswith("optimum_c: {value: 23.9")


@pytest.mark.parametrize("find", [lambda tree: iter(()), RULES["half-degree"].find])
def test_a_rule_without_a_text_or_with_anothers_name_is_refused(find):
    with pytest.raises(ValueError, match="half-degree"):
        rule("half-degree")(find)


def test_every_keyword_of_the_schemas_has_its_message(schemas):
    """A keyword that no rule explains would be a traceback on the day it is broken."""
    told_elsewhere = {"$schema", "$id", "$ref", "$defs", "title", "description", "properties", "items", "allOf", "if", "then", "contains", "patternProperties", "propertyNames", "default", "examples"}

    def keywords(schema):
        for key, value in schema.items():
            yield key
            if key in ("properties", "$defs", "patternProperties"):
                for part in value.values():
                    yield from keywords(part)
            elif key in ("items", "if", "then", "contains", "propertyNames", "additionalProperties") and isinstance(value, dict):
                yield from keywords(value)
            elif key == "allOf":
                for part in value:
                    yield from keywords(part)

    for name, validator in schemas.validators.items():
        if not name.startswith(("table-", "api-", "report-", "release-")):
            assert set(keywords(validator.schema)) - told_elsewhere <= set(BY_KEYWORD), name


@pytest.mark.parametrize("folder", ["bad", "terrible"])
def test_the_fast_validator_and_the_one_that_explains_agree(folder, tmp_path, schemas):
    """Rust's against Python's, on every file of every bad example: a file that the fast one lets pass is never explained."""
    broken = 0
    for number, case in enumerate(cases(folder) if folder == "bad" else sorted((HERE / folder).iterdir())):
        tree = read_tree(changed_copy(case, tmp_path / str(number)))
        documents = [(d, "crop") for d in tree.crops.values()] + [(d, "treatment") for d in tree.treatments.values()] + [(s.document, "source") for s in tree.sources.values()]
        for document, kind in documents + [(d, name) for name, d in tree.singles.items()]:
            sound = schemas.validators[kind].is_valid(document.data)
            assert schemas.holds(kind, document.data) == sound, document.file
            broken += not sound
    assert broken >= (5 if folder == "bad" else 1)


def test_a_missing_schema_is_a_problem_not_a_crash(sound, schemas):
    fewer = SchemaSet({name: v for name, v in schemas.validators.items() if name != "crop"})
    assert [p.file for p in check_tree(read_tree(sound), fewer)] == ["schema/crop.schema.json"]


def test_a_deleted_crop_is_reported_once_not_for_every_row(sound, schemas):
    (sound / "crops" / "alpha.yml").unlink()
    found = [p for p in check_tree(read_tree(sound), schemas) if p.rule == "unknown-crop-id"]
    assert len(found) == 1 and "more rows name it" in found[0].message and len(found[0].see) == 2


def test_an_accepted_finding_is_left_out_until_its_words_change(sound, tmp_path, schemas):
    case = HERE / "good" / "acceptance-not-needed" / "plain"
    assert found_in(case, tmp_path / "as-it-is", schemas) == ""
    text = (case / "crops" / "alpha.yml").read_text(encoding="utf-8")
    for path in case.rglob("*"):
        if path.is_file():
            (sound / path.relative_to(case)).write_bytes(path.read_bytes())
    (sound / "crops" / "alpha.yml").write_text(text.replace("high: 120", "high: 130"), encoding="utf-8")
    assert [p.rule for p in check_tree(read_tree(sound), schemas)] == ["plausible"]


# Printers

ODD = Problem("data/crops/a:b,c\x1b[31m.yml", 3, 5, "half-degree", "23.9 is not\na half degree.", "100 % sure?")


@pytest.fixture
def spoilt(sound, schemas):
    path = sound / "crops" / "alpha.yml"
    path.write_text(path.read_text(encoding="utf-8").replace("optimum_c: {value: 24,", "optimum_c: {value: 23.9,"), encoding="utf-8")
    return [p for p in check_tree(read_tree(sound), schemas) if p.rule == "half-degree"]


def test_printers_agree_on_the_place(spoilt):
    (problem,) = spoilt
    assert (problem.file, problem.line, problem.column, problem.at) == ("data/crops/alpha.yml", 15, 15, "temperature.optimum_c.value")
    assert as_text(spoilt).startswith("data/crops/alpha.yml:15:15  half-degree\n  23.9 is not a half degree. Write 24.\n1 problem.")
    assert as_annotations(spoilt) == "::error file=data/crops/alpha.yml,line=15,col=15,title=half-degree::23.9 is not a half degree. Write 24."
    (as_data,) = json.loads(as_json(spoilt))
    assert (as_data["file"], as_data["line"], as_data["column"], as_data["rule"], as_data["level"]) == ("data/crops/alpha.yml", 15, 15, "half-degree", "error")


def test_on_a_terminal_the_line_is_shown_with_a_caret(spoilt, sound):
    lines = as_text(spoilt, sound.parent).split("\n")
    assert lines[1] == "  15 |   optimum_c: {value: 23.9, sources: [table-one]}"
    assert lines[2] == "     |               ^"
    assert lines[1][lines[2].index("^") :].startswith("value: 23.9")


def test_a_long_line_is_shown_around_its_place(tmp_path):
    (tmp_path / "long.yml").write_text("x" * 500 + "HERE" + "y" * 500, encoding="utf-8")
    _, line, caret, *_ = as_text([Problem("long.yml", 1, 501, "form", "Wrong.")], tmp_path).split("\n")
    assert line[caret.index("^") :].startswith("HERE") and len(line) < 120


def test_names_and_words_cannot_lead_a_terminal_or_a_form_astray():
    """Workflow commands end at a line break, and their properties at a comma or colon; a terminal obeys escape characters."""
    text = as_text([ODD])
    assert "\x1b" not in text and "\\u001b[31m" in text and len(text.split("\n")) == 3
    line = as_annotations([ODD])
    assert line.startswith("::error file=data/crops/a%3Ab%2Cc\\u001b[31m.yml,line=3,col=5,title=half-degree::") and "\n" not in line and "100 %25 sure" in line
    assert json.loads(as_json([ODD]))[0]["file"] == ODD.file and "\x1b" not in as_json([ODD])


def test_warnings_are_counted_apart_and_do_not_stop_a_build(capsys):
    from build_tools.printers import report

    warning = Problem("data/a.yml", 1, 1, "form", "Untidy.", level="warning")
    assert report([warning]) == 0 and report([warning], strict=True) == 1 and report([ODD, warning]) == 1
    assert "1 problem, 1 warning." in capsys.readouterr().out
