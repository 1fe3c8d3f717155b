"""Writes the form of the present version to promised/: python3 -m tests.published_data.write_promised. What is there already stays as it is."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from build_tools.model import load
from build_tools.render.published.about import SCHEMA_VERSION
from build_tools.write_file import write_whole

from .forms import FOLDER, form_now, plain


def main() -> int:
    root = Path(__file__).resolve().parents[2]
    reference, problems = load(root)
    target = FOLDER / f"{SCHEMA_VERSION}.json"
    if reference is None or target.exists():
        print(problems or f"{target.name} is there already. A published version is not rewritten: raise SCHEMA_VERSION first.")
        return 1
    form = plain(form_now(reference, root))
    files = ",\n".join(f"  {json.dumps(name)}: {{\n" + ",\n".join(f"    {json.dumps(path)}: {json.dumps(entry)}" for path, entry in paths.items()) + "\n  }" for name, paths in form["json"].items())
    columns = ",\n".join(f"  {json.dumps(path)}: {json.dumps(names)}" for path, names in form["csv"].items())
    write_whole(target, [f'{{"json": {{\n{files}\n}}, "csv": {{\n{columns}\n}}}}\n'])
    return 0


if __name__ == "__main__":
    sys.exit(main())
