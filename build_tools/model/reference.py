"""The types of the model. Temperatures are °C, depths mm, seed life years, timing weeks, shares percent."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from ..check.evidence import FamilyEvidence
from ..units import celsius_from_fahrenheit
from .corrections import Correction
from .guides import Figure, Guide, Term
from .posters import PosterWords
from .releases import Release
from .treatment_times import Times
from .viability import Viability


@dataclass(frozen=True, slots=True)
class Judged:
    """One reference value of a crop: a number, a range or a choice, with its sources and how it stands to the tables.

    status: agrees | within span | departs | single family | not counted | from memory | common practice | cited only | none
    `low` = `high` for a single number; all three are None when there is no published value.
    """

    quantity: str
    low: float | None
    high: float | None
    choice: str | None
    sources: tuple[str, ...]
    note: str
    departs: str
    line: int
    status: str
    families: tuple[FamilyEvidence, ...]
    span: str

    @property
    def known(self) -> bool:
        return self.status != "none"


@dataclass(frozen=True, slots=True)
class Cell:
    """One measured temperature of one table row.

    state: measured | no germination | not tested | doubtful | blank; `value` is days or percent, None unless measured.
    """

    celsius: float
    state: str
    value: float | None
    as_printed: str
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class MeasuredRow:
    """A table row of days or of percentages of normal seedlings by temperature, cells from cold to warm."""

    source: str
    file: str
    line: int
    note: str
    cells: tuple[Cell, ...]

    def points(self) -> tuple[tuple[float, float], ...]:
        """(°C, value) of the measured cells."""
        return tuple((c.celsius, c.value) for c in self.cells if c.state == "measured")


@dataclass(frozen=True, slots=True)
class At:
    """What was measured, or lies between measurements, at a temperature. None = not inside the tested temperatures."""

    celsius: float
    days: float | None
    percent: float | None


@dataclass(frozen=True, slots=True)
class OfficialMethod:
    """A row of the official test methods (7 CFR 201.58): counts in days, temperatures in °C, codes in words."""

    source: str
    kind_as_printed: str
    substrata: tuple[str, ...]
    temperatures: str
    low_c: float | None
    high_c: float | None
    first_count_days: int | None
    final_count_days: int | None
    light: str
    hard_seed_possible: bool
    requirements: tuple[str, ...]
    if_dormant: tuple[str, ...]
    note: str
    doubt: str
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class MinimumGermination:
    """A published minimum germination percentage for the kind."""

    source: str
    kind_as_printed: str
    percent: float
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row of a table shown as printed: its source, the table's kind, and its cells."""

    source: str
    kind: str
    file: str
    line: int
    cells: Mapping[str, str]
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """A text with its sources: a note, caution, disagreement or pretreatment."""

    text: str
    sources: tuple[str, ...]
    about: str = ""
    grade: str = ""
    advice: str = ""
    line: int = 1


@dataclass(frozen=True)
class Treatment:
    """A treatment before sowing. `lines` gives the line in `file` of each entry, by its path: "what", "steps.0", "times"."""

    id: str
    name: str
    what: str
    laboratory_only: bool
    steps: tuple[str, ...]
    evidence: tuple[Words, ...]
    cautions: tuple[Words, ...]
    file: str
    times: Times
    hazard: bool
    lines: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class SourceTable:
    """A printed table. `line` and `doubt_lines` are lines of the source's file, `row_lines` lines of the table itself."""

    file: str
    kind: str
    caption: str
    notes: str
    columns: tuple[str, ...]
    rows: tuple[Mapping[str, str], ...]
    doubts: tuple[Mapping[str, str], ...]
    line: int
    row_lines: tuple[int, ...]
    doubt_lines: tuple[int, ...]


@dataclass(frozen=True)
class Source:
    """A published source. `fields` holds source.yml as written, `lines` the line of each in `file`; `crops` the ids its tables name."""

    id: str
    fields: Mapping[str, object]
    family: str
    evidence: str
    counts: bool
    tables: tuple[SourceTable, ...]
    crops: tuple[str, ...]
    cited_by: tuple[str, ...]
    file: str
    lines: Mapping[str, int]


@dataclass(frozen=True)
class Crop:
    """All that is known about one crop. Quantities missing from the data are in `values` with status none.

    `lines` gives the line in `file` of the names and the kind.
    """

    id: str
    name: str
    other_names: tuple[str, ...]
    botanical: str
    family: str
    name_sources: tuple[str, ...]
    kind: str
    file: str
    values: Mapping[str, Judged]
    days: tuple[MeasuredRow, ...]
    percents: tuple[MeasuredRow, ...]
    methods: tuple[OfficialMethod, ...]
    minimums: tuple[MinimumGermination, ...]
    rows: Mapping[str, tuple[TableRow, ...]]
    pretreatments: tuple[Words, ...]
    cautions: tuple[Words, ...]
    disagreements: tuple[Words, ...]
    notes: tuple[Words, ...]
    neighbours: tuple[str, ...]
    evidence_kinds: tuple[str, ...]
    lines: Mapping[str, int]

    def __getitem__(self, quantity: str) -> Judged:
        return self.values[quantity]

    @cached_property
    def by_temperature(self) -> tuple[At, ...]:
        """Days and percent at every half degree inside the tested temperatures.

        Worked out when first wanted: pages and downloads show it, while loading the interpolation takes a second.
        """
        from .measured import by_temperature

        return by_temperature(self.days, self.percents)

    @property
    def sowing_thresholds(self) -> tuple[tuple[float, str], ...]:
        """(°C to the half degree, source) at which advisers say to sow: higher than what seed can just manage."""
        return tuple((celsius_from_fahrenheit(float(row.cells["soil_temp_f"])), row.source) for row in self.rows.get("sowing-thresholds", ()))

    @property
    def method(self) -> OfficialMethod | None:
        """The official method used for the calculator: the first listed."""
        return self.methods[0] if self.methods else None

    @property
    def minimum_percent(self) -> float | None:
        """The federal minimum where there is one, else the first published one."""
        federal = [m for m in self.minimums if m.source == "cfr-201-31"]
        chosen = federal or self.minimums
        return chosen[0].percent if chosen else None


@dataclass(frozen=True)
class SeedOil:
    """Oil in the seed of a crop, % of its dry weight. The source `common practice` stands for a value assumed by us."""

    percent: float
    sources: tuple[str, ...]
    note: str


@dataclass(frozen=True)
class Reference:
    """Everything the pages, charts, downloads and posters are made from. `vocabulary_lines` are lines of data/quantities.yml by path."""

    crops: Mapping[str, Crop]
    sources: Mapping[str, Source]
    treatments: Mapping[str, Treatment]
    quantities: Mapping[str, Mapping[str, object]]
    choices: Mapping[str, Mapping[str, str]]
    practice: Mapping[str, Mapping[str, object]]
    vocabulary_lines: Mapping[str, int]
    library: Mapping[str, object]
    place: Mapping[str, object]
    cautions: Mapping[str, tuple[Words, ...]]
    posters: Mapping[str, PosterWords]
    other_kinds: Mapping[str, Mapping[str, str]]
    replicate_range: tuple[Mapping[str, float | None], ...]
    two_test_range: tuple[Mapping[str, int], ...]
    demo: Mapping[str, bytes]
    viability: Viability
    seed_oil: Mapping[str, SeedOil]
    accepted: tuple[Mapping[str, str], ...]
    corrections: tuple[Correction, ...]
    releases: tuple[Release, ...]
    figures: Mapping[str, Figure]
    glossary: Mapping[str, Term]
    guides: Mapping[str, Guide]
