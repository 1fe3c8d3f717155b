"""Joins the style sheets of every page into one: a phone asks once instead of seven times before it shows anything."""

from __future__ import annotations

import hashlib
import re
from pathlib import Path

LINKS = re.compile(r'(?:<link rel="stylesheet" href="(?:[^"]*)assets/css/[^"]+\.css">\s*){2,}')
LINK = re.compile(r'href="(?P<up>[^"]*)assets/css/(?P<name>[^"]+)"')
COMMENT = re.compile(r"/\*.*?\*/\s*", re.DOTALL)


def joined(html: str, folder: Path, made: dict[str, str]) -> str:
    """The page with one link in the place of several in a row to sheets in `folder`; the sheet is put into `made`, by path from the site's top.

    The order is kept. The name ends in a hash of the text. Raises FileNotFoundError for a sheet that is not there.
    """

    def one(match: re.Match) -> str:
        found = list(LINK.finditer(match[0]))
        names = tuple(link["name"] for link in found)
        text = COMMENT.sub("", "".join((folder / name).read_text(encoding="utf-8") for name in names))
        path = f"assets/css/site-{hashlib.sha256(text.encode('utf-8')).hexdigest()[:12]}.css"
        made[path] = text
        return f'<link rel="stylesheet" href="{found[0]["up"]}{path}">\n'

    return LINKS.sub(one, html, count=1)
