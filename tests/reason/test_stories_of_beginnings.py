"""Which of several beginnings begins: each story in one line, worked out by hand with a calendar first."""

from __future__ import annotations

from tests.making import event
from tests.reason.chronology_asking import (
    CARE,
    CONTAINER,
    ORIGIN,
    REPORTED,
    UNSOURCED,
    after,
    age,
    days,
    event_days,
    said,
    shown,
    solved,
)

# Beginnings -----------------------------------------------------------------------------------------------------------


def test_the_earlier_of_two_documented_beginnings_begins() -> None:
    found = solved(event("training begun", "1953"), event("training begun", "1951", id="b"))
    assert days(found, CARE) == ("1951-01-01", "1951-12-31")


def test_two_beginnings_that_overlap_give_the_earliest_of_both() -> None:
    found = solved(event("training begun", "1953/1955", id="a"), event("training begun", "1954", id="b"))
    assert days(found, CARE) == ("1953-01-01", "1954-12-31")
    assert event_days(found, "a") == ("1953-01-01", "1955-12-31")


def test_a_print_that_cuts_both_beginnings_leaves_each_possible_in_its_own_case() -> None:
    """Begun 1953-1955 or 1952-1958, trained by mid June 1953: one of them was by then, the other need not have been."""
    found = solved(
        event("training begun", "1953/1955", id="a"),
        event("training begun", "1952/1958", id="b"),
        photos=(shown("1953-06-15"),),
    )
    assert days(found, CARE) == ("1952-01-01", "1953-06-15")
    assert event_days(found, "a") == ("1953-01-01", "1955-12-31")
    assert event_days(found, "b") == ("1952-01-01", "1958-12-31")


def test_a_print_between_two_beginnings_leaves_only_the_first() -> None:
    found = solved(
        event("training begun", "1950/1955", id="a"), event("potted", "1954", id="b"), photos=(shown("1953-06-15"),)
    )
    assert days(found, CARE) == ("1950-01-01", "1953-06-15")
    assert event_days(found, "a") == ("1950-01-01", "1953-06-15")


def test_a_beginning_without_a_date_that_must_be_later_than_another_is_not_the_earliest() -> None:
    """Struck on 1 May 1950, and once more after it was collected; but what is collected grows already."""
    found = solved(
        event("struck", "1950-05-01", id="a"),
        event("collected", id="c"),
        event("struck", id="b", timing=(after("c", "P1D"),)),
    )
    assert days(found, ORIGIN) == ("1950-05-01", "1950-05-01")


def test_collected_begins_care_and_a_later_pot_the_container() -> None:
    found = solved(event("collected", "1961-05-13"), event("potted", "1963"))
    assert days(found, CARE) == ("1961-05-13", "1961-05-13")
    assert days(found, CONTAINER) == ("1963-01-01", "1963-12-31")
    assert days(found, ORIGIN) == (None, "1961-05-13")


def test_a_first_pot_after_earlier_pruning_merely_attests() -> None:
    found = solved(event("potted", "1960"), event("pruned", "1955"))
    assert not found.under_review
    assert days(found, CARE) == (None, "1955-12-31")
    assert days(found, CONTAINER) == ("1960-01-01", "1960-12-31")


def test_a_first_pot_in_the_year_of_a_print_is_still_the_beginning() -> None:
    found = solved(event("potted", "1975-06"), photos=(shown("1975"),))
    assert days(found, CARE) == ("1975-06-01", "1975-06-30")


def test_a_tray_shown_before_the_recorded_first_pot_makes_that_merely_attest() -> None:
    found = solved(event("potted", "1980"), photos=(shown("1975", "container"),))
    assert days(found, CONTAINER) == (None, "1975-12-31")
    assert days(found, CARE) == (None, "1975-12-31")


def test_a_container_is_never_earlier_than_care() -> None:
    found = solved(event("training begun", "1953-05"), event("observed", "1960", shows=("container",)))
    assert days(found, CONTAINER) == ("1953-05-01", "1960-12-31")


def test_nothing_said_of_care_leaves_it_open_at_both_ends() -> None:
    found = solved(event("struck", "1951"), event("damaged", "1960"))
    assert days(found, CARE, UNSOURCED) == (None, None)
    assert age(found, CARE, UNSOURCED) == (None, None)
    assert said(found, CARE) is None


def test_a_reported_beginning_without_a_date_may_be_earlier_than_the_documented_one() -> None:
    """Struck 1952, potted 1953; somebody says training began, but not when: some day since it was struck."""
    found = solved(
        event("struck", "1952"), event("potted", "1953"), event("training begun", standing=REPORTED, id="said")
    )
    assert days(found, CARE) == ("1953-01-01", "1953-12-31")
    assert days(found, CARE, REPORTED) == ("1952-01-01", "1953-12-31")


def test_a_beginning_whose_date_was_left_out_does_not_move_the_others() -> None:
    """Struck 1952, potted 1953 (documents); said to have been potted in 1950, before it was struck: left out."""
    found = solved(event("struck", "1952"), event("potted", "1953"), event("potted", "1950", standing=REPORTED))
    assert len(found.contradictions) == 1
    assert days(found, CARE, REPORTED) == ("1953-01-01", "1953-12-31")


def test_a_planned_potting_is_no_evidence() -> None:
    found = solved(event("potted", "2027-03", planned=True), event("pruned", "2020"))
    assert days(found, CARE) == (None, "2020-12-31")
    assert [e.kind for e in found.events] == ["pruned"]
