"""What a drawing of lives shows, before it has any places: rows of bars and marks on one line of years, and ties.

`across.py` lays a figure out with time from left to right, `upright.py` with time running down, for a phone.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from archive_tools.illustrate.bars import vague
from archive_tools.illustrate.svg_text import Run
from archive_tools.model.findings import Bounds


@dataclass(frozen=True, slots=True)
class Stretch:
    """First and last day between which something begins, and between which it ends."""

    start: tuple[date, date]
    end: tuple[date, date]

    @property
    def days(self) -> tuple[date, ...]:
        """All four days."""
        return (*self.start, *self.end)


@dataclass(frozen=True, slots=True)
class Strand:
    """One bar. css: "held", "here", "loan", "loan out", "gap unknown", "gap presumed", "gap bridged", "with".

    several: into how many it is split lengthwise, for joint holders. away: when the thing stood elsewhere, though it
    was still theirs: the bar is a thin line then.
    """

    stretch: Stretch
    css: str
    several: int = 1
    away: tuple[Stretch, ...] = ()


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that happened between two days. css: "hand", "hand small", "seen", "ended", "made", "swap".

    runs: the words that stand at it where time runs down; none where it is drawn without words.
    """

    first: date
    last: date
    css: str
    runs: tuple[Run, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One life on the line of years: its words, its bars and its marks.

    css: its class. track: rows of one track share their place where time runs down, as long as they do not overlap.
    marks_told: where time runs down, the words of the marks stand there instead of the row's own. apart: words of the
    head above the first row of its sort. tight: the row is one of many, and set close.
    """

    css: str
    runs: tuple[Run, ...]
    strands: tuple[Strand, ...] = ()
    marks: tuple[Mark, ...] = ()
    track: str = "held"
    marks_told: bool = False
    apart: str = ""
    tight: bool = False

    @property
    def days(self) -> tuple[date, ...]:
        """Every day that the row has to show."""
        stretches = [one for strand in self.strands for one in (strand.stretch, *strand.away)]
        return (
            *(day for one in stretches for day in one.days),
            *(day for mark in self.marks for day in (mark.first, mark.last)),
        )


@dataclass(frozen=True, slots=True)
class Tie:
    """One row came of another, or joined or left it, on a day. css: "same" plant, from "seed", "joined", "left"."""

    older: int
    younger: int
    day: date
    css: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A whole drawing. prefix begins its ids. linked: it holds links, so it is told as a group and not as a picture."""

    prefix: str
    title: str
    description: str
    rows: tuple[Row, ...]
    ties: tuple[Tie, ...] = ()
    linked: bool = False
    ruled: bool = False
    """Whether the marks "made" are drawn as lines down through all the rows after them."""

    @property
    def days(self) -> list[date]:
        """Every day that the line of years has to hold."""
        return [day for row in self.rows for day in row.days]


def stretch_of(start: Bounds, end: Bounds | None, before: date, as_of: date) -> Stretch:
    """From a vague beginning to a vague end (None: it lasts until `as_of`); nothing is drawn after `as_of`.

    `before` stands in for a beginning that nothing bounds.
    """
    low, high = (min(day, as_of) for day in vague(start, is_end=False, otherwise=before))
    if end is None:
        return Stretch((low, high), (as_of, as_of))
    first, last = (min(max(day, low), as_of) for day in vague(end, is_end=True, otherwise=high))
    return Stretch((low, high), (first, last))


def moment(bounds: Bounds, as_of: date) -> tuple[date, date]:
    """The days between which something happened, none of them after `as_of`."""
    low, high = vague(bounds, is_end=False, otherwise=as_of)
    return min(low, as_of), min(high, as_of)


def middle(days: Iterable[date]) -> date:
    """The day in the middle of the first and the last."""
    numbers = [day.toordinal() for day in days]
    return date.fromordinal((min(numbers) + max(numbers)) // 2)
