"""What the theme's own script does otherwise here: the search is fetched when someone searches, not by every visit; a page is styled once less.

The theme waits for the search to be opened only when the site is opened from a folder; the condition is made to hold everywhere. That spares
each first visit the index, the largest thing on it.
"""

from __future__ import annotations

import re
from pathlib import Path

OURS = re.compile(r'\s*<script defer src="([^"]*assets/js/site-[0-9a-f]+\.js)"></script>')
THEIRS = re.compile(r'<script src="[^"]*assets/javascripts/bundle\.')
# When the search's index is fetched: “not from a folder, or once the search is opened”, then `then(() => index)`.
OPENED = re.compile(r'[\w$]+\(location\.protocol!=="file:"\)(?=,[\w$]+\("search"\)\)\.pipe\([\w$]+\([\w$]+=>[\w$]+\),(?P<then>[\w$]+)\(\(\)=>)')
# What marks the words that were searched for: “the index, and an address that has them”.
MARKED = re.compile(r'[\w$]+\(\[(?P<index>[\w$]+),(?P<where>[\w$]+)\.pipe\((?P<wanted>[\w$]+\([\w$]+\(\)\),[\w$]+\([\w$]+=>!![\w$]+\.searchParams\.get\("h"\)\))\)\]\)(?=\.pipe\((?P<each>[\w$]+)\()')
# Setting this makes the browser work out the style of the whole page once more; our sheets say it already.
SCHEME = re.compile(r"(?<=return )[\w$]+\.content=[\w$]+\.colorScheme,")


class ThemeChanged(Exception):
    """The theme's pages or script are not as expected; the message says what to do."""


def before_theme(html: str) -> str:
    """The page with the script of every page ahead of the theme's: from a folder, it makes ready what that needs. Other pages are left as they are."""
    ours, theirs = OURS.search(html), THEIRS.search(html)
    if ours is None or theirs is None:
        return html
    html = html[: ours.start()] + html[ours.end() :]
    return THEIRS.sub(lambda match: f'<script src="{ours[1]}"></script>{match[0]}', html, count=1)


def adapt_script(site: Path) -> None:
    """Change the theme's script in a built site. Raises ThemeChanged when the script no longer has the places that are changed."""
    scripts = list((site / "assets" / "javascripts").glob("bundle.*.min.js"))
    if len(scripts) != 1:
        raise ThemeChanged(f"one script of the theme was expected as assets/javascripts/bundle.*.min.js, found {len(scripts)}. See build_tools/theme_scripts.py.")
    text = scripts[0].read_text(encoding="utf-8")
    opened, marked, scheme = (list(pattern.finditer(text)) for pattern in (OPENED, MARKED, SCHEME))
    if not len(opened) == len(marked) == len(scheme) == 1:
        raise ThemeChanged(
            f"the theme's script {scripts[0].name} has {len(opened)} places that decide when the search is fetched, {len(marked)} that mark the words found and {len(scheme)} that set the colour scheme, not one of each. "
            "Its version changed: adapt build_tools/theme_scripts.py, or go back to the version in requirements.lock."
        )
    then = opened[0]["then"]
    never = opened[0][0].partition("(")[0]
    text = MARKED.sub(lambda m: f"{m['where']}.pipe({m['wanted']},{then}(n=>{m['index']}.pipe({m['each']}(o=>[o,n]))))", text)
    text = SCHEME.sub("", OPENED.sub(lambda _: f"{never}(!1)", text))
    scripts[0].write_text(text, encoding="utf-8", newline="")
