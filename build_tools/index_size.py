"""How large the search's index of a built site is, in all and for each crop."""

from __future__ import annotations

import gzip
import json
from dataclasses import dataclass
from pathlib import Path

INDEX = "search/search_index.json"


@dataclass(frozen=True)
class IndexSize:
    """Bytes of the whole index, as it is and gzipped; how many crops are in it, and the bytes of one: on average and at most."""

    total: int
    gzipped: int
    crops: int
    average_crop: float
    largest_crop: int


def index_size(site: Path) -> IndexSize:
    """Sizes of the index of the site built into a folder. Raises OSError without one."""
    raw = (site / INDEX).read_bytes()
    sizes: dict[str, int] = {}
    for entry in json.loads(raw)["docs"]:
        page = entry["location"].partition("#")[0]
        if page.startswith("crops/") and page != "crops/":
            sizes[page] = sizes.get(page, 0) + len(json.dumps(entry, separators=(",", ":"))) + 1  # and the comma
    return IndexSize(len(raw), len(gzip.compress(raw, 6)), len(sizes), sum(sizes.values()) / max(len(sizes), 1), max(sizes.values(), default=0))
