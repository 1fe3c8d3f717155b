"""Making small and large files of lots for the tests."""

from __future__ import annotations

import random

from build_tools.lots import judge_lots, read_lots
from build_tools.lots.write import csv_lines, problems_text

TODAY = "2026-11-25"
COLUMNS = ("lot", "crop", "variety", "harvested", "storage", "tested", "seeds", "normal", "abnormal", "hard", "fresh", "dead", "note")
HEADER = ",".join(COLUMNS)
GOOD = {"lot": "A-1", "crop": "Tomato", "tested": "2026-03-12", "seeds": "50", "normal": "36"}


def row(separator=",", **cells) -> str:
    """A row that is good but for the cells given."""
    return separator.join({**GOOD, **cells}.get(name, "") for name in COLUMNS)


def file_of(*rows, header=HEADER, end="\n") -> bytes:
    """A file with the header and these rows."""
    return (end.join([header, *rows]) + end).encode()


def read(raw, catalogue, today=TODAY):
    """The reading of some bytes, shown as lots.csv."""
    return read_lots(raw, "lots.csv", catalogue, today)


def judged(raw, catalogue, line=70, today=TODAY) -> list:
    """Results of some bytes, which must hold no error."""
    reading = read(raw, catalogue, today)
    assert not [p for p in reading.problems if p.level == "error"], reading.problems
    return list(judge_lots(reading, catalogue, line, today))


def written(raw, name, catalogue, line, today=TODAY) -> tuple[str, str]:
    """(CSV, problems) of some bytes as the command writes them."""
    reading = read_lots(raw, name, catalogue, today)
    return "".join(csv_lines(judge_lots(reading, catalogue, line, today))), problems_text(reading.problems)


def many_lots(count: int, seed: int = 1) -> bytes:
    """A made-up file of so many lots: one to three replicates of 10 to 100 seeds, some with an earlier test."""
    rng = random.Random(seed)
    crops = ["Tomato", "Sweet pepper", "Onion", "Lettuce", "Rocket", "French bean", "Carrot", "Okra", "Pea", "Basil"]
    rows = []
    for number in range(count):
        good, crop, storage = min(0.99, rng.betavariate(6, 2)), rng.choice(crops), rng.choice(["", "cool-dry", "cold-dry", "warm"])
        harvested = rng.randint(2019, 2024)
        for year in (2026,) if rng.random() < 0.75 else (2026, 2025):
            tested, seeds = f"{year}-{rng.randint(1, 10):02d}-{rng.randint(1, 28):02d}", rng.choice([10, 25, 50, 100])
            for _ in range(rng.randint(1, 3)):
                normal = sum(rng.random() < good for _ in range(seeds))
                hard = rng.randint(0, seeds - normal) if rng.random() < 0.1 else ""
                rows.append(f"L{number:06d},{crop},Wrenfield {number % 97},{harvested},{storage},{tested},{seeds},{normal},,{hard},,,")
    return file_of(*rows)


# Cells that are good, odd or wrong, for files in which anything may stand.
CELLS = {
    "lot": ["A1", "A2", "B 7", "=SUM(A1)", "+x", "-5", "-", "@me", "Ä", "A\u0308", "", "x" * 61, "💚" * 61, "a  b", " c ", "d\u00a0e", "zero\u200bw", 'q"q', "A\ttab", "\u2028", "C\n1"],
    "crop": ["tomato", "TOMATOES", "Aubergine", "frisee", "Frisée", "bean", "squash", "Tomatoe", "Tomato, cherry", "", "xyz", "Lady’s fingers", "Pak-choi", "İstanbul", "Peas", "ẞ", "Brussels sprout"],
    "variety": ["", "Wrenfield", "wrenfield", "Wrenfield Early", "Wrenfield\u200bEarly", "𝒳", "豆", "=1+1"],
    "harvested": ["", "2024", "2024-09", "2024-9", "2024-13", "24", "2031", "1901", "2024-09-15", "15.9.2024"],
    "storage": ["", "cool-dry", "Cold dry", "fridge", "WARM "],
    "tested": ["", "2026-03-12", "12/03/2026", "25/03/2026", "3/3/2026", "2026-02-30", "2026-13-01", "2027-01-01", "46093", "2026-03-12 00:00", "12.03.26", "2026/3/1", "1899-01-01", "soon", "2024-02-29", "2023-02-29", TODAY, "2026-11-26"],
}
NUMBERS = ["", "0", "1", "10", "25", "50", "100", "400", "100000", "100001", "12345678", "1,000", "1.000", "12,5", "12.5", "12,0", "-3", "−3", "72 %", "abc", "007", "1 000", "9" * 20, "٣", " 5 ", "5\u00a0000", ".5", "5."]
SOUND = {
    "lot": ["A1", "A2", "B1", "B2", "=SUM(A1)", "-x"], "crop": ["tomato", "Aubergine"], "variety": ["", "Wrenfield"], "harvested": ["", "2024"],
    "storage": ["", "warm"], "tested": ["2026-03-12", "2026-03-13", "2025-01-31", "2024-02-29"], "seeds": ["10", "25", "50", "100"], "normal": ["1", "5", "8", "10", "9"],
}


def odd_file(rng: random.Random) -> bytes:
    """A file with odd columns, separators, line ends, quotes and cells, or one that is hardly a file of lots."""
    separator, end, wrong = rng.choice(",,;\t"), rng.choice(["\n", "\n", "\r\n", "\r"]), rng.choice([0, 0.02, 0.1, 0.5])
    names = [name for name in COLUMNS if name in GOOD or rng.random() < 0.8]
    if rng.random() < 0.2:
        names.append(rng.choice(["", "Grower", "Lot number", "note", "cultivar", "Harvest date", "lot"]))
    if rng.random() < 0.1:
        names[rng.randrange(len(names))] = rng.choice(["Lot", "Kind", "Sown", "Germinated", "Date", "foo", ""])
    rng.shuffle(names)

    def cell(text):
        if any(letter in text for letter in '"\n\r' + separator) or rng.random() < 0.05:
            return '"' + (text.replace('"', '""') + '"' if rng.random() < 0.93 else text)
        return text

    lines = [separator.join(map(cell, names))]
    for _ in range(rng.choice([0, 1, 5, 30, 60])):
        untested = rng.random() < 0.1
        cells = []
        for name in names:
            if rng.random() < wrong:
                cells.append(rng.choice(CELLS.get(name, NUMBERS)))
            else:
                cells.append("" if untested and name in ("tested", "seeds", "normal") else rng.choice(SOUND.get(name, [""])))
        cells += ["x"] * (rng.random() < wrong / 5)
        lines.append(separator.join(map(cell, cells)))
        if rng.random() < 0.03:
            lines.append(rng.choice(["", separator * 3, separator * 12, "  "]))
    raw = bytearray((("\ufeff" if rng.random() < 0.2 else "") + end.join(lines) + end * (rng.random() < 0.8)).encode())
    if rng.random() < 0.06:
        raw[rng.randrange(len(raw))] = rng.choice([0xFF, 0xC3, 0xE2, 0])
    return bytes(raw)
