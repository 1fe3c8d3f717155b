"""Soil by date: when the soil holds what a crop wants, with how well that is known."""

from __future__ import annotations

from datetime import date, timedelta

from ...model.reference import Crop, Reference
from ...science import soil_errors
from ...science.soil_temperature import (
    annual_harmonic,
    annual_wave,
    error_band,
    scaled_errors,
)
from ...science.soil_windows import windows
from ..wording import MONTHS, source_label
from . import Calculator, frame_context

TABLE_KIND = "daily-temperatures"
FAHRENHEIT_DEGREE = 5 / 9
HOLD_DAYS = (3, 5, 7)
USUAL_HOLD = 5
PLAIN_DEPTH_MM = 25  # taken where no depth is published or typed; for the season it hardly matters
STATIC_CELSIUS = (5, 10, 15, 20)
QUANTITIES = {"minimum": "minimum_c", "low": "optimum_low_c", "high": "optimum_high_c", "best": "optimum_c", "maximum": "maximum_c"}
WAY_NAMES = {
    "same day": "the air’s mean of the same day", "mean of 5 days": "mean of the last 5 days", "mean of 7 days": "mean of the last 7 days",
    "exponential, 3 days": "exponential mean, 3 days (used for daily air)", "exponential, 5 days": "exponential mean, 5 days", "monthly normals": "yearly wave through monthly averages (used for those)",
}


def station_of(reference: Reference) -> soil_errors.Station | None:
    """The published daily record of air and soil that errors are measured on; None when data/sources has none."""
    table = next((t for s in reference.sources.values() for t in s.tables if t.kind == TABLE_KIND), None)
    if table is None:
        return None

    def column(name):
        return tuple(float(row[name]) if row[name] else None for row in table.rows)

    return soil_errors.Station(
        tuple(date.fromisoformat(row["date"]) for row in table.rows), column("air_mean_c"),
        {depth: column(f"soil_{depth // 10}cm_c") for depth in soil_errors.DEPTHS_MM},
    )


def station_source(reference: Reference) -> str:
    """Id of the source of that record."""
    return next(s.id for s in reference.sources.values() for t in s.tables if t.kind == TABLE_KIND)


def crop_data(crop: Crop) -> dict:
    """Temperatures (°C), depth (mm) and what the file says of doubt, as far as known."""
    temperatures = {name: crop[key].low for name, key in QUANTITIES.items() if crop[key].known}
    notes = {name: " ".join(filter(None, (crop[key].departs, crop[key].note))) for name, key in QUANTITIES.items() if crop[key].known}
    depth = crop["sowing_depth_mm"]
    return {"name": crop.name, "season": crop["season"].choice, **temperatures, **({"depth": [depth.low, depth.high]} if depth.known else {}),
            "notes": {name: note for name, note in notes.items() if note}}


def covers(reference: Reference) -> dict[str, list[dict]]:
    """What is published of covers: "soil" rows with a gain of soil temperature (°C, least and most), "earlier" rows in time, "air" rows with a gain of the air."""
    found: dict[str, list[dict]] = {"soil": [], "earlier": [], "air": []}
    for source in reference.sources.values():
        for table in (t for t in source.tables if t.kind == "season-extension"):
            for row in table.rows:
                gain = _gain(row)
                kind = "soil" if gain and gain[1] is not None and row["measure"].startswith("soil temperature") else "earlier" if row["measure"] == "earliness" else "air" if gain else None
                if kind:
                    found[kind].append({
                        "key": f"{source.id}-{len(found[kind])}", "cover": row["cover"], "measure": row["measure"], "detail": row.get("detail", ""), "note": row.get("note", ""), "crop": row.get("crop_id", ""),
                        "gain": gain, "source": source_label(reference, source.id), "id": source.id,
                    })
    return found


def _gain(row) -> list[float | None] | None:
    """Least and most gain in Celsius degrees: "up to" begins at nothing, "or more" has no most. None where no gain is printed."""
    for unit, size in (("f", FAHRENHEIT_DEGREE), ("c", 1.0)):
        low, high = row.get(f"gain_{unit}_min", ""), row.get(f"gain_{unit}_max", "")
        if low or high:
            return [float(low or 0) * size, float(high) * size if high else None]
    return None


FACTS = {"shade": "soil minus air in shade, spring", "desert": "warmth above 10 °C from the low and high of dry sand, 5 cm", "readings": "half of soil low and high minus the day’s mean, 5 cm"}


def facts(reference: Reference) -> dict[str, dict] | None:
    """Measured figures of other places by a short name: {"value", "fact", "source", "note"}; None when one is missing."""
    rows = {row["topic"]: (source, row) for source in reference.sources.values() for table in source.tables if table.kind == "facts" for row in table.rows}
    if any(topic not in rows for topic in FACTS.values()):
        return None
    return {name: {"value": float(rows[topic][1]["value"]), "fact": rows[topic][1]["fact"], "note": rows[topic][1].get("note", ""), "source": source_label(reference, rows[topic][0].id)} for name, topic in FACTS.items()}


def measured(station: soil_errors.Station) -> dict:
    """How far estimates are from measured soil: rows, dates, bands and how many dates the ranges hold."""
    return {
        "rows": soil_errors.spring_errors(station), "dates": soil_errors.hold_dates(station), "misses": soil_errors.date_errors(station),
        "bands": soil_errors.bands(station), "coverage": soil_errors.coverage(station), "warmest_day": soil_errors.warmest_day(station), "swing": soil_errors.yearly_swing(station), "years": station.full_years,
        "coldest": [min(v for v in values if v is not None) for values in (station.air, station.soil[50])],  # °C of air and soil
        "days": len(station.dates), "first": station.dates[0], "last": station.dates[-1],
    }


def calculator_data(reference: Reference, found: dict) -> dict:
    """What the browser needs."""
    crops = sorted(reference.crops.values(), key=lambda crop: crop.name)
    spring = {row["way"]: row for row in found["rows"]}
    ways = {"days": spring["exponential, 3 days"], "months": spring["monthly normals"]}
    misses = {"days": [r["exponential"] for r in found["dates"]], "months": [r["normals"] for r in found["dates"]]}
    return {
        "crops": {crop.id: crop_data(crop) for crop in crops},
        "example_crop": max(crops, key=lambda c: (all(c[q].known for q in QUANTITIES.values()), c["season"].choice == "cool", len(c.rows.get("temperature-bands", ())))).id,
        "place": {"name": reference.place["name"], "invented": reference.place["invented"], "months": list(reference.place["monthly_mean_air_c"])},
        "plain_depth": PLAIN_DEPTH_MM, "short_days": soil_errors.SHORT_DAYS,
        "station": {
            "name": source_label(reference, station_source(reference)), "warmest_day": round(found["warmest_day"], 1), "swing": round(found["swing"], 1), "coldest": found["coldest"], "share": soil_errors.SHARE, "years": len(found["years"]),
            "spread": [round(min(r["sd"] for r in found["dates"])), round(max(r["sd"] for r in found["dates"]))],
            **{way: {
                "bands": {str(depth): [[round(v, 1) for v in quarter] for quarter in quarters] for depth, quarters in found["bands"][way].items()},
                "bias": {str(depth): round(value, 1) for depth, value in row["bias"].items()}, "rmse": {str(depth): round(value, 1) for depth, value in row["rmse"].items()},
                "held": found["coverage"][way], "missed": [round(min(misses[way])), round(max(misses[way]))],
                "misses": {key: round(value, 1) for key, value in found["misses"]["exponential" if way == "days" else "normals"].items()},
            } for way, row in ways.items()},
        },
        "covers": covers(reference), "facts": facts(reference),
        "earlier": {key: reference.practice["cover_earlier_days"][key] for key in ("value", "definition")},
    }


def signed(celsius: float) -> str:
    """One decimal, with its sign; nothing is 0.0."""
    shown = f"{abs(celsius):.1f}"
    return shown if float(shown) == 0 else f"{'+' if celsius > 0 else '−'}{shown}"


def day_text(day: int) -> str:
    """Day 0 to 364 as "12 April"."""
    found = date(2001, 1, 1) + timedelta(day)
    return f"{found.day} {MONTHS[found.month - 1]}"


def static_rows(reference: Reference, found: dict) -> list[dict]:
    """For some temperatures when the place's soil holds them, from its months: {"celsius", "start", "end"} in words."""
    harmonic = annual_harmonic(reference.place["monthly_mean_air_c"])
    year = annual_wave(harmonic, PLAIN_DEPTH_MM)
    band = error_band(scaled_errors(found["bands"]["months"][50], harmonic["amplitude"], found["swing"]), harmonic["warmest_day"])
    rows = []
    for celsius in STATIC_CELSIUS:
        result = windows(year, band, celsius, None, USUAL_HOLD, soil_errors.SHORT_DAYS)
        if result["state"] == "windows":
            ends = (result["windows"][0]["starts"], result["windows"][0]["ends"])
            start, end = (" to ".join(day_text(d) for d in days) if None not in days else "in some years only" for days in ends)
            rows.append({"celsius": celsius, "start": start, "end": end})
        else:
            word = {"always": "all year", "never": "not reached" if result["sure"] else "reached in a warm year only"}[result["state"]]
            rows.append({"celsius": celsius, "start": word, "end": ""})
    return rows


def _context(reference: Reference) -> dict:
    station = station_of(reference)
    if station is None or facts(reference) is None:  # no error is known then, and a date without one would be a bare figure
        return {"measured": None, "usual_hold": USUAL_HOLD}
    found = measured(station)
    return {
        "calculator": frame_context(calculator_data(reference, found)), "months": MONTHS, "hold_pairs": [(str(n), f"{n} days") for n in HOLD_DAYS], "usual_hold": USUAL_HOLD,
        "cover_pairs": [("none", "without a cover"), *((c["key"], f"under {c['cover']} ({c['measure'].removeprefix('soil temperature').strip(' ,')}; {c['source']})") for c in covers(reference)["soil"])],
        "way_names": WAY_NAMES, "signed": signed, "day_text": lambda day: day_text(round(day) - 1),
        "place": reference.place, "plain_depth": PLAIN_DEPTH_MM, "rows": static_rows(reference, found), "measured": found, "depths": soil_errors.DEPTHS_MM, "depths_cm": [depth // 10 for depth in soil_errors.DEPTHS_MM], "days_early": -found["misses"]["exponential"]["bias"],
        "station": station_source(reference), "share": round(10 * soil_errors.SHARE),
    }


CALCULATOR = Calculator(
    "calculators/soil",
    "Soil by date",
    "From when until when is the soil warm enough to sow?",
    "Soil temperature at sowing depth through the year from monthly averages, a daily record or your own readings: the weeks in which it holds each crop’s minimum and best range, outdoors and under a cover, with how far the dates may be out.",
    "calculators/soil.html",
    _context,
)
