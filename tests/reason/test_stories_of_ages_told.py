"""Ages stated, rings counted, photographs that show: each worked out by hand first."""

from __future__ import annotations

import pytest

from tests.making import event, photo, when
from tests.reason.chronology_asking import (
    CARE,
    DOCUMENTED,
    INFERRED,
    ORIGIN,
    REPORTED,
    UNSOURCED,
    days,
    rings,
    said,
    shown,
    solved,
    stated,
)

# Stated ages and rings ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("years", "about", "expected"),
    [
        ((60, 60), False, ("1952-06-16", "1953-06-15")),
        ((60, None), False, (None, "1953-06-15")),
        ((60, 60), True, ("1950-06-16", "1955-06-15")),
        ((55, 60), False, ("1952-06-16", "1958-06-15")),
    ],
)
def test_an_age_stated_for_a_day(years, about, expected) -> None:
    found = solved(event("observed", "2020", states_age=stated(CARE, *years, "2013-06-15", about=about)))
    assert days(found, CARE, REPORTED) == expected


def test_an_age_stated_for_a_year_is_taken_at_its_ends() -> None:
    found = solved(event("observed", "2020", states_age=stated(ORIGIN, 60, 60, "2013")))
    assert days(found, ORIGIN, REPORTED) == ("1952-01-02", "1953-12-31")


def test_an_age_stated_without_a_day_is_said_on_the_day_of_the_event() -> None:
    found = solved(event("valued", "2003-09-27", states_age=stated(ORIGIN, 40, 40)))
    assert days(found, ORIGIN, REPORTED) == ("1962-09-28", "1963-09-27")


def test_rings_without_a_word_on_missed_ones_give_only_a_youngest_age() -> None:
    found = solved(event("observed", "2000-06-01", rings=rings(30)))
    assert days(found, ORIGIN) == (None, "1971-06-01")


def test_rings_with_at_most_five_missed_bound_both_ends() -> None:
    """30 counted, 0 to 5 missed on 1 June 2000: at least 29 years, at most 35."""
    found = solved(event("observed", "2000-06-01", rings=rings(30, (0, 5))))
    assert days(found, ORIGIN) == ("1965-06-01", "1971-06-01")


def test_false_rings_of_a_juniper_lower_the_count() -> None:
    found = solved(event("collected", "1961-03", rings=rings(40, (0, 0), false=2)))
    assert days(found, ORIGIN) == ("1923-03-01", "1924-03-31")


def test_rings_counted_later_on_a_slice_are_dated_by_what_they_count_up_to() -> None:
    found = solved(
        event("collected", "1961-05-13", id="collected"),
        event("observed", "2014-10-18", rings=rings(38, (0, 0), up_to="collected")),
    )
    assert days(found, ORIGIN) == ("1923-05-13", "1924-05-13")


def test_rings_of_a_cutting_date_its_wood_and_not_its_origin() -> None:
    found = solved(event("struck", "1990"), event("observed", "2010", rings=rings(40)))
    assert not found.under_review
    assert days(found, ORIGIN) == ("1990-01-01", "1990-12-31")


def test_documented_rings_are_not_overridden_by_a_cutting_that_is_only_reported() -> None:
    found = solved(event("struck", "1950", standing=REPORTED), event("collected", "1961-03", rings=rings(38)))
    assert days(found, ORIGIN, REPORTED) == (None, "1924-03-31")
    assert found.contradictions[0].left_out is not None


# Photographs ----------------------------------------------------------------------------------------------------------


def test_a_lab_stamp_is_not_before_the_picture() -> None:
    found = solved(event("training begun", "1970"), photos=(shown("1972", dated_by="lab stamp"),))
    assert not found.under_review
    early = solved(photos=(shown("1972", dated_by="lab stamp", file="b.jpg"),))
    assert days(early, CARE) == (None, "1972-12-31")
    assert (early.evidence_share, early.unbroken_since.known) == (0.0, False)


def test_a_photograph_that_shows_nothing_in_particular_shows_the_plant() -> None:
    found = solved(photos=(photo("a.jpg", when=when("1950"), standing=DOCUMENTED),))
    assert days(found, ORIGIN) == (None, "1950-12-31")
    assert days(found, CARE) == (None, None)


def test_a_photograph_that_is_probably_of_the_tree_is_an_inference() -> None:
    found = solved(photos=(shown("1950", sure="probably"),))
    assert days(found, CARE, REPORTED) == (None, None)
    assert days(found, CARE, INFERRED) == (None, "1950-12-31")
    assert said(found) == "Thought to have been in training since 1950 or earlier"


def test_a_photograph_that_is_not_of_the_tree_says_nothing() -> None:
    assert days(solved(photos=(shown("1950", sure="no"),)), ORIGIN, UNSOURCED) == (None, None)


def test_what_is_published_was_in_training_by_then() -> None:
    found = solved(event("published", "1988"))
    assert days(found, CARE) == (None, "1988-12-31")
    assert found.evidence_share == 0.0
