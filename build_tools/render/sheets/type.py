"""Setting type: how wide a text is, where it breaks, how large it may be. Twin: docs/assets/js/sheets/type.js.

Widths are sums of advances without kerning, which only ever draws letters closer: a text that fits here fits on paper.
"""

from __future__ import annotations

from collections.abc import Mapping

LEAST_ON_ONE_LINE = 0.7  # a name is set in one line down to this share of its size, then in two
TWO_LINES = 0.52  # size of a name in two lines


class Type:
    """`widths` as fonts.widths() gives them. What was measured is remembered: a layout tries sizes, and sheets repeat one another's words."""

    def __init__(self, widths: Mapping[str, Mapping[str, int]]):
        self.widths = widths
        self.known: dict[tuple[str, int], int] = {}

    def width(self, text: str, size: float, weight: int = 400) -> float:
        """mm of `text` set at `size` mm."""
        units = self.known.get((text, weight))
        if units is None:
            table = self.widths[str(weight)]
            missing = table[""]
            units = self.known[text, weight] = sum([table.get(c, missing) for c in text])
        return units * size / 1000

    def wrap(self, text: str, size: float, weight: int, most: float) -> list[str]:
        """Lines of at most `most` mm, broken at spaces; a longer word stands alone."""
        lines: list[str] = []
        for word in text.split(" "):
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.width(longer, size, weight) <= most:
                lines[-1] = longer
            else:
                lines.append(word)
        return lines

    def one_line(self, text: str, size: float, weight: int, most: float) -> float:
        """The largest type size, `size` at most, at which `text` fits `most` mm."""
        width = self.width(text, size, weight)
        return size if width <= most else size * most / width

    def name(self, text: str, size: float, weight: int, most: float) -> tuple[list[str], float]:
        """A name in one line, or where that gets too small in two: (lines, size)."""
        alone = self.one_line(text, size, weight, most)
        if alone >= size * LEAST_ON_ONE_LINE or " " not in text:
            return [text], alone
        lines = self._halves(text, weight)
        two = min(size * TWO_LINES, *(self.one_line(line, size, weight, most) for line in lines))
        return ([text], alone) if alone >= two else (lines, two)

    def _halves(self, text: str, weight: int) -> list[str]:
        words = text.split(" ")
        cuts = [[" ".join(words[:i]), " ".join(words[i:])] for i in range(1, len(words))]
        return min(cuts, key=lambda lines: max(self.width(line, 1, weight) for line in lines))
