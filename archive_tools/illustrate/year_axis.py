"""The line of years under a drawing, with a hairline for each decade and as many numbers as fit the page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from archive_tools.illustrate.svg_text import NARROW, WIDE, Run, Text, percent, pixels

_BETWEEN = 8.0
"""Pixels kept free between two numbers."""


@dataclass(frozen=True, slots=True)
class YearAxis:
    """From the beginning of year `first` to the beginning of year `last`, with a hairline every `step` years."""

    first: int
    last: int
    step: int

    def at(self, day: date) -> float:
        """Where a day stands, as a share of the width; days beyond the ends stand at the ends."""
        year_length = (date(day.year, 12, 31) - date(day.year, 1, 1)).days + 1
        year = day.year + (day - date(day.year, 1, 1)).days / year_length
        return min(1.0, max(0.0, (year - self.first) / (self.last - self.first)))

    def lines(self, height: float) -> str:
        """The hairlines, from the top down to `height`, as SVG."""
        drawn = "".join(
            f'<line x1="{percent(x)}" x2="{percent(x)}" y1="0" y2="{pixels(height)}"/>' for _, x in self.ticks()
        )
        return f'<g class="grid">{drawn}</g>'

    def numbers(self, y: float, least: float = NARROW) -> tuple[Text, ...]:
        """The years in figures with their baseline at `y`; those that `least` pixels have no room for are minor."""
        ticks = self.ticks()
        for_wide = next(every for every in range(1, len(ticks) + 1) if _fit(ticks[::every], WIDE, y))
        for_narrow = next(
            every for every in range(for_wide, len(ticks) * for_wide + 1, for_wide) if _fit(ticks[::every], least, y)
        )
        return tuple(
            _number(year, x, y, minor=at % for_narrow != 0) for at, (year, x) in enumerate(ticks) if at % for_wide == 0
        )

    def ticks(self) -> list[tuple[int, float]]:
        """The years with a hairline, and where each stands, as a share of the width."""
        span = self.last - self.first
        return [(year, (year - self.first) / span) for year in range(self.first, self.last + 1, self.step)]


def axis_for(days: Iterable[date], as_of: date) -> YearAxis:
    """An axis that holds all the days and the as-of day, from a round year to a round year."""
    years = [day.year for day in days] + [as_of.year]
    first, last = min(years), max(years)
    span = last - first + 1
    step = 5 if span <= 20 else 10 if span <= 150 else 50 if span <= 600 else 100
    start = max(first // step * step, 1)
    return YearAxis(start, start + -(-(last + 1 - start) // step) * step, step)


def _number(year: int, x: float, y: float, *, minor: bool) -> Text:
    anchor = "start" if x == 0 else "end" if x == 1 else "middle"
    return Text((Run(str(year)),), x, y, anchor=anchor, minor=minor)


def _fit(ticks: list[tuple[int, float]], across: float, y: float) -> bool:
    ends = [_number(year, x, y, minor=False).ends(across) for year, x in ticks]
    return all(left[1] + _BETWEEN <= right[0] for left, right in pairwise(ends))
