"""What two builds have not alike is told: a page that is missing, added or says something else, a link that leads nowhere, a crop that the search lacks."""

import json

import pytest

from build_tools.other_generator.compare import Reader, compared

PAGE = '<html><head><script src="a.js"></script></head><body><nav>Menu <a href="one/">1</a></nav><main><article><h1 id="top">Leek</h1><p>Sow at 10 °C.</p><svg></svg></article></main><footer>us</footer></body></html>'


@pytest.fixture
def sites(tmp_path):
    """Two sites alike, of two pages."""
    for name in ("ours", "theirs"):
        for place in ("", "one"):
            (tmp_path / name / place).mkdir(parents=True, exist_ok=True)
            (tmp_path / name / place / "index.html").write_text(PAGE if not place else PAGE.replace("one/", "../one/").replace("a.js", "../a.js"), encoding="utf-8")
        (tmp_path / name / "a.js").write_text("")
        (tmp_path / name / "404.html").write_text("gone")
    (tmp_path / "theirs" / "search.json").write_text(json.dumps({"items": [{"title": "Leek"}]}))
    return tmp_path / "ours", tmp_path / "theirs"


def test_alike(sites):
    found = compared(*sites, ["Leek"])
    assert found.alike and found.pages == 2


def spoilt(sites, old, new):
    page = sites[1] / "one" / "index.html"
    text = page.read_text(encoding="utf-8")
    assert old in text
    page.write_text(text.replace(old, new, 1), encoding="utf-8")
    found = compared(*sites, ["Leek"])
    assert not found.alike
    return found


@pytest.mark.parametrize(("old", "new"), [("10 °C", "11 °C"), ("<svg></svg>", ""), ("<h1", "<h1>x</h1><h1"), ("</article>", "<table></table></article>")])
def test_another_main_part(sites, old, new):
    assert spoilt(sites, old, new).other_text == ("one/index.html",)


@pytest.mark.parametrize("address", ["two/", "../a.css", "#bottom", "../#bottom"])
def test_a_broken_link(sites, address):
    assert spoilt(sites, 'href="../one/"', f'href="{address}"').broken == (f"one/index.html: {address}",)


def test_other_frames_and_spaces_do_not_count(sites):
    page = sites[1] / "one" / "index.html"
    page.write_text(page.read_text(encoding="utf-8").replace("Menu", "Other menu").replace("<p>Sow", "\n <p>\n  Sow").replace("#x", ""), encoding="utf-8")
    assert compared(*sites, ["Leek"]).alike


def test_missing_and_added_pages_and_crops(sites):
    (sites[1] / "one").rename(sites[1] / "two")
    found = compared(*sites, ["Leek", "Chard"])
    assert (found.missing, found.added, found.not_found) == (("one/index.html",), ("two/index.html",), ("Chard",))
    (sites[1] / "search.json").unlink()
    assert compared(*sites, ["Leek"]).not_found == ("Leek",)


def test_scripts_are_not_text_and_void_elements_need_no_end():
    assert Reader("<article><p>a<br>b<script>c</script><img src=x>d</article>e").main == ("abd", (0, 0, 0))
