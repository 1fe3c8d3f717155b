"""When the soil holds a temperature: windows in a year whose ends are ranges of days.

A year is a ring of daily means as in soil_temperature.py. Soil holds a temperature from the first of `hold_days`
days in a row at or above it, until the last day before as many in a row below it: a shorter spell changes nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

Year = Sequence[float | None]
Labels = list[bool | None]


def holding(year: Year, threshold: float, hold_days: int, strict: bool = False) -> Labels:
    """For each day whether the year holds the threshold then; None where nothing is known.

    `strict` wants more than the threshold. Where no spell lasts `hold_days` days, nothing is held.
    Raises ValueError for fewer than one day.
    """
    if not hold_days >= 1:
        raise ValueError("days to hold must be 1 or more")
    n = len(year)
    inside = [None if v is None else v > threshold if strict else v >= threshold for v in year]
    labels: Labels = [None if v is None else False for v in year]
    for start, length in _stretches(inside):
        runs = _runs([inside[(start + i) % n] for i in range(length)])
        lasting = [i for i, (_, size) in enumerate(runs) if size >= hold_days]
        if not lasting:
            continue
        # On a whole ring a short spell at the start goes on from the last lasting one; elsewhere from the first to come.
        state = runs[lasting[-1] if length == n else lasting[0]][0]
        at = start
        for value, size in runs:
            if size >= hold_days:
                state = value
            for _ in range(size):
                labels[at % n] = state
                at += 1
    return labels


def _stretches(inside: Labels) -> list[tuple[int, int]]:
    """(start, length) of the parts of the ring that are known, some of no length; a whole ring starts where a spell begins."""
    n = len(inside)
    unknown = [i for i in range(n) if inside[i] is None]
    if not unknown:
        starts = [i for i in range(n) if inside[i] != inside[i - 1]]
        return [(starts[0] if starts else 0, n)]
    found = []
    for i, gap in enumerate(unknown):
        following = unknown[i + 1] if i + 1 < len(unknown) else unknown[0] + n
        found.append(((gap + 1) % n, following - gap - 1))
    return found


def _runs(values: Sequence) -> list[tuple[bool, int]]:
    """(value, length) of spells of the same value."""
    runs: list[tuple[bool, int]] = []
    for value in values:
        if runs and runs[-1][0] == value:
            runs[-1] = (value, runs[-1][1] + 1)
        else:
            runs.append((value, 1))
    return runs


def windows(year: Year, band: Mapping[str, Sequence[float]], low: float | None, high: float | None, hold_days: int, short_days: int) -> dict:
    """The windows in which soil is at least `low` and at most `high` (None: no such limit), with the doubt of their ends.

    Breaks of at most `short_days` that the band leaves in doubt are bridged.

    `band` says how far the soil may lie below and above each day, °C. Returns {"state", "why", "sure", "windows"}:

    state    "always", "never", "windows", or "unknown" when the year has no day at all
    why      of "never": "cold" or "hot"
    sure     of "always" and "never": whether it is so all over the band
    windows  by their start; each {"start", "starts", "by", "end", "ends", "until", "brief"}: days 0 to 364; `starts` and
             `ends` the [earliest, latest] these ends can be, None where the band has no such day at all; `by` is
             "warmed", "cooled" or "edge" (of what is known), `until` is "cold", "hot" or "edge"; `brief` is true
             of at most `short_days` days none of which is sure
    """
    n = len(year)
    known = [i for i in range(n) if year[i] is not None]
    if not known:
        return {"state": "unknown", "why": None, "sure": False, "windows": []}

    def shifted(name):
        return [None if v is None else v + band[name][i] for i, v in enumerate(year)]

    curves = {"best": year, "cool": shifted("low"), "warm": shifted("high")}
    warm_enough = {k: _all(y) if low is None else holding(y, low, hold_days) for k, y in curves.items()}
    too_hot = {k: _none(y) if high is None else holding(y, high, hold_days, True) for k, y in curves.items()}


    def fitting(warm, hot):
        return [None if year[i] is None else warm_enough[warm][i] and not too_hot[hot][i] for i in range(n)]

    fits, sure, possible = fitting("best", "best"), fitting("cool", "warm"), fitting("warm", "cool")
    fits = _bridged(fits, possible, short_days)
    if all(fits[i] for i in known):
        return {"state": "always", "why": None, "sure": all(sure[i] for i in known), "windows": []}
    found = [w for w in _pieces(fits, True) if w[1] >= hold_days]
    if not found:
        hot = any(too_hot["best"][i] for i in known)
        return {"state": "never", "why": "hot" if hot else "cold", "sure": not any(possible[i] for i in known), "windows": []}
    return {"state": "windows", "why": None, "sure": False, "windows": [
        {**_window(start, length, n, year, warm_enough, too_hot), "brief": length <= short_days and not any(sure[(start + i) % n] for i in range(length))} for start, length in found]}


def _all(year: Year) -> Labels:
    return [None if v is None else True for v in year]


def _none(year: Year) -> Labels:
    return [None if v is None else False for v in year]


def _bridged(fits: Labels, possible: Labels, short_days: int) -> Labels:
    """The labels without doubtful short breaks between windows."""
    n = len(fits)
    labels = list(fits)

    def days(start, length):
        return [(start + i) % n for i in range(length)]

    for start, length in _pieces(fits, False):
        between = fits[start - 1] is True and fits[(start + length) % n] is True
        if length <= short_days and between and all(possible[i] for i in days(start, length)):
            for i in days(start, length):
                labels[i] = True
    return labels


def _pieces(labels: Labels, wanted: bool) -> list[tuple[int, int]]:
    """(start, length) of the stretches with that label on the ring, by start; it is not the label all round."""
    n = len(labels)
    starts = [i for i in range(n) if labels[i] is wanted and labels[i - 1] is not wanted]
    found = []
    for start in starts:
        length = 1
        while labels[(start + length) % n] is wanted:
            length += 1
        found.append((start, length))
    return found


def _window(start: int, length: int, n: int, year: Year, warm_enough: Mapping[str, Labels], too_hot: Mapping[str, Labels]) -> dict:
    end = (start + length - 1) % n
    before, after = (start - 1) % n, (end + 1) % n
    if year[before] is None:
        by, starts = "edge", [start, start]
    elif not warm_enough["best"][before]:
        by, starts = "warmed", [_reach(warm_enough["warm"], start, -1), _within(warm_enough["cool"], start, length, 1)]
    else:
        by = "cooled"
        starts = [_shift(_lasts(too_hot, before, -1), 1, n), _shift(_reach(too_hot["warm"], before, 1), 1, n)]
    if year[after] is None:
        until, ends = "edge", [end, end]
    elif not warm_enough["best"][after]:
        until, ends = "cold", [_within(warm_enough["cool"], end, length, -1), _reach(warm_enough["warm"], end, 1)]
    else:
        until = "hot"
        ends = [_shift(_reach(too_hot["warm"], after, -1), -1, n), _shift(_lasts(too_hot, after, 1), -1, n)]
    return {"start": start, "starts": starts, "by": by, "end": end, "ends": ends, "until": until}


def _shift(day: int | None, by: int, n: int) -> int | None:
    return None if day is None else (day + by) % n


def _reach(labels: Labels, day: int, step: int) -> int | None:
    """The last day, walking from `day`, up to which the label is True; None when it is so all round."""
    n = len(labels)
    for i in range(n):
        if labels[(day + step * (i + 1)) % n] is not True:
            return (day + step * i) % n
    return None


def _within(labels: Labels, day: int, length: int, step: int) -> int | None:
    """The first of `length` days, walking from `day`, whose label is True; None when none is."""
    n = len(labels)
    return next(((day + step * i) % n for i in range(length) if labels[(day + step * i) % n] is True), None)


def _lasts(too_hot: Mapping[str, Labels], day: int, step: int) -> int | None:
    """Walking from `day` through the hot spell of the estimate: the first day that is too hot in a cool year as well; None when none is."""
    n, best, cool = len(too_hot["best"]), too_hot["best"], too_hot["cool"]
    for i in range(n):
        at = (day + step * i) % n
        if best[at] is not True:
            return None
        if cool[at] is True:
            return at
    return None
