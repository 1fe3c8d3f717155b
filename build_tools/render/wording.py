"""How numbers and sources are written for readers. Returns safe HTML (Markup) where both units are shown."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

from ..model.reference import Crop, Judged, Reference
from ..model.source_label import label_of
from ..units import fahrenheit, inches, span

STATUS_WORDS = {
    "agrees": "inside what every independent source prints",
    "within span": "inside the published span; the sources differ",
    "departs": "outside what the sources print, for a stated reason",
    "single family": "one independent source only",
    "not counted": "a historical or doubtful source only",
    "from memory": "from memory; no copy was seen",
    "common practice": "common practice, no source",
    "cited only": "the cited source says so; no table to compare",
    "none": "no published value found",
}
GRADE_WORDS = {
    "measured": "measured", "trial": "trial", "regulation": "regulation", "standard": "standard", "authority": "authority", "advice": "advice",
    "compilation": "compilation", "common-practice": "common practice", "folk-claim": "folk claim",
}
ADVICE_WORDS = {
    "worth-doing": "Worth doing", "may-help": "May help", "not-needed": "Not needed", "avoid": "Avoid",
    "laboratory-only": "Not at home", "unproven": "Unproven",
}
LIGHT_WORDS = {
    "light": "wants light: press it in, cover thinly if at all", "dark": "comes up best in the dark: cover it",
    "either": "light or dark, it does not mind: cover it as deep as stated", "cover": "cover it to its depth; whether it needs the dark is not stated", "cover-lightly": "cover lightly",
}
FROST_WORDS = {"hardy": "hardy", "semi-hardy": "semi-hardy", "tender": "tender", "very-tender": "very tender"}
NOT_FOUND = "no published value found"
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")


def both(celsius: str, fahr: str) -> Markup:
    """A temperature in both units; the reader's switch hides one of them."""
    return Markup('<span class="t"><span class="tc">{} °C</span><span class="tb"> (</span><span class="tf">{} °F</span><span class="tb">)</span></span>').format(celsius, fahr)


PAIR = re.compile(r"(\d[\d.,–]*) °C \((\d[\d.,–]*) °F\)")


def with_units(text: str) -> Markup:
    """Free text, escaped, in which every temperature written in both units follows the reader's switch."""
    return Markup(PAIR.sub(lambda m: str(both(m[1], m[2])), str(escape(text))))


def temperature(low: float, high: float | None = None) -> Markup:
    """10 °C (50 °F), or a range: 10–35 °C (50–95 °F)."""
    high = low if high is None else high
    return both(span(round(low, 1), round(high, 1)), span(fahrenheit(low), fahrenheit(high)))


def temperature_plain(low: float, high: float | None = None) -> str:
    """The same as text for titles and descriptions."""
    high = low if high is None else high
    return f"{span(round(low, 1), round(high, 1))} °C ({span(fahrenheit(low), fahrenheit(high))} °F)"


def depth(low: float, high: float) -> str:
    """Millimetres and inch fractions a ruler has; 0 is the surface."""
    if high == 0:
        return "on the surface"
    a, b = inches(low), inches(high)
    return f"{span(low, high)} mm ({a if a == b else f'{a}–{b}'} in)"


def years(low: float, high: float | None = None) -> str:
    high = low if high is None else high
    return f"{span(low, high)} year{'' if low == high == 1 else 's'}"


def weeks(low: float, high: float) -> str:
    """Weeks from the average last frost, in words."""
    def one(value):
        return f"{abs(value):g}"

    if low == high == 0:
        return "at the average last frost"
    if high <= 0:
        words = f"{one(high)}–{one(low)}" if low != high else one(low)
        return f"from {one(low)} weeks before the average last frost until it" if high == 0 else f"{words} weeks before the average last frost"
    if low >= 0:
        return f"{span(low, high)} week{'' if low == high == 1 else 's'} after the average last frost" if low else f"from the average last frost until {one(high)} weeks after"
    return f"from {one(low)} weeks before to {one(high)} weeks after the average last frost"


def value_text(judged: Judged) -> Markup | str:
    """A reference value in words and both units; NOT_FOUND when there is none."""
    if not judged.known:
        return NOT_FOUND
    if judged.quantity.endswith("_c"):
        return temperature(judged.low, judged.high)
    if judged.quantity == "sowing_depth_mm":
        return depth(judged.low, judged.high)
    if judged.quantity == "seed_life_years":
        return f"about {years(judged.low, judged.high)}"
    if judged.quantity == "transplant_age_weeks":
        return f"{span(judged.low, judged.high)} weeks from sowing to planting out"
    if judged.quantity.endswith("_weeks"):
        return weeks(judged.low, judged.high)
    words = {"light": LIGHT_WORDS, "frost_class": FROST_WORDS}.get(judged.quantity, {})
    return words.get(judged.choice, judged.choice.replace("-", " "))


def value_csv(judged: Judged) -> str:
    """A reference value as one plain cell."""
    if not judged.known:
        return ""
    return judged.choice or (f"{judged.low:g}" if judged.low == judged.high else f"{judged.low:g} to {judged.high:g}")


def quantity_name(reference: Reference, quantity: str) -> str:
    """A quantity's or choice's name for readers."""
    return str(reference.quantities[quantity]["name"]) if quantity in reference.quantities else quantity.replace("_", " ").capitalize()


def source_label(reference: Reference, source: str) -> str:
    """A short name for a source id, or the word itself (common practice, from memory)."""
    if source not in reference.sources:
        return source
    return label_of(reference.sources[source].fields)


def source_link(reference: Reference, source: str, root: str) -> Markup:
    """A link to the source's entry; `root` is the relative path to the site's top."""
    label = source_label(reference, source)
    if source not in reference.sources:
        return Markup('<em class="word-source">{}</em>').format(label)
    return Markup('<a href="{}sources/#{}">{}</a>').format(root, source, label)


def source_links(reference: Reference, sources, root: str) -> Markup:
    return Markup("; ").join(source_link(reference, s, root) for s in sources)


def others_say(reference: Reference, judged: Judged, root: str) -> Markup:
    """Which counted families lie apart from the value, as printed: "75 °F in Florida IFAS list; …"."""
    apart = [f for f in judged.families if f.counts and f.stands not in ("inside", "same")]
    texts = [Markup(", ").join(Markup("{} in {}").format(p.as_printed, source_link(reference, p.source, root)) for p in f.printed[:2]) for f in apart]
    return Markup("; ").join(texts) + "."


def edit_address(reference: Reference, file: str, line: int) -> str:
    """The exact line of a data file at the library's repository host; empty when the library has none."""
    library = reference.library
    if "repository_url" not in library:
        return ""
    return f"{str(library['repository_url']).rstrip('/')}/{library['repository_edit_path']}{file}#L{line}"


OF_PLACES = ("Brussels", "Chinese", "New", "Siberian", "Swiss", "Welsh")  # words that keep their capital


def within(name: str) -> str:
    """A crop's name inside a sentence: dry bean, Brussels sprouts, New Zealand spinach."""
    return name if name.partition(" ")[0] in OF_PLACES else name[:1].lower() + name[1:]


def names_line(crop: Crop) -> Markup:
    other = Markup("also {}; ").format(", ".join(crop.other_names)) if crop.other_names else ""
    return Markup("{}<i lang=\"la\">{}</i>, {}").format(other, crop.botanical, crop.family)


def sentence(text: str) -> str:
    """With a capital letter."""
    return text[:1].upper() + text[1:]


