"""Dates as curators write them: the readings of the house, and both paths against each other."""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.model.dates import DatePolicy, DateProblem, Duration, Span, WhenWritten
from archive_tools.read.edtf_text import (
    _MARKED,
    _ask_library,
    _from_library,
    _from_pattern,
    _read_by_library,
    _read_plain,
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


# -- readings ---------------------------------------------------------------------------------------


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


# -- properties -------------------------------------------------------------------------------------

marks = st.sampled_from(["", "~", "?", "%"])
years = st.integers(0, 9999).map("{:04}".format)
two_digits = st.integers(0, 42).map("{:02}".format)
plain_singles = st.one_of(
    st.tuples(years, marks).map("".join),
    st.tuples(years, st.just("-"), two_digits, marks).map("".join),
    st.tuples(years, st.just("-"), two_digits, st.just("-"), two_digits, marks).map("".join),
    st.tuples(st.integers(0, 999).map("{:03}X".format), marks).map("".join),
    st.tuples(st.integers(0, 99).map("{:02}XX".format), marks).map("".join),
)
plain_texts = st.one_of(
    plain_singles,
    st.tuples(st.one_of(plain_singles, st.sampled_from(["", ".."])), st.just("/"), plain_singles).map(
        "".join
    ),
    st.tuples(plain_singles, st.sampled_from(["/", "/.."])).map("".join),
)
policies = st.sampled_from([NORTH, SOUTH, UNSAID, DatePolicy("north", (("year", Duration(0, 7, 0, "P7M")),))])


def outcome(reading: object, *arguments: object) -> object:
    try:
        return reading(*arguments)  # type: ignore[operator]
    except DateProblem as problem:
        return (problem.what, problem.instead)


@settings(max_examples=400, deadline=None)
@given(plain_texts, policies)
def test_both_paths_read_the_same(text: str, policy: DatePolicy) -> None:
    plain = outcome(_read_plain, text, policy)
    if plain is not None:
        assert plain == outcome(_read_by_library, text, policy)


def test_the_plain_path_takes_the_plain_forms() -> None:
    """Otherwise the property above would hold of nothing."""
    for text in (
        "1951",
        "1951-03~",
        "1951-03-12?",
        "195X%",
        "19XX",
        "1951-21",
        "1951/1953~",
        "../1951",
        "1951/",
    ):
        assert isinstance(_read_plain(text, NORTH), WhenWritten), text


def digits(pattern: str) -> st.SearchStrategy[str]:
    """Two digits or X, drawn from what fits `pattern` loosely."""
    return st.from_regex(pattern, fullmatch=True)


components = st.tuples(
    marks, digits("(19|20|1X|X9)[0-9X][0-9X]"), marks,
    st.one_of(st.just(""), st.tuples(
        st.just("-"), marks, digits("0[1-9X]|1[012X]|X[0-9X]"), marks,
        st.one_of(st.just(""), st.tuples(st.just("-"), marks, digits("[0-3X][01X]"), marks).map("".join)),
    ).map("".join)),
).map("".join)  # fmt: skip


@settings(max_examples=400, deadline=None)
@given(components)
def test_the_pattern_takes_dates_apart_as_the_library_does(text: str) -> None:
    found = _ask_library(text)
    matched = _MARKED.fullmatch(text)
    assert matched is not None
    if found is not None:
        one, other = _from_library(text, found), _from_pattern(matched)
        assert one.bare == other.bare
        assert one.year_mark == other.year_mark
        if one.month:
            assert one.month_mark == other.month_mark
        if one.day:
            assert one.day_mark == other.day_mark


DAYS_OF_A_CENTURY = " ".join((date(1900, 1, 1) + timedelta(days=n)).isoformat() for n in range(36525))


@settings(max_examples=150, deadline=None)
@given(digits("19[0-9X]{2}"), digits("[01X][0-9X]"), digits("[0-3X][0-9X]"))
def test_unspecified_digits_by_trying_every_day(year: str, month: str, day: str) -> None:
    """The bounds are the first and last of all days of the century whose digits fit."""
    text = f"{year}-{month}-{day}"
    fitting = re.findall(text.replace("X", "[0-9]"), DAYS_OF_A_CENTURY)
    if not fitting:
        with pytest.raises(DateProblem):
            read_date(text, NORTH)
        return
    assert read_date(text, NORTH).said == Span(
        date.fromisoformat(fitting[0]), date.fromisoformat(fitting[-1])
    )


@settings(max_examples=200, deadline=None)
@given(plain_texts, policies)
def test_about_only_ever_widens(text: str, policy: DatePolicy) -> None:
    when = outcome(read_date, text, policy)
    if isinstance(when, WhenWritten):
        if when.earliest is not None:
            assert when.said.first is not None
            assert when.earliest <= when.said.first
        if when.latest is not None:
            assert when.said.last is not None
            assert when.latest >= when.said.last
        assert when.approximate or (when.earliest, when.latest) == (when.said.first, when.said.last)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=12) | st.text("0123456789X-/.~?%[]{},TZ:+ESY uc", max_size=16))
def test_any_text_is_read_or_refused_with_a_reason(text: str) -> None:
    try:
        when = read_date(text, NORTH)
    except DateProblem as problem:
        assert problem.what
        assert problem.what.isprintable()
    else:
        assert when.text == text
        assert text.isascii()


def test_nothing_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    """The library prints what it stumbles over; standard output is for results."""
    for text in ("1984-1X", "1985-X13", "1985S21?-0402", "/.."):
        outcome(read_date, text, DatePolicy("north", (("day", Duration(0, 0, 9, "P9D")),)))
    assert capsys.readouterr().out == ""
