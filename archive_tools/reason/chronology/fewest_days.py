"""How few and how many days a length of time in months can be, wherever in the calendar it begins."""

from __future__ import annotations

from functools import lru_cache

from archive_tools.model.calendar import days_in_month
from archive_tools.model.dates import Duration

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
        # From the last day of a month to a shorter one: a missing day becomes the first of the next, the fewer the
        # days that are missing in between, the sooner.
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
