"""Editing under `serve`: what is shown after a change is, byte for byte, what a whole build of the same files shows."""

import json
import re
import shutil
import subprocess
import sys
import threading
import urllib.error
import urllib.request
from contextlib import contextmanager

import pytest

from build_tools.bench_trees import synthetic_project
from build_tools.preview import Preview, Stamps, file_of, only_edited

from .test_build import copy_project, eventually, free_port, run

RELOAD = re.compile(r"<script>\s*var livereload = .*?livereload\((\d+), \d+\);\s*</script>", re.DOTALL)
PAGES = ("", "crops/", "crops/tomato/", "crops/leek/", "compare/warmth/", "guides/water/", "methods/", "calculators/emergence/", "print/", "print/poster/", "downloads/", "sources/", "disagreements/")
FILES = ("search/search_index.json", "api/v1/crops/tomato.json", "api/v1/crops.json", "downloads/crops.csv", "compare/warmth/figure.json", "datapackage.json", "downloads/posters/steps-A4-both.pdf", "downloads/posters/bands-A4-both.pdf")


class Served:
    """A project that is being served."""

    def __init__(self, port, log):
        self.port, self.log = port, log

    def raw(self, address: str) -> bytes:
        with urllib.request.urlopen(f"http://127.0.0.1:{self.port}/{address}", timeout=60) as answer:
            return answer.read()

    def page(self, address: str) -> str:
        """The page without the script that reloads it."""
        html, found = RELOAD.subn("", self.raw(address).decode())
        assert found == 1
        return html.replace(f"127.0.0.1:{self.port}", "127.0.0.1")

    def epoch(self) -> int:
        return int(RELOAD.search(self.raw("").decode())[1])

    def after(self, change) -> None:
        """Do a change and wait until pages are told to reload themselves."""
        before = self.epoch()
        change()
        eventually(lambda: int(self.raw(f"livereload/{before}/1")) > before)


@contextmanager
def served(project, log):
    port = free_port()
    with log.open("a") as stream, subprocess.Popen([sys.executable, "-m", "build_tools.commands", "serve", "--port", str(port)], cwd=project, stdout=stream, stderr=subprocess.STDOUT) as server:
        try:
            found = Served(port, log)
            eventually(lambda: found.raw(""), 120)
            yield found
        finally:
            server.terminate()


def replaced(path, old, new):
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, (path, old)
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_after_edits_everything_is_as_a_whole_build_has_it(tmp_path, root):
    project, log = copy_project(root, tmp_path / "project"), tmp_path / "log.txt"
    tomato, water = project / "data" / "crops" / "tomato.yml", project / "docs" / "guides" / "water.md"
    with served(project, log) as editing:
        assert "27.5 °C" not in (before := editing.page("crops/tomato/"))
        editing.raw("search/search_index.json")
        editing.after(lambda: replaced(tomato, "optimum_c: {value: 26.5,", "optimum_c: {value: 27.5,"))
        assert "27.5 °C" in editing.page("crops/tomato/")
        assert json.loads(editing.raw("api/v1/crops/tomato.json"))["crop"]["values"]["optimum_c"]["value"] == 27.5
        editing.after(lambda: replaced(tomato, 'common: "Tomato"', 'common: "Common tomato"'))  # titles of pages, and of entries of the search, change too
        editing.after(lambda: water.write_text(water.read_text(encoding="utf-8") + "\n## A heading of today { #today }\n\nWater, and patience. {no claim}\n", encoding="utf-8"))
        assert "A heading of today" in editing.page("guides/water/")
        shown = {address: editing.page(address) for address in PAGES}
        files = {name: editing.raw(name) for name in FILES}
        assert "Documentation built" in log.read_text() and log.read_text().count("Documentation built") == 1  # no whole build was needed
    assert "A heading of today" in files["search/search_index.json"].decode() and "Common tomato" in files["search/search_index.json"].decode()
    with served(project, log) as afresh:
        assert [address for address in PAGES if afresh.page(address) != shown[address]] == []
        assert [name for name in FILES if afresh.raw(name) != files[name]] == []
    assert before != shown["crops/tomato/"]
    assert run(project, "build").returncode == 0
    site = project / "build" / "site"
    assert [name for name in FILES if (site / name).read_bytes() != files[name]] == []
    assert "Traceback" not in log.read_text()


def test_mistakes_new_crops_and_other_files(tmp_path, root):
    project, log = copy_project(root, tmp_path / "project"), tmp_path / "log.txt"
    leek = project / "data" / "crops" / "leek.yml"
    good = leek.read_text(encoding="utf-8")
    with served(project, log) as editing:
        before = editing.page("crops/leek/")
        editing.after(lambda: replaced(leek, "seed_life_years:", "seed_live_years:"))
        assert 'Did you mean "seed_life_years"?' in log.read_text() and "The last good data is shown" in log.read_text()
        assert editing.page("crops/leek/") == before and "Leek" in editing.raw("search/search_index.json").decode()
        editing.after(lambda: leek.write_text(good.replace('common: "Leek"', 'common: "Mended leek"'), encoding="utf-8"))
        assert "Mended leek" in editing.page("crops/leek/")
        # A crop comes, with its rows in the tables, and goes again: its page, and every page that lists crops.
        more = synthetic_project(project, tmp_path / "more", len(list(leek.parent.glob("*.yml"))) + 1) / "data"
        as_it_was = shutil.copytree(project / "data", tmp_path / "as it was")
        name = next(iter({file.name for file in (more / "crops").iterdir()} - {file.name for file in leek.parent.iterdir()})).removesuffix(".yml")
        common = re.search(r'common: "([^"]*)"', (more / "crops" / f"{name}.yml").read_text(encoding="utf-8"))[1]
        shutil.copytree(more, project / "data", dirs_exist_ok=True)
        eventually(lambda: common in editing.page(f"crops/{name}/"))
        assert common in editing.page("crops/") and common in editing.raw("search/search_index.json").decode()
        (leek.parent / f"{name}.yml").unlink()
        shutil.copytree(as_it_was, project / "data", dirs_exist_ok=True)
        eventually(lambda: common not in editing.page("crops/"))
        with pytest.raises(urllib.error.HTTPError, match="404"):
            editing.raw(f"crops/{name}/")
        # What is no data: the whole site is built. Whoever asks for pages meanwhile waits, and gets them whole.
        editing.after(lambda: leek.write_text(good.replace('common: "Leek"', 'common: "Mended leek"'), encoding="utf-8"))
        style, seen, ended = project / "docs" / "assets" / "css" / "site.css", [], threading.Event()

        def reader(address):
            while not ended.is_set():
                try:
                    seen.append(editing.page(address).rstrip().endswith("</html>"))
                except OSError as error:  # an answer of 404 or 500 among them
                    seen.append(error)

        readers = [threading.Thread(target=reader, args=(address,)) for address in ("crops/leek/", "crops/tomato/")]
        for one in readers:
            one.start()
        editing.after(lambda: style.write_text(style.read_text(encoding="utf-8") + "/* of today */\n", encoding="utf-8"))
        ended.set()
        for one in readers:
            one.join()
        assert len(seen) > 2 and set(seen) == {True}
        assert b"/* of today */" in editing.raw("assets/css/site.css") and "Mended leek" in editing.page("crops/leek/")
        editing.after(lambda: replaced(project / "data" / "library.yml", 'name: "', 'name: "Renamed '))
        assert "Renamed " in editing.page("crops/leek/").partition("</title>")[0]
    assert "Traceback" not in log.read_text()


def test_a_page_that_cannot_be_made_says_so_and_the_next_one_is_made(tmp_path):
    preview = Preview(tmp_path)
    broken = {"page.html": lambda: 1 / 0, "a/b.txt": lambda: "text", "c.pdf": lambda: b"\0"}
    preview.renew(broken)
    with pytest.raises(ZeroDivisionError):
        preview.fresh("page.html")
    assert preview.is_stale("page.html") and preview.is_stale("a/b.txt")
    for name in ("a/b.txt", "c.pdf", "not ours"):
        preview.fresh(name)
    assert (tmp_path / "a" / "b.txt").read_text() == "text" and (tmp_path / "c.pdf").read_bytes() == b"\0" and not preview.is_stale("a/b.txt")


def test_each_file_is_made_once_for_each_change(tmp_path):
    preview, made = Preview(tmp_path), []
    makers = {"one": lambda: made.append(1) or f"{len(made)}"}
    for _ in range(2):
        preview.renew(makers)
        preview.fresh("one")
        preview.fresh("one")
    assert made == [1, 1] and (tmp_path / "one").read_text() == "2"


@pytest.mark.parametrize("address, file", [("/", "index.html"), ("/crops/", "crops/index.html"), ("/a/b.json", "a/b.json"), ("/../../etc/passwd", "etc/passwd"), ("/crops", "crops"), ("//x/", "x/index.html")])
def test_addresses_lead_to_files_of_the_site(address, file):
    assert file_of(address) == file


def test_changes_are_seen_by_time_and_size(tmp_path):
    for name in ("data/a.yml", "docs/guides/g.md", "docs/b.css", "build_tools/__pycache__/c.pyc", "mkdocs.yml"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("1")
    stamps = Stamps(tmp_path, ["data", "docs", "build_tools", "mkdocs.yml"])
    assert stamps.changed() == []
    (tmp_path / "data" / "a.yml").write_text("12")
    (tmp_path / "data" / "new.yml").write_text("")
    (tmp_path / "docs" / "guides" / "g.md").unlink()
    (tmp_path / "build_tools" / "__pycache__" / "c.pyc").write_text("12")
    assert (changed := stamps.changed()) == ["data/a.yml", "data/new.yml", "docs/guides/g.md"] and only_edited(changed)
    (tmp_path / "docs" / "b.css").write_text("12")
    (tmp_path / "mkdocs.yml").write_text("12")
    assert (changed := stamps.changed()) == ["docs/b.css", "mkdocs.yml"] and not only_edited(changed)
    assert not only_edited(["database/x"]) and stamps.changed() == []
