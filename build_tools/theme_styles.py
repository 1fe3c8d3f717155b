"""Leaves out of the theme's style sheets what no page can use: three quarters of them are for parts that this site does not have.

A selector goes when it asks for a class that stands in no page and is no word of any script; whatever scripts could add stays.
"""

from __future__ import annotations

import re
from pathlib import Path

CLASSES = re.compile(r'class="([^"]*)"')
WORD = re.compile(r"[A-Za-z_][\w-]*")
CLASS = re.compile(r"\.(-?[A-Za-z_](?:[\w-]|\\.)*)")
BRACKETS = re.compile(r"\([^()]*\)|\[[^\]]*\]|\"[^\"]*\"")
TOKEN = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^'\\]|\\.)*'|/\*.*?\*/|[{};]", re.DOTALL)
ASKED_FOR = "tabbed-"  # the theme's script looks for these and adds none; their hundred rules make each change of the page's first class dear


def vocabulary(site: Path) -> set[str]:
    """Every class of every page, and every word of every script of a built site."""
    words: set[str] = set()
    for page in site.rglob("*.html"):
        for classes in set(CLASSES.findall(page.read_text(encoding="utf-8"))):
            words.update(classes.split())
    for script in (site / "assets").rglob("*.js"):
        if "plotly" not in script.name and "lunr" not in script.parts:  # the one writes into its own chart, the others are never run
            words.update(word for word in WORD.findall(script.read_text(encoding="utf-8")) if not word.startswith(ASKED_FOR))
    return words


def can_match(selector: str, words: set[str]) -> bool:
    """Whether all classes that a selector asks for are known. What stands in brackets (`:not(…)`, `:is(…)`, `[…]`) is not looked into."""
    previous = None
    while previous != selector:
        previous, selector = selector, BRACKETS.sub("", selector)
    return all(name.replace("\\", "") in words for name in CLASS.findall(selector))


def selectors(head: str) -> list[str]:
    """The selectors of a rule, apart at its outer commas."""
    found, depth = [""], 0
    for sign in head:
        depth += (sign in "([") - (sign in ")]")
        if sign == "," and depth == 0:
            found.append("")
        else:
            found[-1] += sign
    return found


def pruned(css: str, words: set[str]) -> str:
    """A minified sheet without the rules that cannot match. Raises ValueError where braces do not pair."""
    blocks: list[tuple[str, list[str]]] = [("", [])]  # open blocks: what stands before the brace, what has been kept of the inside
    start = 0
    for match in TOKEN.finditer(css):
        sign, before = match[0], css[start : match.start()]
        if sign not in "{};" or (sign == ";" and len(blocks) > 1 and before.lstrip().startswith("@")):
            continue
        start = match.end()
        if sign == "{":
            blocks.append((before, []))
        elif sign == ";":
            blocks[-1][1].append(before + sign)
        elif len(blocks) == 1:
            raise ValueError(f"a closing brace too many at character {match.start()}")
        else:
            head, kept = blocks.pop()
            blocks[-1][1].append(_rule(head, "".join(kept) + before, words, within=blocks[-1][0]))
    if len(blocks) > 1:
        raise ValueError("a brace is not closed")
    return "".join(blocks[0][1]) + css[start:]


def _rule(head: str, inside: str, words: set[str], within: str) -> str:
    name = head.strip()
    if name.startswith("@"):
        return f"{head}{{{inside}}}" if inside.strip() else ""
    if within.strip().startswith("@") and "keyframes" in within:
        return f"{head}{{{inside}}}"
    kept = [selector for selector in selectors(name) if can_match(selector, words)]
    return f"{','.join(kept)}{{{inside}}}" if kept else ""


def leave_out_unused(site: Path) -> None:
    """Prune the theme's sheets in a built site."""
    words = vocabulary(site)
    for sheet in (site / "assets" / "stylesheets").glob("*.css"):
        sheet.write_text(pruned(sheet.read_text(encoding="utf-8"), words), encoding="utf-8", newline="")
