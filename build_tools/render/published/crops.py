"""Crops as plain data: every reference value with its evidence and its line in the repository, and what was measured."""

from __future__ import annotations

from io import BytesIO

from ...check.evidence import FamilyEvidence
from ...check.printed import Printed
from ...model.build import QUANTITIES
from ...model.reference import (
    Crop,
    Judged,
    MeasuredRow,
    OfficialMethod,
    Reference,
    Words,
)
from .about import head, json_line, json_text, site_url


def crop_file(reference: Reference, crop: Crop) -> dict:
    """The file of one crop."""
    return {**head(reference, "api-crop"), "crop": crop_data(reference, crop)}


def crop_json(reference: Reference, crop: Crop) -> str:
    """The file of one crop as text."""
    return json_text(crop_file(reference, crop))


def crops_file(reference: Reference, crops: list[dict]) -> dict:
    """The file of all crops, with the crops that are given."""
    return {**head(reference, "api-crops"), "crops": crops}


def all_crops_json(reference: Reference) -> bytes:
    """The file of all crops, a line for each: about half the size of indented text. As bytes, since it is the one large file."""
    out = BytesIO()  # grows in place: pieces in a list, joined at the end, would stand in memory twice
    out.write((json_line(crops_file(reference, [])).removesuffix("]}") + "\n").encode())
    for index, crop in enumerate(reference.crops.values()):
        out.write(((",\n" if index else "") + json_line(crop_data(reference, crop))).encode())
    out.write(b"\n]}\n")
    return out.getvalue()


def crop_data(reference: Reference, crop: Crop) -> dict:
    """A crop as plain data; schema/api-crop.schema.json says what each key is."""
    def said(words: Words) -> dict:
        return {"text": words.text, "sources": list(words.sources), "file": crop.file, "line": words.line}

    return {
        "id": crop.id,
        "names": {"common": crop.name, "other": list(crop.other_names), "botanical": crop.botanical, "family": crop.family, "sources": list(crop.name_sources), "line": crop.lines["names"]},
        "kind": crop.kind,
        "file": crop.file,
        "page": f"{site_url(reference)}crops/{crop.id}/",
        "values": {q: judged_json(crop[q], crop.file) for q in QUANTITIES},
        "days_by_temperature": [_measured(row) for row in crop.days],
        "percent_normal_seedlings_by_temperature": [_measured(row) for row in crop.percents],
        "official_methods": [_method(m) for m in crop.methods],
        "minimum_germination": [{"source": m.source, "kind": m.kind_as_printed, "percent": m.percent, "file": m.file, "line": m.line} for m in crop.minimums],
        "pretreatments": [{"treatment": w.about, "advice": w.advice, "evidence": w.grade, **said(w)} for w in crop.pretreatments],
        "cautions": [said(w) for w in crop.cautions],
        "disagreements": [{"about": w.about, **said(w)} for w in crop.disagreements],
        "notes": [said(w) for w in crop.notes],
        "neighbours": list(crop.neighbours),
    }


def judged_json(judged: Judged, file: str) -> dict | None:
    """A reference value with how it stands to each family; None when there is none. `file` is the crop's."""
    if not judged.known:
        return None
    value = {"choice": judged.choice} if judged.choice else {"value": judged.low} if judged.low == judged.high else {"low": judged.low, "high": judged.high}
    return {
        **value, "sources": list(judged.sources), "status": judged.status, **_filled(note=judged.note, departs=judged.departs, span=judged.span),
        "file": file, "line": judged.line, "families": [_family(f) for f in judged.families],
    }


def _family(family: FamilyEvidence) -> dict:
    ends = {"choices": list(family.choices)} if family.low is None else {"low": _short(family.low), "high": _short(family.high)}
    return {"family": family.family, "counts": family.counts, "stands": family.stands, **ends, "printed": [_printed(p) for p in family.printed]}


def _printed(printed: Printed) -> dict:
    value = {"choice": printed.choice} if printed.low is None else {"low": _short(printed.low), "high": _short(printed.high)}
    return {"source": printed.source, "as_printed": printed.as_printed, **value, "file": printed.file, "line": printed.line, **_filled(in_doubt=printed.doubt)}


def _measured(row: MeasuredRow) -> dict:
    cells = [{"celsius": c.celsius, "state": c.state, "value": c.value, "as_printed": c.as_printed, **_filled(in_doubt=c.doubt)} for c in row.cells if c.state != "blank"]
    return {"source": row.source, "file": row.file, "line": row.line, **_filled(note=row.note), "cells": cells}


def _method(method: OfficialMethod) -> dict:
    return {
        "source": method.source, "file": method.file, "line": method.line, "kind": method.kind_as_printed, "substrata": list(method.substrata), "temperatures": method.temperatures, "low_c": method.low_c, "high_c": method.high_c,
        "first_count_days": method.first_count_days, "final_count_days": method.final_count_days, "light": method.light, "hard_seed_possible": method.hard_seed_possible,
        "requirements": list(method.requirements), "if_dormant": list(method.if_dormant), **_filled(note=method.note, in_doubt=method.doubt),
    }


def _filled(**values) -> dict:
    """Without the keys that hold nothing."""
    return {key: value for key, value in values.items() if value}


def _short(number: float) -> float:
    """Converted numbers to two decimals: more would be of the arithmetic, not of the source."""
    return round(number, 2)
