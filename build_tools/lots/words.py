"""Numbers and short texts as the messages and results have them.

Twin: docs/assets/js/words.js.
"""

from __future__ import annotations

import re

FINE_FROM = 400  # seeds from which one decimal of a percentage means something
# Characters that do not show, or do something to a terminal.
UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202f\u2060-\u2069\ufeff\ud800-\udfff]")


def quoted(text: str, most: int = 24) -> str:
    """The text in quotes, cut to `most` characters, what does not show replaced."""
    return f"“{UNSEEN.sub('�', text[:most])}{'…' if len(text) > most else ''}”"


def grouped(number: int) -> str:
    """1234567 as "1,234,567"; four digits stay together."""
    return f"{number:,}" if number >= 10_000 else str(number)


def counted(number: int, thing: str) -> str:
    """ "1 seed", "12 seeds"."""
    return f"{grouped(number)} {thing}{'' if number == 1 else 's'}"


def number_text(value: float) -> str:
    """70 or 72.5, without a needless ".0"."""
    return f"{value:g}"


def tenths_text(tenths: int) -> str:
    """725 as "72.5"."""
    return f"{tenths // 10}.{tenths % 10}"


def percent_digits(fraction: float, n: int) -> str:
    """A fraction in percent as digits: whole, or one decimal from 400 seeds on; halves upward."""
    if n >= FINE_FROM:
        return tenths_text(int(fraction * 1000 + 0.5))
    return str(int(fraction * 100 + 0.5))


def percent_of_count(k: int, n: int) -> str:
    """k of n in percent as digits, exactly rounded: whole, or one decimal from 400 seeds on; halves upward."""
    if n >= FINE_FROM:
        return tenths_text((2000 * k + n) // (2 * n))
    return str((200 * k + n) // (2 * n))


def percent_in_words(k: int, n: int) -> str:
    """ "72 %"; a count that is neither none nor all never reads as 0 or 100 %."""
    digits, unit = percent_of_count(k, n), "0.1" if n >= FINE_FROM else "1"
    if k > 0 and float(digits) == 0:
        return f"less than {unit} %"
    if k < n and float(digits) == 100:
        return f"more than {'99.9' if n >= FINE_FROM else '99'} %"
    return f"{digits} %"


def chance_text(chance: float) -> str:
    """A chance in percent for a table: whole, "<1" or ">99"."""
    if chance < 0.01:
        return "<1"
    if chance > 0.99:
        return ">99"
    return str(int(chance * 100 + 0.5))


def chance_in_words(text: str) -> str:
    """What `chance_text` gave, for a sentence: "61 %", "less than 1 %"."""
    return f"{text} %".replace("<", "less than ").replace(">", "more than ")


def listed(parts: list[str], last: str = "and") -> str:
    """ "a", "a and b", "a, b and c"."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} {last} {parts[-1]}"
