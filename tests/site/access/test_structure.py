"""What holds for every page as built, without a browser: language, headings, names, tables, pictures, links (WCAG 2.2: 1.1.1, 1.3.1, 2.4.2, 2.4.4, 2.4.6, 3.1.1, 3.1.2, 4.1.2)."""

from __future__ import annotations

import re
from collections import Counter
from urllib.parse import urljoin

import pytest

from tests.site.access.dom import named, parsed

SENTENCE = re.compile(r"[.?!](?= |$)")
HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")


@pytest.fixture(scope="module")
def pages(built):
    """Every page as a tree, by its path."""
    return {path.relative_to(built).as_posix(): parsed(path.read_text(encoding="utf-8")) for path in sorted(built.rglob("*.html"))}


@pytest.fixture(scope="module")
def articles(pages):
    """The part of each page that is its own, without the theme's frame: (path, tree, elements by id)."""
    return [(path, next(n for n in top if n.name == "article" and "md-content__inner" in n.classes), {n.get("id"): n for n in top if n.get("id")}) for path, top in pages.items()]


def check(wrong) -> None:
    """No fault; of many the first twenty are told."""
    assert not wrong, "\n".join(f"{path}: {what}" for path, what in wrong[:20])


def following(node) -> list:
    """The elements after one, up to the next heading."""
    after = [n for n in node.parent.children[node.parent.children.index(node) + 1 :] if not isinstance(n, str)]
    return after[: next((i for i, n in enumerate(after) if n.name in HEADINGS), len(after))]


def test_language_and_title(pages, reference):
    titles = {}
    for path, top in pages.items():
        assert next(n for n in top if n.name == "html").get("lang") == "en", path
        titles.setdefault(top.all("title")[0].words, []).append(path)
    assert {title: paths for title, paths in titles.items() if len(paths) > 1 or not title} == {}
    assert len(titles) > len(reference.crops)


def test_botanical_names_are_latin(articles, reference):
    seen = 0
    for path, article, _ in articles:
        for crop in reference.crops.values():
            if path == f"crops/{crop.id}/index.html":
                assert crop.botanical in [n.words for n in article if n.get("lang") == "la"], path
                seen += 1
    assert seen == len(reference.crops)


def test_one_first_heading_and_no_level_left_out(articles):
    wrong = []
    for path, article, _ in articles:
        levels = [(int(n.name[1]), n.words) for n in article if n.name in HEADINGS]
        if [level for level, _ in levels].count(1) != 1 or levels[0][0] != 1:
            wrong.append((path, f"headings {levels[:3]}"))
        wrong += [(path, f"{words!r} jumps from {before} to {level}") for (before, _), (level, words) in zip(levels, levels[1:]) if level > before + 1]
        wrong += [(path, "an empty heading") for _, words in levels if not words]
    check(wrong)


def test_ids_are_there_once_and_what_refers_to_them_finds_them(pages):
    wrong = []
    for path, top in pages.items():
        ids = Counter(n.get("id") for n in top if n.get("id"))
        wrong += [(path, f"id {one} twice") for one, times in ids.items() if times > 1]
        main = next(n for n in top if n.name == "article" and "md-content__inner" in n.classes)  # the theme's labels may name what a page has not
        wrong += [(path, f"{key}={one}") for part, keys in ((top, ("aria-labelledby", "aria-describedby", "aria-controls")), (main, ("for",))) for n in part for key in keys for one in n.get(key).split() if one not in ids]
    check(wrong)


def test_landmarks(pages):
    for path, top in pages.items():
        assert [len(top.all(name)) for name in ("main", "header", "footer")] == [1, 1, 1], path
        navigations = [n.get("aria-label") for n in top.all("nav") if not any(above.name == "nav" for above in n.above)]
        assert all(navigations) and len(set(navigations)) == len(navigations), (path, navigations)
        skip = next(n for n in top.all("a") if "md-skip" in n.classes) if path != "404.html" else None
        assert skip is None or any(n.get("id") == skip.get("href")[1:] for n in top), path


def test_every_table_is_named_and_its_heads_say_what_they_head(articles):
    wrong, seen = [], 0
    for path, article, by_id in articles:
        for table in article.all("table"):
            seen += 1
            if not named(table, by_id):
                wrong.append((path, f"a table without a name: {table.words[:60]}"))
            heads = table.all("th")
            if not heads or any(head.get("scope") not in ("col", "row", "colgroup", "rowgroup") for head in heads):
                wrong.append((path, f"a table with heads that head nothing: {table.words[:60]}"))
    check(wrong)
    assert seen > 300


def test_what_scrolls_is_reached_and_named(articles):
    wrong = []
    for path, article, by_id in articles:
        names = []
        folded = [n for n in article.all("pre") if any("checks" in above.classes for above in n.above)]  # whose lines are broken
        for holder in (n for n in article if {"scroll", "table-holder"} & set(n.classes) or n.name == "pre" and n not in folded):
            names.append(named(holder, by_id))
            if holder.get("tabindex") != "0" or holder.get("role") not in ("region", "group") or not names[-1]:
                wrong.append((path, f"{holder.name} {holder.get('class')}: {names[-1]}"))
        wrong += [(path, f"two are named {name!r}") for name in set(names) if names.count(name) > 1]
    check(wrong)


def test_every_picture_says_what_it_shows_or_is_hidden(articles, pages):
    wrong, seen = [], 0
    for path, article, by_id in articles:
        for svg in (n for n in article.all("svg") if not any(above.name == "svg" for above in n.above)):
            if svg.get("aria-hidden") == "true" or any(above.get("aria-hidden") == "true" for above in svg.above):
                continue
            seen += 1
            within = {n.get("id") for n in svg}
            told = svg.get("aria-labelledby").split()
            if svg.get("role") != "img" or not told or not set(told) <= within or any(not by_id[one].words for one in told):
                wrong.append((path, f"svg {svg.get('class')} {told}"))
        wrong += [(path, f"a drawn text outside a picture: {n.words}") for n in article.all("text") if not any(above.name == "svg" for above in n.above)]
    for path, top in pages.items():
        wrong += [(path, f"img {n.get('src')}") for n in top.all("img") if not n.get("alt")]
    check(wrong)
    assert seen > 400


def test_every_chart_has_its_numbers_in_a_table_or_in_words_beside_it(articles):
    """On crop pages a table, in a fold under the chart or named by a link under it; where crops are compared, one table of all, and words at each."""
    wrong, seen = [], 0
    for path, article, by_id in articles:
        for chart in (n for n in article.all("svg") if "chart" in n.classes and n.get("role") == "img"):
            seen += 1
            figure = next((above for above in chart.above if above.name == "figure"), None)
            if figure is None:
                wrong.append((path, f"{chart.get('class')} stands in no figure"))
                continue
            linked = [n for a in figure.all("a") if a.get("href").startswith("#") for n in following(by_id[a.get("href")[1:]])]
            if not any(n.all("table") for n in [*following(figure), *linked]):
                wrong.append((path, f"{named(chart, by_id)[:60]}: no table follows"))
    check(wrong)
    assert seen > 300


def test_links_of_the_same_name_lead_to_the_same_place_or_stand_in_different_words(articles):
    """What a link is for is told by its name with the sentence it stands in, or its item or row, the fold and the heading above (WCAG 2.2, 2.4.4)."""
    wrong = []
    for path, article, by_id in articles:
        places, heading = {}, ""
        for node in article:
            if node.name in HEADINGS:
                heading = node.words
            if node.name != "a" or not node.get("href"):
                continue
            name = named(node, by_id)
            above = list(node.above)
            block = next((n for n in above if n.name in ("p", "li", "tr", "dd", "figcaption", "caption", "summary", *HEADINGS)), None)
            around = "" if block is None else f"{block.words} {len(SENTENCE.findall(block.before(node)))}"
            if "value" in node.classes:
                around += block.before(node)[-40:]  # a number leads to its source, and is told by the words that it follows
            fold = next((n.children[0].words if not isinstance(n.children[0], str) else n.children[1].words for n in above if n.name == "details"), "")
            if not name and not any("hidden" in n.attributes for n in above):
                wrong.append((path, f"a link without a name to {node.get('href')}"))
            places.setdefault((name, around, fold, heading), set()).add(urljoin(f"http://site/{path}", node.get("href")).removesuffix("#top"))
        wrong += [(path, f"{key[0]!r} in {key[1][:80]!r}: {sorted(to)[:3]}") for key, to in places.items() if len(to) > 1]
    check(wrong)


def test_every_field_has_a_label(articles):
    wrong = []
    for path, article, by_id in articles:
        labels = {n.get("for") for n in article.all("label")}
        for made in article.all("input", "select", "textarea"):
            within = next((above for above in made.above if above.name in ("label", "template")), None)
            if not (made.get("aria-label") or made.get("aria-labelledby") or made.get("id") in labels and made.get("id") or within):
                wrong.append((path, f"{made.name} {made.get('id')}"))
        wrong += [(path, "a group without a name") for n in article.all("fieldset") if not n.all("legend")]
    check(wrong)
