"""Rules about the figures and terms that guides take in."""

from __future__ import annotations

import re
from fractions import Fraction

from ..problem import did_you_mean
from ..read import DataTree
from ..registry import ONE_FILE, rule
from ..units import MM_PER_INCH, fahrenheit

BELOW_ZERO = re.compile(r"(?<![0-9])[-−]([0-9]+(?:\.[0-9]+)?)")
PRINTED = re.compile(r"(?<![0-9])[0-9][0-9,]*(?:\.[0-9]+)?(?: [0-9]/[2-9]|/[0-9]+)?")
PARTS = ("2", "3", "4", "5", "6", "8", "10", "16")  # what a whole is printed in parts of
WORDS = {"half": 0.5, "halve": 0.5, "third": 1 / 3, "one": 1, "two": 2, "twice": 2, "double": 2, "doubles": 2, "doubled": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12, "few": 3}
ML = {"teaspoon": 4.929, "tablespoon": 14.787, "tbsp": 14.787, "cup": 236.588}
UNPRINTED = ("common-practice", "from-memory")  # sections of data/figures.yml for what nobody was found to have printed
GRAMS_PER_OUNCE = 28.349523125  # exact by definition
DIFFERENCE = 1.8  # °F in a °C


def numbers_in(printed: str) -> list[float]:
    """Every number of a printed text: digits, fractions such as 1/4 and 1 1/2, numbers below zero, and small numbers in words."""
    found = []
    for match in PRINTED.finditer(printed):
        whole, _, part = match[0].replace(",", "").partition(" ")
        above, stroke, below = whole.partition("/")
        if stroke and below not in PARTS:  # 75/65: two numbers
            found += [float(above), float(below)]
        else:
            found.append(float(above) / float(below or 1) + (float(Fraction(part)) if part else 0.0))
    found += [-float(below) for below in BELOW_ZERO.findall(printed)]
    return found + [WORDS[word] for word in re.findall(r"[a-z]+", printed.lower()) if word in WORDS]


def stands_in(value: float, unit: str, printed: str) -> bool:
    """Whether a figure is one of the numbers printed, in its own unit or in the one a table of its kind may use."""
    for number in numbers_in(printed):
        same = [number]
        if unit == "°C":
            same.append(value if fahrenheit(value) == round(number) else number)
        elif unit == "°C more":
            same.append(number / DIFFERENCE)
        elif unit in ("mm", "cm"):
            scale = 1 if unit == "mm" else 0.1
            same += [number * MM_PER_INCH * scale, number * 10 * scale]
        elif unit == "g" and "oz" in printed:
            same.append(number * GRAMS_PER_OUNCE)
        elif unit == "mL":
            same += [number * size for name, size in ML.items() if name in printed.lower()]
        elif unit == "days":
            same.append(number * 7)
        rounded = max({"°C more": 0.06, "mm": 0.5}.get(unit, 0.0), 0.02 * abs(value))
        if any(abs(value - one) <= (rounded if one != number else 1e-9) for one in same):
            return True
    return False


def _cells(tables, figure: dict):
    """The cells that a figure may stand in, and each row in one, its cells with | between; the headings too where it names a column."""
    for table in tables:
        yield from (column for column in table.columns if column == figure.get("column"))
        for row in table.rows:
            if figure.get("row", row[table.columns[0]]) == row[table.columns[0]]:
                yield from (cell for column, cell in row.cells.items() if figure.get("column", column) == column)
                if "column" not in figure:
                    yield " | ".join(row.cells.values())


@rule("figure-printed")
def figure_printed(tree: DataTree):
    """A figure of data/figures.yml is a value or a range, and stands in the words it quotes, which a cell of its source's tables holds. Common practice and what is from memory quote nothing."""
    if "figures" not in tree.singles:
        return
    document = tree.singles["figures"]
    for source, figures in document.data.items():
        if source not in (*tree.sources, *UNPRINTED):
            yield document.problem((source,), "figure-printed", f'There is no source "{source}" in data/sources/.', did_you_mean(source, [*tree.sources, *UNPRINTED]) or "Mend the name: a folder of data/sources/.")
            continue
        for name, figure in figures.items():
            ends = [figure[key] for key in ("value", "low", "high") if key in figure]
            if ("value" in figure) == ("low" in figure) or ("low" in figure) != ("high" in figure) or figure.get("low", 0) > figure.get("high", 0):
                yield document.problem((source, name), "figure-printed", f"{name} is neither a value nor a range from low to high.", "Give value, or low and high.")
                continue
            if ("printed" in figure) == (source in UNPRINTED):
                yield document.problem((source, name), "figure-printed", f"{name} quotes {'words, and no source prints it' if source in UNPRINTED else 'no words of its source'}.", "Take `printed` out." if source in UNPRINTED else "Give the words of the table in `printed`.")
                continue
            if source in UNPRINTED:
                continue
            words = re.compile(rf"(?<![0-9])(?<![0-9][.,]){re.escape(figure['printed'])}(?![.,]?[0-9])")  # 8 does not stand in 18, nor 1 in 1.5
            if not any(words.search(cell) for cell in _cells(tree.sources[source].tables.values(), figure)):
                where = "".join(f' {key} "{figure[key]}"' for key in ("row", "column") if key in figure)
                yield document.problem((source, name, "printed"), "figure-printed", f'No cell{" in" + where if where else ""} of the tables of {source} holds "{figure["printed"]}".', "Copy the words from the table, or mend the figure if the table was mended.", see=tuple(table.see() for table in list(tree.sources[source].tables.values())[:2]))
                continue
            for end in ends:
                if not stands_in(end, figure["unit"], figure["printed"]):
                    yield document.problem((source, name), "figure-printed", f'{end:g} {figure["unit"]}'.strip() + f' does not stand in "{figure["printed"]}".', "Give the figure as it is printed, temperatures in °C.")


@rule("glossary-definition")
def glossary_definition(tree: DataTree):
    """A term of data/glossary.yml has a definition of its own or is a quantity of data/quantities.yml, where it is defined; never both."""
    document, quantities = tree.singles.get("glossary"), tree.singles["quantities"].data["quantities"]
    for term, entry in document.data.items() if document else ():
        if ("definition" in entry) == ("quantity" in entry):
            yield document.problem((term,), "glossary-definition", f"{term} has {'a definition and a quantity' if 'quantity' in entry else 'neither a definition nor a quantity'}.", "Give one of them.")
        elif entry.get("quantity", "minimum_c") not in quantities:
            yield document.problem((term, "quantity"), "glossary-definition", f'"{entry["quantity"]}" is no quantity of data/quantities.yml.', did_you_mean(entry["quantity"], quantities))


@rule("glossary-forms", ONE_FILE)
def glossary_forms(tree: DataTree):
    """Each form of a term in data/glossary.yml belongs to that term alone: a word is defined once."""
    taken: dict[str, str] = {}
    document = tree.singles.get("glossary")
    for term, entry in document.data.items() if document else ():
        for path, form in [((term, "term"), entry["term"]), *(((term, "forms", i), f) for i, f in enumerate(entry.get("forms", ())))]:
            other = taken.setdefault(form.casefold(), term)
            if other != term or (path[1] == "forms" and form.casefold() == entry["term"].casefold()):
                yield document.problem(path, "glossary-forms", f'"{form}" is defined already, under {other}.', "Leave it to one of them.", see=(document.see((other,)),))
