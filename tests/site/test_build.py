"""Building: links hold, the same input gives the same bytes, a broken tree leaves the last good site, weights stay small."""

import gzip
import hashlib
import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from build_tools.site import build


class Links(HTMLParser):
    """Collects ids and the addresses of links, scripts, styles and images."""

    def __init__(self):
        super().__init__()
        self.ids, self.addresses = set(), []

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        self.ids.update(v for k, v in attributes if k in ("id", "name") and v)
        for key in ("href", "src"):
            if found.get(key):
                self.addresses.append(found[key])


@pytest.fixture(scope="session")
def parsed(built):
    pages = {}
    for path in built.rglob("*.html"):
        links = Links()
        links.feed(path.read_text(encoding="utf-8"))
        pages[path] = links
    return pages


def test_every_crop_has_a_page(built, reference):
    assert {p.parent.name for p in (built / "crops").glob("*/index.html")} == set(reference.crops)
    assert len(reference.crops) >= 80


def test_links_inside_the_site_lead_somewhere(built, parsed):
    broken = []
    for path, links in parsed.items():
        for address in links.addresses:
            parts = urlsplit(address)
            if parts.scheme or parts.netloc or path.name == "404.html":
                continue
            target = path if not parts.path else (path.parent / unquote(parts.path)).resolve()
            if target.is_dir():
                target = target / "index.html"
            if not target.exists():
                broken.append(f"{path.relative_to(built)}: {address}")
            elif "=1&" in parts.fragment:  # an entry of a calculator: its name must be that of the page, and the page have one
                name = "count" if target.parent.name == "calculator" else target.parent.name
                if not parts.fragment.startswith(f"{name}=1&") or "calculator-data" not in parsed[target].ids:
                    broken.append(f"{path.relative_to(built)}: {address} (no such calculator)")
            elif parts.fragment and target in parsed and unquote(parts.fragment) not in parsed[target].ids:
                broken.append(f"{path.relative_to(built)}: {address} (no such place)")
    assert not broken, broken[:20]


def test_ids_are_unique_on_a_page(built, parsed):
    for path in list(parsed)[:20]:
        ids = re.findall(r'\bid="([^"]+)"', path.read_text(encoding="utf-8"))
        twice = {i for i in ids if ids.count(i) > 1}
        assert not twice, (path, twice)


def test_no_page_loads_anything_from_elsewhere(built):
    for path in built.rglob("*.html"):
        for tag in re.findall(r"<(?:script|link|img|iframe|source)\b[^>]*>", path.read_text(encoding="utf-8")):
            address = re.search(r'\b(?:src|href)="(https?:)?//', tag)
            assert not address or 'rel="canonical"' in tag or 'rel="alternate"' in tag, (path, tag)


def gzipped(path):
    return len(gzip.compress(path.read_bytes(), 6))


def test_crop_pages_stay_light(built):
    """Reached for: 30 kB of HTML gzipped. Sizes are the same on every machine, unlike times."""
    sizes = {p.parent.name: gzipped(p) for p in (built / "crops").glob("*/index.html")}
    heaviest = max(sizes, key=sizes.get)
    assert sizes[heaviest] < 30_000, (heaviest, sizes[heaviest])


def copy_project(root: Path, target: Path) -> Path:
    for name in ("data", "schema", "docs", "build_tools", "tests/rules"):  # the last for the examples on the page of checks
        shutil.copytree(root / name, target / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("mkdocs.yml", "requirements.lock"):
        shutil.copy(root / name, target)
    return target


def project_with_site(root: Path, target: Path, built: Path) -> Path:
    """A copy of the project with a good site in its usual place."""
    shutil.copytree(built, copy_project(root, target) / "build" / "site")
    return target


def run(project: Path, *words: str, **environment) -> subprocess.CompletedProcess:
    return subprocess.run([sys.executable, "-m", "build_tools.commands", *words], cwd=project, capture_output=True, text=True, env={**os.environ, **environment})


def fingerprint(folder: Path) -> str:
    digest = hashlib.sha256()
    for path in sorted(p for p in folder.rglob("*") if p.is_file()):
        digest.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()


def test_a_broken_data_tree_leaves_the_last_good_site(tmp_path, root, built):
    project = copy_project(root, tmp_path)
    output = project / "build" / "site"
    shutil.copytree(built, output)
    before = fingerprint(output)
    crop = project / "data" / "crops" / "tomato.yml"
    crop.write_text(crop.read_text(encoding="utf-8").replace("minimum_c:", "minimun_c:", 1), encoding="utf-8")
    failed = run(project, "build")
    assert failed.returncode == 1
    assert re.search(r"data/crops/tomato\.yml:\d+:\d+  unknown-key", failed.stderr) and 'Did you mean "minimum_c"?' in failed.stderr
    assert "Traceback" not in failed.stderr
    assert fingerprint(output) == before
    assert [p.name for p in output.parent.iterdir()] == ["site"]


def test_check_reports_place_and_remedy_and_fails(tmp_path, root):
    project = copy_project(root, tmp_path)
    crop = project / "data" / "crops" / "tomato.yml"
    crop.write_text(crop.read_text(encoding="utf-8").replace("kind: vegetable", "kind: no", 1), encoding="utf-8")
    failed = run(project, "check")
    assert failed.returncode == 1 and "data/crops/tomato.yml:" in failed.stdout and "double quotes" in failed.stdout
    assert run(project, "check", "--format", "annotations").stdout.startswith("::error file=data/crops/tomato.yml,line=")
    assert run(root, "check").returncode == 0


def test_same_input_same_bytes(tmp_path, root, built):
    """Another folder, another time zone and hash seed."""
    project = copy_project(root, tmp_path / "elsewhere")
    again = run(project, "build", TZ="Pacific/Auckland", PYTHONHASHSEED="7")
    assert again.returncode == 0, again.stderr
    first = {p.relative_to(built).as_posix(): p.read_bytes() for p in built.rglob("*") if p.is_file()}
    second_folder = project / "build" / "site"
    second = {p.relative_to(second_folder).as_posix(): p.read_bytes() for p in second_folder.rglob("*") if p.is_file()}
    assert set(first) == set(second)
    assert [name for name in first if first[name] != second[name]] == []


def test_dates_in_the_site_are_those_of_the_data(built, reference):
    version = str(reference.library["data_version"]).replace(".", "-")
    dates = set(re.findall(r"<lastmod>(.*?)</lastmod>", (built / "sitemap.xml").read_text(encoding="utf-8")))
    assert dates == {f"{version}-01"}


def test_building_into_a_place_that_cannot_be_written(tmp_path, root):
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    assert build(root, blocked / "site") == 1
    assert blocked.read_text() == "not a folder"


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def eventually(found, seconds: float = 40.0):
    """The first true answer of `found`, asked every half second."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            if answer := found():
                return answer
        except OSError:
            pass
        time.sleep(0.5)
    raise AssertionError("it did not come about in time")


def test_serving_shows_the_last_good_data_until_a_mistake_is_mended(tmp_path, root):
    project = copy_project(root, tmp_path)
    crop, port = project / "data" / "crops" / "tomato.yml", free_port()
    good = crop.read_text(encoding="utf-8")
    assert "minimum_c: {value: 10," in good

    def page():
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/crops/tomato/", timeout=15) as answer:
            return answer.read().decode()

    log = tmp_path / "log.txt"
    with log.open("w") as stream, subprocess.Popen([sys.executable, "-m", "build_tools.commands", "serve", "--port", str(port)], cwd=project, stdout=stream, stderr=subprocess.STDOUT) as server:
        try:
            assert "10 °C" in eventually(page)
            crop.write_text(good.replace("minimum_c: {value: 10,", "minimum_c: {value: 9.9,", 1), encoding="utf-8")
            eventually(lambda: "9.9 is not a half degree" in log.read_text())
            assert "9.9 °C" not in page() and "10 °C" in page()
            crop.write_text(good.replace('common: "Tomato"', 'common: "Mended tomato"', 1), encoding="utf-8")
            eventually(lambda: "Mended tomato" in page())
        finally:
            server.terminate()
    assert "Traceback" not in log.read_text()
