"""Listing a table in a source.yml, with every comment and line that was there before."""

from __future__ import annotations

import json
import re

from ..read.yaml_file import parse_yaml


def entry_lines(file: str, kind: str, caption: str) -> list[str]:
    """The lines of an entry of `tables`, in the form of its neighbours."""
    return [f"  - file: {file}", f"    kind: {kind}", f"    caption: {json.dumps(caption, ensure_ascii=False)}"]


def with_table(text: str, file: str, kind: str, caption: str) -> str:
    """The text of a source.yml with the table listed last under `tables`.

    ValueError, with the lines to put in by hand, when the text can't be added to surely: it does not parse, or lists its tables in
    another form.
    """
    entry = entry_lines(file, kind, caption)
    by_hand = "Put these lines under tables: in source.yml yourself, then run the command with --replace:\n" + "\n".join(entry)
    before, problems = parse_yaml(text, "source.yml")
    if before is None or problems or not isinstance(before.data, dict):
        raise ValueError(f"source.yml can't be read as it stands. Run `check` and mend it first. {by_hand}")
    lines = text.rstrip("\n").split("\n")
    start = next((i for i, line in enumerate(lines) if re.match(r"tables\s*:", line)), None)
    if start is None:
        lines += ["tables:", *entry]
    else:
        end = next((i for i in range(start + 1, len(lines)) if re.match(r"[^\s#-]", lines[i])), len(lines))
        while end > start + 1 and (not lines[end - 1].strip() or lines[end - 1].startswith("#")):
            end -= 1  # empty lines and comments before the next key stay with it
        lines[end:end] = entry
    changed = "\n".join(lines) + "\n"
    after, problems = parse_yaml(changed, "source.yml")
    wanted = {**before.data, "tables": [*before.data.get("tables", []), {"file": file, "kind": kind, "caption": caption}]}
    if after is None or problems or after.data != wanted:
        raise ValueError(f"The tables of source.yml are listed in another form than one entry below the other. {by_hand}")
    return changed
