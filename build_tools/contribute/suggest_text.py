"""Suggestions in words, with the line to paste into the crop file."""

from __future__ import annotations

from collections.abc import Sequence

from ..check.printed import Printed
from ..model.build import CHOICES
from ..model.source_label import label_of
from ..read import DataTree
from ..units import half_degree, number, span
from .suggest import Option, Suggestion, Value, out_of_order, value_of


def yaml_line(quantity: str, option: Option) -> str:
    """The key and value as they stand in a crop file: `minimum_c: {value: 4.5, sources: [table-one]}`."""
    return f"{quantity}: {{{_fields(option.value)}, sources: [{', '.join(option.sources)}]}}"


def _fields(value: Value) -> str:
    if isinstance(value, str):
        return f"choice: {value}"
    return f"low: {value[0]:g}, high: {value[1]:g}" if isinstance(value, tuple) else f"value: {value:g}"


def shown(value: Value, unit: str) -> str:
    """A value for people, with its unit."""
    if isinstance(value, str):
        return f'"{value}"'
    return f"{_ends(*value) if isinstance(value, tuple) else number(value)} {unit}"


def _ends(low: float, high: float) -> str:
    """A span whose ends may be negative, with the words that keep a minus sign apart from a dash."""
    return f"{number(low)} to {number(high)}" if low != high and low < 0 else span(low, high)


def _in_our_unit(item: Printed, unit: str) -> str:
    if item.low is None:
        return f'"{item.choice}"'
    return f"{_in_steps(item.low, item.high, unit)} {unit}"


def _in_steps(low: float, high: float, unit: str) -> str:
    """Both ends as the data holds them: temperatures to the half degree, the rest to a tenth."""
    return _ends(*((half_degree(end) if unit == "°C" else round(end, 1)) for end in (low, high)))


def as_text(tree: DataTree, name: str, found: Sequence[Suggestion]) -> str:
    """Everything published about a crop's values, quantity by quantity; `name` is shown above."""
    crop = found[0].crop
    blocks = [f"{name} ({crop})"]
    for suggestion in found:
        blocks.append("\n".join(_block(tree, suggestion)))
    blocks += out_of_order(found)
    return "\n\n".join(blocks)


def _block(tree: DataTree, suggestion: Suggestion) -> list[str]:
    words = tree.singles["quantities"].data["quantities"].get(suggestion.quantity, {})
    unit = words.get("unit", "")
    lines = [f"{words.get('name') or suggestion.quantity.replace('_', ' ').capitalize()} ({suggestion.quantity})"]
    now = "none" if suggestion.present is None else shown(value_of(suggestion.present), unit)
    lines.append(f"  In the file:  {now}")
    lines += [f"  {'' if index else 'Published:':14}{line}" for index, line in enumerate(_published(tree, suggestion, unit))]
    if not suggestion.options:
        return lines
    if suggestion.span and suggestion.quantity not in CHOICES:
        lines.append(f"  Span:         {_in_steps(*suggestion.span, unit)} {unit}")
    lines += [f"  {line}" for line in _said(tree, suggestion, unit)]
    lines += [f"    {yaml_line(suggestion.quantity, option)}" for option in suggestion.options]
    return lines


def _published(tree: DataTree, suggestion: Suggestion, unit: str) -> list[str]:
    """One line a printed value: who, as printed, in our unit; families together; the uncounted last, with the reason."""
    if not suggestion.printed:
        return ["nothing in the tables"]
    lines = []
    counted = sorted((i for i in suggestion.printed if i.counts), key=lambda i: (i.family, i.source))
    for item in counted:
        label = label_of(tree.sources[item.source].document.data)
        family = f", family {item.family}" if item.family != item.source else ""
        lines.append(f"{label} ({item.source}{family}): {_printed(item, unit)}")
    for item in (i for i in suggestion.printed if not i.counts):
        lines.append(f"{label_of(tree.sources[item.source].document.data)} ({item.source}): {_printed(item, unit)} – does not count: {_first_sentence(item.doubt)}")
    return list(dict.fromkeys(lines))


def _first_sentence(text: str) -> str:
    return text.split(". ")[0].rstrip(".") + "."


def _printed(item: Printed, unit: str) -> str:
    ours = _in_our_unit(item, unit)
    printed = item.as_printed if item.low is not None else f'"{item.as_printed}"'
    return printed if printed == ours else f"{printed} = {ours}"


def _said(tree: DataTree, suggestion: Suggestion, unit: str) -> list[str]:
    """What most families print, how the present value stands to it, and why it differs where the file says so."""
    values = [shown(option.value, unit) for option in suggestion.options]
    say = len(suggestion.options[0].families)
    count = f"{say} of {suggestion.families} famil{'ies' if suggestion.families != 1 else 'y'}"
    if suggestion.families == 1:
        count = "the only family"
    lead = "Suggested:    " if suggestion.counted else "No source that counts prints it. Of the others: "
    if len(values) == 1:
        lines = [f"{lead}{values[0]}, printed by {count}."]
    else:
        lines = [f"{lead}a tie: {' or '.join(values)}, each printed by {count}. Choose one, and name the other under disagreements."]
    if suggestion.stands == "differs":
        reason = suggestion.present.get("departs") or suggestion.present.get("note") or _disagreement(tree, suggestion)
        lines.append(f"The file differs: {reason}" if reason else "The file differs and gives no reason: a value that spans the printed ones, or one to look into.")
    elif suggestion.stands == "left open":
        lines.append("What is printed leaves the value in the file open.")
    return lines


def _disagreement(tree: DataTree, suggestion: Suggestion) -> str:
    """What the crop file says of sources that disagree about the value."""
    about = "timing" if suggestion.quantity.endswith("_weeks") else suggestion.quantity
    return " ".join(entry["text"] for entry in tree.crops[suggestion.crop].data.get("disagreements", ()) if entry["about"] == about)
