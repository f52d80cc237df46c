"""The worked examples of the chronology, each computed by hand before there was a solver (common practice, no source).

The fifth, the travel example of Dechter, Meiri and Pearl, is in tests/outside.
"""

from __future__ import annotations

from datetime import date

from tests.making import event, steward, when
from tests.reason.chronology_asking import (
    CARE,
    CONTAINER,
    ORIGIN,
    REPORTED,
    after,
    age,
    days,
    event_days,
    rings,
    said,
    shown,
    solved,
)


def test_1_a_cutting_struck_in_1951_and_potted_in_1953() -> None:
    found = solved(event("struck", "1951"), event("potted", "1953"), as_of=date(2019, 2, 27))
    assert days(found, ORIGIN) == ("1951-01-01", "1951-12-31")
    assert age(found, ORIGIN) == (67, 68)
    for milestone in (CARE, CONTAINER):
        assert days(found, milestone) == ("1953-01-01", "1953-12-31")
        assert age(found, milestone) == (65, 66)


def test_2_only_a_print_of_about_1971_shows_it_trained() -> None:
    found = solved(photos=(shown("1971~"),))
    assert days(found, CARE) == (None, "1973-12-31")
    assert said(found, CARE) == "In training since 1973 or earlier"
    assert age(found, CARE) == (52, None)


def test_3_collected_in_1961_with_38_rings() -> None:
    found = solved(event("collected", "1961-03", rings=rings(38, (0, 0))), as_of=date(2026, 3, 1))
    assert days(found, ORIGIN)[1] == "1924-03-31"
    assert age(found, ORIGIN)[0] == 101
    assert said(found, ORIGIN) == "Collected in 1961, then at least 37 years old by its 38 rings"


def test_4_potted_two_to_three_years_after_it_was_struck() -> None:
    found = solved(
        event("struck", "1951", id="struck", standing=REPORTED),
        event("potted", "1951/1954", id="potted", standing=REPORTED, timing=(after("struck", "P2Y", "P3Y"),)),
    )
    assert event_days(found, "potted") == ("1953-01-01", "1954-12-31")


def test_6_a_gift_after_the_giver_died_is_a_contradiction_and_a_bequest_is_none() -> None:
    edda = steward("edda", "Edda", died=when("1984"))
    gift = solved(event("gift", "1985-06-02", from_="edda"), stewards=(edda,))
    assert gift.under_review
    assert {s.mark.file for s in gift.contradictions[0].statements} == {"tree.yml", "stewards/edda.yml"}
    assert gift.contradictions[0].left_out is None
    assert {found.wording for found in gift.milestones.values()} == {"Dates under review"}
    bequest = solved(event("bequest", "1985-06-02", from_="edda"), stewards=(edda,))
    assert not bequest.under_review
    assert bequest.contradictions == ()


def test_7_trained_in_the_ground_before_the_first_pot() -> None:
    found = solved(event("potted", "1980"), photos=(shown("1975"),))
    assert found.contradictions == ()
    assert days(found, CARE) == (None, "1975-12-31")
    assert days(found, CONTAINER) == ("1980-01-01", "1980-12-31")


def test_8_a_thread_graft_changes_neither_origin_nor_care() -> None:
    before = (event("struck", "1950"), event("training begun", "1951"))
    without, grafted = solved(*before), solved(*before, event("grafted on", "1988"))
    for milestone in (ORIGIN, CARE):
        assert days(grafted, milestone) == days(without, milestone)
    assert days(grafted, CARE) == ("1951-01-01", "1951-12-31")
