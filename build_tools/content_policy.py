"""The Content-Security-Policy of a page, worked out from the page itself and put into its head.

Nothing is loaded from another host, no form is sent anywhere, and of inline scripts only those that stand in the page as built may run.
"""

from __future__ import annotations

import base64
import hashlib
import re

SCRIPT = re.compile(r"<script(?P<attributes>(?:\s[^>]*)?)>(?P<text>.*?)</script>", re.DOTALL)
TYPE = re.compile(r"\btype\s*=\s*[\"']?([^\"'\s>]+)", re.IGNORECASE)
RUN = ("text/javascript", "application/javascript", "module")  # other types hold data and do not run
HEAD = re.compile(r"<meta charset=[^>]+>", re.IGNORECASE)
EXPLORED = '<section class="explore"'
NOTHING = base64.b64encode(hashlib.sha256(b"").digest()).decode()  # the charts to explore make an empty style element and fill it by rules

FIXED = (
    "img-src 'self' data: blob:", "font-src 'self'", "connect-src 'self'",
    "worker-src 'self'", "manifest-src 'self'", "base-uri 'none'", "form-action 'none'",
)


def inline_hashes(html: str) -> list[str]:
    """The SHA-256 of every inline script that runs, base64, in order of first use."""
    found = {}
    for match in SCRIPT.finditer(html):
        kind = TYPE.search(match["attributes"])
        if "src=" not in match["attributes"] and (kind is None or kind[1].lower() in RUN):
            found[base64.b64encode(hashlib.sha256(match["text"].encode("utf-8")).digest()).decode()] = None
    return list(found)


def moved_out(html: str, up: str) -> tuple[str, dict[str, str]]:
    """The page with the inline scripts that know nothing of its place put into files of their own; those files, by path from the site's top.

    `up` leads from the page there. The theme's first script says where the page is, and stays. The others are the same on every page: sent once,
    they need no hash in the policy.
    """
    files: dict[str, str] = {}

    def moved(match: re.Match) -> str:
        if match["attributes"] or "new URL(" in match["text"]:
            return match[0]
        name = f"assets/js/page-{hashlib.sha256(match['text'].encode('utf-8')).hexdigest()[:12]}.js"
        files[name] = match["text"]
        return f'<script src="{up}{name}"></script>'

    return SCRIPT.sub(moved, html), files


def policy(html: str) -> str:
    """The policy of a page."""
    scripts = " ".join(["script-src 'self'", *(f"'sha256-{one}'" for one in inline_hashes(html))])
    styles = f"style-src 'self' 'sha256-{NOTHING}'" if EXPLORED in html else "style-src 'self'"
    return "; ".join(("default-src 'none'", scripts, styles, *FIXED))


def with_policy(html: str) -> str:
    """The page with its policy, right behind the character set: nothing before it may load. ValueError for a page without a place for it."""
    place = HEAD.search(html)
    if place is None:
        raise ValueError("the page has no <meta charset>, behind which its policy would stand")
    return f'{html[: place.end()]}<meta http-equiv="Content-Security-Policy" content="{policy(html)}">{html[place.end() :]}'
