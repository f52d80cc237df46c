"""Lengths of time. Published source: ISO 8601-1:2019, 5.5.2 (forms from memory)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.model.dates import DateProblem
from archive_tools.read.durations import read_duration, read_duration_range


@pytest.mark.parametrize(
    ("text", "years", "months", "days"),
    [
        ("P2Y", 2, 0, 0),
        ("P1Y6M", 1, 6, 0),
        ("P18M", 0, 18, 0),
        ("P3D", 0, 0, 3),
        ("P2W", 0, 0, 14),
        ("P1Y2M3D", 1, 2, 3),
        ("P1Y2W1D", 1, 0, 15),
        ("P0D", 0, 0, 0),
        ("P02Y", 2, 0, 0),
    ],
)
def test_read(text: str, years: int, months: int, days: int) -> None:
    duration = read_duration(text)
    assert (duration.years, duration.months, duration.days, duration.text) == (years, months, days, text)


@given(st.integers(1, 999), st.integers(0, 99), st.integers(0, 999))
def test_what_is_written_is_read(years: int, months: int, days: int) -> None:
    duration = read_duration(f"P{years}Y{months}M{days}D")
    assert (duration.years, duration.months, duration.days) == (years, months, days)
    assert duration.whole_months == 12 * years + months


@pytest.mark.parametrize(
    ("text", "says", "instead"),
    [
        ("2 years", "no length of time", "P2Y"),
        ("two years", "no length of time", "P2Y"),
        ("1 year and 6 months", "no length of time", "P1Y6M"),
        ("2y", "no length of time", "P2Y"),
        ("p2y", "no length of time", "P2Y"),
        ("2Y", "no length of time", "P2Y"),
        ("18 months", "no length of time", "P18M"),
        ("2 weeks", "no length of time", "P2W"),
        (" P2Y", "no length of time", "P2Y"),
        ("P2Y\n", "no length of time", "P2Y"),
        ("P1.5Y", "fraction", "P1Y6M"),
        ("P0,5Y", "fraction", "P6M"),
        ("P", "no length of time", "P2Y for two years"),
        ("", "no length of time", "P2Y for two years"),
        ("P2", "no length of time", "P2Y for two years"),
        ("PT5H", "time of day", "P2Y for two years"),
        ("P1DT5H", "time of day", "P2Y for two years"),
        ("P6M2Y", "no length of time", "P2Y for two years"),
        ("-P2Y", "no length of time", "P2Y for two years"),
        ("P\uff12Y", "no length of time", "P2Y"),
        ("1951", "no length of time", "P2Y for two years"),
    ],
)
def test_refused(text: str, says: str, instead: str) -> None:
    with pytest.raises(DateProblem) as problem:
        read_duration(text)
    assert says in problem.value.what
    assert problem.value.instead is not None
    assert problem.value.instead.startswith(instead)


def test_longer_than_the_calendar() -> None:
    with pytest.raises(DateProblem, match="longer than"):
        read_duration("P99999Y")
    assert read_duration("P9998Y").years == 9998


def test_ranges() -> None:
    assert read_duration_range("P3Y/P5Y") == (read_duration("P3Y"), read_duration("P5Y"))
    assert read_duration_range("P3Y") == (read_duration("P3Y"), read_duration("P3Y"))
    assert read_duration_range("P11M/P1Y")[1].years == 1
    with pytest.raises(DateProblem) as problem:
        read_duration_range("P5Y/P3Y")
    assert problem.value.instead == "P3Y/P5Y"
    for text in ("P3Y/", "/P3Y", "P3Y/P4Y/P5Y", "3/5"):
        with pytest.raises(DateProblem):
            read_duration_range(text)
