"""`fix` gives a file its form, never changes a value, keeps comments, and changes nothing twice."""

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from build_tools.form import CannotFix, Shape, fix_yaml, shape_of_file, shapes_of
from build_tools.read.yaml_file import parse_yaml

CROP = "data/crops/leek.yml"
HEAD = "# yaml-language-server: $schema=../../schema/crop.schema.json\n"


@pytest.fixture(scope="module")
def shapes(root):
    return shapes_of(root / "schema")


def fixed(text, shapes, file=CROP):
    name, schema = shape_of_file(file)
    return fix_yaml(text, shapes[name], schema, file)


def data_files(root):
    return sorted(p for p in (root / "data").rglob("*.yml"))


def test_every_data_file_is_in_form(root, shapes):
    """This is the style check of the project's own data."""
    files = data_files(root)
    assert len(files) > 400
    for path in files:
        text = path.read_text(encoding="utf-8")
        assert fixed(text, shapes, path.relative_to(root).as_posix()) == text, path


def test_the_schema_line_leads_to_the_schema(root):
    """What an editor resolves from the file's own folder."""
    for path in data_files(root):
        first = path.read_text(encoding="utf-8").split("\n")[0]
        target = (path.parent / first.removeprefix("# yaml-language-server: $schema=")).resolve()
        assert target.is_file() and target.parent == root / "schema", path


@pytest.mark.parametrize(
    "given_, wanted",
    [
        ("{value: 24.0, sources: [a]}", "{value: 24, sources: [a]}"),
        ("{value: 24.50, sources: [a]}", "{value: 24.5, sources: [a]}"),
        ("{value: -0, sources: [a]}", "{value: 0, sources: [a]}"),
        ("{ sources : [ a,b ] ,value: 24 }", "{value: 24, sources: [a, b]}"),
        ("{value: 24, sources: ['a', \"from memory\"]}", "{value: 24, sources: [a, from memory]}"),
        ("{value: 24, sources: [a], note: 'It''s so.'}", '{value: 24, sources: [a], note: "It\'s so."}'),
        ("{value: 24, sources: [a], note: as printed}", '{value: 24, sources: [a], note: "as printed"}'),
        ("{value: 24, sources: [a], note: \"a \\\"b\\\" \\\\ c\"}", '{value: 24, sources: [a], note: "a \\"b\\" \\\\ c"}'),
        ("{note: \"n\", sources: [a], departs: \"because\", value: 24}", '{value: 24, sources: [a], departs: "because", note: "n"}'),
        ('{value: 24, sources: ["no"]}', '{value: 24, sources: ["no"]}'),
        ('{value: "24", sources: [a]}', '{value: "24", sources: [a]}'),
        ('{"value": 24, "sources": [a]}', "{value: 24, sources: [a]}"),
        ("  {value: 24, sources: [a]}", "{value: 24, sources: [a]}"),
    ],
)
def test_one_line_values(given_, wanted, shapes):
    text = HEAD + "id: leek\ntemperature:\n  optimum_c: {}\n"
    assert fixed(text.replace("{}", given_), shapes) == text.replace("{}", wanted)


def test_keys_move_with_their_comments_and_lists_keep_their_dash(shapes):
    text = (
        "# About the file.\n" + HEAD + "kind: vegetable\n# why this id\n# is right\nid: leek\n\n\n\npretreatments:\n  - sources: [a]\n    # it was tried\n    advice: avoid\n"
        '    treatment: soak\n    text: "Two\n      lines."\n    evidence: trial\n# at the end\n'
    )
    assert fixed(text, shapes) == (
        HEAD + "# About the file.\n# why this id\n# is right\nid: leek\nkind: vegetable\n\npretreatments:\n  - treatment: soak\n    # it was tried\n    advice: avoid\n"
        '    evidence: trial\n    text: "Two\n      lines."\n    sources: [a]\n# at the end\n'
    )


def test_texts_over_several_lines_are_left_as_they_are(shapes):
    text = HEAD + "id: leek\nnotes:\n  - text: >-\n      folded\n      words\n    sources: [a]\n  - text: \"quoted\n      words\"\n    sources: [a]\n"
    assert fixed(text, shapes) == text


@pytest.mark.parametrize("text", ["id: [leek", "id: leek\nid: leek\n", "id: no\n", "\t- x", "id: &a leek\n", ""])
def test_what_cannot_be_read_is_not_touched(text, shapes):
    with pytest.raises(CannotFix) as refused:
        fixed(text, shapes)
    assert refused.value.problem.file == CROP and refused.value.problem.text


def test_an_unknown_key_stays_behind_the_one_before_it(shapes):
    text = HEAD + "kind: vegetable\nmine: 1\nid: leek\n"
    assert fixed(text, shapes) == HEAD + "id: leek\nkind: vegetable\nmine: 1\n"


# A tidy file that is made untidy in every way that fix mends comes back letter for letter.


def _untidy(text: str, chance: random.Random) -> str:
    lines = text.split("\n")[1:]
    blocks, at = [], 0
    for number, line in enumerate([*lines, "end:"]):
        if number and re.match(r"[a-z]", line):
            blocks.append(lines[at:number])
            at = number
    if not any(line.startswith("#") for line in lines):
        chance.shuffle(blocks)
    lines = [line for block in blocks for line in block]
    out = []
    for line in lines:
        if chance.random() < 0.3:
            line = re.sub(r"(value|low|high): (-?[0-9]+)([,}])", r"\1: \2.0\3", line)
        if chance.random() < 0.3 and "'" not in line and "\\" not in line:
            line = re.sub(r'"([^"#]*)"', r"'\1'", line)
        if chance.random() < 0.3:
            line = re.sub(r"(sources|crops): \[([a-z0-9-]+)(?=[],])", r'\1: [ "\2"', line)
        if chance.random() < 0.3:
            line = re.sub(r"\{value: ([^,{}]+), sources: (\[[^]]*\])\}", r"{sources: \2, value: \1}", line)
        out.append(line + chance.choice(["", "", " ", "  "]))
        if chance.random() < 0.05 and not line.startswith(" "):
            out.append("")
    end = chance.choice(["\n", "\r\n"])
    return chance.choice(["", "\ufeff", "# yaml-language-server: $schema=elsewhere.json" + end]) + end.join(out) + chance.choice(["", end, end * 3])


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_an_untidy_file_comes_back_tidy(shapes, root, data):
    files = sorted((root / "data" / "crops").glob("*.yml")) + sorted((root / "data" / "treatments").glob("*.yml"))
    path = data.draw(st.sampled_from(files))
    tidy = path.read_text(encoding="utf-8")
    untidy = _untidy(tidy, random.Random(data.draw(st.integers(0, 10**9))))
    again = fixed(untidy, shapes, path.relative_to(root).as_posix())
    assert [line for line in again.split("\n") if line] == [line for line in tidy.split("\n") if line]
    assert fixed(again, shapes, path.relative_to(root).as_posix()) == again


TEXT = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cf", "Zl", "Zp")), max_size=40)
PLAIN_THINGS = st.one_of(TEXT, st.integers(-(10**6), 10**6), st.booleans(), st.decimals(-1000, 1000, places=3).map(float))
TREES = st.recursive(PLAIN_THINGS, lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(st.from_regex(r"[a-z_]{1,8}", fullmatch=True), inner, max_size=4)), max_leaves=12)


@settings(max_examples=150, deadline=None)
@given(tree=st.dictionaries(st.from_regex(r"[a-z_]{1,8}", fullmatch=True), TREES, min_size=1, max_size=5), flow=st.sampled_from([None, True, False]), width=st.integers(20, 200))
def test_any_text_that_is_read_keeps_its_values(tree, flow, width):
    """Written by PyYAML in its own ways, whatever is in it."""
    import yaml

    text = yaml.safe_dump(tree, default_flow_style=flow, width=width, allow_unicode=True)
    before, problems = parse_yaml(text, CROP)
    if before is None or problems:
        return
    shape = Shape({"type": "object", "properties": {"b": {"type": "string"}, "a": {"enum": [1]}}, "additionalProperties": {"type": "object", "properties": {"d": {}, "c": {}}}}, {})
    try:
        result = fix_yaml(text, shape, "s.json", CROP)
    except CannotFix:
        return
    after, problems = parse_yaml(result, CROP)
    assert problems == [] and after.data == before.data
    assert fix_yaml(result, shape, "s.json", CROP) == result
