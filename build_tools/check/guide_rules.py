"""Rules about the guides: hand-written pages that take every number from the data and name who says what."""

from __future__ import annotations

import re
from functools import lru_cache

from ..problem import did_you_mean
from ..read import DataTree
from ..read.guide_text import ALONE, ANCHOR, BLANK, BRACES, LINK, NO_CLAIM, TABLES, Block, GuideText, Pull, is_ruled, pull_of
from ..registry import ACROSS, ONE_FILE, rule
from .figure_rules import UNPRINTED
from .meaning_rules import WORDS_FOR_SOURCES, values_of

LONGEST_SENTENCE = 30  # words
KINDS = ("value", "crops", "sources", NO_CLAIM, BLANK, *ALONE)
CHOICES = ("season", "light", "frost_class")
ENTRIES = ("kind", "family")
WORDS_UNIT = "in words"  # of a choice, or of weeks before and after the frost: no range can be made of two
SENTENCE_END = re.compile(r"(?<=[.!?:;])[\s”\"]+(?=[*_\[]*[A-Z“\"(])")
WORD = re.compile(r"\w[\w’'°%-]*")
COUNTED = r"(?:degrees?|seeds?|per cent|percent|minutes?|hours?|days?|weeks?|months?|years?|millimetres?|inch(?:es)?|times|spoons?|tablespoons?|cups?|grams?|parts?)"
IN_WORDS = re.compile(rf"\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fourteen|fifteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|dozen)(?:[ -](?:{COUNTED}))\b", re.IGNORECASE)
NO_LINK = re.compile(r"!\0|[\[\]]")  # where links are \0
BOX = "[ ] "  # to tick
PAGES = re.compile(r"(?!https?:)(?!//)[\w./-]*(?:#[\w-]+)?")


def claims(guide: GuideText):
    """(block, whether it or what leads into it says who says so) of every block that may claim something."""
    blocks = guide.blocks()
    for index, block in enumerate(blocks):
        head = index + 1 < len(blocks) and is_ruled(blocks[index + 1])
        if block.kind == "heading" or is_ruled(block) or head or not WORD.search(block.words):
            continue
        led = "" if block.led is None else blocks[block.led].text
        yield block, any(_settled(text) for text in (block.text, led))


@lru_cache(maxsize=64)  # a long list asks again and again for the paragraph that leads into it
def _settled(text: str) -> bool:
    return any(match[1].startswith("sources:") and match[1].partition(":")[2].strip(" ,") or match[1].strip() == NO_CLAIM for match in BRACES.finditer(text))


def guide_citations(tree: DataTree):
    """(guide, pull, source) of every source that a guide names."""
    for guide in tree.guides.values():
        for pull in guide.pulls():
            if pull.kind == "sources":
                for source in pull.names:
                    yield guide, pull, source


@rule("guide-listed", ACROSS)
def guide_listed(tree: DataTree):
    """Every guide of data/guides.yml has its text in docs/guides/, and every text there is listed; the treatments it explains exist."""
    document = tree.singles.get("guides")
    listed = document.data if document else {}
    for name, entry in listed.items():
        if name not in tree.guides:
            yield document.problem((name,), "guide-listed", f"There is no docs/guides/{name}.md.", did_you_mean(name, set(tree.guides) - set(listed)) or "Write it, or take the entry out.")
        for index, treatment in enumerate(entry.get("treatments", ())):
            if treatment not in tree.treatments:
                yield document.problem((name, "treatments", index), "guide-listed", f'There is no treatment "{treatment}".', did_you_mean(treatment, tree.treatments) or "Mend the name: an id of data/treatments/.")
    for name, guide in tree.guides.items():
        if name not in listed:
            yield guide.problem(1, 1, "guide-listed", f"{name} is not listed in data/guides.yml.", "List it there with its title and question, or move the file away.")
    glossary = tree.singles.get("glossary")
    for term, entry in glossary.data.items() if glossary else ():
        if entry.get("guide", "") and entry["guide"] not in listed:
            yield glossary.problem((term, "guide"), "guide-listed", f'There is no guide "{entry["guide"]}".', did_you_mean(entry["guide"], listed) or "Mend the name: a key of data/guides.yml.")


@rule("guide-value", ACROSS)
def guide_value(tree: DataTree):
    """What stands in braces in a guide exists: a value of `practice`, of a crop or of data/figures.yml, crops of which something is so, a drawing listed for the guide, cautions, a table; the last three stand alone in a paragraph. A range has two ends of one unit, and no other brace stands in the text."""
    for name, guide in tree.guides.items():
        for pull in guide.pulls():
            for message, hint in _unknown(tree, name, pull):
                yield guide.problem(pull.line, pull.column, "guide-value", message, hint or "Mend the name. What a guide takes in stands in data/quantities.yml, data/crops/ or data/figures.yml.")
        for block in guide.blocks():
            for match in BRACES.finditer(block.text):
                if pull_of(match[1]).kind in ALONE and (block.kind, block.text) != ("paragraph", match[0]):
                    yield guide.problem(block.line, 1, "guide-value", f"{match[0]} does not stand alone in a paragraph.", "Leave an empty line before and after it.")
        for line, column in guide.strays():
            yield guide.problem(line, column, "guide-value", "This brace belongs to nothing that a guide can take in.", "Braces hold a name in small letters on one line, none within another; a heading ends with { #anchor }.")


def _unknown(tree: DataTree, guide: str, pull: Pull):
    if pull.kind == "value":
        units = [_unit_or_problem(tree, name) for name in pull.names]
        yield from (problem for _, problem in units if problem)
        if len(pull.names) > 2 or len(pull.names) == 2 and (WORDS_UNIT in (unit for unit, _ in units) or len({unit for unit, _ in units}) > 1):
            yield f'"{{{pull.raw}}}" is no range: its ends have different units or none.', "Name two numbers of one unit, with “ to ” between them."
    elif pull.kind in ("crops", "sources") and not pull.names:
        yield f'Nothing is named after "{pull.kind}:".', "Name it, or take the braces out."
    elif pull.kind == "crops":
        for name in pull.names:
            if not crops_where(tree, name):
                yield f'There is no crop with "{name}".', "Write a choice and its value (light=light), a treatment and its advice (soak=worth-doing), family= or kind=."
    elif pull.kind in ALONE:
        entry = tree.singles["guides"].data.get(guide, {}) if "guides" in tree.singles else {}
        known = {"drawing": entry.get("drawings", ()), "cautions": tree.singles["cautions"].data, "table": TABLES}[pull.kind]
        for name in pull.names or ("",):
            if name not in known:
                where = {"drawing": "listed for this guide in data/guides.yml", "cautions": "an entry of data/cautions.yml", "table": "a table that guides can show"}[pull.kind]
                yield f'"{name}" is not {where}.', did_you_mean(name, known)
    elif pull.kind not in KINDS:
        yield f'"{pull.kind}" is nothing that a guide can take in.', did_you_mean(pull.kind, KINDS)


def _unit_or_problem(tree: DataTree, name: str) -> tuple[str, tuple[str, str] | None]:
    """(unit, None) of a value that exists; else ("", message and hint)."""
    vocabulary = tree.singles["quantities"].data
    owner, dot, key = name.partition(".")
    if not dot:
        if name in vocabulary["practice"]:
            return vocabulary["practice"][name]["unit"], None
        return "", (f'"{name}" is no entry of practice in data/quantities.yml.', did_you_mean(name, vocabulary["practice"]))
    if owner in tree.crops:
        known = {quantity for _, quantity, _ in values_of(tree.crops[owner].data)}
        known |= {"best"} if {"optimum_low_c", "optimum_high_c"} <= known else set()
        if key in known:
            unit = vocabulary["quantities"].get("optimum_c" if key == "best" else key, {}).get("unit", WORDS_UNIT)
            return WORDS_UNIT if key.endswith("_weeks") else unit, None
        return "", (f"{tree.crops[owner].file} has no {key}.", did_you_mean(key, known))
    figures = tree.singles["figures"].data if "figures" in tree.singles else {}
    if owner in figures:
        if key in figures[owner]:
            return figures[owner][key]["unit"], None
        return "", (f"data/figures.yml has no {key} under {owner}.", did_you_mean(key, figures[owner]))
    return "", (f'"{owner}" is neither a crop nor a source with figures in data/figures.yml.', did_you_mean(owner, [*tree.crops, *figures]))


def crops_where(tree: DataTree, condition: str) -> list[str]:
    """Ids of the crops of which "key=value" is so."""
    key, _, wanted = condition.partition("=")
    if key in CHOICES:
        return [crop for crop, d in tree.crops.items() if d.data.get(key, {}).get("choice") == wanted]
    if key in ENTRIES:
        return [crop for crop, d in tree.crops.items() if wanted in (d.data.get(key), d.data["names"].get(key))]
    return [crop for crop, d in tree.crops.items() if any(e["treatment"] == key and e["advice"] == wanted for e in d.data.get("pretreatments", ()))]


@rule("guide-number", ONE_FILE)
def guide_number(tree: DataTree):
    """A number in a guide is taken from the data in braces, never typed: neither in digits nor in words before a unit."""
    for guide in tree.guides.values():
        for block in guide.blocks():
            text = re.sub(r"^[0-9]+\.\s", "", block.words) if block.kind == "item" else block.words
            found = re.search(r"[\d²³¹¼-¾⅐-⅞]+", text) or IN_WORDS.search(text)
            if found:
                yield guide.problem(block.line, 1, "guide-number", f'"{found[0]}" is typed here.', "Take it in from the data: {a value of practice}, {crop.key} or {source.figure}; data/figures.yml holds what tables print.")


@rule("guide-claim", ONE_FILE)
def guide_claim(tree: DataTree):
    """Every paragraph, list item and table row of a guide says who says so with {sources: …}, or with {no claim} that it claims nothing; a list may leave that to the paragraph with a colon that leads into it."""
    for guide in tree.guides.values():
        for block, settled in claims(guide):
            if not settled:
                yield guide.problem(block.line, 1, "guide-claim", "Nobody is named who says this.", "End it with {sources: id, id}; common practice and from memory are words for sources too. {no claim} is for paragraphs that only lead on.")


@rule("guide-source", ACROSS)
def guide_source(tree: DataTree):
    """Every source that a guide names exists, and a paragraph that takes in a figure names the figure's source."""
    for guide, pull, source in guide_citations(tree):
        if source not in WORDS_FOR_SOURCES and source not in tree.sources:
            yield guide.problem(pull.line, pull.column, "guide-source", f'There is no source "{source}" in data/sources/.', did_you_mean(source, [*tree.sources, *WORDS_FOR_SOURCES]) or "Mend the name: a folder of data/sources/.")
    figures = tree.singles["figures"].data if "figures" in tree.singles else {}
    for guide in tree.guides.values():
        blocks = guide.blocks()
        for block in blocks:
            named = _sources_of(block) | (_sources_of(blocks[block.led]) if block.led is not None else set())
            for match in BRACES.finditer(block.text):
                for name in match[1].split(" to "):
                    section = name.strip().partition(".")[0]
                    owner = section.replace("-", " ") if section in UNPRINTED else section
                    if section in figures and owner not in named:
                        yield guide.problem(block.line, 1, "guide-source", f"The figure {name.strip()} is given and its source is not named.", f"Add {owner} to {{sources: …}} at the end of it.")


@lru_cache(maxsize=64)
def _sources_of(block: Block) -> set[str]:
    return {name.strip() for match in BRACES.finditer(block.text) if match[1].startswith("sources:") for name in match[1].partition(":")[2].split(",")}


@rule("guide-link", ACROSS)
def guide_link(tree: DataTree):
    """A link in a guide leads to a page of this site, by the name of its file: another guide (water.md, water.md#cold), a crop (../crops/leek.md) or another page (../calculators/index.md). Brackets are for links and boxes to tick alone, and each heading has an anchor of its own."""
    anchors = {name: set(re.findall(r"\{\s*#([\w-]+)\s*\}\s*$", guide.text, re.MULTILINE)) for name, guide in tree.guides.items()}
    for guide in tree.guides.values():
        taken = set()
        for block in guide.blocks():
            anchor = ANCHOR.search(block.text) if block.kind == "heading" else None
            if anchor and anchor[0] in taken:
                yield guide.problem(block.line, 1, "guide-link", f"A heading above has {anchor[0]} already.", "Give each heading an anchor of its own.")
            taken.add(anchor[0] if anchor else "")
            if NO_LINK.search(LINK.sub("\0", block.text.replace(BOX, "", 1))):
                yield guide.problem(block.line, 1, "guide-link", "A bracket stands here that belongs to no link, to a link of a kind that is not read, or to a picture.", "Write [words](water.md#anchor): no spaces, titles or brackets in it; drawings are named with {drawing: …}.")
            for words, target in LINK.findall(block.text):
                if "{" in words:
                    yield guide.problem(block.line, 1, "guide-link", f'"{words[:80]}" takes something in inside a link.', "Put the braces outside: a value is a link itself.")
                page, _, anchor = target.partition("#")
                name = page.removesuffix(".md")
                if not PAGES.fullmatch(target) or (page and not page.endswith(".md")):
                    yield guide.problem(block.line, 1, "guide-link", f'"{target[:80]}" is no page of this site.', "Name the page's file, such as water.md or ../crops/leek.md. Sources are named with {sources: …}.")
                elif page.startswith("../crops/") and name != "../crops/index" and name.rpartition("/")[2] not in tree.crops:
                    yield guide.problem(block.line, 1, "guide-link", f'There is no crop "{name.rpartition("/")[2]}".', did_you_mean(name.rpartition("/")[2], tree.crops) or "Mend the name: a file of data/crops/.")
                elif "/" not in page and page and name not in tree.guides:
                    yield guide.problem(block.line, 1, "guide-link", f'There is no guide "{name}".', did_you_mean(name, tree.guides) or "Mend the name: a file of docs/guides/.")
                elif "/" not in page and anchor and anchor not in anchors.get(name or _name(guide), ()) and (name or _name(guide)) not in ("glossary", "safety"):
                    yield guide.problem(block.line, 1, "guide-link", f'{name or "This guide"} has no heading "{{ #{anchor} }}".', did_you_mean(anchor, anchors.get(name or _name(guide), ())) or "Give the heading that anchor, or leave it out.")


def _name(guide: GuideText) -> str:
    return guide.file.rpartition("/")[2].removesuffix(".md")


@rule("guide-sentence", ONE_FILE)
def guide_sentence(tree: DataTree):
    """A sentence of a guide has at most thirty words: it is read in a shed, with wet hands."""
    for guide in tree.guides.values():
        for block in guide.blocks():
            text = BRACES.sub(lambda match: "" if match[1].startswith(("sources:", NO_CLAIM)) else "x", re.sub(r"\{\s*#[^{}]*\}", "", LINK.sub(r"\1", block.text)))
            for part in (cell for row in text.split("|") for cell in SENTENCE_END.split(row)):
                if len(words := WORD.findall(part)) > LONGEST_SENTENCE:
                    yield guide.problem(block.line, 1, "guide-sentence", f'A sentence has {len(words)} words: “{" ".join(words[:6])} …”.', "Make two of it.")
