"""What is done to a page once it is whole: its scripts and style sheets joined, the manifest named, the picture's size said, room made for the switch of units, its policy worked out."""

from __future__ import annotations

import re
from pathlib import Path

from .content_policy import moved_out, with_policy
from .one_stylesheet import joined
from .script_bundles import Linker, linked
from .theme_scripts import before_theme, first_script, styled_once

LOGO = re.compile(r'(<img src="[^"]*" alt="logo")>')
LOGO_SIZE = ' width="48" height="48">'  # the sheet decides how large it is shown; this keeps its place until it has come
NEIGHBOURS = re.compile(r'\s*<link rel="(?:prev|next)" href="[^"]*">')  # a browser that fetches the next page ahead would meet the policy, and use up a phone's data
ARTICLE = re.compile(r'<article class="md-content__inner[^>]*>')
UNIT_PLACE = '<div class="unit-place"></div>'  # filled by units.js: a first child put in later would have the whole article styled anew


class Finisher:
    """Finishes the pages of one build; `files` are those that they ask for, by path from the site's top."""

    def __init__(self, docs: Path, published: bool) -> None:
        """`docs` is the folder of docs; `published` False while editing: the server adds a script of its own to each page, which a policy would stop."""
        self.styles = docs / "assets" / "css"
        self.linker = Linker(docs / "assets" / "js")
        self.published = published
        self.files: dict[str, str] = {}

    def page(self, html: str, up: str) -> str:
        """The finished page; `up` leads from it to the site's top. Raises Unlinkable for a module that is not linked, OSError for one not there."""
        html, scripts = moved_out(self._opening(html), up)
        self.files.update(scripts)
        if self.published:
            html = html.replace("</title>", f'</title><link rel="manifest" href="{up}manifest.webmanifest">', 1)
        return self.elsewhere(html)

    def elsewhere(self, html: str) -> str:
        """The same for a page that may be shown at any address, such as the one for addresses that lead nowhere."""
        html, scripts = linked(self._opening(html), self.linker)
        self.files.update(scripts)
        html = LOGO.sub(rf"\1{LOGO_SIZE}", before_theme(NEIGHBOURS.sub("", html)))
        html = ARTICLE.sub(lambda match: match[0] + UNIT_PLACE, html, count=1)
        return with_policy(joined(html, self.styles, self.files)) if self.published else html

    def _opening(self, html: str) -> str:
        return first_script(styled_once(html), self.linker.bundle("opening.js").text)
