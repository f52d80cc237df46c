"""Lengths of time in whole days: moving a day by one, and how few and how many days it can be.

Days are ordinals (1 = 0001-01-01). EARLY and LATE lie just outside the horizon and stand for "no bound".
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import lru_cache

from archive_tools.model.calendar import add, days_in_month, earliest_after, latest_before
from archive_tools.model.dates import Duration

EARLY = 0
LATE = date.max.toordinal() + 1

Move = Callable[[int], int]

_CYCLE_MONTHS = 4800
_CYCLE_DAYS = 146_097
"""The Gregorian calendar repeats after 400 years."""


def fewest_days(lapse: Duration) -> int:
    """The fewest days from any day to that day + `lapse`."""
    return _months(lapse.whole_months)[0] + lapse.days


def most_days(lapse: Duration) -> int:
    """The most days from any day to that day + `lapse`."""
    return _months(lapse.whole_months)[1] + lapse.days


@lru_cache(maxsize=1024)
def _months(count: int) -> tuple[int, int]:
    if count == 0:
        return 0, 0
    cycles, rest = divmod(count, _CYCLE_MONTHS)
    lengths, firsts = _calendar()
    fewest = most = firsts[rest] - firsts[0]
    for start in range(_CYCLE_MONTHS):
        days = firsts[start + rest] - firsts[start]
        most = max(most, days)
        # From the last day of a month to a shorter one the missing day becomes the first of the next, which takes
        # fewer days than from the first of the month.
        too_long = lengths[start] - lengths[start + rest]
        fewest = min(fewest, days - max(too_long - 1, 0))
    return cycles * _CYCLE_DAYS + fewest, cycles * _CYCLE_DAYS + most


@lru_cache(maxsize=1)
def _calendar() -> tuple[list[int], list[int]]:
    """Lengths of the months of two cycles, and the days from their beginning to the first of each month."""
    lengths = [days_in_month(2000 + month // 12, month % 12 + 1) for month in range(2 * _CYCLE_MONTHS)]
    firsts = [0]
    for length in lengths:
        firsts.append(firsts[-1] + length)
    return lengths, firsts


@lru_cache(maxsize=4096)
def later(lapse: Duration) -> Move:
    """Adds the lapse; LATE beyond the horizon."""

    def move(day: int) -> int:
        moved = add(date.fromordinal(day), lapse)
        return LATE if moved is None else moved.toordinal()

    return move


@lru_cache(maxsize=4096)
def last_day_reaching(lapse: Duration) -> Move:
    """The last day from which adding the lapse does not pass the given day; EARLY if there is none."""

    def move(day: int) -> int:
        moved = latest_before(date.fromordinal(day), lapse)
        return EARLY if moved is None else moved.toordinal()

    return move


@lru_cache(maxsize=4096)
def first_day_reaching(lapse: Duration) -> Move:
    """The first day from which adding the lapse reaches the given day; EARLY (no bound) beyond the horizon."""

    def move(day: int) -> int:
        moved = earliest_after(date.fromordinal(day), lapse)
        return EARLY if moved is None else moved.toordinal()

    return move
