"""When a tree came to stay, how it ended, and the years nobody wrote of: each worked out by hand first."""

from __future__ import annotations

from datetime import date

import pytest

from tests.making import HOUSE, event
from tests.reason.chronology_asking import (
    ARRIVAL,
    UNSOURCED,
    before,
    days,
    ends,
    event_days,
    rings,
    shown,
    solved,
)

# The present stay -----------------------------------------------------------------------------------------------------


def test_a_loan_begins_the_stay_and_a_later_gift_keeps_it() -> None:
    found = solved(event("loan", "1994", to=HOUSE), event("gift", "1996", to=HOUSE))
    assert days(found, ARRIVAL) == ("1994-01-01", "1994-12-31")


def test_sold_and_bought_back_the_present_stay_counts() -> None:
    found = solved(
        event("gift", "1980", to=HOUSE), event("sold", "2000", from_=HOUSE), event("purchase", "2005", to=HOUSE)
    )
    assert days(found, ARRIVAL) == ("2005-01-01", "2005-12-31")


def test_given_away_and_never_back_there_is_no_stay() -> None:
    found = solved(event("gift", "1980", to=HOUSE), event("given away", "2000", from_=HOUSE))
    assert days(found, ARRIVAL) == (None, None)


def test_before_it_was_given_away_the_stay_was_still_present() -> None:
    events = (event("gift", "1980", to=HOUSE), event("given away", "2000", from_=HOUSE))
    assert days(solved(*events, as_of=date(1999, 12, 31)), ARRIVAL) == ("1980-01-01", "1980-12-31")


def test_an_arrival_after_as_of_does_not_count() -> None:
    assert days(solved(event("gift", "2028", to=HOUSE)), ARRIVAL) == (None, None)


def test_a_loan_that_ended_is_no_stay_until_the_next_arrival() -> None:
    lent = event("loan", "1990", until="1995", to=HOUSE)
    assert days(solved(lent), ARRIVAL) == (None, None)
    assert days(solved(lent, event("gift", "1999", to=HOUSE)), ARRIVAL) == ("1999-01-01", "1999-12-31")


def test_a_loan_that_ran_on_after_the_gift_keeps_the_arrival() -> None:
    found = solved(event("loan", "1990", until="1995", to=HOUSE), event("gift", "1993", to=HOUSE))
    assert days(found, ARRIVAL) == ("1990-01-01", "1990-12-31")


def test_where_dates_leave_it_open_the_order_written_decides() -> None:
    """Given, given away and bought in one year: the purchase follows the departure of 1 June."""
    found = solved(
        event("gift", "1990", to=HOUSE, id="g"),
        event("given away", "1990-06-01", from_=HOUSE, id="a"),
        event("purchase", "1990", to=HOUSE, id="p"),
    )
    assert days(found, ARRIVAL) == ("1990-06-01", "1990-12-31")


def test_a_timing_overrules_the_order_written() -> None:
    found = solved(
        event("given away", "1990-06-01", from_=HOUSE, id="a"),
        event("gift", "1990", to=HOUSE, id="g", timing=(before("a"),)),
    )
    assert days(found, ARRIVAL) == (None, None)


def test_dates_overrule_the_order_written() -> None:
    found = solved(event("sold", "2000", from_=HOUSE), event("gift", "1990", to=HOUSE))
    assert days(found, ARRIVAL) == (None, None)


def test_found_in_the_collection_it_had_come_by_then() -> None:
    assert days(solved(event("found in collection", "1988-05")), ARRIVAL) == (None, "1988-05-31")


def test_a_gift_between_others_is_no_arrival() -> None:
    assert days(solved(event("gift", "1988", to="somebody")), ARRIVAL) == (None, None)


# Death ----------------------------------------------------------------------------------------------------------------


def test_what_is_told_of_the_remains_may_follow_a_death() -> None:
    found = solved(
        event("sown", "1900"),
        event("died", "1990-03"),
        event("published", "1995"),
        event("renamed", "1996"),
        event("observed", "1997", rings=rings(80)),
        photos=(shown("1998"),),
    )
    assert not found.under_review


def test_pruning_a_dead_tree_is_a_contradiction() -> None:
    found = solved(event("died", "1990"), event("pruned", "1995"))
    assert {s.says for s in found.contradictions[0].statements} == {"died 1990", "pruned 1995"}


def test_a_death_in_the_year_of_the_last_work_follows_it() -> None:
    found = solved(event("died", "1990", id="d"), event("pruned", "1990-06-02"))
    assert event_days(found, "d") == ("1990-06-02", "1990-12-31")


# Unbroken care --------------------------------------------------------------------------------------------------------


def test_silences_are_measured_from_the_latest_end_to_the_earliest_start() -> None:
    """1951, 1960, 1972: between the last two lie 31 December 1960 and 1 January 1972, eleven years."""
    work = [event("repotted", year) for year in ("1951", "1960", "1972")]
    found = solved(*work, as_of=date(1980, 1, 1))
    assert [(q.start.isoformat(), q.end.isoformat(), q.years) for q in found.quiet] == [
        ("1960-12-31", "1972-01-01", 11)
    ]
    assert ends(found.unbroken_since) == ("1972-01-01", "1972-12-31")


def test_ten_years_to_the_day_are_still_unbroken() -> None:
    work = [event("repotted", "1960-05-01"), event("repotted", "1970-05-01")]
    assert solved(*work, as_of=date(1975, 1, 1)).quiet == ()
    work[1] = event("repotted", "1970-05-02")
    assert [q.years for q in solved(*work, as_of=date(1975, 1, 1)).quiet] == [10]


def test_the_last_silence_runs_to_as_of() -> None:
    found = solved(event("repotted", "1990"), as_of=date(2001, 1, 1))
    assert [(q.start.isoformat(), q.end.isoformat()) for q in found.quiet] == [("1990-12-31", "2001-01-01")]
    assert not found.unbroken_since.known


def test_evidence_of_every_grade_keeps_care_unbroken() -> None:
    work = [event("repotted", "1960"), event("pruned", "1969", standing=UNSOURCED), event("wired", "1978")]
    assert solved(*work, as_of=date(1980, 1, 1)).quiet == ()


def test_the_share_of_years_with_evidence_of_their_own() -> None:
    """2019 to 2022 are four years; 2019 and 2021 have evidence. A range of years is evidence of none of them."""
    found = solved(
        event("potted", "2019"),
        event("repotted", "2021-03"),
        event("pruned", "2021-07"),
        event("wired", "2019/2020", id="w"),
        as_of=date(2022, 6, 1),
    )
    assert found.evidence_share == 0.5


def test_what_lasts_is_evidence_of_every_year_it_certainly_covers() -> None:
    found = solved(event("potted", "2015"), event("on display", "2017-05", until="2019"), as_of=date(2020, 1, 1))
    assert found.evidence_share == pytest.approx(4 / 6)
