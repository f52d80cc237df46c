"""Calendar arithmetic: against its own definitions by brute force, and against python-dateutil."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.model.calendar import (
    add,
    completed_years,
    days_in_month,
    earliest_after,
    latest_before,
)
from archive_tools.model.dates import Duration

ONE_DAY = timedelta(days=1)

ordinary_days = st.dates(date(1800, 1, 1), date(2200, 12, 31))
any_day = st.dates()
durations = st.builds(Duration, st.integers(0, 120), st.integers(0, 30), st.integers(0, 400), st.just("generated"))


def length(years: int = 0, months: int = 0, days: int = 0) -> Duration:
    return Duration(years, months, days, "test")


@pytest.mark.parametrize(
    ("day", "duration", "expected"),
    [
        (date(2000, 2, 29), length(years=1), date(2001, 3, 1)),
        (date(2000, 2, 29), length(years=4), date(2004, 2, 29)),
        (date(1896, 2, 29), length(years=4), date(1900, 3, 1)),
        (date(2001, 1, 31), length(months=1), date(2001, 3, 1)),
        (date(2001, 1, 29), length(months=1), date(2001, 3, 1)),
        (date(2001, 1, 28), length(months=1), date(2001, 2, 28)),
        (date(2001, 10, 31), length(months=1), date(2001, 12, 1)),
        (date(2001, 12, 31), length(months=2), date(2002, 3, 1)),
        (date(1951, 6, 15), length(years=1, months=6), date(1952, 12, 15)),
        (date(1951, 6, 15), length(days=14), date(1951, 6, 29)),
        (date(2001, 1, 31), length(months=1, days=3), date(2001, 3, 4)),  # months first, then days
    ],
)
def test_adding_by_hand(day: date, duration: Duration, expected: date) -> None:
    assert add(day, duration) == expected


@pytest.mark.parametrize(
    ("day", "duration", "last", "first"),
    [
        # worked by hand from the definitions: "the last (first) day d with d + P <= (>=) day"
        (date(2001, 3, 1), length(years=1), date(2000, 3, 1), date(2000, 2, 29)),
        (date(2001, 2, 28), length(years=1), date(2000, 2, 28), date(2000, 2, 28)),
        (date(2001, 3, 1), length(months=1), date(2001, 2, 1), date(2001, 1, 29)),
        (date(2001, 3, 31), length(months=1), date(2001, 2, 28), date(2001, 3, 1)),
        (date(1961, 3, 31), length(years=37), date(1924, 3, 31), date(1924, 3, 31)),
    ],
)
def test_going_back_by_hand(day: date, duration: Duration, last: date, first: date) -> None:
    assert latest_before(day, duration) == last
    assert earliest_after(day, duration) == first


@settings(max_examples=1000)
@given(any_day, durations)
def test_the_last_day_is_the_last(day: date, duration: Duration) -> None:
    last = latest_before(day, duration)
    if last is None:
        reached = add(date.min, duration)
        assert reached is None or reached > day
        return
    reached, after = add(last, duration), add(last + ONE_DAY, duration) if last < date.max else None
    assert reached is not None
    assert reached <= day
    assert after is None or after > day


@settings(max_examples=1000)
@given(any_day, durations)
def test_the_first_day_is_the_first(day: date, duration: Duration) -> None:
    first = earliest_after(day, duration)
    if first is None:
        reached = add(date.min, duration)
        assert reached is None or reached >= day
        return
    reached = add(first, duration)
    assert reached is None or reached >= day
    if first > date.min:
        before = add(first - ONE_DAY, duration)
        assert before is not None
        assert before < day


def test_going_back_around_every_month_end() -> None:
    """Nine years round the leap years 2000 and 2004, every day, for the lengths that meet month ends."""
    start, stop = date(1996, 1, 1), date(2005, 12, 31)
    days = [start + ONE_DAY * n for n in range((stop - start).days + 1)]
    for duration in (length(months=1), length(months=2), length(years=1), length(months=1, days=1)):
        reached = [add(day, duration) for day in days]
        for target in (start + ONE_DAY * n for n in range(500, (stop - start).days)):
            last = latest_before(target, duration)
            first = earliest_after(target, duration)
            assert last is not None
            assert first is not None
            at_last, at_first = (last - start).days, (first - start).days
            assert reached[at_last] <= target < reached[at_last + 1]  # type: ignore[operator]
            assert reached[at_first - 1] < target <= reached[at_first]  # type: ignore[operator]


@settings(max_examples=500)
@given(any_day, st.integers(0, 400), durations)
def test_a_later_day_never_gives_an_earlier_result(day: date, gap: int, duration: Duration) -> None:
    if date.max - day < timedelta(days=gap):
        return
    later = day + timedelta(days=gap)
    assert (add(day, duration) or date.max) <= (add(later, duration) or date.max)
    assert (latest_before(day, duration) or date.min) <= (latest_before(later, duration) or date.min)
    assert (earliest_after(day, duration) or date.min) <= (earliest_after(later, duration) or date.min)


def test_beyond_the_horizon_there_is_no_bound() -> None:
    assert add(date(9999, 12, 31), length(days=1)) is None
    assert add(date(9998, 1, 1), length(years=2)) is None
    assert add(date(1951, 1, 1), length(days=10**12)) is None
    assert add(date(1951, 1, 1), length(years=10**9)) is None
    assert latest_before(date(1, 1, 1), length(days=1)) is None
    assert latest_before(date(2, 6, 1), length(years=2)) is None
    assert earliest_after(date(2, 6, 1), length(years=2)) is None
    assert earliest_after(date(1, 2, 1), length(months=1)) == date(1, 1, 1)


@settings(max_examples=500)
@given(ordinary_days, durations)
def test_adding_agrees_with_dateutil_but_for_missing_days(day: date, duration: Duration) -> None:
    """Python-dateutil shortens a missing day to the end of its month; ours moves on to the next first."""
    months_only = day + relativedelta(years=duration.years, months=duration.months)
    if months_only.day != day.day:
        months_only += ONE_DAY
    assert add(day, duration) == months_only + timedelta(days=duration.days)


def test_month_lengths_against_the_standard_library() -> None:
    for year in (1, 4, 1900, 1951, 2000, 2024, 9999):
        for month in range(1, 13):
            last = date(year, 12, 31) if month == 12 else date(year, month + 1, 1) - ONE_DAY
            assert days_in_month(year, month) == last.day


def test_completed_years_against_dateutil_round_leap_days() -> None:
    """Every pair of days from the fortnights round the ends of February, 1995 to 2009 and at 1900.

    Ours differs in one case only, as the chronology says: dateutil completes a year that began on
    29 February on 28 February of a common year; here it is complete on 1 March.
    """
    days = [
        date(year, 2, 22) + timedelta(days=n)
        for year in (1896, 1899, 1900, 1901, 1904, *range(1995, 2010))
        for n in range(15)
    ]
    differing = 0
    for start in days:
        for end in days:
            if end < start:
                continue
            theirs = relativedelta(end, start).years
            leap_case = (start.month, start.day) == (2, 29) and (end.month, end.day) == (2, 28)
            if leap_case and days_in_month(end.year, 2) == 28:
                assert completed_years(start, end) == theirs - 1, (start, end)
                differing += 1
            else:
                assert completed_years(start, end) == theirs, (start, end)
    assert differing > 10


@settings(max_examples=500)
@given(any_day, any_day)
def test_completed_years_is_the_greatest_number_that_fits(start: date, end: date) -> None:
    years = completed_years(start, end)
    if end < start:
        assert years == 0
        return
    reached, next_birthday = add(start, length(years=years)), add(start, length(years=years + 1))
    assert reached is not None
    assert reached <= end
    assert next_birthday is None or next_birthday > end
