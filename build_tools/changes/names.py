"""Names for readers of crops, sources, treatments and quantities, from either version, whatever shape it is in."""

from __future__ import annotations

from types import SimpleNamespace

from ..check.evidence import Comparison
from ..model.reference import Judged
from ..read import DataTree
from ..render.wording import quantity_name, source_label, value_text
from ..units import fahrenheit, number, span
from .plain import clean

MOST = 1e6  # a number beyond is no value of this reference


def mapping(value: object) -> dict:
    """The value when it is a mapping, else an empty one."""
    return value if isinstance(value, dict) else {}


class Names:
    """Names as in the later version, and in the earlier one for what is gone. `renames`: {area: {old id: new id}}."""

    def __init__(self, base: DataTree, head: DataTree):
        self.trees = (head, base)
        self.renames: dict[str, dict[str, str]] = {"crop": {}, "source": {}, "treatment": {}}

    def _documents(self, area: str, key: str):
        for tree in self.trees:
            held = {"crop": tree.crops, "treatment": tree.treatments, "source": {k: s.document for k, s in tree.sources.items()}}[area]
            if key in held:
                yield mapping(held[key].data)

    def crop(self, key: str) -> str:
        return next((clean(name, 80) for data in self._documents("crop", key) if isinstance(name := mapping(data.get("names")).get("common"), str)), clean(key, 80))

    def treatment(self, key: str) -> str:
        return next((clean(data["name"], 80) for data in self._documents("treatment", key) if isinstance(data.get("name"), str)), clean(key, 80))

    def source(self, key: str) -> str:
        for data in self._documents("source", key):
            if {"year", "publisher"} <= set(data) or "short" in data:
                return clean(source_label(SimpleNamespace(sources={key: SimpleNamespace(fields=data)}), key), 80)
        return clean(key, 80)

    def sources(self, keys) -> tuple[tuple[str, str], ...]:
        return tuple((str(key), self.source(str(key))) for key in keys)

    def quantity(self, key: str) -> str:
        for tree in self.trees:
            known = mapping(mapping(getattr(tree.singles.get("quantities"), "data", None)).get("quantities"))
            if isinstance(mapping(known.get(key)).get("name"), str):
                return clean(quantity_name(SimpleNamespace(quantities=known), key), 80)
        return quantity_name(SimpleNamespace(quantities={}), clean(key, 80))


def _number(value: object) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and abs(value) < MOST


def readable(value: object) -> dict | None:
    """A reference value of a crop file when it can be understood, as {low, high} or {choice} with sources, note and departs; else None."""
    if not isinstance(value, dict):
        return None
    sources = value.get("sources", [])
    said = {key: value[key] for key in ("note", "departs") if isinstance(value.get(key), str)}
    said["sources"] = [source for source in sources if isinstance(source, str)] if isinstance(sources, list) else []
    if isinstance(value.get("choice"), str):
        return {"choice": clean(value["choice"], 80), **said}
    low, high = value.get("low", value.get("value")), value.get("high", value.get("value"))
    return {"low": low, "high": high, **said} if _number(low) and _number(high) else None


def values_in(crop: object):
    """(quantity, readable value or None) of every reference value of a crop's data, whatever its shape."""
    data = mapping(crop)
    for key in ("season", "seed_life_years", "sowing_depth_mm", "light", "frost_class"):
        if key in data:
            yield key, readable(data[key])
    for group in ("temperature", "timing"):
        for key, value in mapping(data.get(group)).items():
            yield key, readable(value)


def value_words(quantity: str, value: dict | None) -> str:
    """A reference value in words and both units; empty for none."""
    if value is None:
        return ""
    judged = Judged(quantity, value.get("low"), value.get("high"), value.get("choice"), (), "", "", 1, "agrees", (), "")
    if "choice" not in value and not (quantity.endswith(("_c", "_weeks")) or quantity in ("sowing_depth_mm", "seed_life_years")):
        return span(value["low"], value["high"])
    words = value_text(judged)
    return clean(words.striptags() if hasattr(words, "striptags") else words)


def value_csv(value: dict | None) -> str:
    """A reference value as a plain cell: its number, "low to high" or its choice."""
    if value is None:
        return ""
    return value.get("choice") or (f"{value['low']:g}" if value["low"] == value["high"] else f"{value['low']:g} to {value['high']:g}")


def change_words(quantity: str, before: dict | None, after: dict | None) -> str:
    """Old → new; single temperatures share their unit: 15.5 → 18 °C (60 → 64 °F)."""
    if quantity.endswith("_c") and before and after and "low" in before and "low" in after:
        a, b = (span(value["low"], value["high"]) for value in (before, after))
        fa, fb = (span(fahrenheit(value["low"]), fahrenheit(value["high"])) for value in (before, after))
        return f"{a} → {b} °C ({fa} → {fb} °F)"
    return f"{value_words(quantity, before) or 'no value'} → {value_words(quantity, after) or 'no value'}"


def span_words(quantity: str, comparison: Comparison | None) -> str:
    """What the counted families print, in words and both units; empty where nothing is printed."""
    if comparison is None or not comparison.families:
        return ""
    counted = [f for f in comparison.families if f.counts] or list(comparison.families)
    lows, highs = [f.low for f in counted if f.low is not None], [f.high for f in counted if f.high is not None]
    if lows and highs:
        return value_words(quantity, {"low": round(min(lows), 1), "high": round(max(highs), 1)})
    return "; ".join(sorted({value_words(quantity, {"choice": choice}) for f in counted for choice in f.choices}))


def unit_words(key: object, value: object) -> str:
    """A temperature in both units where the key names one and is no rise; else empty."""
    if _number(value) and str(key).endswith("_c") and "rise" not in str(key):
        return f"{number(value)} °C ({fahrenheit(value)} °F)"
    return ""
