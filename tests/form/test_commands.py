"""The commands fix, check and explain, as they are typed."""

import json
import shutil
import subprocess
import sys

import pytest

from build_tools.commands import check, explain, fix
from build_tools.commands.__main__ import _parser, main
from build_tools.registry import RULES
from tests.rules.trees import copy_sound


@pytest.fixture
def project(root, tmp_path):
    """A small project: the sound tree and the schemas."""
    copy_sound(tmp_path)
    shutil.copytree(root / "schema", tmp_path / "schema")
    return tmp_path


def run(command, project, *words):
    """The exit status of a command in a project."""
    name = command.__name__.rsplit(".", 1)[1]
    return command.main(project, _parser(name).parse_args([name, *words]))


def spoil(project, file, old, new):
    path = project / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    return path


def test_fix_mends_the_form_and_says_which_files(project, capsys):
    before, count = (project / "data/crops/alpha.yml").read_bytes(), len(fix.files_in_form(project, ["data"]))
    assert count > 20
    spoil(project, "data/crops/alpha.yml", "kind: vegetable", "kind: 'vegetable'  ")
    spoil(project, "data/sources/table-two/life.csv", ",", ";")
    assert run(fix, project, "--check") == 1
    assert capsys.readouterr().out == f"data/crops/alpha.yml\ndata/sources/table-two/life.csv\n2 of {count} files would change.\n"
    assert run(fix, project) == 0
    assert f"2 of {count} files put in form." in capsys.readouterr().out
    assert (project / "data/crops/alpha.yml").read_bytes() == before
    assert run(fix, project, "--check") == 0


def test_fix_leaves_what_it_cannot_read_and_goes_on(project, capsys):
    broken = spoil(project, "data/crops/alpha.yml", "kind: vegetable", "kind: [vegetable")
    latin = spoil(project, "data/crops/beta.yml", "kind: herb", "kind: 'herb'")
    latin.write_bytes(latin.read_bytes() + b"# caf\xe9\n")
    spoil(project, "data/treatments/soak.yml", "id: soak", "id:   soak")
    kept = broken.read_bytes(), latin.read_bytes()
    assert run(fix, project) == 1
    out = capsys.readouterr()
    assert "data/crops/alpha.yml:10:" in out.err and "left as it is" in out.err and "data/crops/beta.yml: left as it is. It is not UTF-8" in out.err
    assert out.out == f"data/treatments/soak.yml\n1 of {len(fix.files_in_form(project, ['data']))} files put in form, 2 left as they are.\n"
    assert (broken.read_bytes(), latin.read_bytes()) == kept


def test_fix_of_one_file_or_folder_touches_no_other(project, capsys):
    spoil(project, "data/crops/alpha.yml", "kind: vegetable", "kind: 'vegetable'")
    other = spoil(project, "data/crops/beta.yml", "kind: herb", "kind: 'herb'")
    kept = other.read_bytes()
    assert run(fix, project, "data/crops/alpha.yml") == 0
    assert other.read_bytes() == kept
    assert run(fix, project, "data/crops") == 0
    assert other.read_bytes() != kept


def test_fix_leaves_links_and_the_demo_alone(project):
    outside = project / "outside.yml"
    outside.write_text("a: 'b'\n", encoding="utf-8")
    (project / "data/crops/link.yml").symlink_to(outside)
    (project / "data/demo").mkdir()
    (project / "data/demo/lots.csv").write_text("a;b\n1;2\n", encoding="utf-8")
    run(fix, project)
    assert outside.read_text(encoding="utf-8") == "a: 'b'\n" and (project / "data/demo/lots.csv").read_text(encoding="utf-8") == "a;b\n1;2\n"


def test_check_of_a_file_shows_what_concerns_it(project, capsys):
    spoil(project, "data/crops/beta.yml", '"Beta leaf"', '"Alpha bean"')
    spoil(project, "data/sources/table-two/life.csv", "Alpha,alpha,3,3,3", "Alpha,alpha,3,3,3\nAlpha,alpha,3,3,3")
    assert run(check, project, "data/crops/alpha.yml") == 1  # the other place of beta's problem
    out = capsys.readouterr().out
    assert "data/crops/beta.yml:4:3  name-taken" in out and "see data/crops/alpha.yml:4:3" in out and "same-row-twice" not in out and out.rstrip().endswith("1 more in other files.")
    assert run(check, project, "data/sources") == 1
    assert "same-row-twice" in capsys.readouterr().out
    assert run(check, project, "data/treatments/soak.yml") == 0


def test_check_shows_what_concerns_a_guide(project, capsys):
    spoil(project, "docs/guides/soaking.md", "slightly warm", "25 degrees warm")
    spoil(project, "docs/guides/index.md", "Read the date", "Read 2 dates")
    assert run(check, project, "docs/guides/soaking.md") == 1
    out = capsys.readouterr().out
    assert "docs/guides/soaking.md:9:1  guide-number" in out and "docs/guides/index.md:" not in out and "1 more in other files" in out
    assert run(check, project, "docs/guides") == 1 and run(check, project, "data") == 0
    assert run(check, project, "docs/guides/soakings.md") == 2 and 'Did you mean "docs/guides/soaking.md"?' in capsys.readouterr().err
    assert run(fix, project, "docs/guides/soaking.md") == 2


@pytest.mark.parametrize("command", [check, fix])
@pytest.mark.parametrize("file, nearest", [("alpha", "data/crops/alpha.yml"), ("data/crops/alfa.yml", "data/crops/alpha.yml"), ("table-one", "data/sources/table-one"), ("../outside.yml", "")])
def test_a_file_that_is_none_is_named_with_the_nearest(command, file, nearest, project, capsys):
    (project.parent / "outside.yml").write_text("a: 1\n", encoding="utf-8")
    assert run(command, project, file) == 2
    error = capsys.readouterr().err
    assert f"{file}: there is no such file in data/" in error and nearest in error


def test_check_as_json_and_as_annotations(project, capsys):
    spoil(project, "data/crops/beta.yml", "kind: herb", "kind: hreb")
    assert run(check, project, "--format", "json") == 1
    (problem,) = json.loads(capsys.readouterr().out)
    assert (problem["file"], problem["line"], problem["rule"]) == ("data/crops/beta.yml", 8, "not-allowed")
    assert run(check, project, "--format", "annotations") == 1
    assert capsys.readouterr().out == '::error file=data/crops/beta.yml,line=8,col=1,title=not-allowed::"hreb" is not a value of "kind". Did you mean "herb"?\n'


def test_warnings_fail_only_when_asked_to(project, capsys):
    spoil(project, "data/crops/beta.yml", "kind: herb", "kind: 'herb'")
    assert run(check, project) == 0 and run(check, project, "--strict") == 1
    assert "data/crops/beta.yml:8:7  form (warning)" in capsys.readouterr().out


def test_explain_says_what_a_rule_asks_with_an_example(root, capsys):
    assert run(explain, root, "half-degree") == 0
    out = capsys.readouterr().out
    assert RULES["half-degree"].text in out and "23.9 is not a half degree. Write 24." in out and "line 15" in out
    assert run(explain, root, "plausible") == 0
    assert "data/accepted.yml" in capsys.readouterr().out
    assert run(explain, root) == 0
    assert len(capsys.readouterr().out.splitlines()) == len(RULES)
    assert run(explain, root, "half-degre") == 2
    assert 'Did you mean "half-degree"?' in capsys.readouterr().err


def test_the_commands_start_without_what_they_do_not_need(root):
    """check must answer at once: neither the site generator nor the science is loaded for it."""
    code = "import sys; from build_tools.commands.__main__ import main; main(['check']); print([m for m in ('mkdocs', 'scipy', 'plotly', 'typst', 'numpy') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True, encoding="utf-8")
    assert done.stdout.rstrip().endswith("[]"), done.stdout[-500:] + done.stderr[-500:]


def test_every_command_has_a_help(capsys):
    from build_tools.commands.__main__ import COMMANDS

    for name in COMMANDS:
        with pytest.raises(SystemExit) as left:
            main([name, "--help"])
        assert left.value.code == 0 and COMMANDS[name][:20].lower() in " ".join(capsys.readouterr().out.lower().split())
