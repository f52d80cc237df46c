"""Dates that follow from several statements: each story in one line, worked out by hand with a calendar first."""

from __future__ import annotations

from datetime import date

import pytest

from archive_tools.model.event import EventRef
from archive_tools.model.tree import Member
from archive_tools.reason.chronology import solve
from tests.making import AS_OF, HOUSE, collection, event, photo, steward, tree, when
from tests.reason.chronology_asking import (
    ARRIVAL,
    CARE,
    CONTAINER,
    DOCUMENTED,
    HERE,
    INFERRED,
    ORIGIN,
    REPORTED,
    UNSOURCED,
    after,
    age,
    before,
    days,
    ends,
    event_days,
    rings,
    said,
    shown,
    solved,
    stated,
)

# Beginnings ---------------------------------------------------------------------------------------------------------


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


# Several trees --------------------------------------------------------------------------------------------------------


def test_an_event_of_another_tree_dates_this_one() -> None:
    one = tree(event("potted", "1960-05-20", id="p"))
    two = tree(event("potted", id="q", timing=(after("T1#p", "P1Y", "P1Y"),)), accession="T2")
    found = solve(collection(one, two), AS_OF, today=AS_OF)
    assert days(found["T2"], CARE) == ("1961-05-20", "1961-05-20")


def test_a_mother_plant_is_not_younger_than_her_daughters_layer() -> None:
    mother = tree(event("potted", "2001", id="p"))
    daughter = tree(event("layer severed", "1986-09-20", from_tree=EventRef("T1", None)), accession="T2")
    found = solve(collection(mother, daughter), AS_OF, today=AS_OF)
    assert days(found["T1"], ORIGIN) == (None, "1986-09-20")
    assert said(found["T1"], ORIGIN) == "Growing since 1986 or earlier"
    assert days(found["T1"], CARE) == ("2001-01-01", "2001-12-31")


def test_a_daughter_is_not_struck_before_the_mother_grew() -> None:
    mother = tree(event("sown", "1954"))
    daughter = tree(event("struck", "1950/1960", id="s", from_tree=EventRef("T1", None)), accession="T2")
    found = solve(collection(mother, daughter), AS_OF, today=AS_OF)
    assert days(found["T2"], ORIGIN) == ("1954-01-01", "1960-12-31")


def test_a_daughter_struck_from_a_dead_mother_puts_both_under_review() -> None:
    mother = tree(event("died", "1980"))
    daughter = tree(event("struck", "1986", from_tree=EventRef("T1", "died-1980")), accession="T2")
    beside = tree(event("potted", "1990"), accession="T3")
    found = solve(collection(mother, daughter, beside), AS_OF, today=AS_OF)
    assert (found["T1"].under_review, found["T2"].under_review, found["T3"].under_review) == (True, True, False)


def test_a_planting_has_no_origin_and_says_when_it_was_planted_and_remade() -> None:
    found = solved_planting(event("assembled", "1969-03-18"), event("assembled", "2011", id="again"))["T1"]
    assert days(found, ORIGIN, UNSOURCED) == (None, None)
    assert said(found, CARE) == "Planted together in 1969, remade in 2011"
    assert days(found, CONTAINER) == ("1969-03-18", "1969-03-18")
    assert said(found, ORIGIN) is None


def test_the_oldest_and_the_newest_member_of_a_planting_are_said_apart() -> None:
    found = solved_planting(event("assembled", "1969"))["T1"], None
    members = (Member("a", HERE, "A"), Member("b", HERE, "B"), Member("c", HERE, "C"), Member("nameless", HERE))
    grown = [
        tree(event(kind, on), accession=name)
        for kind, on, name in (("sown", "1951", "A"), ("struck", "1940", "B"), ("sown", "1960", "C"))
    ]
    whole = solve(collection(planting(event("assembled", "1969"), members=members), *grown), AS_OF, today=AS_OF)
    assert said(found[0], ORIGIN) is None
    assert said(whole["T1"], ORIGIN) == (
        "Oldest member: From a cutting struck in 1940; newest member: From seed sown in 1960"
    )


def test_a_member_grew_before_it_was_planted() -> None:
    members = (Member("a", HERE, "A"),)
    refs = (EventRef("a", None),)
    together = planting(event("assembled", "1969-03-18", trees=refs), members=members)
    whole = solve(collection(together, tree(event("pruned", "1990"), accession="A")), AS_OF, today=AS_OF)
    assert days(whole["A"], ORIGIN) == (None, "1969-03-18")
    assert days(whole["A"], CARE) == (None, "1990-12-31")


def planting(*events, members=()):
    return tree(*events, kind="planting", members=members)


def solved_planting(*events):
    return solve(collection(planting(*events)), AS_OF, today=AS_OF)


# Stewards ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("role", ["by", "from_", "to", "with_"])
def test_whoever_takes_part_is_alive_that_day(role) -> None:
    halvard = steward("halvard", "Halvard", born=when("1911"), died=when("1978-02"))
    found = solved(event("potted", id="p", **{role: "halvard"}), stewards=(halvard,))
    assert event_days(found, "p") == ("1911-01-01", "1978-02-28")


def test_a_bequest_is_not_before_the_givers_death() -> None:
    halvard = steward("halvard", "Halvard", died=when("1978-02"))
    found = solved(event("bequest", "1977/1979", id="b", from_="halvard", to=HOUSE), stewards=(halvard,))
    assert event_days(found, "b") == ("1978-02-01", "1979-12-31")


def test_what_an_estate_gives_may_follow_the_death() -> None:
    estate = steward("estate", "The estate", kind="estate", died=when("1984"))
    assert not solved(event("gift", "1985-06-02", from_="estate"), stewards=(estate,)).under_review


def test_the_years_of_a_nurserys_work_bound_nothing() -> None:
    nursery = steward("nursery", "The nursery", active=when("1958/1984"))
    assert event_days(solved(event("potted", id="p", by="nursery"), stewards=(nursery,)), "p") == (None, None)


def test_a_steward_ties_no_trees() -> None:
    """Two trees by one hand stay two groups: what is wrong with one says nothing of the other."""
    edda = steward("edda", "Edda", died=when("1984"))
    one = tree(event("pruned", "1990", by="edda"))
    two = tree(event("pruned", "1980", by="edda"), accession="T2")
    found = solve(collection(one, two, stewards=(edda,)), AS_OF, today=AS_OF)
    assert (found["T1"].under_review, found["T2"].under_review) == (True, False)


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
