"""Works of others on the site: each file that is not the project's own belongs to one, each has its licence text and its row on the page Credits."""

import html
import json
import re
from fnmatch import fnmatch
from importlib.metadata import distribution
from pathlib import Path
from urllib.parse import unquote

import pytest

from build_tools.packages import parts, read_list
from build_tools.packages.listed import FOLDER, judged

MADE = re.compile(r"assets/(js|css)/(?P<of>[a-z-]+)-[0-9a-f]{12}\.(js|css)")  # linked and joined by the build from the files in docs/assets


@pytest.fixture(scope="module")
def files(built):
    return {p.relative_to(built).as_posix(): p for p in built.rglob("*") if p.is_file()}


@pytest.fixture(scope="module")
def credits(built):
    return (built / "credits" / "index.html").read_text(encoding="utf-8")


def test_every_file_of_others_belongs_to_a_part(files, root):
    own = {p.relative_to(root / "docs").as_posix() for p in (root / "docs" / "assets").rglob("*")}
    # A script bears the name of the module it begins with; the joined sheet that of the site.
    made = {"site"} | {name.removeprefix("assets/js/").removesuffix(".js").removesuffix("/main").replace("/", "-") for name in own}

    def made_here(name):
        return (found := MADE.fullmatch(name)) and found["of"] in made

    others = [name for name in files if name.startswith("assets/") and name not in own and not made_here(name)]
    unclaimed = [name for name in others if not any(fnmatch(name, pattern) for part in parts() for pattern in part.files)]
    assert len(others) >= 8 and unclaimed == []


def test_every_pattern_finds_a_file(files):
    for part in parts():
        for pattern in part.files:
            assert any(fnmatch(name, pattern) for name in files), (part.id, pattern)


def test_what_is_bundled_into_the_themes_scripts_and_styles_is_listed(files):
    """The source maps that the theme publishes name the packages that went in."""
    maps = [path for name, path in files.items() if name.startswith("assets/") and name.endswith(".map")]
    assert len(maps) >= 4
    bundled = {found[1] for path in maps for source in json.loads(path.read_text(encoding="utf-8"))["sources"] if (found := re.search(r"node_modules/((?:@[^/]+/)?[^/]+)", source))}
    known = {re.fullmatch(r"pkg:npm/([^@]+)(@.*)?", part.purl)[1] for part in parts() if part.purl and part.package == "mkdocs-material"}
    assert bundled == known


def test_signs_come_from_listed_collections_only(files):
    """The theme brings four collections of icons; which are drawn on pages and in styles is told by their paths."""
    folder = Path(distribution("mkdocs-material").locate_file("material/templates/.icons"))
    collections = {}
    for path in folder.rglob("*.svg"):
        for drawn in re.findall(r'\bd="([^"]{8,})"', path.read_text(encoding="utf-8")):
            collections.setdefault(drawn, path.relative_to(folder).parts[0])
    used = {}
    for name, path in files.items():
        if name.endswith((".html", ".css", ".svg")):
            text = path.read_text(encoding="utf-8")
            for drawn in set(re.findall(r"""\bd=["']([^"']{8,}?)["']""", unquote(text) if name.endswith(".css") else text)):
                if drawn in collections:
                    used.setdefault(collections[drawn], name)
    assert set(used) == {"material", "octicons", "fontawesome"}
    assert {"material-design-icons", "octicons", "font-awesome"} <= {part.id for part in parts()}


def test_every_licence_text_is_on_the_site(files):
    for part in parts():
        text = files[part.path].read_text(encoding="utf-8")
        assert text == part.text() and len(text) > 500 and "\r" not in text, part.id
        assert {name for name in files if name.startswith("licences/")} == {other.path for other in parts()}


# A line by which each licence is known (texts of the SPDX list, from memory).
LINES = {
    "MIT": "Permission is hereby granted, free of charge, to any person", "Apache-2.0": "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION", "W3C-20150513": "The full text of this NOTICE",
    "0BSD": "Permission to use, copy, modify, and/or distribute this software", "OFL-1.1": "SIL OPEN FONT LICENSE", "CC-BY-4.0": "CC BY 4.0",
}


def test_each_text_is_that_of_its_licence():
    for part in parts():
        words = re.sub(r"\s+", " ", part.text())
        assert LINES[part.licence] in words, part.id
        assert part.licence not in ("MIT", "0BSD", "OFL-1.1") or re.search(r"Copyright (\(c\)|©|\d{4})", words, re.IGNORECASE), part.id


def test_kept_texts_are_those_that_packages_do_not_carry():
    kept = {entry["text"]["kept"] for entry in judged()["passed_on"].values() if "kept" in entry["text"]}
    assert {path.name for path in (FOLDER / "texts").iterdir()} == kept
    assert {part.id for part in parts() if not part.carried} == {"lunr", "rxjs", "clipboard", "escape-html", "focus-visible", "tslib", "material-design-color"}
    for part in parts():
        if not part.carried:
            names = [f.as_posix().lower() for f in distribution(part.package).files if re.search(r"licen[cs]e|copying|notice", f.as_posix(), re.IGNORECASE)]
            assert not [name for name in names if part.id in name], "the package carries it now: read it there"


def test_what_a_script_says_of_itself_goes_with_its_licence(files):
    plotly = next(part for part in parts() if part.id == "plotly-js")
    script = next(path for name, path in files.items() if fnmatch(name, plotly.files[0])).read_text(encoding="utf-8")
    assert script.startswith("/**\n* plotly.js v" + plotly.version)
    for words in ("MapLibre GL JS", "polybooljs", "Feross Aboukhadijeh", "Sindre Sorhus"):
        assert words in script and words in plotly.text()


def test_notices_inside_scripts_stay(files):
    """The sign of Font Awesome carries its notice in the style sheet, as CC BY 4.0 asks."""
    styles = "".join(path.read_text(encoding="utf-8") for name, path in files.items() if fnmatch(name, "assets/stylesheets/*.css"))
    assert "Font Awesome Free" in styles and "Fonticons, Inc." in styles


def test_licences_of_whole_packages_are_those_they_declare():
    listed = {p.name: p for p in read_list()}
    for part in parts():
        assert listed[part.package].use == "site" and listed[part.package].version == part.package_version
        assert not part.whole or part.licence == listed[part.package].licence and part.version in (listed[part.package].version, "")
    assert next(part for part in parts() if part.id == "plotly-js").licence == listed["plotly"].licence


def test_the_page_credits_names_each_with_its_licence(credits):
    rows = re.findall(r'<tr><th scope="row">(.*?)</th><td>(.*?)</td><td><a href="(.*?)">(.*?)</a></td></tr>', credits)
    assert [tuple(map(html.unescape, row)) for row in rows] == [
        (f"{part.name} {part.version}".strip(), part.what[:1].upper() + part.what[1:], f"../{part.path}", part.licence) for part in parts()
    ]


def test_the_search_is_not_sent_what_it_never_asks_for(files):
    """Stemmers and word lists for other languages, under further licences, are loaded only by a search in those languages."""
    assert not [name for name in files if "lunr/" in name]
    found = json.loads(files["search/search_index.json"].read_text(encoding="utf-8"))
    assert found["config"]["lang"] == ["en"]
