"""The words of the guides and of what they show, where each stands, and which of them are known.

`python -m tests.guides.words` puts every unknown word into words.txt and takes out what nothing uses. Read the difference before you
commit: a misspelt word put there is never found again.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from build_tools.read import read_tree

ROOT = Path(__file__).resolve().parents[2]
LIST = Path(__file__).with_name("words.txt")
WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
SHOWN = {"glossary": ("term", "forms", "definition"), "guides": ("title", "question", "description"), "cautions": ("text",), "figures": ("what",)}


def words_in(text: str) -> Iterator[str]:
    """Words in small letters, without a possessive ending; letters alone, as in °C, are none."""
    for found in WORD.findall(text):
        word = found.lower().replace("’", "'").removesuffix("'s").rstrip("'")
        if len(word) > 1:
            yield word


def used(root: Path = ROOT) -> dict[str, str]:
    """Every word → the first place where it stands."""
    tree, found = read_tree(root / "data"), {}
    for guide in tree.guides.values():
        for block in guide.blocks():
            for word in words_in(block.words):
                found.setdefault(word, f"{guide.file}:{block.line}")
    for name, keys in SHOWN.items():
        document = tree.singles[name]
        for path, text in _texts(document.data, keys):
            for word in words_in(text):
                found.setdefault(word, f"{document.file}:{document.place(path)[0]}")
    return found


def _texts(node, keys, path=()) -> Iterator[tuple[tuple, str]]:
    """(path, text) of every text under one of the keys."""
    for key, value in node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ():
        if isinstance(value, str) and (key in keys or path and path[-1] in keys):
            yield (*path, key), value
        else:
            yield from _texts(value, keys, (*path, key))


def named(root: Path = ROOT) -> set[str]:
    """Words of names that the data holds: crops, kinds without a page, treatments, terms of the glossary, titles and publishers of sources."""
    tree = read_tree(root / "data")
    texts = [text for crop in tree.crops.values() for key in ("common", "other", "botanical", "family") for text in _as_list(crop.data["names"].get(key))]
    texts += [entry["name"] for entry in tree.singles["other-kinds"].data.values()]
    texts += [treatment.data["name"] for treatment in tree.treatments.values()]
    texts += [text for entry in tree.singles["glossary"].data.values() for text in (entry["term"], *entry.get("forms", ()))]
    texts += [str(source.document.data.get(key, "")) for source in tree.sources.values() for key in ("title", "publisher")]
    return {word for text in texts for word in words_in(text)}


def _as_list(value) -> list[str]:
    return value if isinstance(value, list) else [value] if value else []


def listed() -> list[str]:
    """The words of words.txt."""
    return LIST.read_text(encoding="utf-8").splitlines() if LIST.is_file() else []


def unknown(root: Path = ROOT) -> dict[str, str]:
    """Words that neither the speller nor the data's names know → where they stand."""
    from spellchecker import SpellChecker

    places, names = used(root), named(root)
    return {word: places[word] for word in sorted(SpellChecker(distance=1).unknown(places)) if word not in names}


if __name__ == "__main__":
    before, after = set(listed()), sorted(unknown())
    LIST.write_text("".join(f"{word}\n" for word in after), encoding="utf-8")
    for sign, words in (("+", set(after) - before), ("-", before - set(after))):
        for word in sorted(words):
            print(sign, word)
