"""Arithmetic with whole days and ISO 8601 lengths of time, in the proleptic Gregorian calendar.

Adding is calendar addition: years and months first, then days; a day the target month lacks
becomes the first of the next month (29 February + P1Y = 1 March; 31 January + P1M = 1 March).
Going back is never subtraction, because several days may reach the same day and some days are
reached by none: it is "the last (or first) day from which adding still fits".

Everything lives between 0001-01-01 and 9999-12-31. A result of None lies beyond that horizon,
which to the chronology is the same as no bound at all. Every function here is monotone in its
day: a later day never gives an earlier result (None counting as beyond the end it fell off).
"""

from __future__ import annotations

from datetime import date

from archive_tools.model.dates import Duration

FIRST_DAY = date.min
LAST_DAY = date.max
_FIRST = FIRST_DAY.toordinal()
_LAST = LAST_DAY.toordinal()
_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def days_in_month(year: int, month: int) -> int:
    """Days in the month, 28 to 31."""
    if month == 2 and year % 4 == 0 and (year % 100 != 0 or year % 400 == 0):
        return 29
    return _LENGTHS[month - 1]


def add(day: date, duration: Duration) -> date | None:
    """`day` + `duration`, or None if that is after 9999-12-31."""
    moved = _months_later(day, duration.whole_months)
    return None if moved is None else _days_later(moved, duration.days)


def latest_before(day: date, duration: Duration) -> date | None:
    """The last day d with d + `duration` <= `day`, or None if there is none from 0001-01-01 on."""
    target = _days_later(day, -duration.days)
    if target is None or duration.whole_months == 0:
        return target
    year, month = _month(target.year, target.month, -duration.whole_months)
    if year < FIRST_DAY.year:
        return None
    # The last day of a short month and no later one still reaches `target`: its morrow moves on to
    # the first of the month after `target`.
    return date(year, month, min(target.day, days_in_month(year, month)))


def earliest_after(day: date, duration: Duration) -> date | None:
    """The first day d with d + `duration` >= `day`, or None if that is before 0001-01-01."""
    target = _days_later(day, -duration.days)
    if target is None or duration.whole_months == 0:
        return target
    back = -duration.whole_months
    year, month = _month(target.year, target.month, back)
    if target.day == 1:
        # Days that the month before `target` lacks are carried over to `target` itself.
        length = days_in_month(*_month(target.year, target.month, -1))
        before_year, before_month = _month(target.year, target.month, back - 1)
        if days_in_month(before_year, before_month) > length:
            return _day(before_year, before_month, length + 1)
        return _day(year, month, 1)
    if target.day <= days_in_month(year, month):
        return _day(year, month, target.day)
    return _day(*_month(year, month, 1), 1)


def completed_years(start: date, end: date) -> int:
    """Whole years completed from `start` to `end`: the greatest n with start + n years <= end.

    0 if `end` is before `start`. A 29 February completes its year on 1 March of a common year.
    """
    years = end.year - start.year
    if (end.month, end.day) < (start.month, start.day):
        years -= 1
    return max(years, 0)


def _month(year: int, month: int, by: int) -> tuple[int, int]:
    """The month `by` months on, which may lie beyond the horizon."""
    count = year * 12 + month - 1 + by
    return count // 12, count % 12 + 1


def _day(year: int, month: int, day: int) -> date | None:
    return date(year, month, day) if FIRST_DAY.year <= year <= LAST_DAY.year else None


def _months_later(day: date, months: int) -> date | None:
    if months == 0:
        return day
    year, month = _month(day.year, day.month, months)
    if day.day <= 28 or day.day <= days_in_month(year, month):
        return _day(year, month, day.day)
    return _day(*_month(year, month, 1), 1)


def _days_later(day: date, days: int) -> date | None:
    number = day.toordinal() + days
    return date.fromordinal(number) if _FIRST <= number <= _LAST else None
