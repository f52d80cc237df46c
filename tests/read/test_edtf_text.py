"""Dates as curators write them: the readings of the house."""

from __future__ import annotations

from datetime import date

import pytest

from archive_tools.model.dates import DatePolicy, DateProblem, Duration, Span
from archive_tools.read.edtf_text import (
    read_date,
)

NORTH = DatePolicy("north")
SOUTH = DatePolicy("south")
UNSAID = DatePolicy("")


def bounds(text: str, policy: DatePolicy = NORTH) -> tuple[str | None, str | None]:
    when = read_date(text, policy)
    return (
        when.earliest.isoformat() if when.earliest else None,
        when.latest.isoformat() if when.latest else None,
    )


@pytest.mark.parametrize(
    ("text", "earliest", "latest"),
    [
        ("1951", "1951-01-01", "1951-12-31"),
        ("1951-03", "1951-03-01", "1951-03-31"),
        ("1948-02", "1948-02-01", "1948-02-29"),
        ("1951-03-12", "1951-03-12", "1951-03-12"),
        ("1951~", "1949-01-01", "1953-12-31"),
        ("~1951", "1949-01-01", "1953-12-31"),
        ("1971~", "1969-01-01", "1973-12-31"),
        ("1948-02~", "1948-01-01", "1948-03-31"),
        ("1951-01~", "1950-12-01", "1951-02-28"),  # a month shorter than the one it is counted from
        ("1951-03-12~", "1951-03-09", "1951-03-15"),
        ("1951?", "1951-01-01", "1951-12-31"),
        ("1951%", "1949-01-01", "1953-12-31"),
        ("196X", "1960-01-01", "1969-12-31"),
        ("196X~", "1955-01-01", "1974-12-31"),
        ("19XX", "1900-01-01", "1999-12-31"),
        ("19XX~", "1875-01-01", "2024-12-31"),
        ("1951-21~", "1951-01-01", "1951-07-31"),
        ("1951~-21", "1949-01-01", "1953-12-31"),
        ("1951-~21", "1951-01-01", "1951-07-31"),
        ("1951-34~", "1951-02-01", "1951-08-31"),
        ("195X~-06", "1945-01-01", "1964-12-31"),
        ("195X-21", "1950-03-01", "1959-05-31"),
        ("../1951", None, "1951-12-31"),
        ("/1951", None, "1951-12-31"),
        ("1951/", "1951-01-01", None),
        ("1951/..", "1951-01-01", None),
        ("1951/1953", "1951-01-01", "1953-12-31"),
        ("1951~/1953", "1949-01-01", "1953-12-31"),
        ("1951/1953~", "1951-01-01", "1955-12-31"),
        ("195X/196X", "1950-01-01", "1969-12-31"),
        ("1951-21~/1952", "1951-01-01", "1952-12-31"),
        ("1951-25/1951-27", "1951-03-01", "1951-11-30"),
        ("[1951,1953]", "1951-01-01", "1953-12-31"),
        ("[1951~,1953]", "1949-01-01", "1953-12-31"),
        ("[1953,1951-21]", "1951-03-01", "1953-12-31"),
        ("[1951..1953,1960]", "1951-01-01", "1960-12-31"),
        ("1985-10-05T14:30:00", "1985-10-05", "1985-10-05"),
        ("1985-10-05T00:00:00", "1985-10-05", "1985-10-05"),
        ("1985-1X", "1985-10-01", "1985-12-31"),
        ("1985-0X", "1985-01-01", "1985-09-30"),
        ("1985-X2", "1985-02-01", "1985-12-31"),
        ("1985-02-XX", "1985-02-01", "1985-02-28"),
        ("1984-02-XX", "1984-02-01", "1984-02-29"),
        ("1985-XX-31", "1985-01-31", "1985-12-31"),
        ("19XX-02-29", "1904-02-29", "1996-02-29"),
        ("19X5", "1905-01-01", "1995-12-31"),
        ("1984-02-29", "1984-02-29", "1984-02-29"),
        ("2000-02-29", "2000-02-29", "2000-02-29"),
        ("0001", "0001-01-01", "0001-12-31"),
        ("0001~", None, "0003-12-31"),
        ("9999~", "9997-01-01", None),
        ("00XX", "0001-01-01", "0099-12-31"),
        ("9999-36", "9999-10-01", "9999-12-31"),
        ("9999-28", "9999-12-01", None),
        ("1951-03-12/1951-03-12", "1951-03-12", "1951-03-12"),
        ("1951-06/1951", "1951-06-01", "1951-12-31"),
        # marks that the library refuses together, or together with unspecified digits
        ("2004~-06~-11", "2002-01-01", "2006-12-31"),
        ("2004?-06~-11", "2002-01-01", "2006-12-31"),
        ("2004-06~-~11", "2004-06-08", "2004-06-14"),
        ("195X-06~-11", "1945-01-01", "1964-12-31"),
        ("195X-06-~11", "1950-06-08", "1959-06-14"),
    ],
)
def test_readings(text: str, earliest: str | None, latest: str | None) -> None:
    assert bounds(text) == (earliest, latest)


@pytest.mark.parametrize("text", ["1985-02-3X", "1985-02-3X/1986", "190X-02-30", "1985-0X-32", "1985-2X"])
def test_digits_that_no_day_fits(text: str) -> None:
    with pytest.raises(DateProblem, match="fit"):
        read_date(text, NORTH)


@pytest.mark.parametrize(
    ("code", "north", "south"),
    [
        (21, ("1951-03-01", "1951-05-31"), ("1951-09-01", "1951-11-30")),
        (22, ("1951-06-01", "1951-08-31"), ("1951-12-01", "1952-02-29")),
        (23, ("1951-09-01", "1951-11-30"), ("1951-03-01", "1951-05-31")),
        (24, ("1951-12-01", "1952-02-29"), ("1951-06-01", "1951-08-31")),
    ],
)
def test_seasons_follow_the_hemisphere(code: int, north: tuple[str, str], south: tuple[str, str]) -> None:
    """A season that crosses New Year belongs to the year in which it begins."""
    assert bounds(f"1951-{code}", NORTH) == north
    assert bounds(f"1951-{code}", SOUTH) == south
    assert bounds(f"1951-{code + 4}", SOUTH) == north
    assert bounds(f"1951-{code + 8}", NORTH) == south


def test_a_season_without_a_hemisphere_is_no_silent_guess() -> None:
    with pytest.raises(DateProblem) as problem:
        read_date("1951-24", UNSAID)
    assert "hemisphere" in problem.value.what
    assert problem.value.instead is not None
    assert "1951-28" in problem.value.instead
    assert "1951-32" in problem.value.instead
    assert bounds("1951-34", UNSAID) == ("1951-04-01", "1951-06-30")


def test_margins_are_the_collections_own() -> None:
    own = DatePolicy("north", (("year", Duration(1, 0, 0, "P1Y")), ("month", Duration(0, 0, 10, "P10D"))))
    assert bounds("1951~", own) == ("1950-01-01", "1952-12-31")
    # ten days before and after June reach into May and July, and whole months are counted
    assert bounds("1951-06~", own) == ("1951-05-01", "1951-07-31")
    assert bounds("1951-06-12~", own) == ("1951-06-09", "1951-06-15")  # not set: the default


def test_flags_and_helpers() -> None:
    assert read_date("1951-03-12", NORTH).one_day == date(1951, 3, 12)
    assert read_date("1951-03-12~", NORTH).one_day is None
    assert read_date("1951-03~", NORTH).one_year == 1951
    assert read_date("1951~", NORTH).one_year is None
    assert read_date("1951~", NORTH).years == (1951, 1951)
    assert read_date("1951/..", NORTH).years == (1951, None)
    assert read_date("[1951?,1953]", NORTH).uncertain
    assert read_date("1951/1953%", NORTH).approximate
    assert not read_date("1951/1953", NORTH).approximate
    assert read_date("[1951,1953]", NORTH).parts == (
        Span(date(1951, 1, 1), date(1951, 12, 31)),
        Span(date(1953, 1, 1), date(1953, 12, 31)),
    )
