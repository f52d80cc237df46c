"""What one tree dates of another, and a steward's life of a tree: each worked out by hand first."""

from __future__ import annotations

import pytest

from archive_tools.model.event import EventRef
from archive_tools.model.tree import Member
from archive_tools.reason.chronology import solve
from tests.making import AS_OF, HOUSE, collection, event, steward, tree, when
from tests.reason.chronology_asking import (
    CARE,
    CONTAINER,
    HERE,
    ORIGIN,
    UNSOURCED,
    after,
    days,
    event_days,
    said,
    solved,
)

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


# Stewards -------------------------------------------------------------------------------------------------------------


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
