"""A page of the built site as a tree, without a browser: what is the same however it is shown."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


@dataclass(eq=False)
class Node:
    """An element: its name, attributes, parent, and children, which are elements and texts."""

    name: str
    attributes: dict[str, str]
    parent: Node | None = None
    children: list = field(default_factory=list)

    def __iter__(self) -> Iterator[Node]:
        """The element and all in it, in order."""
        yield self
        for child in self.children:
            if isinstance(child, Node):
                yield from child

    def all(self, *names: str) -> list[Node]:
        return [node for node in self if node.name in names]

    def get(self, name: str, otherwise: str = "") -> str:
        return self.attributes.get(name, otherwise)

    @property
    def classes(self) -> list[str]:
        return self.get("class").split()

    @property
    def above(self) -> Iterator[Node]:
        node = self.parent
        while node is not None:
            yield node
            node = node.parent

    @property
    def text(self) -> str:
        """What is read out: texts, and pictures by their other text; without what is hidden from those who hear the page."""
        if self.get("aria-hidden") == "true" or self.name in ("script", "style", "template"):
            return ""
        if self.name == "img":
            return self.get("alt")
        return "".join(child if isinstance(child, str) else child.text for child in self.children)

    @property
    def words(self) -> str:
        return " ".join(self.text.split())

    def before(self, inner: Node) -> str:
        """The words of this element that come before one in it."""
        found: list[str] = []

        def walk(node: Node) -> bool:
            for child in node.children:
                if child is inner or not isinstance(child, str) and walk(child):
                    return True
                found.append(child) if isinstance(child, str) else None
            return False

        walk(self)
        return " ".join("".join(found).split())


class _Builder(HTMLParser):
    def __init__(self):
        super().__init__()
        self.top = self.at = Node("", {})

    def handle_starttag(self, name, attributes):
        node = Node(name, {key: value or "" for key, value in attributes}, self.at)
        self.at.children.append(node)
        if name not in VOID:
            self.at = node

    def handle_startendtag(self, name, attributes):
        self.at.children.append(Node(name, {key: value or "" for key, value in attributes}, self.at))

    def handle_endtag(self, name):
        opened = next((node for node in (self.at, *self.at.above) if node.name == name), None)
        if opened is not None:
            self.at = opened.parent

    def handle_data(self, text):
        self.at.children.append(text)


def parsed(html: str) -> Node:
    """The tree of a page; end tags left out are closed by the next outer one, as our pages write all of them."""
    builder = _Builder()
    builder.feed(html)
    return builder.top


def named(node: Node, by_id: dict[str, Node]) -> str:
    """The accessible name: by aria-labelledby, by aria-label, by the caption or title within, by the words."""
    if node.get("aria-labelledby"):
        return " ".join(by_id[one].words for one in node.get("aria-labelledby").split())
    own = node.get("aria-label") or next((n.words for n in node.children if isinstance(n, Node) and n.name in ("caption", "title", "legend", "figcaption")), "")
    return own or (node.words if node.name in ("a", "button", "summary", "label") else "") or node.get("title")
