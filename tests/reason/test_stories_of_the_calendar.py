"""Vague dates, lapses of time and the ends of the calendar, worked out by hand with a calendar first."""

from __future__ import annotations

from datetime import date

import pytest

from tests.making import event
from tests.reason.chronology_asking import (
    CARE,
    ORIGIN,
    REPORTED,
    after,
    age,
    before,
    days,
    event_days,
    rings,
    said,
    shown,
    solved,
    stated,
)

# Dates, ages, as-of ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("as_of", "years"), [(date(2026, 2, 28), 25), (date(2026, 3, 1), 26), (date(2028, 2, 29), 28)])
def test_a_birthday_on_29_february_completes_on_1_march(as_of, years) -> None:
    assert age(solved(event("sown", "2000-02-29"), as_of=as_of), ORIGIN) == (years, years)


def test_what_is_dated_after_as_of_is_evidence_and_its_age_is_nought() -> None:
    found = solved(event("potted", "2027"))
    assert days(found, CARE) == ("2027-01-01", "2027-12-31")
    assert age(found, CARE) == (0, 0)


def test_later_evidence_bounds_an_earlier_as_of() -> None:
    assert days(solved(event("pruned", "2020"), as_of=date(2010, 1, 1)), CARE) == (None, "2020-12-31")


def test_a_southern_season_is_read_by_its_code() -> None:
    """31 is a southern autumn: March to May."""
    assert days(solved(event("potted", "1951-31")), CARE) == ("1951-03-01", "1951-05-31")


def test_a_set_of_years_gives_its_hull() -> None:
    assert days(solved(event("potted", "[1951,1953]")), CARE) == ("1951-01-01", "1953-12-31")


def test_the_first_and_the_last_day_of_the_horizon_are_no_bounds() -> None:
    assert days(solved(event("sown", "0001/1950")), ORIGIN) == (None, "1950-12-31")


# Lapses of time -------------------------------------------------------------------------------------------------------


def test_a_month_after_31_january_is_1_march() -> None:
    found = solved(event("struck", "2001-01-31", id="s"), event("potted", id="p", timing=(after("s", "P1M"),)))
    assert event_days(found, "p") == ("2001-03-01", None)


def test_going_back_a_month_from_1_march_reaches_the_days_february_lacks() -> None:
    found = solved(event("potted", "2001-03-01", id="p"), event("struck", id="s", timing=(before("p", "P1M", "P1M"),)))
    assert event_days(found, "s") == ("2001-01-29", "2001-02-01")


def test_after_without_a_length_is_only_an_order() -> None:
    found = solved(event("pruned", "1960", id="a"), event("wired", "1955/1965", id="b", timing=(after("a"),)))
    assert event_days(found, "b") == ("1960-01-01", "1965-12-31")
    assert event_days(found, "a") == ("1960-01-01", "1960-12-31")


def test_at_most_ten_days_before() -> None:
    found = solved(
        event("potted", "1960-05-20", id="p"), event("collected", id="c", timing=(before("p", None, "P10D"),))
    )
    assert event_days(found, "c") == ("1960-05-10", "1960-05-20")


def test_a_chain_of_lapses_adds_up() -> None:
    found = solved(
        event("struck", "1951-04-01", id="s"),
        event("potted", id="p", timing=(after("s", "P2Y", "P3Y"),)),
        event("styled", id="y", timing=(after("p", "P6M", "P1Y"),)),
    )
    assert event_days(found, "y") == ("1953-10-01", "1955-04-01")


def test_a_photograph_may_be_dated_by_a_lapse_alone() -> None:
    found = solved(event("potted", "1960-05-20", id="p"), photos=(shown(None, timing=(before("p", "P1D", "P1Y"),)),))
    assert days(found, CARE) == (None, "1960-05-19")


def test_what_lasts_ends_after_it_began() -> None:
    found = solved(event("wired", "1990/1995", until="1992-03", id="w"))
    assert event_days(found, "w") == ("1990-01-01", "1992-03-31")


# Ends of the calendar, and what nothing else bounds -------------------------------------------------------------------


def test_more_rings_than_there_are_years_in_the_calendar_cannot_be() -> None:
    found = solved(event("observed", "0050", rings=rings(100)))
    assert [{s.says for s in c.statements} for c in found.contradictions] == [
        {"observed 0050", "100 rings counted (observed 0050)"}
    ]


def test_an_open_beginning_after_as_of_is_not_clipped() -> None:
    found = solved(event("potted", "2030/..", id="p"))
    assert event_days(found, "p") == ("2030-01-01", None)
    assert age(found, CARE) == (None, 0)


def test_a_stated_age_before_every_recorded_beginning_is_left_out_with_all_of_them() -> None:
    """Begun in 1953 and again in 1955; said in 1960 to be over 50 years in training. Either date alone would not do."""
    found = solved(
        event("training begun", "1953", id="a"),
        event("training begun", "1955", id="b"),
        event("published", "1960", states_age=stated(CARE, 50, None, "1960")),
    )
    named = {"training begun 1953", "training begun 1955", "published: “at least 50 years” of care, 1960"}
    assert [{s.says for s in c.statements} for c in found.contradictions] == [named]
    assert days(found, CARE, REPORTED) == ("1953-01-01", "1953-12-31")


def test_rings_of_a_day_that_only_a_lapse_bounds_give_no_year_to_say() -> None:
    found = solved(event("pruned", "2000", id="p"), event("observed", id="o", rings=rings(30), timing=(before("p"),)))
    assert days(found, ORIGIN) == (None, "1971-12-31")
    assert said(found, ORIGIN) == "Growing since 1971 or earlier"


def test_what_lasted_is_evidence_of_a_year_that_holds_all_its_days() -> None:
    """Wired some time in 1990 until some time in 1990: it may begin after it could end, but not outside the year."""
    found = solved(event("potted", "1989"), event("wired", "1990", until="1990"), as_of=date(1990, 12, 31))
    assert found.evidence_share == 1.0


def test_what_lasted_from_one_vague_time_to_another_is_evidence_of_no_year() -> None:
    found = solved(event("potted", "1989"), event("wired", "1990/1994", until="1991/1993"), as_of=date(1995, 12, 31))
    assert found.evidence_share == pytest.approx(1 / 7)


def test_what_lasted_until_after_a_death_contradicts_it() -> None:
    found = solved(event("on display", "1990", until="1995"), event("died", "1993"))
    assert {s.says for s in found.contradictions[0].statements} == {"on display until 1995", "died 1993"}
