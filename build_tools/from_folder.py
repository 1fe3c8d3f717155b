"""What a site needs besides to work from a folder (`file:`), such as a stick: there browsers fetch no files, but they run scripts.

Each file that pages fetch has a script beside it, of the same name and “.js”, that hands its text to `docs/assets/js/data_file.js`.
"""

from __future__ import annotations

import json
from pathlib import Path

FETCHED = ("api/v1/crops/*.json", "compare/*/figure.json", "downloads/demo-lots.csv")
INDEX = "search/search_index"


def write_scripts(site: Path) -> None:
    """Write the scripts into a built site."""
    for pattern in FETCHED:
        for file in sorted(site.glob(pattern)):
            text = file.read_text(encoding="utf-8")
            content = text.strip() if file.suffix == ".json" else json.dumps(text, ensure_ascii=False)
            _write(file.with_name(f"{file.name}.js"), f"document.currentScript.content = {content};\n")
    _write(site / f"{INDEX}.js", f"var __index = {(site / f'{INDEX}.json').read_text(encoding='utf-8').strip()};\n")  # by this name the theme's script looks for it


def _write(path: Path, text: str) -> None:
    path.write_text(text.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029"), encoding="utf-8", newline="")
