"""What the theme's own script does otherwise here, so that a page opens without holding up a slow phone.

- The search is fetched when someone searches, not by every visit: the index is the largest thing there is. The theme waits for that only when
  the site is opened from a folder; the condition is made to hold everywhere.
- A page is styled once: its first element has its classes and the body its colours before anything is shown.
- Each part of a page (header, menu, contents, search …) is taken up in a task of its own, so that a touch in between is answered.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

OURS = re.compile(r'\s*<script defer src="([^"]*assets/js/site-[0-9a-f]+\.js)"></script>')
THEIRS = re.compile(r'<script src="[^"]*assets/javascripts/bundle\.')
# The theme's first script, and the classes that it gives the first element only when its last has come.
HEAD = "<script>__md_scope="
CLASSES = 'document.documentElement.className="js js-focus-visible";'
# The theme's script of the colours, and what it takes for chosen where nothing is, and keeps: to follow the device.
COLOURS = '<script>var palette=__md_get("__palette");'
CHOSEN = '__md_get("__palette")||__md_set("__palette",{index:0,color:{media:"(prefers-color-scheme)"}});'

NAME = r"[\w$]+"


@dataclass(frozen=True)
class Place:
    """One place of the theme's script: `put` makes what stands there from what stood there and the names found in all places; None leaves it as it is."""

    what: str
    pattern: re.Pattern[str]
    put: Callable[[str, dict[str, str]], str] | None = None


def _after_a_stop(stood: str, names: dict[str, str]) -> str:
    return "yield;" + stood


def _each(parts: str) -> str:
    return re.sub(rf'({NAME}\("[^"]+"(?:,{NAME})?\))\.map\(', r"$each(\1,", parts)


PLACES = (
    # “Not from a folder, or once the search is opened”, then `then(() => index)`.
    Place(
        "decide when the search is fetched",
        re.compile(rf'(?P<of>{NAME})\(location\.protocol!=="file:"\)(?=,{NAME}\("search"\)\)\.pipe\({NAME}\({NAME}=>{NAME}\),(?P<then>{NAME})\(\(\)=>)'),
        lambda stood, names: f"{names['of']}(!1)",
    ),
    # “The index, and an address that has words to mark.”
    Place(
        "mark the words that were searched for",
        re.compile(rf'{NAME}\(\[(?P<index>{NAME}),(?P<where>{NAME})\.pipe\((?P<wanted>{NAME}\({NAME}\(\)\),{NAME}\({NAME}=>!!{NAME}\.searchParams\.get\("h"\)\))\)\]\)(?=\.pipe\((?P<each>{NAME})\()'),
        lambda stood, names: "{where}.pipe({wanted},{then}(n=>{index}.pipe({each}(o=>[o,n]))))".format(**names),
    ),
    # Either of these makes the browser work out the style of the whole page once more; our sheets say the scheme already.
    Place("add the colour scheme", re.compile(rf'(?<={{name:"color-scheme"}}\));document\.head\.appendChild\({NAME}\)'), lambda stood, names: ""),
    Place("set the colour scheme", re.compile(rf"(?<=return ){NAME}\.content={NAME}\.colorScheme,"), lambda stood, names: ""),
    # So does this, which stops movement while colours change. When a page opens they do not.
    Place(
        "stop movement while colours change",
        re.compile(rf'(?P<colours>{NAME})\.subscribe\((?P<one>{NAME})=>\{{if\((?P<switching>document\.body\.setAttribute\("data-md-color-switching",""\)),'),
        lambda stood, names: "{colours}.subscribe({one}=>{{if({colours}.known&&{switching},{colours}.known=!0,".format(**names),
    ),
    Place("wait", re.compile(rf"{NAME}\((?P<on>{NAME})=>{NAME}\((?P=on)\)\.pipe\((?P<wait>{NAME})\((?P=on)\?400:100\)\)\)")),
    # The script as a whole becomes a function that stops a few times, and goes on in another task each time.
    Place("begin the script", re.compile(r'(?<=\A"use strict";)\(\(\)=>\{'), lambda stood, names: f"{stood}const $steps=(function*(){{"),
    Place("end the script", re.compile(r"\}\)\(\);(?=\s*//# sourceMappingURL=\S+\s*\Z)"), lambda stood, names: "})(),$on=()=>{$steps.next().done||setTimeout($on)};$on();" + stood),
    Place("know where the focus is", re.compile(rf'var {NAME}={NAME}\({NAME}\(document\.body,"focusin"\)'), _after_a_stop),
    Place("say that scripts run", re.compile(r'document\.documentElement\.classList\.remove\("no-js"\)'), _after_a_stop),
    Place("begin with the parts", re.compile(rf"(?<=;){NAME}\.subscribe\(\);window\.document\$="), _after_a_stop),
    # By then the page may have been read to its end.
    Place(
        "wait for the end of the page",
        re.compile(rf'{NAME}\(document,"DOMContentLoaded",\{{once:!0\}}\)\.subscribe\((?P<ended>\(\)=>{NAME}\.next\(document\))\)'),
        lambda stood, names: f'(document.readyState==="loading"?{stood}:({names["ended"]})())',
    ),
    Place("take one after another", re.compile(rf'(?P<from>{NAME})\({NAME}\("\[title\]",{NAME}\)\)\.pipe\({NAME}\(\(\)=>{NAME}\("content\.tooltips"\)\),(?P<merged>{NAME})\(')),
    # Ours stand in something that scrolls: taken out and put into another, a long one would be laid out twice.
    Place("let a table scroll", re.compile(r'"table:not\(\[class\]\)"(?=,)'), lambda stood, names: '":not(.scroll)>table:not([class])"'),
    # A page may have hundreds of these. Links are taken up for previews alone, which none here has.
    Place("take up links", re.compile(rf'"a"(?=,{NAME}\)\.map\()'), lambda stood, names: '"a[data-preview]"'),
    Place("take up code", re.compile(rf'{NAME}\("pre:not\(\.mermaid\) > code",{NAME}\)\.map\('), lambda stood, names: _each(stood)),
    Place("take up what is folded", re.compile(rf'{NAME}\("details",{NAME}\)\.map\('), lambda stood, names: _each(stood)),
    # Two lists: what every page has, then what is in its main part.
    Place(
        "take up the parts of a page",
        re.compile(
            rf',(?P<first>{NAME})=(?P<together>{NAME})\((?P<first_parts>\.\.\.{NAME}\("consent"\)\.map\(.*?)\),(?P<second>{NAME})=(?P<lazily>{NAME})\(\(\)=>(?P=together)\((?P<second_parts>\.\.\.{NAME}\("announce"\)\.map\(.*?)\)\)'
            rf"(?=,{NAME}={NAME}\.pipe\({NAME}\(\(\)=>(?P=second)\))"
        ),
        lambda stood, names: ",$each=(all,make)=>[{from}(all).pipe({merged}(one=>{of}(one).pipe({wait}(1)),1),{merged}(make))],{first}={together}({firsts}),{second}={lazily}(()=>{together}({seconds}))".format(
            **names, firsts=_each(names["first_parts"]), seconds=_each(names["second_parts"])
        ),
    ),
)


class ThemeChanged(Exception):
    """The theme's pages or script are not as expected; the message says what to do."""


def styled_once(html: str) -> str:
    """The page with its first element's classes and its colours set before anything is shown. Done a second time, it changes nothing."""
    if CLASSES in html:
        return html
    for script, addition in ((HEAD, CLASSES), (COLOURS, CHOSEN)):
        html = html.replace(script, script.replace("<script>", f"<script>{addition}"), 1)
    return html


def first_script(html: str, text: str) -> str:
    """The page with a script of ours in that of the colours, which runs before the main part is read. Done a second time, it changes nothing."""
    return html.replace(f"<script>{CHOSEN}", f"<script>{text}{CHOSEN}", 1)


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
    scripts[0].write_text(adapted(scripts[0].read_text(encoding="utf-8"), scripts[0].name), encoding="utf-8", newline="")


def adapted(text: str, name: str) -> str:
    """The theme's script, changed; `name` is what the error calls it. Raises ThemeChanged as above."""
    found = [(place, list(place.pattern.finditer(text))) for place in PLACES]
    wrong = [f"{len(matches)} that {place.what}" for place, matches in found if len(matches) != 1]
    if wrong:
        raise ThemeChanged(
            f"the theme's script {name} has not one place each, but {', '.join(wrong)}. "
            "Its version changed: adapt build_tools/theme_scripts.py, or go back to the version in requirements.lock."
        )
    names = {key: value for _, (match,) in found for key, value in match.groupdict().items()}
    for place, (match,) in sorted(found, key=lambda one: one[1][0].start(), reverse=True):
        if place.put is not None:
            text = text[: match.start()] + place.put(match[0], names) + text[match.end() :]
    return text
