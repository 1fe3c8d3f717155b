"""Every page and file of the site in a plain folder that any site generator can take over; MkDocs is not needed, nor loaded.

    site.json    what the pages have in common: name, address, styles, scripts, navigation
    pages/       index.md in a folder for each page: HTML behind a front matter (title, description, summary for a search, headings as
                 [anchor, text]); beside them the assets, and all that is published for programs. The folders are those of the addresses,
                 so that links hold whether a generator takes them from the file or from the address
"""

from __future__ import annotations

import html
import json
import os
import posixpath
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import yaml
from markdown import Markdown

from ..model import Reference
from ..render import Rendered
from ..write_file import write_whole

PAGES, SITE = "pages", "site.json"
FORMAT = 1
FRONT = re.compile(r"\A---\n(.*?)\n---\n", re.DOTALL)
KEEPS_LINES = re.compile(r"(<(pre|textarea)\b.*?</\2>)", re.DOTALL)
BLANK_LINES = re.compile(r"\n\s*\n")
LINE_BEFORE_BLANK = re.compile(r"\n(?=[ \t]*\n)")
LINK = re.compile(r'\b(href|src)="(?![a-z]+:|[/#])([^"#]*)(#[^"]*)?"')
BLOCK = re.compile(r"</?(?:p|h[1-6]|[duo]l|li|d[td]|div|br|pre|t[rdh])\b[^>]*>")
TAG = re.compile(r"<[^>]*>")


def write_pages(reference: Reference, rendered: Rendered, root: Path, folder: Path) -> int:
    """Write all of it into `folder`, which takes its place whole or not at all; how many pages. `root` is the project's folder.

    Raises ValueError when the folder holds something else, OSError when it can't be written.
    """
    if folder.exists() and any(folder.iterdir()) and not (folder / SITE).is_file():
        raise ValueError(f"{folder} is not empty and was not written by this command. Choose another folder.")
    fresh = folder.with_name(f"{folder.name}.new-{os.getpid()}")
    try:
        count = _write(reference, rendered, root, fresh)
        shutil.rmtree(folder, ignore_errors=True)
        fresh.rename(folder)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
    return count


def _write(reference: Reference, rendered: Rendered, root: Path, fresh: Path) -> int:
    shutil.copytree(root / "docs" / "assets", fresh / PAGES / "assets")
    count = 0
    for path, text in pages(rendered, root / "docs"):
        write_whole(fresh / PAGES / file_of(path), [text])
        count += 1
    for name, make in rendered.files.items():
        content = make()
        write_whole(fresh / PAGES / name, content if isinstance(content, bytes) else content.encode("utf-8"))
    write_whole(fresh / SITE, [json.dumps(site(reference, root), ensure_ascii=False, indent=1), "\n"])
    return count


def site(reference: Reference, root: Path) -> dict:
    """What all pages have in common. The navigation is a list of {title, page} or {title, pages: a list of the same}."""
    settings = yaml.safe_load((root / "mkdocs.yml").read_text(encoding="utf-8"))
    library = reference.library
    scripts = [{"path": s, "type": ""} if isinstance(s, str) else {"path": s["path"], "type": s.get("type", "")} for s in settings["extra_javascript"]]
    return {
        "format": FORMAT, "name": str(library["name"]), "address": str(library["site_url"]), "language": settings["theme"]["language"],
        "logo": f"assets/{library['logo']}" if library.get("logo") else "", "styles": settings["extra_css"], "scripts": scripts, "navigation": _navigation(settings["nav"]),
    }


def _navigation(entries: list) -> list[dict]:
    pairs = [pair for entry in entries for pair in entry.items()]
    return [{"title": title, "pages": _navigation(inside)} if isinstance(inside, list) else {"title": title, "page": file_of(inside)} for title, inside in pairs]


def pages(rendered: Rendered, docs: Path) -> Iterator[tuple[str, str]]:
    """(path, text) of every page, generated and hand-written, made one at a time."""
    for path, page in rendered.pages.items():
        yield path, page_text(page.title, page.description, page.body(), plain(page.summary), page.headings)
    for file in sorted(docs.rglob("*.md")):
        path = file.relative_to(docs).as_posix()
        if path not in rendered.pages:
            yield path, written_page(path, file.read_text(encoding="utf-8"), rendered.fragments)


def page_text(title: str, description: str, body: str, summary: str, headings) -> str:
    """A page as text: front matter, then HTML that no reader of Markdown takes for anything else, since no line in it is blank."""
    matter = {"title": title, "description": description, "summary": summary, "headings": [list(heading) for heading in headings]}
    lines = "".join(f"{key}: {json.dumps(value, ensure_ascii=False)}\n" for key, value in matter.items())
    return f"---\n{lines}---\n\n{unbroken(body)}\n"


def unbroken(body: str) -> str:
    """The same HTML without blank lines: where lines count they are written as signs."""
    parts = KEEPS_LINES.split(body.strip())  # text, what keeps its lines, its tag, text, …
    return "".join(LINE_BEFORE_BLANK.sub("&#10;", part) if place % 3 == 1 else BLANK_LINES.sub("\n", part) for place, part in enumerate(parts) if place % 3 != 2)


def plain(summary: str) -> str:
    """A summary as one line of text."""
    return " ".join(html.unescape(TAG.sub("", BLOCK.sub(" ", summary))).split())


def written_page(path: str, text: str, fragments: dict[str, str]) -> str:
    """A hand-written page: its Markdown as HTML, generated parts put in, links to pages as addresses."""
    front = FRONT.match(text)
    matter = yaml.safe_load(front[1])
    markdown = Markdown(extensions=["attr_list", "tables", "toc"])
    body = LINK.sub(lambda m: f'{m[1]}="{address_from(path, m[2])}{m[3] or ""}"', markdown.convert(text[front.end() :]))
    summary = plain(body)
    for name, fragment in fragments.items():
        body = body.replace(f"<p>[[{name}]]</p>", fragment)
    headings = [(token["id"], html.unescape(token["name"])) for top in markdown.toc_tokens for token in top["children"]]
    return page_text(str(matter["title"]), str(matter["description"]), f"<article>\n{body}\n</article>", summary, headings)


def address(path: str) -> str:
    """A page's address from the site's top: a folder of its own, an index that of its folder."""
    name = path.removesuffix(".md")
    return name.removesuffix("index") if name == "index" or name.endswith("/index") else f"{name}/"


def file_of(path: str) -> str:
    """Where a page stands in the folder."""
    return f"{address(path)}index.md"


def address_from(path: str, link: str) -> str:
    """The address of what a link names by its file, from the page at `path`."""
    target = posixpath.normpath(posixpath.join(posixpath.dirname(path), link)) if link else path
    end = address(target) if target.endswith(".md") else target
    return "../" * address(path).count("/") + end or "./"
