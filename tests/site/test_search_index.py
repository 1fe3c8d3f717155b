"""What the search reads stays small and whole: a summary of each crop, every heading and paragraph of a guide; no tables, no lists of sources, no examples of files."""

import json
import re
from types import SimpleNamespace

import pytest
from markupsafe import Markup
from material.plugins.search.plugin import SearchIndex

from build_tools import model, render
from build_tools.bench_trees import synthetic_project
from build_tools.index_size import index_size
from build_tools.render.guides.text import MOST_SEARCHED, written

FROM = re.compile(r'<small class="from">.*?</small>', re.DOTALL)
TABLE = re.compile(r"<table>.*?</table>", re.DOTALL)
PARAGRAPH = re.compile(r"<(?:p|li)(?: [^>]*)?>(.*?)(?=</?(?:p|li|ul|ol)\b)", re.DOTALL)
MANY = 320  # crops: four times the real ones, and no sheets of all are set
CROP_ON_AVERAGE, CROP_AT_MOST = 500, 1_000  # bytes of the index
LARGEST = 1_700_000  # bytes of the index at 3,000 crops


def letters(html: str) -> str:
    """The text without markup and spaces."""
    return re.sub(r"\s+", "", Markup(re.sub("<[^>]*>", "", html)).unescape())


@pytest.fixture(scope="module")
def docs(built):
    return json.loads((built / "search" / "search_index.json").read_text(encoding="utf-8"))["docs"]


def test_a_crop_is_in_it_once_with_its_names_and_the_short_answer(docs, reference):
    found = {entry["location"]: entry for entry in docs if entry["location"].startswith("crops/") and entry["location"] != "crops/"}
    assert set(found) == {f"crops/{crop}/" for crop in reference.crops}
    for crop in reference.crops.values():
        entry = found[f"crops/{crop.id}/"]
        assert letters(entry["title"]) == letters(crop.name)
        assert all(letters(name) in letters(entry["text"]) for name in (crop.botanical, crop.family, *crop.other_names))
        assert re.search(r"\d|No published", entry["text"]), entry
        assert len(json.dumps(entry, separators=(",", ":"))) <= CROP_AT_MOST


def test_every_heading_and_paragraph_of_a_guide_is_in_it(docs, reference):
    for guide in reference.guides.values():
        if guide.id == "glossary":
            continue  # it is one block; its terms lead there from the guides
        address = "guides/" if guide.id == "index" else f"guides/{guide.id}/"
        own = [entry for entry in docs if entry["location"].split("#")[0] == address]
        text = letters(" ".join(entry["text"] for entry in own))
        page = written(reference, guide, "../../", lambda pull: Markup(""))
        for anchor, heading in page.headings:
            assert any(entry["location"] == f"{address}#{anchor}" and letters(entry["title"]) == letters(heading) for entry in own), (guide.id, heading)
        paragraphs = [letters(found) for found in PARAGRAPH.findall(TABLE.sub("", FROM.sub("", page.html)))]
        assert len(paragraphs) > 3
        for paragraph in paragraphs:
            assert paragraph in text, (guide.id, paragraph)


def test_what_rows_of_a_table_are_about_is_in_it_and_no_more_of_them(docs):
    soaks = " ".join(entry["text"] for entry in docs if entry["location"].startswith("guides/soaks/"))
    assert "seedless watermelon, hot pepper" in soaks and "a meeting’s abstract" not in soaks


def test_neither_examples_of_files_nor_links_to_correct_are_in_it(docs):
    texts = " ".join(entry["text"] for entry in docs)
    assert "What stays and what may change" in " ".join(entry["title"] for entry in docs)
    assert '"$schema"' not in texts and '"schema_version"' not in texts and "correct this of" not in texts


def indexed(rendered) -> dict[str, int]:
    """Bytes of the index by page, as the search's own plugin makes it of what pages give it to read."""
    index, sizes = SearchIndex(lang=[], separator="", pipeline=[], fields={}), {}
    texts = {path: page.summary for path, page in rendered.pages.items()} | {f"[[{name}]]": fragment for name, fragment in rendered.fragments.items()}
    for path, html in texts.items():
        index.entries.clear()
        index.add_entry_from_context(SimpleNamespace(content=html, toc=[], url=path.removesuffix(".md") + "/", meta={}, title=path))
        sizes[path] = sum(len(json.dumps(entry, separators=(",", ":"))) + 1 for entry in index.entries)
    return sizes


@pytest.fixture(scope="module")
def grown(root, reference, tmp_path_factory):
    """(size of the index by page of the real crops, the same of four times as many)."""
    project = synthetic_project(root, tmp_path_factory.mktemp("grown") / "project", 4 * len(reference.crops))
    many, problems = model.load(project)
    assert problems == [] and len(many.crops) >= MANY
    return indexed(render.render(reference, root)), indexed(render.render(many, project))


def of_crops(sizes: dict[str, int]) -> list[int]:
    return [size for path, size in sizes.items() if path.startswith("crops/") and path != "crops/index.md"]


def test_it_grows_by_a_summary_for_each_crop_and_by_nothing_else(grown, reference):
    few, many = (of_crops(sizes) for sizes in grown)
    more = len(many) - len(few)
    assert more == 3 * len(reference.crops)
    assert max(many) <= CROP_AT_MOST
    assert (sum(many) - sum(few)) / more <= CROP_ON_AVERAGE
    others = [sum(sizes.values()) - sum(of_crops(sizes)) for sizes in grown]
    lists = sum(pull.kind == "crops" for guide in reference.guides.values() for pull in guide.text.pulls())
    assert lists and others[1] - others[0] <= lists * MOST_SEARCHED * 40, "something beside the crops' summaries grows with them"
    assert sum(grown[0].values()) + 3_000 * CROP_ON_AVERAGE <= LARGEST


def test_a_list_of_very_many_crops_is_left_to_their_pages(grown):
    assert grown[1]["guides/depth-light-mix.md"] < grown[0]["guides/depth-light-mix.md"]


def test_bench_reads_the_same_sizes(built, docs, reference):
    found = index_size(built)
    assert found.total == (built / "search" / "search_index.json").stat().st_size and 0 < found.gzipped < found.total
    assert found.crops == len(reference.crops) and CROP_AT_MOST >= found.largest_crop > found.average_crop > 100
    assert found.average_crop * found.crops < found.total
