"""What contradicts what, what is left out, and what stands beside it: each story worked out by hand first."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.model.event import EventRef
from archive_tools.reason.chronology import solve
from archive_tools.reason.chronology.conflicts import first_to_fail
from archive_tools.reason.chronology.network import Conflict
from archive_tools.reason.chronology.smallest_conflict import smallest_conflict
from tests.making import AS_OF, HOUSE, collection, event, source, steward, tree, when
from tests.reason.chronology_asking import (
    ARRIVAL,
    CARE,
    CONTAINER,
    DOCUMENTED,
    INFERRED,
    ORIGIN,
    REPORTED,
    UNSOURCED,
    after,
    before,
    clashes,
    days,
    event_days,
    rings,
    said,
    shown,
    solved,
    stated,
)

# Among documents


def test_a_print_before_training_is_said_to_have_begun_puts_the_dates_under_review() -> None:
    found = solved(event("training begun", "1953"), event("gift", "1990", to=HOUSE), photos=(shown("1950-05"),))
    assert clashes(found) == [({"training begun 1953", "photograph a, trained, 1950-05"}, None)]
    assert found.under_review
    for milestone in (ORIGIN, CARE, CONTAINER, ARRIVAL):
        assert days(found, milestone, UNSOURCED) == (None, None)
        assert said(found, milestone) == "Dates under review"


def test_under_review_an_event_keeps_the_days_it_was_written_with() -> None:
    found = solved(event("training begun", "1953", id="b"), photos=(shown("1950-05"),))
    assert event_days(found, "b") == ("1953-01-01", "1953-12-31")


def test_a_first_pot_that_could_explain_the_print_is_part_of_the_contradiction() -> None:
    """Print 1949, first pot 1951, "training begun" 1953: without the pot's date it could be before the print."""
    found = solved(event("training begun", "1953"), event("potted", "1951"), photos=(shown("1949"),))
    named = {"training begun 1953", "potted 1951", "photograph a, trained, 1949"}
    assert clashes(found) == [(named, None)]


def test_two_contradictions_of_one_tree_are_both_told() -> None:
    found = solved(
        event("died", "1990"), event("pruned", "1995"), event("struck", "1980"), event("damaged", "1970"),
    )  # fmt: skip
    assert clashes(found) == [({"died 1990", "pruned 1995"}, None), ({"struck 1980", "damaged 1970"}, None)]


def test_three_lapses_in_a_circle_need_no_date() -> None:
    found = solved(
        event("pruned", id="a", timing=(after("c", "P1D"),)),
        event("wired", id="b", timing=(after("a", "P1D"),)),
        event("fed", id="c", timing=(after("b", "P1D"),)),
    )
    assert clashes(found) == [
        ({"pruned at least 1 day after c", "wired at least 1 day after a", "fed at least 1 day after b"}, None)
    ]


def test_a_lapse_of_a_year_and_at_most_364_days_cannot_be() -> None:
    found = solved(
        event("struck", id="s"), event("potted", id="p", timing=(after("s", "P1Y"), after("s", None, "P364D")))
    )
    assert clashes(found) == [({"potted at least 1 year after s", "potted at most 364 days after s"}, None)]


def test_a_contradiction_between_tied_trees_concerns_both_and_no_third() -> None:
    mother = tree(event("sown", "1990"))
    daughter = tree(event("struck", "1986", from_tree=EventRef("T1", None)), accession="T2")
    third = tree(event("potted", "2001", id="p", timing=(after("T2#struck-1986", "P1Y"),)), accession="T3")
    found = solve(collection(mother, daughter, third), AS_OF, today=AS_OF)
    assert {a: f.under_review for a, f in found.items()} == {"T1": True, "T2": True, "T3": False}
    assert days(found["T3"], CARE) == ("2001-01-01", "2001-12-31")
    assert clashes(found["T1"]) == clashes(found["T2"]) != []
    assert clashes(found["T3"]) == []


# A lower grade never overrides a higher one


def test_a_reported_beginning_after_a_documented_print_is_left_out() -> None:
    found = solved(event("training begun", "1953", standing=REPORTED), photos=(shown("1950-05"),))
    assert clashes(found) == [({"training begun 1953", "photograph a, trained, 1950-05"}, "training begun 1953")]
    assert days(found, CARE, UNSOURCED) == (None, "1950-05-31")
    assert said(found) == "In training since 1950 or earlier"


def test_a_stated_age_that_documents_disprove_is_left_out() -> None:
    found = solved(
        event("training begun", "1953"), event("published", "2003", states_age=stated(CARE, 100, None, "2003"))
    )
    assert clashes(found)[0][1] == "published: “at least 100 years” of care, 2003"
    assert days(found, CARE, REPORTED) == ("1953-01-01", "1953-12-31")


def test_each_grade_only_adds_to_those_above_it() -> None:
    found = solved(
        event("pruned", "1980"),
        event("pruned", "1970", id="r", standing=REPORTED),
        event("pruned", "1960", id="i", standing=INFERRED),
        event("pruned", "1950", id="u", standing=UNSOURCED),
    )
    latest = [days(found, CARE, grade)[1] for grade in (DOCUMENTED, REPORTED, INFERRED, UNSOURCED)]
    assert latest == ["1980-12-31", "1970-12-31", "1960-12-31", "1950-12-31"]


def test_of_two_reports_that_exclude_each_other_the_one_with_the_older_source_stands() -> None:
    old, new = source("z-old", "Old letter", when=when("1960")), source("a-new", "New letter", when=when("1990"))
    found = solved(
        event("struck", "1955", id="a", standing=REPORTED, sources="a-new"),
        event("pruned", "1950", id="b", standing=REPORTED, sources="z-old"),
        sources=(old, new),
    )
    assert clashes(found) == [({"struck 1955 (New letter)", "pruned 1950 (Old letter)"}, "struck 1955 (New letter)")]


def test_of_two_reports_of_one_age_the_narrower_date_stands_and_then_the_first_by_name() -> None:
    found = solved(
        event("struck", "1955/1957", id="a", standing=REPORTED), event("pruned", "1950", id="b", standing=REPORTED)
    )
    assert clashes(found)[0][1] == "struck 1955 to 1957"
    found = solved(
        event("struck", "1955", id="b", standing=REPORTED), event("pruned", "1950", id="a", standing=REPORTED)
    )
    assert clashes(found)[0][1] == "struck 1955"


def test_a_report_is_left_out_with_the_documents_that_disprove_it_and_no_others() -> None:
    found = solved(
        event("struck", "1950"),
        event("potted", "1953"),
        event("wired", "1960"),
        event("died", "1990"),
        event("pruned", "1992", standing=REPORTED),
    )
    assert clashes(found) == [({"died 1990", "pruned 1992"}, "pruned 1992")]


def test_a_life_that_is_only_reported_gives_way_to_a_document() -> None:
    edda = steward("edda", "Edda", died=when("1984"), grade=REPORTED)
    found = solved(event("gift", "1985-06-02", from_="edda", to=HOUSE), stewards=(edda,))
    assert clashes(found) == [({"gift 1985-06-02", "Edda died 1984"}, "Edda died 1984")]
    assert days(found, ARRIVAL, REPORTED) == ("1985-06-02", "1985-06-02")


def test_a_documented_life_leaves_out_a_reported_act_after_it() -> None:
    edda = steward("edda", "Edda", died=when("1984"))
    found = solved(event("pruned", "1990", by="edda", standing=REPORTED), event("wired", "2000"), stewards=(edda,))
    assert len(found.contradictions) == 1
    assert found.contradictions[0].left_out is not None
    assert days(found, CARE) == (None, "2000-12-31")
    assert not found.under_review


def test_an_act_that_cannot_have_been_takes_nothing_else_of_its_grade_with_it() -> None:
    """Trained in 1945 by a print; said to have been begun by somebody born in 1950. The report of 1940 still stands."""
    edda = steward("edda", "Edda", born=when("1950"))
    found = solved(
        event("training begun", standing=REPORTED, by="edda", id="said"),
        event("pruned", "1940", standing=REPORTED),
        photos=(shown("1945"),),
        stewards=(edda,),
    )
    assert [clash[1] for clash in clashes(found)] == ["Edda was born 1950"]
    assert days(found, CARE, REPORTED) == (None, "1940-12-31")


def test_a_lapse_holds_no_firmer_than_the_event_it_is_counted_from() -> None:
    found = solved(
        event("struck", "1951", id="s", standing=REPORTED),
        event("potted", "1951/1954", id="p", timing=(after("s", "P2Y", "P3Y"),)),
    )
    assert days(found, CARE) == ("1951-01-01", "1954-12-31")
    assert days(found, CARE, REPORTED) == ("1953-01-01", "1954-12-31")


def test_rings_dated_by_a_reported_event_are_reported() -> None:
    found = solved(
        event("collected", "1961-05-13", id="c", standing=REPORTED),
        event("observed", "2014-10-18", rings=rings(38, (0, 0), up_to="c")),
    )
    assert days(found, ORIGIN) == (None, "2014-10-18")
    assert days(found, ORIGIN, REPORTED) == ("1923-05-13", "1924-05-13")


def test_a_death_that_is_only_reported_leaves_documented_work_alone() -> None:
    found = solved(event("died", "1990", standing=REPORTED), event("pruned", "1995"))
    assert clashes(found) == [({"died 1990", "pruned 1995"}, "died 1990")]


def test_a_beginning_of_two_things_at_once_is_left_out_where_they_are_known_apart() -> None:
    """Care by 1948, the container not before 1950: nothing can have begun both on one day, whatever its date."""
    planting = tree(
        event("wired", "1948-07-04"),
        event("observed", "1990", states_age=stated(CONTAINER, 30, 39, "1990"), standing=REPORTED),
        event("assembled", "1951", id="a", standing=UNSOURCED),
        kind="planting",
    )
    found = solve(collection(planting), AS_OF, today=AS_OF)["T1"]
    assert {clash[1] for clash in clashes(found)} == {"assembled 1951"}
    assert days(found, CARE, UNSOURCED) == (None, "1948-07-04")


def test_sown_and_trained_on_one_day_leaves_out_only_that_it_was_trained() -> None:
    """Documented rings put twenty years between its origin and the work; the reported sowing shows it trained."""
    found = solved(
        event("training begun", "1960", id="t", rings=rings(21)),
        event("sown", "1930", standing=REPORTED, shows=("trained",)),
    )
    assert [clash[1] for clash in clashes(found)] == ["sown 1930: trained"]
    assert days(found, ORIGIN, REPORTED) == ("1930-01-01", "1930-12-31")


# The stay


def test_a_stated_length_of_the_stay_that_the_gift_disproves_is_left_out() -> None:
    found = solved(event("gift", "1996", to=HOUSE), event("valued", "2020", states_age=stated(ARRIVAL, 40, 45, "2020")))
    assert [clash[1] is not None for clash in clashes(found)] == [True]
    assert days(found, ARRIVAL, REPORTED) == ("1996-01-01", "1996-12-31")


def test_a_purchase_that_is_only_inferred_does_not_end_what_is_reported_of_the_stay() -> None:
    """Here 30 years in 2020, it is reported; that it was sold in 2000 and bought again in 2005 is an inference."""
    found = solved(
        event("gift", "1990", to=HOUSE),
        event("valued", "2020-06-01", states_age=stated(ARRIVAL, 29, 30, "2020"), standing=REPORTED),
        event("sold", "2000", from_=HOUSE, standing=INFERRED),
        event("purchase", "2005", to=HOUSE, standing=INFERRED),
    )
    assert not found.under_review
    assert days(found, ARRIVAL, REPORTED) == ("1990-01-01", "1990-12-31")
    assert days(found, ARRIVAL, INFERRED) == ("1990-01-01", "1990-12-31")


# Smallest conflicts

COSTS = {1: 500, 2: 500, 3: 800, 4: 500, 5: 2600}
"""The options of Junker's example, whose costs must not exceed 3000 together (AAAI-04; the figures from memory)."""


def affordable(options) -> bool:
    return sum(COSTS[option] for option in options) <= 3000


@pytest.mark.parametrize("order", list(permutations(COSTS)))
def test_junkers_options_conflict_two_by_two(order) -> None:
    """The only minimal conflicts are the dear fifth option with any one of the others."""
    found = set(smallest_conflict(order, affordable))
    assert found in ({1, 5}, {2, 5}, {3, 5}, {4, 5})


@pytest.mark.parametrize("first", [1, 2, 3, 4])
def test_the_preferred_option_is_the_one_that_is_named(first) -> None:
    others = [option for option in COSTS if option not in (first, 5)]
    assert smallest_conflict([first, 5, *others], affordable) == [first, 5]


def test_what_stands_has_no_conflict() -> None:
    with pytest.raises(ValueError, match="no conflict"):
        smallest_conflict([1, 2, 3, 4], affordable)


def test_order_before_is_the_other_way_round() -> None:
    found = solved(event("pruned", "1960", id="a"), event("wired", "1965", id="b", timing=(before("a"),)))
    assert clashes(found) == [({"pruned 1960", "wired 1965", "wired before a"}, None)]


@given(st.lists(st.frozensets(st.integers(0, 9), min_size=1, max_size=3), max_size=6), st.data())
def test_the_first_claim_that_fails_is_found_whatever_an_explanation_names(conflicts, data) -> None:
    """The explanation of a contradiction only guides the search: a useless or a wrong one costs questions, no more."""

    def conflict_of(some):
        broken = [conflict for conflict in conflicts if conflict <= set(some)]
        named = data.draw(st.frozensets(st.integers(0, 12)) | st.sampled_from(broken)) if broken else None
        return None if named is None else Conflict(named)

    expected = next((n for n in range(10) if any(c <= set(range(n + 1)) for c in conflicts)), None)
    assert first_to_fail(range(10), conflict_of, lambda number: (number,)) == expected
