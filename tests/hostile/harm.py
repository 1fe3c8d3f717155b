"""Looks through a built site for anything that a text of the data has turned into code."""

from __future__ import annotations

import re
from html.parser import HTMLParser

SCRIPTS_OF_DATA = ("application/json",)
ADDRESSES = ("href", "src", "action", "formaction", "xlink:href", "data", "poster", "srcset")
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Page(HTMLParser):
    """The elements, attributes, texts and scripts of a page, and what in them comes from a harmful text."""

    def __init__(self, html: str):
        super().__init__(convert_charrefs=True)
        self.harm: list[str] = []
        self.texts: list[str] = []
        self.title, self.description = "", ""
        self.headings: list[str] = []
        self.data: list[str] = []  # of scripts that hold data
        self.inside: list[tuple[str, dict]] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        named = {name: value or "" for name, value in attrs}
        where = f"line {self.getpos()[0]}: <{tag} {named}>"[:300]
        if "canary" in tag or any("canary" in name or name.startswith("on") or not re.fullmatch(r"[a-zA-Z][\w:.-]*", name) for name in named):
            self.harm.append(where)
        for name in ADDRESSES:
            if re.match(r"[\s\x00-\x20]*(javascript|vbscript|data:text)", named.get(name, ""), re.I) or named.get(name) == "x":
                self.harm.append(where)
        if "canary" in named.get("style", "") or "srcdoc" in named or tag in ("base", "iframe", "object", "embed"):
            self.harm.append(where)
        if tag == "meta" and named.get("name") == "description":
            self.description = named["content"]
        if tag not in VOID:
            self.inside.append((tag, named))
        if tag == "h1":
            self.headings.append("")

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.inside.pop()

    def handle_endtag(self, tag):
        if any(open_tag == tag for open_tag, _ in self.inside):
            while self.inside.pop()[0] != tag:
                pass

    def handle_data(self, data):
        tag, attrs = self.inside[-1] if self.inside else ("", {})
        if tag == "script":
            if attrs.get("type") in SCRIPTS_OF_DATA:
                self.data.append(data)
            elif "canary" in data:
                self.harm.append(f"line {self.getpos()[0]}: script {data[:200]}")
        elif tag == "style":
            if "canary" in data:
                self.harm.append(f"line {self.getpos()[0]}: style {data[:200]}")
        else:
            if tag == "title" and not any(t in ("svg",) for t, _ in self.inside):
                self.title += data
            if any(t == "h1" for t, _ in self.inside):
                self.headings[-1] += data
            self.texts.append(data)

    def handle_comment(self, data):
        if "canary" in data:
            self.harm.append(f"line {self.getpos()[0]}: comment {data[:200]}")

    def handle_decl(self, decl):
        if "canary" in decl:
            self.harm.append(f"declaration {decl[:200]}")

    def unknown_decl(self, data):
        self.harm.append(f"declaration {data[:200]}")

    @property
    def all_text(self) -> str:
        """Everything that is shown, one text after the other."""
        return "".join(self.texts)
