"""A table's way in, in words: how it was read, what was matched and filled in, what is open."""

from __future__ import annotations

import textwrap

from ..printers import as_text, visible
from .crop_names import Match, NameBook
from .walk_in import Walk

HOW = {"exact": "", "same words": "  (the same words)", "near": "  (a near spelling: check it)", "given": "  (as given)"}
MOST_SHOWN = 12


def summary(walk: Walk, book: NameBook) -> str:
    """What was understood of the table, before its problems. Empty when it could not be read."""
    if walk.table is None or walk.done is None:
        return ""
    lines = [f"{walk.wish.file.name}: {len(walk.table.rows)} rows under {len(walk.table.headers)} names of columns."]
    lines += [f"  {note}" for note in walk.table.notes]
    lines += ["Columns:"] + [f'  "{header}" → {reading.column or "left out, as given"}{HOW[reading.how] if reading.column else ""}' for header, reading in walk.done.readings.items()]
    lines += _filled(walk) + _crops(walk, book)
    return visible_lines(lines)


def visible_lines(lines: list[str]) -> str:
    """The lines with hidden and control characters of the file written out."""
    return "\n".join(visible(line) for line in lines)


def _filled(walk: Walk) -> list[str]:
    lines = []
    for printed, (count, unclear) in walk.done.filled.items():
        lines.append(f"Filled in from {printed}: {count} of {count + len(unclear)} cells.")
        lines += [f'  line {line}: "{cell}" can be read in more than one way, and was left for you' for line, cell in unclear[:MOST_SHOWN]]
        if len(unclear) > MOST_SHOWN:
            lines.append(f"  and {len(unclear) - MOST_SHOWN} more")
    return lines


def _crops(walk: Walk, book: NameBook) -> list[str]:
    """Names matched, with doubts; names without an id, with the nearest and how to give them."""
    crops = walk.done.crops
    if not crops:
        return []
    matched = {name: match for name, match in crops.items() if match and match.ids}
    bare = [name for name, match in crops.items() if match and not match.ids]
    open_ = [name for name, match in crops.items() if match is None]
    lines = [f"Crops: {len(matched)} of {len(crops)} names matched."]
    plain = [f'"{name}" → {match.ids} ({match.how.split()[2] if match.how.startswith("as in ") else match.how})' for name, match in matched.items() if not _to_look_at(match)]
    if plain:
        lines.append("  With how many rows of our tables read the name so:")
        lines += textwrap.wrap(", ".join(plain), 150, initial_indent="  ", subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)
    for name, match in ((name, match) for name, match in matched.items() if _to_look_at(match)):
        also = ", ".join(f"{ids or 'no id'} in {count}" for ids, count in match.others if ids != match.ids)
        lines.append(f'  "{name}" → {match.ids}, {match.how}' + (f"; our tables also have {also}" if also else ""))
    if bare:
        lines.append(f"  Without an id, as in our other tables or as given: {', '.join(bare)}")
    for name in open_:
        line = walk.done.lines[next(i for i, row in enumerate(walk.done.rows) if row.get("crop_as_printed") == name)]
        near = book.nearest(name)
        said = f"nearest: {', '.join(near)}" if near else "nothing is near"
        lines.append(f'  line {line}: "{name}" is not known and goes in without an id; {said}. To give one: --crops "{name}={near[0] if near else "crop-id"}"')
    return lines


def _to_look_at(match: Match) -> bool:
    """Whether a match is said on a line of its own: by name alone, or where our tables also read the name otherwise."""
    return match.how == "by name" or any(ids != match.ids for ids, _ in match.others)


def problems_text(walk: Walk) -> str:
    """Problems of the table, then what `check` would say of other files; "" when there is nothing to say."""
    parts = []
    if walk.problems:
        parts.append(as_text(walk.problems))
    if walk.elsewhere:
        parts.append("With this table `check` will also say, of other files:\n" + as_text(walk.elsewhere))
    if walk.unfinished:
        shown = ", ".join(walk.unfinished[:5]) + (f" and {len(walk.unfinished) - 5} more" if len(walk.unfinished) > 5 else "")
        parts.append(f"Not yet compared with other files, since these have problems of their own: {shown}. Run `check` when they are mended.")
    return "\n".join(parts)
