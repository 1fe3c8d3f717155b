"""Crop cards: everything for one crop on a small card, laid out from the model's words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ...model.reference import Reference
from ...units import celsius
from ..charts.bands import HIGH, LOW, PART_WORDS
from ..rows import by_name
from ..wording import NOT_FOUND, PAIR
from .card_text import SEE_PAGE, card_data, page_address, short_cautions
from .cut_sheets import CUT_SHEETS, CutSheet, pages_of
from .marks import group, heading, line, lines, picture, rect, text
from .poster_data import TICKS_C, TICKS_F
from .rows_poster import optimum_mark, part_rect
from .steps_poster import in_units
from .type import Type
from .typeset import pdf

MOST = 3.9  # mm: the largest type of sentences, 11 pt
STEPS = 31  # type sizes tried between the largest and the least
LEADING = 1.22
# What goes first when a card is too small for everything: never the chart, the days, the towel test, a caution.
DROPPED = ("Other names", "Light", "First", "Depth", "Seed keeps", "Sow above")
NUMBER_SHARES = (0.24, 0.3, 0.23, 0.23)  # of the width: minimum, best range, optimum, maximum


@dataclass
class _Setting:
    """One attempt at a card: `size` of sentences in mm, what is left out, and whether cautions are shortened."""

    size: float
    without: tuple[str, ...] = ()
    short: bool = False
    gap: float = 0.0


class CardMaker:
    """Lays out cards of one sheet in one unit. `data` is card_data."""

    def __init__(self, data: dict, sheet: CutSheet, units: str):
        self.type, self.data, self.sheet, self.units = Type(data["widths"]), data, sheet, units
        self.left, self.right = sheet.margin, sheet.card_width - sheet.margin
        self.width = self.right - self.left

    def marks(self, crop_id: str) -> list[dict]:
        """The card of a crop as marks from the card's corner."""
        return self.fitted(crop_id)[0]

    def dropped(self, crop_id: str) -> tuple[str, ...]:
        """What the card leaves out for want of room; "cautions in full" among it when only their first sentences are there."""
        setting = self.fitted(crop_id)[1]
        return setting.without + (("cautions in full",) if setting.short else ())

    def fitted(self, crop_id: str) -> tuple[list[dict], _Setting]:
        """(marks, setting) of the largest type at which all fits; then cautions are shortened, then rows go."""
        card = self.data["cards"][crop_id]
        foot, bottom = self._foot(crop_id)
        setting = self._largest(card, bottom) or next((s for s in self._lesser(card) if self._body(card, s)[1] <= bottom), None)
        if setting is None:
            raise ValueError(f"The card of {card['name']} has more names, or longer ones, than fit {self.sheet.title}.")
        setting.gap = min((bottom - self._body(card, setting)[1]) / (len(card["rows"]) + 4), setting.size * 0.7)
        return [*self._body(card, setting)[0], *foot], setting

    def _largest(self, card: dict, bottom: float) -> _Setting | None:
        """The largest type at which everything fits, by halving the sizes that may be it; None when the least is too large."""
        low, high, found = 0, STEPS, None
        while low <= high:
            step = (low + high) // 2
            setting = _Setting(self.sheet.least + (MOST - self.sheet.least) * step / STEPS)
            if self._body(card, setting)[1] <= bottom:
                found, low = setting, step + 1
            else:
                high = step - 1
        return found

    def _lesser(self, card: dict):
        """Settings at the least type, one leaving out more than the other."""
        for count in range(len(DROPPED) + 1):
            yield _Setting(self.sheet.least, DROPPED[:count], bool(card["cautions"]))
        yield _Setting(self.sheet.least, (*DROPPED, "cautions"), True)

    def _body(self, card: dict, s: _Setting) -> tuple[list[dict], float]:
        """(head, chart, rows and cautions, the y where they end)."""
        marks, y = self._head(card, s)
        chart, y = self._chart(card, s, y + s.size * 0.5 + s.gap)
        rows, y = self._rows(card, s, y + s.size * 0.35 + s.gap)
        cautions, y = self._cautions(card, s, y + s.size * 0.3 + s.gap)
        return [*marks, *chart, *rows, *cautions], y

    def _small(self, s: _Setting) -> float:
        return max(self.sheet.least, s.size * 0.84)

    def _head(self, card: dict, s: _Setting) -> tuple[list[dict], float]:
        names, size = self.type.name(card["name"], s.size * 2.1, 600, self.width)
        y = self.sheet.margin + 0.7 * size
        marks = [heading(1, lines(self.left, y, size, size * 1.04, names, weight=600))]
        y += size * (1.04 * (len(names) - 1) + 0.1)
        small = self._small(s)
        for words, ink in ((card["botanical"], "ink"), ("" if "Other names" in s.without else card["other"], "soft")):
            if words:
                said = self.type.wrap(words, small, 400, self.width)
                y += small * 1.4
                marks.append(lines(self.left, y, small, small * LEADING, said, ink=ink))
                y += small * LEADING * (len(said) - 1)
        return marks, y

    def _x(self, degrees: float) -> float:
        return self.left + self.width * (min(max(degrees, LOW), HIGH) - LOW) / (HIGH - LOW)

    def _chart(self, card: dict, s: _Setting, y: float) -> tuple[list[dict], float]:
        """The band with its words and scale, and the numbers under it."""
        small = self._small(s)
        if not card["known"]:
            words = self.type.wrap(f"Soil temperature: {NOT_FOUND}", s.size, 400, self.width)
            return [lines(self.left, y + s.size, s.size, s.size * LEADING, words)], y + s.size * LEADING * len(words)
        figure, top, tall = [], y + small * 1.1, s.size * 1.7
        figure.append(rect(self.left, top, self.width, tall, None, edge="rule", edge_width=0.2))
        for part, low, high in card["parts"]:
            left, right, word = self._x(low), self._x(high), PART_WORDS.get(part, "")
            figure.append(part_rect(part, left, top, right - left, tall))
            if word and self.type.width(word, small) <= right - left - 0.6:
                figure.append(text((left + right) / 2, top - small * 0.28, small, word, anchor="middle", ink="soft"))
        if card["optimum"] is not None:
            figure += optimum_mark(self._x(card["optimum"]), top + tall / 2, tall * 0.33)
        y = top + tall
        for unit in ("c", "f") if self.units == "both" else (self.units.lower(),):
            y += small * 1.05
            ticks = [(t, f"{t}") for t in TICKS_C] if unit == "c" else [(celsius(t), f"{t}") for t in TICKS_F]
            figure += [text(self._x(at), y, small, words, anchor="middle", ink="soft") for at, words in ticks]
            figure.append(text(self.right, y, small, f"°{unit.upper()}", anchor="end", ink="soft"))
        figure += [line(self._x(t), top + tall, self._x(t), top + tall + small * 0.2, 0.15, "line") for t in ((celsius(t) for t in TICKS_F) if self.units == "F" else TICKS_C)]
        said = "; ".join(f"{name} {in_units(words, self.units)}" for name, words in card["numbers"])
        numbers, y = self._numbers(card, s, y + s.size * 0.35 + s.gap * 0.5)
        return [group(f"Band of soil temperature: {said}", figure), *numbers], y

    def _numbers(self, card: dict, s: _Setting, y: float) -> tuple[list[dict], float]:
        """Minimum, best range, optimum and maximum side by side; both units one above the other."""
        small, x, marks, most = self._small(s), self.left, [], 1
        for (name, words), share in zip(card["numbers"], NUMBER_SHARES, strict=True):
            each, pair = self.width * share, PAIR.fullmatch(words)
            marks.append(text(x, y + small, small, name, ink="soft"))
            if pair:
                shown = [f"{pair[1 if unit == 'C' else 2]} °{unit}" for unit in (("C", "F") if self.units == "both" else (self.units,))]
                size = min(self.type.one_line(said, s.size * 1.1, 600, each - 1.0) for said in shown)
                marks.append(lines(x, y + small + s.size * 1.25, size, s.size * 1.25, shown, weight=600))
            else:
                shown = self.type.wrap(words, small, 400, each - 1.0)
                marks.append(lines(x, y + small + s.size * 1.15, small, small * LEADING, shown))
            most = max(most, len(shown))
            x += each
        return marks, y + small + s.size * 1.25 * most + s.size * 0.3

    def _rows(self, card: dict, s: _Setting, y: float) -> tuple[list[dict], float]:
        rows = [(name, in_units(words, self.units).replace("°C (", "°C\u00a0(")) for name, words in card["rows"] if name not in s.without]
        column = max(self.type.width(f"{name} ", s.size, 600) for name, _ in rows) + s.size * 0.4
        marks = []
        for name, words in rows:
            said = self.type.wrap(words, s.size, 400, self.width - column)
            marks.append(text(self.left, y + s.size, s.size, name, weight=600))
            marks.append(lines(self.left + column, y + s.size, s.size, s.size * LEADING, said))
            y += s.size * (LEADING * len(said) + 0.22) + s.gap
        if s.without:
            said = self.type.wrap(f"Also on the page: {', '.join(name.lower() for name in s.without if name != 'cautions')}.", self.sheet.least, 400, self.width)
            marks.append(lines(self.left, y + s.size, self.sheet.least, self.sheet.least * LEADING, said, ink="soft"))
            y += self.sheet.least * LEADING * len(said) + 0.3
        return marks, y

    def _cautions(self, card: dict, s: _Setting, y: float) -> tuple[list[dict], float]:
        """The cautions in a frame, whole or their first sentences; never a part of a sentence."""
        if not card["cautions"]:
            return [], y
        size, pad = self._small(s), 1.4
        said = [SEE_PAGE] if "cautions" in s.without else short_cautions(card["cautions"]) if s.short else [f"Take care. {' '.join(card['cautions'])}"]
        wrapped = self.type.wrap(in_units(" ".join(said), self.units), size, 400, self.width - 2 * pad)
        height = size * LEADING * len(wrapped) + 1.6
        return [
            rect(self.left, y, self.width, height, None, edge="ink", edge_width=0.3),
            lines(self.left + pad, y + 0.6 + size, size, size * LEADING, wrapped),
        ], y + height

    def _foot(self, crop_id: str) -> tuple[list[dict], float]:
        """(library, address, version and code, the y above which the rest must end)."""
        own, least = self.data["library"], self.sheet.least
        code = 16.0 if self.sheet.card_height > 120 else 12.5
        width = self.width - code - 2.5
        top = self.sheet.card_height - self.sheet.margin - code
        address = page_address(own["site"], crop_id)
        least = least if self.sheet.card_height < 120 else least * 1.2
        small = least * 1.1
        name_lines = self.type.wrap(own["name"], small, 600, width)
        marks = [line(self.left, top - 1.2, self.right, top - 1.2, 0.2, "ink"), lines(self.left, top + small, small, small * LEADING, name_lines, weight=600)]
        y = top + small * (1 + LEADING * len(name_lines))
        parts = self._address(address, least, width)
        marks.append(lines(self.left, y, least, least * LEADING, parts))
        y += least * LEADING * len(parts)
        marks.append(text(self.left, y, least, f"Data version {own['version']}", ink="soft"))
        marks.append(picture(self.right - code, top, code, code, f"code-{crop_id}", f"Code to scan: {address}"))
        return marks, top - 2.8

    def _address(self, address: str, size: float, width: float) -> list[str]:
        """An address without its scheme, broken after slashes where it must be."""
        pieces = [piece + "/" for piece in address.split("://")[-1].rstrip("/").split("/")]
        found = [""]
        for piece in pieces:
            if found[-1] and self.type.width(found[-1] + piece, size) > width:
                found.append("")
            found[-1] += piece
        return found


def card_pages(data: dict, sheet_id: str, units: str, crops: Iterable[str]) -> list[list[dict]]:
    """Pages of marks of the cards of these crops, in this order. KeyError for an unknown sheet or crop."""
    sheet = CUT_SHEETS[sheet_id]
    maker = CardMaker(data, sheet, units)
    return pages_of(sheet, [maker.marks(crop) for crop in crops])


def cards_pdf(reference: Reference, sheet_id: str, units: str, crops: Iterable[str] | None = None, data: dict | None = None) -> bytes:
    """The PDF of cards, by name unless `crops` gives an order. `data`, when many are made, is card_data(reference). KeyError for unknown names."""
    data = data or card_data(reference)
    chosen = [crop.id for crop in by_name(reference)] if crops is None else list(crops)
    sheet, own = CUT_SHEETS[sheet_id], data["library"]
    return pdf(
        card_pages(data, sheet_id, units, chosen), sheet.page, title=f"Crop cards, {sheet.title}", author=own["name"],
        description=f"Germination reference, data version {own['version']}", pictures={f"code-{crop}": data["codes"][crop] for crop in chosen},
    )


def cards_file_name(sheet_id: str, units: str) -> str:
    """What a file of cards is called: cards-A6-both.pdf."""
    return f"cards-{sheet_id}-{units}.pdf"
