"""One cell at a time: its value, or what is wrong with it and how to mend it.

Twin: docs/assets/js/lots/cells.js.
"""

from __future__ import annotations

import re
import unicodedata

from .catalogue import WHITE, Catalogue, fold
from .columns import COUNTS, LONGEST_LOT, MOST_SEEDS, STORAGES
from .dates import check_day, check_harvest
from .words import counted, grouped, listed, quoted

ODD_SPACE = re.compile("[\t\n\r\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]|  ")
# Characters that make two lots look the same, and those that do things to a terminal.
HIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]")
WHOLE = re.compile("[0-9]{1,7}")
GROUPED = re.compile("[0-9]{1,3}([ ,.'’][0-9]{3})+")
DECIMAL = re.compile("([0-9]*)[.,]([0-9]*)")
NEGATIVE = re.compile("[-−–] ?[0-9]+([.,][0-9]+)?")
PERCENTAGE = re.compile("[0-9.,]+ ?%")
MOST_NAMES_SOUGHT = 200  # unknown crops for which a near name is looked up: the search is slow

Wrong = tuple[str, str]  # message, hint


def tidy(text: str) -> str:
    """Without space around it, single spaces inside, composed letters."""
    if ODD_SPACE.search(text):
        text = WHITE.sub(" ", text)
    text = text.strip(" ")
    return text if text.isascii() else unicodedata.normalize("NFC", text)


def read_count(text: str) -> tuple[int | None, Wrong | None]:
    """A whole number of seeds written as digits alone, 0 to MOST_SEEDS."""
    if WHOLE.fullmatch(text):
        value = int(text)
        if value <= MOST_SEEDS:
            return value, None
        return None, (f"{grouped(value)} is more than one row may hold.", f"One towel or dish has at most {grouped(MOST_SEEDS)} seeds; check the number.")
    digits = re.sub("[^0-9]", "", text)
    if GROUPED.fullmatch(text):
        return None, (f"{quoted(text)} has a separator between its digits.", f"Write the digits alone{f': {digits}' if len(digits) <= 7 else ''}.")
    decimal = DECIMAL.fullmatch(text)
    if decimal and 0 < len(decimal[1]) <= 7:
        below = int(decimal[1])
        write = f"Write {below}." if not decimal[2].strip("0") else f"Seeds are counted whole: write {below} or {below + 1}."
        return None, (f"{quoted(text)} has a decimal comma." if "," in text else f"{quoted(text)} is not a whole number.", write)
    if NEGATIVE.fullmatch(text):
        return None, (f"{quoted(text)} is below zero.", "Write 0 or more.")
    if PERCENTAGE.fullmatch(text):
        return None, (f"{quoted(text)} is a percentage.", "Write how many were counted.")
    if digits == text:
        return None, (f"{quoted(text)} is more than one row may hold.", f"One towel or dish has at most {grouped(MOST_SEEDS)} seeds; check the number.")
    return None, (f"{quoted(text)} is not a number.", "Write digits alone, such as 12.")


class Cells:
    """Reads cells by column; remembers what it has read, since most cells of a long file repeat."""

    def __init__(self, catalogue: Catalogue, today: str):
        self.catalogue, self.today = catalogue, today
        self.sought = 0
        self.read = {
            "crop": _Memory(self._crop), "variety": _Memory(self._variety), "harvested": _Memory(self._harvested),
            "storage": _Memory(self._storage), "tested": _Memory(self._tested), "counts": _Memory(read_test),
        }

    @staticmethod
    def lot(text: str) -> tuple[str, Wrong | None]:
        value = tidy(text)
        if not value:
            return "", ("This row names no lot.", "Give the lot its number or name; all rows of one lot carry the same.")
        if not value.isascii() or HIDDEN.search(value):
            wrong = hidden(value)
            if wrong:
                return "", wrong
        if len(value) > LONGEST_LOT:
            return "", (f"{quoted(value)} has {len(value)} characters; a lot has at most {LONGEST_LOT}.", "Shorten it, and put the rest under note.")
        return value, None

    def _crop(self, text: str) -> tuple[str, Wrong | None]:
        value = tidy(text)
        if not value:
            return "", ("This row names no crop.", "Write the crop’s name, such as Tomato.")
        found = self.catalogue.find(value)
        if found:
            return found, None
        self.sought += 1
        near = self.catalogue.suggest(value) if self.sought <= MOST_NAMES_SOUGHT else []
        hint = f"Did you mean {listed([f'“{name}”' for name in near], 'or')}?" if near else "Write one of the crops of this reference, by an English name or its id."
        return "", (f"{quoted(value)} is no crop of this reference.", hint)

    @staticmethod
    def _variety(text: str) -> tuple[str, Wrong | None]:
        value = tidy(text)
        return value, hidden(value)

    def _harvested(self, text: str) -> tuple[str, Wrong | None]:
        value = tidy(text)
        message, hint = check_harvest(value, self.today) if value else ("", "")
        return value, (message, hint) if message else None

    def _tested(self, text: str) -> tuple[str, Wrong | None]:
        value = tidy(text)
        message, hint = check_day(value, self.today) if value else ("", "")
        return value, (message, hint) if message else None

    @staticmethod
    def _storage(text: str) -> tuple[str, Wrong | None]:
        value = fold(text).replace(" ", "-")
        if not value or value in STORAGES:
            return value, None
        return "", (f"{quoted(tidy(text))} is no way of storing.", "Write cool-dry, cold-dry or warm, or leave it empty.")


class _Memory(dict):
    """Results of a function by its argument."""

    def __init__(self, function):
        super().__init__()
        self.function = function

    def __missing__(self, key):
        result = self[key] = self.function(key)
        return result


def hidden(text: str) -> Wrong | None:
    """What to say of the first hidden or control character."""
    found = HIDDEN.search(text)
    return (f"A character that does not show (U+{ord(found[0]):04X}) stands in this cell.", "Type the text anew rather than pasting it.") if found else None


def read_test(key: tuple[bool, tuple[str, ...]]) -> tuple[tuple, list[tuple[str, Wrong]]]:
    """((seeds, normal, hard, fresh), [(column, (message, hint))]) of a row's count cells.

    `key` is whether the row has a date of test, and the cells in the order of COUNTS. Seeds and normal
    are None for a lot not yet tested.
    """
    dated, cells = key
    counts, wrongs = dict.fromkeys(COUNTS), []
    for name, cell in zip(COUNTS, cells, strict=True):
        text = tidy(cell)
        if text:
            counts[name], wrong = read_count(text)
            if wrong:
                wrongs.append((name, wrong))
    if not wrongs:
        wrongs = _check_counts(dated, counts)
    return (counts["seeds"], counts["normal"], counts["hard"] or 0, counts["fresh"] or 0), wrongs


def _check_counts(dated: bool, counts: dict[str, int | None]) -> list[tuple[str, Wrong]]:
    """What is wrong with the counts of a row together; `counts` by column, None where empty."""
    seeds, normal = counts["seeds"], counts["normal"]
    given = [name for name, count in counts.items() if count is not None]
    missing = [name for name, there in (("tested", dated), ("seeds", seeds is not None), ("normal", normal is not None)) if not there]
    if missing:
        if not dated and not given:
            return []
        return [(missing[0], (f"This test is half filled in: {listed(missing)} {'is' if len(missing) == 1 else 'are'} empty.", "Fill in tested, seeds and normal, or leave the date and all counts empty for a lot not yet tested."))]
    if seeds == 0:
        return [("seeds", ("A test of 0 seeds.", "Write how many were set, or leave the date and all counts empty for a lot not yet tested."))]
    if normal > seeds:
        return [("normal", (f"{counted(normal, 'normal seedling')} from {counted(seeds, 'seed')} cannot be.", "Check both numbers: seedlings are at most the seeds set."))]
    total = sum(counts[name] for name in given) - seeds
    if total > seeds:
        parts = [grouped(counts[name]) for name in given if name != "seeds"]
        return [(given[-1], (f"{' + '.join(parts)} = {grouped(total)} counted from {counted(seeds, 'seed')} cannot be.", "Check the counts: together they are at most the seeds set."))]
    return []
