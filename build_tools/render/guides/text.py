"""A guide's text as HTML: what stands in braces is taken in, terms of the trade lead to the glossary, markup is shown as text."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup, escape

from ...check.guide_rules import PAGES
from ...model.guides import Guide, Term
from ...model.reference import Reference
from ...read.guide_text import ALONE, BLANK, BRACES, NO_CLAIM, STRAY, Pull, pull_of
from .. import wording
from .values import Taken, taken

MARK = re.compile("\ue000([0-9]+)\ue001")  # of a private use area: the checks let no such letter into a file
ALONE_MARK = re.compile("<p>\\s*(\ue000([0-9]+)\ue001)\\s*</p>")
HEADING = re.compile("(<h[2-6][^>]*>)(.*?)(</h[2-6]>)", re.DOTALL)  # the search shows headings as plain text
NOT_LINKED = ("a", "h1", "h2", "h3", "h4", "code", "th")
LINE_TO_WRITE_ON = Markup('<span class="blank"><span class="of">(to fill in)</span></span>')
TARGET = re.compile(r'href="((?:\.\./)*)([\w/-]+)\.md(#[\w-]+)?"')


HEADED = re.compile(r"<h[23][^>]*>(.*?)</h[23]>")
FIRST_CELL = re.compile(r"(<tr>\s*)<td>(.*?)</td>", re.DOTALL)
TABLE = re.compile(r"<table>.*?</table>", re.DOTALL)
MOST_SEARCHED = 20  # crops in a list that the search reads: a longer one is a matter of the crops' own pages, and would grow with every crop


@dataclass(frozen=True)
class Written:
    """A guide's HTML, what the search reads of it, its headings, the values it takes in and the sources it names.

    The search reads every heading and paragraph; not sources, nor lists of very many crops; of a table what its rows are about.
    """

    html: Markup
    searched: str
    headings: tuple[tuple[str, str], ...]
    values: tuple[Taken, ...]
    sources: tuple[str, ...]


def written(reference: Reference, guide: Guide, up: str, block: Callable[[Pull], Markup]) -> Written:
    """The guide as HTML. `up` leads from its page to the site's top; `block` makes what stands alone in a paragraph."""
    pulls, values, sources = [], {}, {}

    def keep(match: re.Match) -> str:
        pulls.append(pull_of(match[1]))
        return f"\ue000{len(pulls) - 1}\ue001"

    def html_of(pull: Pull, for_search: bool = False) -> Markup:
        if pull.kind == "sources":
            sources.update(dict.fromkeys(pull.names))
            return Markup("") if for_search else sources_html(reference, pull.names, up)
        if pull.kind == NO_CLAIM:
            return Markup("")
        if pull.kind == BLANK:
            return LINE_TO_WRITE_ON
        if pull.kind == "crops":
            return crop_list(reference, pull.names, up, MOST_SEARCHED if for_search else None)
        if pull.kind in ALONE:
            return Markup("") if for_search else block(pull)
        value = values.setdefault(pull.names, taken(reference, pull.names, up))
        return Markup('<a class="value" href="{}">{}</a>').format(value.address, value.words)

    marked = STRAY.sub("&#123;", BRACES.sub(keep, guide.text.text))
    markdown = Markdown(extensions=["attr_list", "tables", "toc", "sane_lists", Safe(reference, guide, up)], extension_configs={"tables": {"use_align_attribute": True}}, output_format="html")
    html = markdown.convert(marked)
    html = TARGET.sub(lambda m: f'href="{site_link(guide, m)}"', html)
    html = html.replace("<li>[ ] ", '<li class="tick">')
    html = ALONE_MARK.sub(lambda m: m[1] if pulls[int(m[2])].kind in ALONE else m[0], html)
    headings = tuple((token["id"], re.sub(MARK, "", token["name"])) for top in markdown.toc_tokens for token in ([top, *top["children"]] if top["level"] > 1 else top["children"]) if token["level"] == 2)
    full = tables_scroll(MARK.sub(lambda m: str(html_of(pulls[int(m[1])])), html))
    searched = HEADING.sub(lambda m: m[1] + untagged(m[2]) + m[3], MARK.sub(lambda m: str(html_of(pulls[int(m[1])], for_search=True)), html))
    searched = TABLE.sub(lambda m: f"<p>{', '.join(dict.fromkeys(untagged(cell[2]) for cell in FIRST_CELL.finditer(m[0])))}</p>", searched)
    return Written(Markup(full), Markup(searched), headings, tuple(values.values()), tuple(sources))


def untagged(html: str) -> str:
    """The text of HTML, still escaped."""
    return re.sub("<[^>]*>", "", html).strip()


def site_link(guide: Guide, match: re.Match) -> str:
    """The address of a page named by its file: Markdown names files, the site has folders."""
    climb, name, anchor = match[1].count("../"), match[2], match[3] or ""
    depth = 0 if guide.id == "index" else 1
    folder = name if name != "index" and not name.endswith("/index") else name.removesuffix("index")
    return "../" * (climb + depth) + (folder if not folder or folder.endswith("/") else folder + "/") + anchor or "./"


def tables_scroll(html: str) -> str:
    """Tables scroll inside themselves on a narrow screen, by keyboard too; they are named by the heading above, and their heads name rows and columns."""

    def framed(match: re.Match) -> str:
        heading = next((Markup(found[1]).striptags() for found in reversed(list(HEADED.finditer(html, 0, match.start())))), "this guide")
        table = FIRST_CELL.sub(r'\1<th scope="row">\2</th>', match[0].replace("<th>", '<th scope="col">').replace("<table>", f'<table aria-label="{escape(heading)}">', 1))
        return f'<div class="scroll" tabindex="0" role="region" aria-label="Table: {escape(heading)}">{table}</div>'

    return TABLE.sub(framed, html)


def sources_html(reference: Reference, names: tuple[str, ...], up: str) -> Markup:
    """Who says so, by grade: trial: A; B · advice: C."""
    grades: dict[str, list[str]] = {}
    for name in names:
        grades.setdefault(wording.GRADE_WORDS[reference.sources[name].evidence] if name in reference.sources else "", []).append(name)
    parts = [Markup("{}{}").format(f"{grade}: " if grade else "", wording.source_links(reference, of, up)) for grade, of in grades.items()]
    return Markup('<small class="from">{}</small>').format(Markup(" · ").join(parts))


def crop_list(reference: Reference, conditions: tuple[str, ...], up: str, most: int | None = None) -> Markup:
    """The crops of which one of the conditions holds, by name, each a link to its page; nothing when there are more than `most`."""
    found = {crop.id: crop for condition in conditions for crop in crops_where(reference, condition)}
    if most is not None and len(found) > most:
        return Markup("")
    links = [Markup('<a href="{}crops/{}/">{}</a>').format(up, crop.id, wording.within(crop.name)) for crop in sorted(found.values(), key=lambda c: c.name.casefold())]
    return Markup(" and ").join([Markup(", ").join(links[:-1]), links[-1]]) if len(links) > 1 else Markup("").join(links)


def crops_where(reference: Reference, condition: str) -> list:
    """The crops of which "key=value" is so; the checks know the same conditions (check/guide_rules.py)."""
    key, _, wanted = condition.partition("=")
    if key in ("kind", "family"):
        return [crop for crop in reference.crops.values() if getattr(crop, key) == wanted]
    if key in ("season", "light", "frost_class"):
        return [crop for crop in reference.crops.values() if crop[key].choice == wanted]
    return [crop for crop in reference.crops.values() if any(e.about == key and e.advice == wanted for e in crop.pretreatments)]


class Safe(Extension):
    """Markup typed in a guide is shown as text, links lead to pages of this site or nowhere, and terms are linked."""

    def __init__(self, reference: Reference, guide: Guide, up: str):
        super().__init__()
        self.terms = Terms(reference, guide, up)

    def extendMarkdown(self, md):  # noqa: N802  (the name that Markdown asks for)
        md.preprocessors.deregister("html_block")
        for pattern in ("html", "autolink", "automail", "reference", "image_link", "image_reference", "short_reference", "short_image_ref"):
            md.inlinePatterns.deregister(pattern)
        md.parser.blockprocessors.deregister("reference")
        self.terms.md = md
        md.treeprocessors.register(self.terms, "terms", 15)  # after the inline patterns, 20
        md.treeprocessors.register(PagesOnly(md), "pages-only", 1)  # last


class PagesOnly(Treeprocessor):
    """A link to anything but a page of this site keeps its words alone: the checks refuse it, and a page must be safe without them."""

    def run(self, root: Element) -> None:
        for link in root.iter("a"):
            if not PAGES.fullmatch(link.get("href", "")):
                link.attrib.clear()


class Terms(Treeprocessor):
    """The first use of each term of the glossary on a page becomes a link to it, longest forms first."""

    def __init__(self, reference: Reference, guide: Guide, up: str):
        super().__init__()
        self.forms: dict[str, Term] = {form.casefold(): term for term in reference.glossary.values() for form in term.forms} if guide.id != "glossary" else {}
        words = "|".join(re.escape(form) for form in sorted(self.forms, key=len, reverse=True))
        self.pattern = re.compile(rf"(?<![\w-])(?:{words})(?![\w-])", re.IGNORECASE) if words else None
        self.used: set[str] = set()
        self.up = up

    def run(self, root: Element) -> None:
        if self.pattern:
            self._walk(root)

    def _walk(self, node: Element) -> None:
        if node.tag in NOT_LINKED:
            return
        place = 0
        node.text, links = self._linked(node.text)
        for link in links:
            node.insert(place, link)
            place += 1
        while place < len(node):
            child = node[place]
            self._walk(child)
            child.tail, links = self._linked(child.tail)
            for offset, link in enumerate(links, start=1):
                node.insert(place + offset, link)
            place += 1 + len(links)

    def _linked(self, text: str | None) -> tuple[str | None, list[Element]]:
        """The text up to the first link, and the links, each with the text after it as its tail."""
        if not text:
            return text, []
        before, links, at = text, [], 0
        for match in self.pattern.finditer(text):
            term = self.forms[match[0].casefold()]
            if term.id in self.used:
                continue
            self.used.add(term.id)
            gap = text[at : match.start()]
            if links:
                links[-1].tail = gap
            else:
                before = gap
            link = Element("a", {"class": "term", "href": f"{self.up}guides/glossary/#{term.id}"})
            link.text = match[0]
            links.append(link)
            at = match.end()
        if links:
            links[-1].tail = text[at:]
        return before, links
