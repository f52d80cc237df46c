"""Every example of the EDTF specification, accepted with its days or refused for a stated reason.

Published source: Library of Congress, Extended Date/Time Format (EDTF) Specification, 4 February 2019,
levels 0, 1 and 2. The list of examples and their meanings are from memory of that page; the days follow
from the meanings by the calendar. The standard gives `~` no width: the margins are the default policy
(P3D, P1M, P2M, P2Y, P5Y, P25Y), and "about" columns test that policy, not the standard.
"""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

import pytest

from archive_tools.model.dates import DatePolicy, DateProblem, Span
from archive_tools.read.edtf_text import _read_by_library, read_date

NORTH = DatePolicy("north")


class Accepted(NamedTuple):
    """`first` and `last` are what the words say ("" is no bound); `marks` are ~ and ? as they apply."""

    text: str
    first: str
    last: str
    precision: str
    marks: str = ""


LEVEL_0 = [
    Accepted("1985-04-12", "1985-04-12", "1985-04-12", "day"),
    Accepted("1985-04", "1985-04-01", "1985-04-30", "month"),
    Accepted("1985", "1985-01-01", "1985-12-31", "year"),
    Accepted("1985-04-12T23:20:30", "1985-04-12", "1985-04-12", "day"),
    Accepted("1985-04-12T23:20:30Z", "1985-04-12", "1985-04-12", "day"),
    Accepted("1985-04-12T23:20:30-04", "1985-04-12", "1985-04-12", "day"),
    Accepted("1985-04-12T23:20:30+04:30", "1985-04-12", "1985-04-12", "day"),
    Accepted("1964/2008", "1964-01-01", "2008-12-31", "interval"),
    Accepted("2004-06/2006-08", "2004-06-01", "2006-08-31", "interval"),
    Accepted("2004-02-01/2005-02-08", "2004-02-01", "2005-02-08", "interval"),
    Accepted("2004-02-01/2005-02", "2004-02-01", "2005-02-28", "interval"),
    Accepted("2004-02-01/2005", "2004-02-01", "2005-12-31", "interval"),
    Accepted("2005/2006-02", "2005-01-01", "2006-02-28", "interval"),
]

LEVEL_1 = [
    Accepted("2001-21", "2001-03-01", "2001-05-31", "season"),
    Accepted("1984?", "1984-01-01", "1984-12-31", "year", "?"),
    Accepted("2004-06~", "2004-06-01", "2004-06-30", "month", "~"),
    Accepted("2004-06-11%", "2004-06-11", "2004-06-11", "day", "~?"),
    Accepted("201X", "2010-01-01", "2019-12-31", "decade"),
    Accepted("20XX", "2000-01-01", "2099-12-31", "century"),
    Accepted("2004-XX", "2004-01-01", "2004-12-31", "month"),
    Accepted("1985-04-XX", "1985-04-01", "1985-04-30", "day"),
    Accepted("1985-XX-XX", "1985-01-01", "1985-12-31", "day"),
    Accepted("1985-04-12/..", "1985-04-12", "", "interval"),
    Accepted("1985-04/..", "1985-04-01", "", "interval"),
    Accepted("1985/..", "1985-01-01", "", "interval"),
    Accepted("../1985-04-12", "", "1985-04-12", "interval"),
    Accepted("../1985-04", "", "1985-04-30", "interval"),
    Accepted("../1985", "", "1985-12-31", "interval"),
    Accepted("1985-04-12/", "1985-04-12", "", "interval"),
    Accepted("1985-04/", "1985-04-01", "", "interval"),
    Accepted("1985/", "1985-01-01", "", "interval"),
    Accepted("/1985-04-12", "", "1985-04-12", "interval"),
    Accepted("/1985-04", "", "1985-04-30", "interval"),
    Accepted("/1985", "", "1985-12-31", "interval"),
]

LEVEL_2 = [
    Accepted("2001-34", "2001-04-01", "2001-06-30", "season"),
    Accepted("[1667,1668,1670..1672]", "1667-01-01", "1672-12-31", "set"),
    Accepted("[..1760-12-03]", "", "1760-12-03", "set"),
    Accepted("[1760-12..]", "1760-12-01", "", "set"),
    Accepted("[1760-01,1760-02,1760-12..]", "1760-01-01", "", "set"),
    Accepted("[1667,1760-12]", "1667-01-01", "1760-12-31", "set"),
    Accepted("[..1984]", "", "1984-12-31", "set"),
    Accepted("2004-06~-11", "2004-06-11", "2004-06-11", "day", "~"),
    Accepted("2004?-06-11", "2004-06-11", "2004-06-11", "day", "?"),
    Accepted("?2004-06-~11", "2004-06-11", "2004-06-11", "day", "~?"),
    Accepted("2004-%06-11", "2004-06-11", "2004-06-11", "day", "~?"),
    Accepted("156X-12-25", "1560-12-25", "1569-12-25", "day"),
    Accepted("15XX-12-25", "1500-12-25", "1599-12-25", "day"),
    # "some day in December in some year": read, though without a year there is nothing to reason with
    Accepted("XXXX-12-XX", "", "", "day"),
    Accepted("1XXX-XX", "1000-01-01", "1999-12-31", "month"),
    Accepted("1XXX-12", "1000-12-01", "1999-12-31", "month"),
    Accepted("1984-1X", "1984-10-01", "1984-12-31", "month"),
    Accepted("2004-06-~01/2004-06-~20", "2004-06-01", "2004-06-20", "interval", "~"),
    Accepted("2004-06-XX/2004-07-03", "2004-06-01", "2004-07-03", "interval"),
]

OUTSIDE_YEARS = "outside the years 0001 to 9999"
ALL_OF_THEM = "means all of these dates"
SIGNIFICANT = "significant digits"

REFUSED = [
    # levels 1 and 2: valid EDTF, which the house does not use
    ("Y170000002", OUTSIDE_YEARS),
    ("Y-170000002", OUTSIDE_YEARS),
    ("-1985", OUTSIDE_YEARS),
    ("Y-17E7", OUTSIDE_YEARS),
    ("Y171010000S3", OUTSIDE_YEARS),
    ("Y3388E2S3", OUTSIDE_YEARS),
    ("1950S2", SIGNIFICANT),
    ("{1667,1668,1670..1672}", ALL_OF_THEM),
    ("{1960,1961-12}", ALL_OF_THEM),
    ("{..1984}", ALL_OF_THEM),
]


def day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None


@pytest.mark.parametrize("row", LEVEL_0 + LEVEL_1 + LEVEL_2, ids=lambda row: row.text)
def test_accepted_with_its_days(row: Accepted) -> None:
    when = read_date(row.text, NORTH)
    assert when.said == Span(day(row.first), day(row.last))
    assert when.precision == row.precision
    assert when.approximate == ("~" in row.marks)
    assert when.uncertain == ("?" in row.marks)
    assert when.text == row.text
    if not when.approximate:
        assert (when.earliest, when.latest) == (when.said.first, when.said.last)


@pytest.mark.parametrize(("text", "reason"), REFUSED)
def test_refused_for_a_stated_reason(text: str, reason: str) -> None:
    with pytest.raises(DateProblem) as problem:
        read_date(text, NORTH)
    assert reason in problem.value.what
    assert text in problem.value.what


@pytest.mark.parametrize(
    ("text", "says"),
    [
        # the rules of the same page; reasons in our words
        (" 1985", "space"),
        ("1985 ", "space"),
        ("1985\n", "line break"),
        ("1985 -04", "no spaces"),
        ("1985-04 / 1986", "no spaces"),
        ("[1667, 1668]", "no spaces"),
        ("20050924T100000", "written in full"),
        ("19850412", "no date"),
        ("199u", "capital X"),
        ("199x", "capital X"),
        ("1985/open", "open end"),
        ("unknown/1985", "open end"),
        ("(2011)-06-04~", "parentheses"),
        ("2016-13-08", "no month 13"),
        ("2016-02-39", "February 2016 had 29 days"),
        ("1960-06-31", "June 1960 had 30 days"),
        ("1983-02-29", "not a leap year"),
        ("1900-02-29", "not a leap year"),
        ("1985-00", "no month 00"),
        ("1985-04-00", "no day 00"),
        ("1985-42", "no month 42"),
        ("0000", OUTSIDE_YEARS),
        ("1985-102", "no date"),
        ("1985-W15", "no date"),
        ("P1Y", "length of time"),
        ("1985/P1Y", "length of time"),
        ("2001-21-05", "day in a season"),
        ("2001-21^southernHemisphere", "no date"),
        ("2008/1964", "ends before it begins"),
        ("2004-06-11/2004-06-10", "ends before it begins"),
        ("2004/2003-12-31", "ends before it begins"),
        ("[1672..1670]", "ends before it begins"),
        ("\uff11\uff19\uff18\uff15", "digits of another script"),
        ("198\u0665", "digits of another script"),
        ("1985T23:20:30", "written in full"),
        ("1985-04T23:20:30", "written in full"),
        ("1985-04-12T23:20", "written in full"),
        ("1985-04-12T25:20:30", "written in full"),
        ("1985-04-12T23:20:30/1986", "time of day"),
        ("1985~?", "no date"),
        ("1985/Today", "no date"),
        ("1" * 5000, "no date"),
        ("85", "no date"),
        ("", "empty"),
    ],
)
def test_refused_by_the_rules(text: str, says: str) -> None:
    with pytest.raises(DateProblem) as problem:
        read_date(text, NORTH)
    assert says in problem.value.what


def test_unknown_and_open_ends_differ() -> None:
    unknown, open_end = read_date("1985/", NORTH), read_date("1985/..", NORTH)
    assert (unknown.unknown_end, unknown.open_end) == (True, False)
    assert (open_end.unknown_end, open_end.open_end) == (False, True)
    unknown, open_start = read_date("/1985", NORTH), read_date("../1985", NORTH)
    assert (unknown.unknown_start, unknown.open_start) == (True, False)
    assert (open_start.unknown_start, open_start.open_start) == (False, True)
    assert read_date("[1760-12..]", NORTH).open_end
    assert read_date("[..1984]", NORTH).open_start


def test_unspecified_days_keep_day_precision() -> None:
    """`1985-XX-XX` and `1985` cover the same days, and say them with different precision."""
    by_day, by_year = read_date("1985-XX-XX", NORTH), read_date("1985", NORTH)
    assert by_day.said == by_year.said
    assert (by_day.precision, by_year.precision) == ("day", "year")


def test_sets_keep_their_holes() -> None:
    years = read_date("[1667,1668,1670..1672]", NORTH)
    assert years.parts == (
        Span(date(1667, 1, 1), date(1667, 12, 31)),
        Span(date(1668, 1, 1), date(1668, 12, 31)),
        Span(date(1670, 1, 1), date(1672, 12, 31)),
    )
    assert not any(part.holds(date(1669, 6, 1)) for part in years.parts)


@pytest.mark.parametrize(
    ("individual", "group"),
    [
        # "qualification from the left" on every component is the qualification of the whole
        ("?2004-?06-?11", "2004-06-11?"),
        ("~2004-~06-~11", "2004-06-11~"),
        ("%2004-%06", "2004-06%"),
        ("~2004-~06-11", "2004-06~-11"),
        ("?2004-06-11", "2004?-06-11"),
    ],
)
def test_marks_before_and_after_a_component(individual: str, group: str) -> None:
    one, other = read_date(individual, NORTH), read_date(group, NORTH)
    assert (one.earliest, one.latest, one.said) == (other.earliest, other.latest, other.said)
    assert (one.approximate, one.uncertain) == (other.approximate, other.uncertain)


@pytest.mark.parametrize(
    ("text", "earliest", "latest"),
    [
        # the standard gives no width; these are the default margins of the house
        ("2004-06~", "2004-05-01", "2004-07-31"),
        ("2004-06-11%", "2004-06-08", "2004-06-14"),
        ("2004-06~-11", "2002-01-01", "2006-12-31"),  # year and month approximate: the year decides
        ("2004-06-~11", "2004-06-08", "2004-06-14"),  # the day only
        ("?2004-06-~11", "2004-06-08", "2004-06-14"),
        ("2004-%06-11", "2004-05-01", "2004-07-31"),
        ("2004-06-~01/2004-06-~20", "2004-05-29", "2004-06-23"),
    ],
)
def test_about_by_the_policy_of_the_house(text: str, earliest: str, latest: str) -> None:
    when = read_date(text, NORTH)
    assert (when.earliest, when.latest) == (day(earliest), day(latest))


@pytest.mark.parametrize(
    ("codes", "months"),
    [
        # codes 21-41 of level 2 (ISO 8601-2:2019, 4.8): northern and southern seasons say so themselves
        (range(25, 29), [(3, 5), (6, 8), (9, 11), (12, 2)]),
        (range(29, 33), [(9, 11), (12, 2), (3, 5), (6, 8)]),
        (range(33, 37), [(1, 3), (4, 6), (7, 9), (10, 12)]),
        (range(37, 40), [(1, 4), (5, 8), (9, 12)]),
        (range(40, 42), [(1, 6), (7, 12)]),
    ],
)
@pytest.mark.parametrize("hemisphere", ["north", "south", ""])
def test_parts_of_a_year(codes: range, months: list[tuple[int, int]], hemisphere: str) -> None:
    for code, (first, last) in zip(codes, months, strict=True):
        when = read_date(f"2001-{code}", DatePolicy(hemisphere))
        assert when.said.first is not None
        assert when.said.last is not None
        assert (when.said.first.year, when.said.first.month, when.said.first.day) == (2001, first, 1)
        assert when.said.last.month == last
        assert when.said.last.year == (2002 if last < first else 2001)
        assert (when.said.last.month, when.said.last.day) in {
            (2, 28), (3, 31), (4, 30), (5, 31), (6, 30), (8, 31), (9, 30), (11, 30), (12, 31)
        }  # fmt: skip


def test_the_library_path_reads_every_example_alone() -> None:
    """The plain path is only a short cut: without it, every example comes out the same."""
    for row in LEVEL_0 + LEVEL_1 + LEVEL_2:
        assert _read_by_library(row.text, NORTH) == read_date(row.text, NORTH), row.text
