"""Dates read by hand, by the library and by trying every day: the same days each way."""

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
    st.tuples(st.one_of(plain_singles, st.sampled_from(["", ".."])), st.just("/"), plain_singles).map("".join),
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


@pytest.mark.parametrize(
    ("text", "year", "month", "day"),
    [
        ("2004-06~-11", "~", "~", ""),
        ("2004?-06-11", "?", "", ""),
        ("?2004-06-~11", "?", "", "~"),
        ("2004-%06-11", "", "%", ""),
        ("2004-06-11~", "~", "~", "~"),
        ("~2004-?06", "~", "?", ""),
        ("2004?-~06-11", "?", "~", ""),
    ],
)
def test_marks_by_pattern_and_by_library(text: str, year: str, month: str, day: str) -> None:
    matched = _MARKED.fullmatch(text)
    assert matched is not None
    for parts in (_from_pattern(matched), _from_library(text, _ask_library(text))):
        assert (parts.year_mark, parts.month_mark, parts.day_mark if parts.day else "") == (year, month, day)


@pytest.mark.parametrize("text", ["2001-21^N", "1985S00", "[1951,..1953]", "[1951..,1953]", "[1951,,1953]"])
def test_what_a_library_may_overlook_is_refused(text: str) -> None:
    with pytest.raises(DateProblem):
        read_date(text, NORTH)


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
    assert read_date(text, NORTH).said == Span(date.fromisoformat(fitting[0]), date.fromisoformat(fitting[-1]))


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
