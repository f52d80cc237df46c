"""Ages: completed years at the as-of day, by the calendar."""

from __future__ import annotations

from datetime import date

from archive_tools.model.calendar import completed_years
from archive_tools.model.findings import AgeRange, Bounds
from archive_tools.reason.chronology.lapses import EARLY, LATE


def bounds_of(days: tuple[int, int]) -> Bounds:
    """Ordinals as days. An end at the horizon, 0001-01-01 or 9999-12-31, is no end."""
    first, last = days
    return Bounds(
        date.fromordinal(first) if first > EARLY + 1 else None,
        date.fromordinal(last) if last < LATE - 1 else None,
    )


def age_at(start: Bounds, as_of: date) -> AgeRange:
    """The age of something that began within `start`: at least from the latest, at most from the earliest beginning."""
    return AgeRange(
        min=None if start.latest is None else completed_years(start.latest, as_of),
        max=None if start.earliest is None else completed_years(start.earliest, as_of),
    )
