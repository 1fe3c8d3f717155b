"""A guide's text taken apart: blocks with their lines, what stands in braces, what no guide takes in."""

import time

import pytest

from build_tools.check.guide_rules import NO_LINK, SENTENCE_END, claims
from build_tools.read.guide_text import LARGEST_GUIDE, LINK, GuideText, pull_of, read_guides


def blocks(text):
    return [(b.line, b.kind, b.text) for b in GuideText("x.md", text).blocks()]


def test_blocks_have_their_kinds_and_lines():
    text = "First line\nand its second.\n\n## Head { #head }\n\nLeads on:\n\n- one\n  goes on\n- two\n\n1. step\n\n| a | b |\n| --- | --- |\n| c | d |\n\nLast."
    assert blocks(text) == [
        (1, "paragraph", "First line and its second."), (4, "heading", "## Head { #head }"), (6, "paragraph", "Leads on:"), (8, "item", "- one goes on"), (10, "item", "- two"),
        (12, "item", "1. step"), (14, "row", "| a | b |"), (15, "row", "| --- | --- |"), (16, "row", "| c | d |"), (18, "paragraph", "Last."),
    ]


def test_a_list_is_led_by_the_paragraph_with_a_colon_right_before_it():
    found = GuideText("x.md", "No colon.\n\n- a\n\nColon: {sources: x}\n\n- b\n- c\n\n## Head { #h }\n\n- d").blocks()
    assert [(b.text, b.led) for b in found if b.kind == "item"] == [("- a", None), ("- b", 2), ("- c", 2), ("- d", None)]


def test_words_leave_out_braces_anchors_and_addresses():
    (block,) = GuideText("x.md", "Soak [for a night](water.md#soak) {soak_least_hours} {sources: a-1998}").blocks()
    assert block.words.split() == ["Soak", "for", "a", "night"]


@pytest.mark.parametrize(("raw", "kind", "names"), [
    ("soak_least_hours", "value", ("soak_least_hours",)), ("soak_least_hours to soak_most_hours", "value", ("soak_least_hours", "soak_most_hours")), ("lettuce.best", "value", ("lettuce.best",)),
    ("a to b to c", "value", ("a", "b", "c")), ("sources: a, common practice", "sources", ("a", "common practice")), ("sources: ,", "sources", ()), ("crops: ", "crops", ()),
    ("no claim", "no claim", ()), ("blank", "blank", ()), ("drawing: nick", "drawing", ("nick",)), ("crops: soak=may-help, light=light", "crops", ("soak=may-help", "light=light")), ("odd: x", "odd", ("x",)),
])  # fmt: skip
def test_what_stands_in_braces(raw, kind, names):
    pull = pull_of(raw)
    assert (pull.kind, pull.names) == (kind, names)


def test_pulls_have_their_places():
    assert [(p.line, p.column, p.raw) for p in GuideText("x.md", "a {b}\n\n{c: d} {e}").pulls()] == [(1, 3, "b"), (3, 1, "c: d"), (3, 8, "e")]


@pytest.mark.parametrize(("text", "found"), [
    ("{a} and {b}", []), ("## Head { #head }", []), ("## Head {#head}", []), ("## Head { #head onclick=x }", [(1, 9)]), ("text { #head }", [(1, 6)]), ("{A}", [(1, 1)]), ("{a {b} c}", [(1, 1)]),
    ("{: onclick=x }", [(1, 1)]), ("a\n}", [(2, 1)]), ("{a\nb}", [(1, 1), (2, 2)]), ("{}", [(1, 1)]), ("## { .x }", [(1, 4)]),
])  # fmt: skip
def test_braces_that_no_guide_takes_in(text, found):
    assert list(GuideText("x.md", text).strays()) == found


def test_a_folder_without_guides_and_one_with_other_files(tmp_path):
    assert read_guides(tmp_path / "none") == ({}, [])
    (tmp_path / "notes.txt").write_text("{", encoding="utf-8")
    (tmp_path / "a.md").write_text("A\r\nB", encoding="utf-8")
    (tmp_path / "b.md").mkdir()
    guides, problems = read_guides(tmp_path)
    assert [g.text for g in guides.values()] == ["A\nB"] and [(p.rule, p.file) for p in problems] == [("unreadable", "docs/guides/b.md")]


BOMBS = {
    "open brackets": "[" * LARGEST_GUIDE, "links never closed": "[](" * (LARGEST_GUIDE // 3), "brackets and words": "[a](b" * (LARGEST_GUIDE // 5), "open braces": "{a" * (LARGEST_GUIDE // 2),
    "anchors never closed": "# {#a " * (LARGEST_GUIDE // 6), "a ruled row that is none": "|" + " -" * (LARGEST_GUIDE // 2) + "x", "spaces": "x" + " " * LARGEST_GUIDE + "x", "quotes": "." + "”\"" * (LARGEST_GUIDE // 2) + "x",
    "stars after an end": ". " * 1000 + "*" * LARGEST_GUIDE, "ends and spaces": ". " * (LARGEST_GUIDE // 2) + "a", "short lines": "x\n" * (LARGEST_GUIDE // 2), "short items": "a:\n\n" + "- b\n" * (LARGEST_GUIDE // 4),
    "a long leader": "a " * (LARGEST_GUIDE // 4) + ":\n\n" + "- b\n" * (LARGEST_GUIDE // 8), "numbers": "1" * LARGEST_GUIDE, "item marks": " " * LARGEST_GUIDE + "-", "anchor spaces": "# {" + " " * LARGEST_GUIDE,
}  # fmt: skip


@pytest.mark.parametrize("name", BOMBS)
def test_no_text_keeps_the_patterns_busy(name):
    """Two seconds of the processor's time for the longest text that is read; a pattern that goes back and forth takes minutes."""
    guide = GuideText("x.md", BOMBS[name])
    start = time.process_time()
    for block in guide.blocks():
        assert block.words is not None
        NO_LINK.search(LINK.sub("\0", block.text))
        SENTENCE_END.split(block.text)
    list(guide.pulls()), list(guide.strays()), list(claims(guide))
    assert time.process_time() - start < 2
