"""The short answer at the top of a crop page: sentences built from the data, each number a link to its evidence."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ..model.reference import Crop
from ..units import span
from .wording import NOT_FOUND, depth, temperature, value_text, years

NAMED = ("soak", "leach", "scarify", "chill", "presprout")  # treatments said in a few words; what the others do depends on conditions


@dataclass(frozen=True)
class DaysAt:
    """Days to emergence at a tested temperature."""

    celsius: float
    days: float


def days_at_two(crop: Crop) -> list[DaysAt]:
    """Two measured temperatures a grower meets: one cool, one near the best, both inside the reference band."""
    points = dict(crop.days[0].points()) if crop.days else {}
    if not points:
        return []
    minimum = crop["minimum_c"].low if crop["minimum_c"].known else min(points)
    top = crop["optimum_high_c"].low or crop["optimum_c"].low or crop["maximum_c"].low or max(points)
    inside = [t for t in points if minimum <= t <= top + 0.5]
    if not inside:
        return []
    fastest = min(inside, key=lambda t: (points[t], t))
    cooler = [t for t in inside if t <= fastest - 5 and points[t] <= 30]
    chosen = ([max(cooler[0], min(cooler, key=lambda t: abs(t - (fastest - 10))))] if cooler else []) + [fastest]
    return [DaysAt(t, points[t]) for t in chosen]


def _link(anchor: str, text) -> Markup:
    return Markup('<a href="#{}">{}</a>').format(anchor, text)


def warmth(crop: Crop, warm_soil_c: float) -> Markup:
    """How warm the soil should be, in a sentence; `warm_soil_c` is the trade's least for warm-season crops."""
    low, best = crop["minimum_c"], crop["optimum_c"]
    range_low, range_high, top = crop["optimum_low_c"], crop["optimum_high_c"], crop["maximum_c"]
    advised = [celsius for celsius, _ in crop.sowing_thresholds]
    if not (low.known or best.known or range_low.known or advised):
        test = crop.method
        words = Markup("; the official test keeps it at {}").format(_link("test", temperature(test.low_c, test.high_c))) if test and test.low_c is not None else ""
        return Markup("No published soil temperature was found{}.").format(words)
    parts = []
    if low.known and crop["season"].choice == "warm" and low.low < warm_soil_c:
        parts.append(Markup("Seed can come up, slowly, from {}; sow a warm-season crop at {} or warmer (common practice)").format(_link("warmth", temperature(low.low)), temperature(warm_soil_c)))
    elif low.known:
        parts.append(Markup("Sow when the soil stays above {}").format(_link("warmth", temperature(low.low))))
    elif advised:
        parts.append(Markup("No published minimum was found; advisers sow from {}").format(_link("warmth", temperature(min(advised), max(advised)))))
    else:
        parts.append(Markup("No published minimum soil temperature was found"))
    if range_low.known:
        parts.append(Markup("it does best at {}").format(_link("warmth", temperature(range_low.low, range_high.low))))
    elif best.known:
        parts.append(Markup("it does best near {}").format(_link("warmth", temperature(best.low))))
    text = Markup("; ").join(parts) + "."
    if top.known and top.low < 30:
        text += Markup(" Keep it below {}: it stops in warm soil.").format(_link("warmth", temperature(top.low)))
    return text


def days(crop: Crop) -> Markup:
    """When to expect seedlings, in a sentence."""
    measured = days_at_two(crop)
    if measured:
        parts = [Markup("{} at {}").format(_link("days", f"{d.days:g} day{'' if d.days == 1 else 's'}"), temperature(d.celsius)) for d in measured]
        return Markup("Expect seedlings in about ") + Markup(", ").join(parts) + "."
    for row in crop.rows.get("germination-temperature", ()):
        if row.cells.get("days_min"):
            low, high = float(row.cells["days_min"]), float(row.cells.get("days_max") or row.cells["days_min"])
            return Markup("Expect seedlings in about {} in the warmth advised.").format(_link("days", f"{span(low, high)} days"))
    for row in crop.rows.get("days-usual", ()):
        return Markup("Expect seedlings in about {}.").format(_link("days", row.cells["days_as_printed"].replace("-", "–") + " days"))
    if crop.method and crop.method.final_count_days:
        return Markup("No published days to emergence were found; the official test is counted for the last time on {}.").format(_link("test", f"day {crop.method.final_count_days}"))
    return Markup("No published days to emergence were found.")


def depth_and_light(crop: Crop) -> Markup:
    """How deep, and light or dark, in a sentence."""
    judged, light = crop["sowing_depth_mm"], crop["light"]
    how_deep = Markup("Sow {}{}").format(_link("depth", depth(judged.low, judged.high)), "" if judged.high == 0 else " deep") if judged.known else Markup("No published {} was found").format(_link("depth", "sowing depth"))
    words = {"light": "it wants light", "dark": "it wants darkness", "either": "light or dark", "cover": "cover it", "cover-lightly": "cover it lightly"}
    return Markup("{}; {}.").format(how_deep, _link("depth", words[light.choice])) if light.known else Markup("{}. No published need for light or dark was found.").format(how_deep)


def life(crop: Crop) -> Markup:
    """How long seed keeps, in a sentence."""
    judged = crop["seed_life_years"]
    if not judged.known:
        return Markup("No published {} was found: test before you sow.").format(_link("seed-life", "seed life"))
    return Markup("Seed keeps about {}; test older seed first.").format(_link("seed-life", years(judged.low, judged.high)))


def first(crop: Crop) -> Markup:
    """What to do first, in a few words: what is worth doing, else what may help, else nothing."""
    surface = Markup(" Sow on the surface.") if crop["light"].choice == "light" and (not crop["sowing_depth_mm"].known or crop["sowing_depth_mm"].high == 0) else Markup("")
    for entry in crop.pretreatments:
        if entry.advice == "worth-doing":
            return Markup("{}.").format(_link("first", entry.text.split(". ")[0].rstrip("."))) + surface
    helping = [treatment_words(e.about) for e in crop.pretreatments if e.advice == "may-help" and e.about in NAMED]
    if helping:
        return Markup("Nothing needed; {} may help.").format(_link("first", " or ".join(helping[:2]))) + surface
    if any(e.advice == "avoid" and e.about in NAMED for e in crop.pretreatments):
        return Markup("Nothing needed; see {}.").format(_link("first", "what to avoid")) + surface
    if crop.pretreatments:
        return Markup("Nothing needed; see {}.").format(_link("first", "what was tried")) + surface
    return Markup("No published treatment found; none is usually needed.") + surface


def treatment_words(treatment: str) -> str:
    """A treatment's id as a doing: soak → soaking."""
    doing = {"soak": "soaking", "leach": "rinsing", "scarify": "nicking", "chill": "chilling", "peroxide": "peroxide", "prime": "priming", "presprout": "sprouting first"}
    return doing.get(treatment, treatment.replace("-", " "))


def glance(crop: Crop, warm_soil_c: float) -> list[tuple[str, Markup | str]]:
    """The six answers as short rows."""
    advised, parts = [celsius for celsius, _ in crop.sowing_thresholds], []
    if crop["minimum_c"].known:
        least = crop["minimum_c"].low
        by_season = crop["season"].choice == "warm" and least < warm_soil_c
        parts.append(Markup("above {} (common practice)").format(temperature(warm_soil_c)) if by_season else Markup("above {}").format(temperature(least)))
    elif advised:
        parts.append(Markup("advisers sow from {}").format(temperature(min(advised), max(advised))))
    if crop["optimum_low_c"].known:
        parts.append(Markup("best {}").format(temperature(crop["optimum_low_c"].low, crop["optimum_high_c"].low)))
    elif crop["optimum_c"].known:
        parts.append(Markup("best near {}").format(temperature(crop["optimum_c"].low)))
    how_warm = Markup(", ").join(parts) or value_text(crop["minimum_c"])
    return [("Soil", how_warm), ("Depth", value_text(crop["sowing_depth_mm"])), ("Light", value_text(crop["light"])), ("Days", days_short(crop)), ("Seed keeps", value_text(crop["seed_life_years"])), ("First", first(crop))]


def days_short(crop: Crop) -> Markup | str:
    """Days for the glance rows: measured ones as ranges, else as advised."""
    measured = days_at_two(crop)
    if measured:
        return Markup("; ").join(Markup("{} at {}").format(f"{d.days:g}", temperature(d.celsius)) for d in measured)
    for kind in ("germination-temperature", "days-usual"):
        for row in crop.rows.get(kind, ()):
            if row.cells.get("days_as_printed"):
                return Markup("{} as advised").format(row.cells["days_as_printed"].replace("-", "–"))
    return NOT_FOUND


