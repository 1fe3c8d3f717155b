"""A guide's text, taken apart: its blocks with their lines, and what stands in braces in it.

A guide is Markdown with this in braces:

    {soak_least_hours}  {lettuce.maximum_c}  {lettuce.best}  {katzman-2001.warm}    a value: of `practice`, of a crop, a figure of a source
    {soak_least_hours to soak_most_hours}                                           a range from one value to another of the same unit
    {crops: light=light}  {crops: soak=worth-doing}  {crops: family=Fabaceae}        the crops of which that is so
    {sources: katzman-2001, common practice}                                        who says what stands before it
    {no claim}                                                                      a paragraph that claims nothing of seed
    {blank}                                                                         a line to write on
    {drawing: nick}  {cautions: blades}  {table: grades}                            alone in a paragraph: a drawing, cautions, a table
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from ..problem import Problem
from .text_file import read_text, symlink

LARGEST_GUIDE = 60_000  # bytes
BRACES = re.compile(r"\{([a-z][^{}\n]*)\}")
ITEM = re.compile(r"\s*(?:[-*]|[0-9]+\.)\s+")
RULED = re.compile(r"\|[\s|:-]+")
LINK = re.compile(r"\[([^\[\]]*)\]\(([^()\s]*)\)")  # no bracket within: a text of many must not be read again from each
STRAY = re.compile(r"\{(?!\s*#[\w-]+\s*\}\s*$)", re.MULTILINE)  # what is left when braces are taken in, but for a heading's anchor
ANCHOR = re.compile(r"\{\s*#[\w-]+\s*\}\s*$")  # at the end of a heading
NO_CLAIM, BLANK = "no claim", "blank"
ALONE = ("drawing", "cautions", "table")
TABLES = ("count-days", "glossary", "grades", "next-guides", "seed-life")


@dataclass(frozen=True)
class Pull:
    """What stands in braces: its kind (value, crops, sources, no claim, blank, drawing, cautions, table) and the words it names."""

    line: int
    column: int
    kind: str
    names: tuple[str, ...]
    raw: str


@dataclass(frozen=True)
class Block:
    """A heading, paragraph, list item or table row; `led` says which paragraph ends in a colon right before a list."""

    line: int
    kind: str
    text: str
    led: int | None = None

    @property
    def words(self) -> str:
        """The text as it is read, with what is in braces left out and links as their words."""
        return LINK.sub(r"\1", BRACES.sub("", re.sub(r"\{\s*#[^{}]*\}", "", self.text)))


@dataclass(eq=False)
class GuideText:
    """A guide as written. `file` is the shown name."""

    file: str
    text: str = field(repr=False)

    def pulls(self) -> Iterator[Pull]:
        """What stands in braces, in order."""
        for number, line in enumerate(self.text.split("\n"), start=1):
            for match in BRACES.finditer(line):
                yield pull_of(match[1], number, match.start() + 1)

    def strays(self) -> Iterator[tuple[int, int]]:
        """(line, column) of the first brace in each line that belongs to nothing a guide takes in and to no heading's anchor."""
        for number, line in enumerate(self.text.split("\n"), start=1):
            rest = BRACES.sub(lambda match: " " * len(match[0]), ANCHOR.sub("", line) if line.startswith("#") else line)
            if found := re.search(r"[{}]", rest):
                yield number, found.start() + 1

    def blocks(self) -> list[Block]:
        """The text in blocks, in order."""
        found: list[list] = []
        fresh = True
        for number, line in enumerate(self.text.split("\n"), start=1):
            if not line.strip():
                fresh = True
                continue
            kind = "heading" if line.startswith("#") else "item" if ITEM.match(line) else "row" if line.startswith("|") else "paragraph"
            if kind == "paragraph" and not fresh and found and found[-1][1] in ("paragraph", "item"):
                found[-1][2] += " " + line.strip()
            else:
                found.append([number, kind, line.strip()])
            fresh = False
        return _led([Block(*parts) for parts in found])

    def problem(self, line: int, column: int, rule: str, message: str, hint: str = "", **more) -> Problem:
        """A problem at a place of the text."""
        return Problem(self.file, line, column, rule, message, hint, **more)


def _led(blocks: list[Block]) -> list[Block]:
    """Items and rows with the paragraph that leads into their list."""
    result, leader = [], None
    for block in blocks:
        if block.kind == "paragraph":
            leader = len(result) if block.words.rstrip().endswith(":") else None
        elif block.kind == "heading":
            leader = None
        led = leader if block.kind in ("item", "row") else None
        result.append(Block(block.line, block.kind, block.text, led))
    return result


def pull_of(raw: str, line: int = 1, column: int = 1) -> Pull:
    """Braces' words as a Pull."""
    kind, colon, rest = raw.partition(":")
    if colon:
        return Pull(line, column, kind.strip(), tuple(part.strip() for part in rest.split(",") if part.strip()), raw)
    if raw.strip() in (NO_CLAIM, BLANK):
        return Pull(line, column, raw.strip(), (), raw)
    return Pull(line, column, "value", tuple(part.strip() for part in raw.split(" to ")), raw)


def is_ruled(block: Block) -> bool:
    """Whether a table's row is the line under its head."""
    return block.kind == "row" and bool(RULED.fullmatch(block.text))


def read_guides(folder: Path) -> tuple[dict[str, GuideText], list[Problem]]:
    """Every guide of a folder (normally <project>/docs/guides) by name; none where there is no such folder."""
    guides, problems = {}, []
    if problem := symlink(folder, "docs/guides"):
        return {}, [problem]
    for path in sorted(folder.glob("*.md")) if folder.is_dir() else ():
        text, found = read_text(path, name := f"docs/guides/{path.name}", LARGEST_GUIDE)
        problems += found
        if text is not None:
            guides[path.stem] = GuideText(name, text)
    return guides, problems
