"""A guide as HTML: markup typed in it is text, links lead to pages of the site, terms are linked once, values are taken in."""

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from build_tools.render.guides.text import TARGET, site_link

ALLOWED = {"p", "a", "h2", "h3", "ul", "ol", "li", "em", "strong", "code", "pre", "table", "thead", "tbody", "tr", "th", "td", "div", "small", "span", "aside", "blockquote", "hr", "br"}
SAFE_ATTRIBUTES = {"scope", "href", "class", "id", "tabindex", "role", "aria-label", "align", "title", "start"}


class Html(HTMLParser):
    def __init__(self, html):
        super().__init__()
        self.tags, self.text = [], ""
        self.feed(str(html))

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))

    def handle_data(self, data):
        self.text += data

    def all(self, tag, kind=None):
        return [a for t, a in self.tags if t == tag and (kind is None or a.get("class") == kind)]


HARM = [
    "<script>canary()</script>", "<img src=x onerror=canary()>", "<svg/onload=canary()>", "<div onclick=canary()>\n\nx\n\n</div>", "<!-- canary -->", "<b onmouseover=canary()>x</b>", "<style>*{}</style>",
    "[x](javascript:canary())", "[x]( javascript:canary())", "[x](<javascript:canary()>)", "[x](JaVaScRiPt:canary())", "[x](&#106;avascript:canary())", "[x](data:text/html,canary)", '[x](water.md "onclick=canary")',
    "[x](https://example.org/)", "[x](//example.org/)", "[a [b] c](javascript:canary())", "[x][y]\n\n[y]: javascript:canary()", "[y]\n\n[y]: <javascript:canary()> 'x'", "![x](https://example.org/x.png)", "![x](javascript:canary())",
    "![x][y]\n\n[y]: https://example.org/x.png", "<https://example.org/>", "<javascript:canary()>", "<someone@example.org>", "word{: onclick=canary() }", "*x*{: style=canary }", "## Head { #head onclick=canary() }", "x\n{: #top onclick=canary() }",
    "{{ 7*7 }}{% raw %}", "`<script>canary()</script>`", "    <script>canary()</script>", "| a |\n| --- |\n| <img src=x onerror=canary()> |", "</article></main><script>canary()</script>", "| a |\n| :---: |\n| b |", "&lt;script&gt;", "<p\nonclick=canary()>", "<a href='javascript:canary()'>x</a>",
]  # fmt: skip


@pytest.mark.parametrize("text", HARM)
def test_markup_typed_in_a_guide_is_text(page, text):
    """Without the checks, which refuse most of these."""
    for html in (found := page(text + "\n\nLast.")).html, found.searched:
        seen = Html(html)
        assert {tag for tag, _ in seen.tags} <= ALLOWED, html
        assert all(set(attributes) <= SAFE_ATTRIBUTES for _, attributes in seen.tags), html
        assert all(re.fullmatch(r"[\w./-]*(#[\w-]+)?", a.get("href", "")) and not a.get("href", "").startswith("//") for a in seen.all("a")), html
        assert "Last." in seen.text and "49" not in seen.text


def test_markup_is_shown_letter_for_letter(page):
    assert "<script>canary()</script>" in Html(page("Type <script>canary()</script> here.").html).text
    assert "an {Odd} brace" in Html(page("an {Odd} brace").html).text


@pytest.mark.parametrize(("guide", "target", "address"), [
    ("soaking", "index.md", "../"), ("soaking", "water.md", "../water/"), ("soaking", "water.md#soak", "../water/#soak"), ("soaking", "../crops/index.md", "../../crops/"), ("soaking", "../crops/leek.md", "../../crops/leek/"),
    ("soaking", "../methods.md#evidence", "../../methods/#evidence"), ("soaking", "../index.md", "../../"), ("soaking", "index.md#steps", "../#steps"), ("soaking", "../print/index.md#cards", "../../print/#cards"),
    ("index", "soaking.md#how", "soaking/#how"), ("index", "index.md", "./"), ("index", "../crops/leek.md", "../crops/leek/"), ("index", "../calculators/index.md", "../calculators/"), ("index", "../index.md", "../"),
])  # fmt: skip
def test_a_page_named_by_its_file_has_its_address(small, guide, target, address):
    assert site_link(small.guides[guide], TARGET.fullmatch(f'href="{target}"')) == address


def test_a_link_within_the_page_stays(page):
    assert {"href": "#how"} in Html(page("See [below](#how).\n\n## How { #how }").html).all("a")


def test_terms_are_linked_once_a_page_and_never_in_headings_links_and_code(page):
    text = "## Seed coats and how they imbibe { #a }\n\n[imbibes](index.md) `imbibe` Seeds Imbibe *and imbibe*; imbibition. Seed coats, a seed coat.\n\n| imbibe |\n| --- |\n| seed coat |"
    seen = Html(page(text).html)
    assert [a["href"] for a in seen.all("a", "term")] == ["../../guides/glossary/#imbibe", "../../guides/glossary/#seed-coat"]
    assert seen.text.count("imbibe") == 5
    html = str(page(text).html)
    assert '>Imbibe</a>' in html and '>Seed coats</a>, a seed coat' in html


def test_terms_are_whole_words_and_the_longest_form_wins(page, small):
    assert not Html(page("reimbibe imbiber non-imbibe seed-coats").html).all("a", "term")
    longer = replace(small.glossary["seed-coat"], id="hard", forms=("hard seed coat",))
    more = replace(small, glossary={**small.glossary, "hard": longer})
    assert [a["href"][-5:] for a in Html(page("A hard seed coat.", reference=more).html).all("a", "term")] == ["#hard"]


def test_the_glossary_itself_links_no_term(page, small):
    more = replace(small, guides={**small.guides, "glossary": replace(small.guides["soaking"], id="glossary")})
    assert not Html(page("They imbibe.", guide="glossary", reference=more).html).all("a", "term")


def test_values_crops_sources_and_blocks_are_taken_in(page):
    found = page("Soak {crops: kind=vegetable, kind=herb} {soak_least_hours to soak_most_hours} at {alpha.minimum_c}. {sources: table-two, common practice}\n\n{drawing: soak-under-towel}\n\n{no claim}")
    seen = Html(found.html)
    assert "Soak alpha bean and beta leaf 8–12 hours at 10 °C (50 °F)." in seen.text and "advice: Invented College" in seen.text
    assert [a["href"] for a in seen.all("a", "value")] == ["../../methods/#practice-soak-least-hours", "../../crops/alpha/#warmth"]
    assert "<aside>drawing: soak-under-towel</aside>" in found.html and "<p><aside>" not in found.html
    assert found.sources == ("table-two", "common practice") and [v.name for v in found.values] == ["Shortest soak", "Alpha bean, minimum soil temperature"]
    assert "Invented College" not in found.searched and "<aside>" not in found.searched and "8–12 hours" in found.searched


def test_headings_are_listed_without_what_is_taken_in(page):
    assert page("Text.\n\n## One { #one }\n\n### Inner { #inner }\n\n## Two & three { #two }").headings == (("one", "One"), ("two", "Two &amp; three"))


def test_tables_scroll_inside_themselves(page):
    assert len(Html(page("| a |\n| --- |\n| b |\n\ntext\n\n| c |\n| --- |\n| d |").html).all("div", "scroll")) == 2


def test_tables_say_what_they_are(page):
    """Named by the heading above (WCAG 2.2, 1.3.1 and 2.4.6); heads of columns and rows say so."""
    html = page("## How **many** { #how }\n\n| Who | Seeds |\n| --- | --- |\n| one | two |\n| three | four |\n").html
    assert 'aria-label="Table: How many"' in html
    assert html.count('<th scope="col">') == 2 and html.count('<th scope="row">') == 2 and '<th scope="row">three</th>' in html and html.count("<td>") == 2


def test_a_heading_cannot_leave_the_name_of_its_table(page):
    assert 'aria-label="Table: &#34; onload=&#34;x"' in page('## " onload="x\n\n| a |\n| --- |\n| b |\n').html
