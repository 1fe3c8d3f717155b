"""The command renew: what is stale is named and rewritten, and only that."""

import re
import shutil
from types import SimpleNamespace

import pytest

from build_tools.commands import renew


@pytest.fixture
def project(root, tmp_path):
    """A folder with the real data, schemas and generated files."""
    for name in ("data", "docs/guides", "schema", ".github"):
        shutil.copytree(root / name, tmp_path / name)
    shutil.copy(root / "CITATION.cff", tmp_path)
    return tmp_path


def run(project, check=False):
    return renew.main(project, SimpleNamespace(check=check))


def test_the_committed_files_are_up_to_date(root, capsys):
    assert run(root, check=True) == 0
    assert "up to date" in capsys.readouterr().out


def test_a_changed_library_makes_its_files_stale(project, capsys):
    library = project / "data" / "library.yml"
    library.write_text(library.read_text(encoding="utf-8").replace("seeds@example.org", "post@example.net"), encoding="utf-8")
    assert run(project, check=True) == 1
    said = capsys.readouterr().out.splitlines()
    assert said == [f".github/ISSUE_TEMPLATE/{name}.yml: stale" for name in ("correct-a-value", "add-a-table", "add-a-crop")] + ["Run: python3 -m build_tools renew"]
    assert "seeds@example.org" in (project / ".github/ISSUE_TEMPLATE/add-a-crop.yml").read_text(encoding="utf-8"), "--check writes nothing"
    assert run(project) == 0
    assert [line.rsplit(": ", 1)[1] for line in capsys.readouterr().out.splitlines()] == ["written"] * 3
    assert "post@example.net" in (project / ".github/ISSUE_TEMPLATE/add-a-crop.yml").read_text(encoding="utf-8")
    assert run(project, check=True) == 0


def test_a_renamed_quantity_reaches_the_forms(project):
    quantities = project / "data" / "quantities.yml"
    quantities.write_text(re.sub(r'name: "?Seed life"?\n', "name: Years that seed lasts\n", quantities.read_text(encoding="utf-8")), encoding="utf-8")
    assert run(project, check=True) == 1 and run(project) == 0
    assert "; Years that seed lasts; " in (project / ".github/ISSUE_TEMPLATE/correct-a-value.yml").read_text(encoding="utf-8")


def test_the_citation_follows_the_library(project, capsys):
    library = project / "data" / "library.yml"
    library.write_text(re.sub(r"(?m)^data_licence: .*$", "data_licence: CC0-1.0", library.read_text(encoding="utf-8")), encoding="utf-8")
    assert run(project, check=True) == 1
    assert "CITATION.cff: stale" in capsys.readouterr().out


@pytest.mark.parametrize("spoil", [lambda path: path.unlink(), lambda path: path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n")), lambda path: path.write_bytes(b"\xff")])
def test_a_missing_or_damaged_file_is_made_new(project, spoil, capsys):
    path = project / ".github/ISSUE_TEMPLATE/config.yml"
    good = path.read_bytes()
    spoil(path)
    assert run(project, check=True) == 1 and ".github/ISSUE_TEMPLATE/config.yml: stale" in capsys.readouterr().out
    assert run(project) == 0 and path.read_bytes() == good


def test_nothing_is_renewed_from_faulty_data(project, capsys):
    crop = project / "data" / "crops" / "tomato.yml"
    crop.write_text(crop.read_text(encoding="utf-8") + "nonsense: 1\n", encoding="utf-8")
    before = {path: path.read_bytes() for path in (project / ".github").rglob("*.yml")}
    assert run(project) == 1
    said = capsys.readouterr().err
    assert "nonsense" in said and "mend the data first" in said
    assert {path: path.read_bytes() for path in before} == before
