"""The two versions: revisions, folders, the working tree; and a clear word when one cannot be had."""

import random

import pytest

from build_tools.changes import CannotCompare
from build_tools.changes.printers import PRINTERS
from build_tools.commands import changes as command
from build_tools.commands.__main__ import _parser
from tests.rules.trees import copy_sound

from .conftest import Project, one

ALPHA = "crops/alpha.yml"


def shown(report):
    return [(c.what, c.shown, c.kind) for c in report.changes]


def test_a_revision_a_branch_a_tag_and_a_folder_tell_the_same(project):
    kept = project.before()
    commit = project.commit()
    project.git("tag", "v1")
    project.edit(ALPHA, "optimum_c: {value: 24,", "optimum_c: {value: 23.5,")
    reports = [project.compare(name) for name in (commit, commit[:8], "main", "v1", "HEAD", kept, kept / "data")]
    assert {tuple(shown(report)) for report in reports} == {(("Optimum", "24 → 23.5 °C (75 → 74 °F)", "value"),)}
    assert reports[0].base == commit and reports[2].base == f"main ({commit[:10]})" and reports[0].head == "the working tree"


def test_two_revisions_in_both_directions(project):
    first = project.commit()
    project.edit(ALPHA, "optimum_c: {value: 24,", "optimum_c: {value: 23.5,")
    second = project.commit()
    assert shown(project.compare(first, second)) == [("Optimum", "24 → 23.5 °C (75 → 74 °F)", "value")]
    assert shown(project.compare(second, first)) == [("Optimum", "23.5 → 24 °C (74 → 75 °F)", "value")]


def test_the_data_of_a_revision_is_read_as_it_was_committed(project):
    """Attributes of the repository hide and rewrite nothing."""
    (project.root / ".gitattributes").write_text("data/crops/beta.yml export-ignore\n*.yml eol=crlf\n", encoding="utf-8")
    project.git("init", "-q", "-b", "main")
    project.git("add", ".gitattributes")
    commit = project.commit()
    report = project.compare(commit)
    assert report.changes == () and report.unread == ()


def test_a_project_below_the_top_of_its_repository(tmp_path):
    project = Project(tmp_path / "project")
    inner = Project(project.root / "inner")
    project.git("init", "-q", "-b", "main")
    project.git("add", "-A", "inner/data", "inner/docs/guides")
    project.git("commit", "-q", "-m", "Data")
    inner.edit(ALPHA, "optimum_c: {value: 24,", "optimum_c: {value: 23.5,")
    assert len(inner.compare("main").changes) == 1


@pytest.mark.parametrize(("name", "words"), [
    ("mian", 'no revision "mian". Did you mean "main"?'),
    ("v9", 'no revision "v9". Allowed: main, v1.'),
    ("--upload-pack=touch pwned", 'no revision "--upload-pack=touch pwned"'),
    ("--output=pwned", 'no revision "--output=pwned"'),
    ("$(touch pwned)", "no revision"),
    ("main:data", "no revision"),
    ("a\nb\x1b[31m", 'no revision "a b[31m"'),
    ("x" * 5000, "no revision"),
    ("", "needs a name"),
    ("  ", "needs a name"),
    ("ma\0in", "needs a name"),
])  # fmt: skip
def test_a_base_that_is_nothing(project, name, words):
    project.commit()
    project.git("tag", "v1")
    with pytest.raises(CannotCompare) as error:
        project.compare(name)
    assert words in str(error.value) and not (project.root / "pwned").exists()


def test_no_repository(project):
    with pytest.raises(CannotCompare, match="not in a git repository"):
        project.compare("main")


def test_no_git(project, monkeypatch):
    project.commit()
    monkeypatch.setenv("PATH", str(project.root))
    with pytest.raises(CannotCompare, match="git is needed to read a revision"):
        project.compare("main")


def test_a_folder_without_data(project, tmp_path):
    (tmp_path / "empty").mkdir()
    project.commit()
    with pytest.raises(CannotCompare, match="holds no data/ and is none"):
        project.compare(tmp_path / "empty")


def test_a_revision_without_data(project):
    project.git("init", "-q", "-b", "main")
    project.git("commit", "-q", "--allow-empty", "-m", "Nothing yet")
    with pytest.raises(CannotCompare, match="holds no data/"):
        project.compare("main")


def test_a_folder_goes_before_a_revision_of_its_name_unless_it_holds_no_data(project, tmp_path, monkeypatch):
    project.commit()
    project.git("branch", "side")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "side").mkdir()
    assert project.compare("side").base.startswith("side (")
    copy_sound(tmp_path / "side")
    assert project.compare("side").base == "the folder side"


def test_links_in_a_revision_are_named_and_not_followed(project, tmp_path):
    secret = tmp_path / "secret"
    secret.write_text("lot,crop\n", encoding="utf-8")
    project.data.joinpath("demo").mkdir(exist_ok=True)
    (project.data / "demo" / "lots.csv").unlink(missing_ok=True)
    (project.data / "demo" / "lots.csv").symlink_to(secret)
    commit = project.commit()
    report = project.compare(commit)
    assert any(file == "data/demo/lots.csv" and "link" in words.lower() for _, file, words in report.unread)


def test_a_repository_that_lacks_an_object_is_said(project):
    project.commit()
    blob = project.git("rev-parse", "HEAD:data/crops/beta.yml")
    (project.root / ".git" / "objects" / blob[:2] / blob[2:]).unlink()
    with pytest.raises(CannotCompare, match=r"data/crops/beta\.yml of that revision is not in this copy"):
        project.compare("main")


def test_a_copy_with_the_newest_revision_only_says_how_to_get_the_rest(project, tmp_path):
    first = project.commit()
    project.edit("place.yml", 'last_frost: "05-08"', 'last_frost: "05-09"')
    project.commit()
    shallow = Project(tmp_path / "shallow")
    shallow.git("clone", "-q", "--depth", "1", "--bare", f"file://{project.root}", ".git")
    with pytest.raises(CannotCompare, match="git fetch --unshallow"):
        shallow.compare(first)


def test_the_command_prints_and_ends_with_two_when_it_cannot_compare(project, capsys, tmp_path):
    project.commit()
    options = _parser("changes").parse_args(["changes", "mian"])
    assert command.main(project.root, options) == 2
    assert capsys.readouterr().err == 'There is no folder and no revision "mian". Did you mean "main"?\nNothing was compared.\n'
    out = tmp_path / "deep" / "report.md"
    assert command.main(project.root, _parser("changes").parse_args(["changes", "main", "--format", "markdown", "--out", str(out)])) == 0
    assert out.read_text(encoding="utf-8").startswith("**Nothing changes.**\n")
    assert capsys.readouterr().out.splitlines() == ["Nothing changes.", str(out)]
    assert command.main(project.root, _parser("changes").parse_args(["changes", "main", "--out", str(project.root)])) == 2
    assert "Cannot write to" in capsys.readouterr().err


BROKEN = [
    (ALPHA, "kind: vegetable", "kind: [vegetable"),
    (ALPHA, "kind: vegetable", "kind: vegetable\nkind: herb"),
    (ALPHA, "temperature:\n", "temperature: 5\nother:\n"),
    (ALPHA, "maximum_c: {value: 35,", "maximum_c: {value: hot,"),
    (ALPHA, "maximum_c: {value: 35,", "maximum_c: {value: " + "9" * 400 + ","),
    (ALPHA, "maximum_c: {value: 35, sources: [table-one]}", "maximum_c: 35"),
    (ALPHA, "sources: [table-one, table-two]", "sources: table-one"),
    (ALPHA, "sources: [table-one, table-two]", "sources: [{a: b}, [c], 3]"),
    (ALPHA, "names:\n", "names: 3\nnamen:\n"),
    ("crops/beta.yml", None, "- a list\n- and no crop\n"),
    ("crops/beta.yml", None, ""),
    ("crops/beta.yml", None, "\tx"),
    ("sources/table-one/source.yml", "family: table\n", "family: [a, b]\n"),
    ("sources/table-one/source.yml", "tables:\n", "tables: 4\ntabellen:\n"),
    ("sources/table-one/source.yml", 'year: "1999"', "yeer: 1999"),
    ("sources/table-one/bands.csv", "Alpha,alpha,50,", "Alpha,alpha,fifty,"),
    ("sources/table-one/bands.csv", "Alpha,alpha,50,", "Alpha,alpha,"),
    ("sources/table-one/bands.csv", "crop_as_printed", "crop_as_prnted"),
    ("sources/table-two/life.csv", None, ""),
    ("sources/extra", None, "a file"),
    ("quantities.yml", "quantities:\n", "quantities: 3\nothers:\n"),
    ("quantities.yml", None, "[]"),
    ("library.yml", None, "3"),
    ("seed-oil.yml", None, "- a\n"),
    ("releases.yml", None, "releases: [3, {version: [1]}]"),
    ("posters.yml", None, "x: {steps: [1, [2], {text: 4}]}"),
    ("treatments/soak.yml", None, "id: 5\nname: [x]\nsteps: {a: b}"),
    ("notes.txt", None, "mine"),
]  # fmt: skip


@pytest.mark.parametrize(("file", "old", "new"), BROKEN, ids=[f"{file}-{n}" for n, (file, _, _) in enumerate(BROKEN)])
@pytest.mark.parametrize("back", [False, True], ids=["forth", "back"])
def test_a_broken_file_hides_nothing_else(project, file, old, new, back):
    """Whatever one file looks like: the other values are compared, and the report says that pages could not be worked out."""
    kept = project.before()
    if old is None:
        project.write(file, new)
    else:
        project.edit(file, old, new)
    project.edit("place.yml", 'last_frost: "05-08"', 'last_frost: "05-09"')
    report = project.compare(*((project.root, kept) if back else (kept, None)), whole=True)
    assert [c.shown for c in report.changes if c.what == "Last frost"] == ["05-09 → 05-08" if back else "05-08 → 05-09"]
    assert "does not pass today’s checks" in report.touched.why_not
    assert all(printer(report) for printer in PRINTERS.values())


def test_an_unreadable_crop_is_neither_removed_nor_its_neighbour_changed(project):
    kept = project.before()
    project.edit(ALPHA, "kind: vegetable", "kind: [vegetable")
    report = project.compare(kept)
    assert report.changes == () and report.unread == (("the working tree", "data/crops/alpha.yml", report.unread[0][2]),)
    assert report.summary == "What can be read does not change."


def test_a_source_that_cannot_be_trusted_is_left_out_on_both_sides(project):
    kept = project.before()
    project.edit("sources/table-two/source.yml", "evidence: advice", "evidence: advise")
    report = project.compare(kept)
    assert not report.of_kind("evidence") and report.notes == ("1 source with problems was left out of the evidence on both sides: table-two.",)
    assert one(report, kind="value").shown == "advice → advise"


PIECES = ("[", "]", "{", "}", ":", "- ", "3", "true", '"', "\n", "  ", "null", "x: y", "{a: b}", ",", "#", "\t", "-1e5", "''", "sources", "value")


@pytest.mark.parametrize("seed", range(4))
def test_files_spoiled_at_random_are_compared_without_a_traceback(project, seed):
    chance, kept = random.Random(seed), project.before()
    files = sorted(path for path in project.data.rglob("*") if path.is_file())
    for turn in range(12):
        path = chance.choice(files)
        sound = path.read_text(encoding="utf-8")
        at, cut = chance.randrange(len(sound)), chance.choice((0, 1, 3, 20, 200))
        path.write_text(sound[:at] + chance.choice(PIECES) + sound[at + cut :], encoding="utf-8")
        report = project.compare(*((kept, None) if turn % 2 else (project.root, kept)))
        assert all(printer(report) for printer in PRINTERS.values()) and report.summary.endswith(".")
        path.write_text(sound, encoding="utf-8")


# Guides


def test_the_text_of_a_guide_is_read_from_a_revision(project):
    first = project.commit()
    project.edit("docs/guides/soaking.md", "slightly warm", "lukewarm")
    second = project.commit()
    for sides in ((first, second), (first, None)):
        (change,) = project.compare(*sides).changes
        assert (change.name, change.what) == ("The guide Soaking", "text changed") and "slightly warm. " in change.before and "lukewarm. " in change.after
        assert "lukewarm" in change.shown and len(change.shown) < 300
    assert not project.compare(second).changes


def test_a_guide_with_other_line_ends_says_so(project):
    kept = project.before()
    path = project.root / "docs" / "guides" / "index.md"
    path.write_text(path.read_text(encoding="utf-8") + "\n\n", encoding="utf-8")
    (change,) = project.compare(kept).changes
    assert change.shown == "empty lines or line ends only"


def test_new_and_lost_guides(project):
    kept = project.before()
    project.write("docs/guides/draft.md", "A draft. {no claim}\n")
    (project.root / "docs" / "guides" / "soaking.md").unlink()
    assert {(c.name, c.kind, c.shown) for c in project.compare(kept).changes} == {("The guide draft", "added", "docs/guides/draft.md"), ("The guide Soaking", "removed", "docs/guides/soaking.md")}


def test_a_guide_that_cannot_be_read_is_named_and_not_lost(project):
    first = project.commit()
    path = project.root / "docs" / "guides" / "soaking.md"
    path.write_bytes(path.read_bytes() + b"caf\xe9\n")
    report = project.compare(first)
    assert not report.changes and [file for _, file, _ in report.unread] == ["docs/guides/soaking.md"]


def test_a_guide_that_is_a_link_in_a_revision_is_named(project, tmp_path):
    secret = tmp_path / "secret.md"
    secret.write_text("Secret. {no claim}\n", encoding="utf-8")
    path = project.root / "docs" / "guides" / "soaking.md"
    path.unlink()
    path.symlink_to(secret)
    report = project.compare(project.commit())
    assert any(file == "docs/guides/soaking.md" and "link" in words.lower() for _, file, words in report.unread)


def test_a_folder_named_by_its_data_has_the_guides_beside_it(project):
    kept = project.before()
    project.edit("docs/guides/soaking.md", "slightly warm", "lukewarm")
    assert [c.name for c in project.compare(kept / "data", whole=True).changes] == ["The guide Soaking"]
