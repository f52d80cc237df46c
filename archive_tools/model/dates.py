"""Dates as a curator writes them, and how they are read.

A written date stands for a set of possible days. What is kept here is the text, the bounds
the chronology reasons with, and what the words alone say. Reading the text is the work of
`archive_tools.read.edtf_text`; arithmetic with days is in `archive_tools.model.calendar`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

PRECISIONS = ("day", "month", "season", "year", "decade", "century", "interval", "set")
"""How finely a date is written. Quarters, four-month parts and halves of a year count as seasons;
a millennium (`1XXX`) counts as a century."""


class DateProblem(ValueError):  # noqa: N818  (the word the whole house uses for what a curator can mend)
    """A date or a length of time that cannot be read.

    `what` says in plain words what is wrong. `instead` completes the words "write instead: "
    and is None where nothing better can be offered.
    """

    def __init__(self, what: str, instead: str | None = None) -> None:
        super().__init__(what if instead is None else f"{what}; write instead: {instead}")
        self.what = what
        self.instead = instead


@dataclass(frozen=True, slots=True)
class Span:
    """Whole days from `first` to `last`, both included; None is an end without a bound."""

    first: date | None
    last: date | None

    def holds(self, day: date) -> bool:
        """Whether `day` lies in the span."""
        return (self.first is None or self.first <= day) and (self.last is None or day <= self.last)


@dataclass(frozen=True, slots=True)
class WhenWritten:
    """A date as the curator wrote it, and how it is read.

    `earliest` and `latest` are for reasoning: the possible days, widened by the collection's
    margin where the date is marked approximate (`~` or `%`). `said` is the same without the
    margin. `parts` keeps the holes of a set (`[1951,1953]`): its spans as written; any other date
    has one part, equal to `said`. None is an end without a bound (or beyond 0001-01-01 to
    9999-12-31); `open_*` and `unknown_*` tell whether it was written open (`..`) or empty.
    """

    text: str
    earliest: date | None
    latest: date | None
    said: Span
    parts: tuple[Span, ...]
    approximate: bool
    uncertain: bool
    precision: str
    open_start: bool = False
    open_end: bool = False
    unknown_start: bool = False
    unknown_end: bool = False

    @property
    def one_day(self) -> date | None:
        """The only day it can be, or None if there is more than one (or no bound)."""
        return self.earliest if self.earliest == self.latest else None

    @property
    def years(self) -> tuple[int | None, int | None]:
        """First and last calendar year of what the words say, without the margin."""
        first, last = self.said.first, self.said.last
        return (None if first is None else first.year, None if last is None else last.year)

    @property
    def one_year(self) -> int | None:
        """The calendar year in which all the possible days lie, margin included, or None."""
        if self.earliest is None or self.latest is None or self.earliest.year != self.latest.year:
            return None
        return self.earliest.year


@dataclass(frozen=True, slots=True)
class Duration:
    """An ISO 8601 length of time in years, months and days (`P1Y6M`); weeks are kept as days."""

    years: int
    months: int
    days: int
    text: str

    @property
    def whole_months(self) -> int:
        """Years and months together, in months."""
        return self.years * 12 + self.months


DEFAULT_MARGINS: tuple[tuple[str, Duration], ...] = (
    ("day", Duration(0, 0, 3, "P3D")),
    ("month", Duration(0, 1, 0, "P1M")),
    ("season", Duration(0, 2, 0, "P2M")),
    ("year", Duration(2, 0, 0, "P2Y")),
    ("decade", Duration(5, 0, 0, "P5Y")),
    ("century", Duration(25, 0, 0, "P25Y")),
)
"""What "about" means unless collection.yml says otherwise. The standard gives no width: this is policy."""


@dataclass(frozen=True, slots=True)
class DatePolicy:
    """What a collection has settled about reading dates.

    `hemisphere` is "north", "south", or "" where the collection does not say (spring to winter,
    21-24, then cannot be read). `margins` says how far "about" reaches on each side, by precision.
    """

    hemisphere: str = ""
    margins: tuple[tuple[str, Duration], ...] = DEFAULT_MARGINS

    def margin(self, unit: str) -> Duration:
        """How far "about" reaches for `unit` (day, month, season, year, decade, century).

        Raises KeyError for any other unit.
        """
        for name, width in self.margins:
            if name == unit:
                return width
        for name, width in DEFAULT_MARGINS:
            if name == unit:
                return width
        raise KeyError(unit)
