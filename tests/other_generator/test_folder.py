"""The plain folder holds every page and file, as any site generator can take them, and MkDocs has no part in it."""

import json
import re
import subprocess
import sys
import tomllib

import pytest
import yaml
from markdown import Markdown

from build_tools.other_generator import folder as made
from build_tools.other_generator.compare import Reader
from build_tools.other_generator.zensical import settings

FRONT = re.compile(r"\A---\n(.*?)\n---\n\n(.*)\Z", re.DOTALL)


def parts(file):
    """(front matter, HTML) of a page."""
    match = FRONT.fullmatch(file.read_text(encoding="utf-8"))
    return yaml.safe_load(match[1]), match[2]


def test_mkdocs_is_not_loaded(root, tmp_path):
    code = (
        "import sys; from pathlib import Path; from build_tools.commands.__main__ import main; "
        f"status = main(['pages', {str(tmp_path / 'pages')!r}]); "
        "print('loaded:', sorted(n for n in sys.modules if n.split('.')[0] in ('mkdocs', 'material', 'zensical')), status)"
    )
    run = subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True)
    assert run.stdout.splitlines()[-1] == "loaded: [] 0", run.stdout + run.stderr
    assert (tmp_path / "pages" / "site.json").is_file() and [p.name for p in tmp_path.iterdir()] == ["pages"]


def test_every_page_of_the_site_is_there_and_says_the_same(built, folder):
    pages = {path.parent.relative_to(built).as_posix(): path for path in built.rglob("index.html")}
    written = {path.parent.relative_to(folder / "pages").as_posix(): path for path in (folder / "pages").rglob("index.md")}
    assert pages.keys() == written.keys() and len(pages) > 120
    for place, file in written.items():
        matter, html = parts(file)
        assert Reader(html).main == Reader(pages[place].read_text(encoding="utf-8")).main, place
        assert matter["title"] and matter["description"] and len(matter["summary"]) > 10, place
        assert {anchor for anchor, _ in matter["headings"]} <= Reader(html).ids, place


def test_no_reader_of_markdown_changes_a_page(folder):
    """A block of HTML ends at a blank line (CommonMark 0.31.2, 4.6, kind 6, to which article belongs): there is none, so all of it is one block."""
    for file in [*(folder / "pages").glob("*/index.md"), folder / "pages" / "crops" / "tomato" / "index.md", folder / "pages" / "guides" / "soaks" / "index.md"]:
        _, html = parts(file)
        assert html.startswith("<article") and html.endswith("</article>\n") and not re.search(r"\n[ \t]*\n", html), file
        assert Reader(Markdown().convert(html)).main == Reader(html).main, file


def test_lines_that_count_are_kept():
    body = '<article>\n\n<p>a</p>\n  \n<pre class="x"><code>one\n\n  \n\ntwo</code></pre>\n\n\n<textarea>\n\nx</textarea></article>'
    text = made.unbroken(body)
    assert not re.search(r"\n[ \t]*\n", text)
    read = Reader(text.replace("&#10;", "\n"))
    assert [t for t in read.texts if "one" in t] == ["one\n\n  \n\ntwo"] and "\n\nx" in "".join(read.texts)
    assert '<p>a</p>\n<pre class="x">' in text


@pytest.mark.parametrize(("path", "link", "address"), [
    ("api.md", "methods.md", "../methods/"), ("api.md", "print/index.md", "../print/"), ("index.md", "api.md", "api/"), ("api.md", "index.md", "../"), ("guides/water.md", "../api.md", "../../api/"),
    ("guides/index.md", "water.md", "../guides/water/"), ("api.md", "assets/images/x.png", "../assets/images/x.png"), ("index.md", "index.md", "./"),
])  # fmt: skip
def test_links_between_files_become_links_between_addresses(path, link, address):
    assert made.address_from(path, link) == address


def test_links_and_parts_of_a_hand_written_page(tmp_path):
    text = "---\ntitle: One\ndescription: Two\n---\n\n# One\n\n## Part & parcel { #part }\n\n[a](methods.md#x) [b](#part) [c](https://example.org/a.md) ![d](assets/d.png)\n\n[[list]]\n"
    page = made.written_page("api.md", text, {"list": '<ul><li><a href="../x.md">x</a></li></ul>'})
    matter, html = FRONT.fullmatch(page).groups()
    assert [a for a in Reader(html).addresses] == ["../methods/#x", "#part", "https://example.org/a.md", "../assets/d.png", "../x.md"]
    assert yaml.safe_load(matter)["headings"] == [["part", "Part & parcel"]] and yaml.safe_load(matter)["title"] == "One"


def test_published_files_and_assets_are_those_of_the_site(built, folder):
    names = [path.relative_to(folder / "pages").as_posix() for path in (folder / "pages").rglob("*") if path.is_file() and path.suffix != ".md"]
    data = [name for name in names if not name.startswith("assets/")]
    assert {"api/v1/crops.json", "datapackage.json", "CITATION.cff", "downloads/crops.csv"} <= set(data) and "assets/css/site.css" in names
    for name in data:
        assert (built / name).read_bytes() == (folder / "pages" / name).read_bytes(), name


def test_what_pages_have_in_common(root, reference, folder):
    site = json.loads((folder / "site.json").read_text(encoding="utf-8"))
    assert site["name"] == reference.library["name"] and site["address"] == reference.library["site_url"]
    assert all((folder / "pages" / path).is_file() for path in [*site["styles"], *(script["path"] for script in site["scripts"])])

    def named(entries):
        return [page for entry in entries for page in (named(entry["pages"]) if "pages" in entry else [entry["page"]])]

    listed = named(site["navigation"])
    assert len(listed) > 25 and all((folder / "pages" / page).is_file() for page in listed)
    project = tomllib.loads(settings(site))["project"]
    assert project["site_name"] == site["name"] and project["extra_css"] == site["styles"] and len(project["nav"]) == len(site["navigation"])
    assert project["theme"]["font"] is False and project["extra_javascript"][0]["type"] == "module"


def test_only_what_was_written_here_is_replaced(root, reference, rendered, tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear")
    with pytest.raises(ValueError, match="not written by this command"):
        made.write_pages(reference, rendered, root, tmp_path / "mine")
    assert [p.name for p in tmp_path.rglob("*")] == ["mine", "letter.txt"]


def test_a_failure_leaves_the_last_folder(root, reference, rendered, tmp_path, monkeypatch):
    target = tmp_path / "pages"
    target.mkdir()
    (target / "site.json").write_text("{}")
    monkeypatch.setattr(made, "site", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        made.write_pages(reference, rendered, root, target)
    assert [p.relative_to(tmp_path).as_posix() for p in tmp_path.rglob("*")] == ["pages", "pages/site.json"]


def test_a_wrong_tree_is_told_and_writes_nothing(root, tmp_path):
    from tests.site.test_build import copy_project, run

    project = copy_project(root, tmp_path)
    crop = project / "data" / "crops" / "tomato.yml"
    crop.write_text(crop.read_text(encoding="utf-8").replace("minimum_c:", "minimun_c:", 1), encoding="utf-8")
    said = run(project, "pages", "out")
    assert said.returncode == 1 and 'Did you mean "minimum_c"?' in said.stderr and "Traceback" not in said.stderr
    assert not (project / "out").exists()
