"""The script that keeps the whole reference on a reader's device, and the list of what it keeps.

After one visit every page, the search, the calculators and the charts work without a network. The version of what is kept is the hash of the
list, so the same site is the same version; a new one is fetched whole and checked before it takes the place of the old.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

TEMPLATE = Path(__file__).resolve().parent / "offline_worker.js"
NAME = "worker.js"
# Kept once asked for: files to download, posters and cards among them, and what only programs read.
ON_REQUEST = ("downloads/", "api/", "schema/", "datapackage.json", "sitemap.xml", "CITATION.cff", "assets/javascripts/lunr/", "SHA256SUMS", NAME)
NOT_READ = (".json.js", ".csv.js", ".map", "search/search_index.js")  # only a site opened from a folder, or a developer, reads these
NEEDED = ("api/v1/crops/", "downloads/demo-lots.csv", "compare/")  # asked for by pages, whatever is said above


def kept_files(site: Path) -> dict[str, str]:
    """The SHA-256 of each file that is kept from the first visit on, by its path from the site's top, in order."""
    kept = {}
    for path in sorted(path for path in site.rglob("*") if path.is_file()):
        name = path.relative_to(site).as_posix()
        needed = (name.endswith(".html") or name.startswith(NEEDED)) and not name.endswith(NOT_READ)
        wanted = not name.startswith(ON_REQUEST) and not name.endswith(NOT_READ)
        if needed or wanted:
            kept[name] = hashlib.sha256(path.read_bytes()).hexdigest()
    return kept


def write_worker(site: Path) -> None:
    """Write the worker into a built site. What is changed in the site afterwards would not be kept: call it last, before the list of checksums."""
    files = json.dumps(kept_files(site), ensure_ascii=False, separators=(",", ":"))
    version = hashlib.sha256(files.encode("utf-8")).hexdigest()[:12]
    text = TEMPLATE.read_text(encoding="utf-8").replace('"@VERSION@"', json.dumps(version)).replace('"@FILES@"', files)
    (site / NAME).write_text(text, encoding="utf-8", newline="")
