"""The line of holders: each story in one line, worked out by hand first."""

from __future__ import annotations

from datetime import date

import pytest

from archive_tools.model.findings import CustodyPeriod
from archive_tools.model.lineage import Lineage
from archive_tools.reason.custody import custody_of
from archive_tools.reason.lineage_json import lineage_as_json
from tests.making import AS_OF, HOUSE, event, nothing_found, steward, tree


def custody(*events, as_of=AS_OF):
    return custody_of(tree(*events), nothing_found(), HOUSE, as_of)


def line(*events, as_of=AS_OF) -> list[tuple[str, str, str, str]]:
    """(holders, from, to, how): years only, "a-b" for a vague boundary, "now" for an open end."""
    return [
        (" & ".join(p.holders) or "?", span(p.start), "now" if p.end is None else span(p.end), p.how)
        for p in custody(*events, as_of=as_of).periods
    ]


def span(bounds) -> str:
    first, last = (str(d.year) if d else "" for d in (bounds.earliest, bounds.latest))
    return first if first == last else f"{first}-{last}"


def test_struck_by_one_given_by_their_widow_who_inherited():
    told = line(
        event("struck", "1954", by="halvard"),
        event("bequest", "1978-02", from_="halvard", to="marit"),
        event("gift", "1979-06-02", from_="marit", to=HOUSE),
    )
    assert told == [
        ("halvard", "1954", "1978", "first hands"),
        ("marit", "1978", "1979", "bequest"),
        (HOUSE, "1979", "now", "gift"),
    ]


def test_a_nursery_closed_and_the_tree_was_bought_years_later_from_nobody_says_whom():
    told = line(
        event("training begun", "1963", by="nursery"),
        event("repotted", "1984", by="nursery"),
        event("purchase", "1991", to="donor"),
        event("gift", "1994", from_="donor", to=HOUSE),
    )
    assert told == [
        ("nursery", "1963", "1984-1991", "first hands"),
        ("?", "1984", "1991", "gap"),
        ("donor", "1991", "1994", "purchase"),
        (HOUSE, "1994", "now", "gift"),
    ]


def test_it_left_a_known_hand_for_an_unknown_one():
    told = line(
        event("gift", "1960", from_="a", to="b"),
        event("transfer", "1970", from_="b"),
        event("gift", "1985", from_="c", to=HOUSE),
    )
    assert [(who, start, end) for who, start, end, _ in told] == [
        ("a", "-1960", "1960"),
        ("b", "1960", "1970"),
        ("?", "1970", "1985"),
        ("c", "1970-1985", "1985"),
        (HOUSE, "1985", "now"),
    ]


def test_the_giver_is_not_the_last_known_holder():
    found = custody(event("potted", "1953", by="edda"), event("gift", "1989", from_="ines", to=HOUSE))
    assert [p.holders for p in found.periods] == [("edda",), (), ("ines",), (HOUSE,)]
    (gap,) = found.gaps
    assert (gap.gap_grade, gap.start.earliest, gap.end.latest if gap.end else None) == (
        "unknown",
        date(1953, 1, 1),
        date(1989, 12, 31),
    )


def test_a_layer_severed_by_the_keeper_and_given_to_them_that_day_was_the_houses_until_then():
    told = line(
        event("layer severed", "1986-09-20", by="keeper"),
        event("given away", "1986-09-20", from_=HOUSE, to="keeper"),
        event("gift", "2015", from_="keeper", to=HOUSE),
    )
    assert told == [
        (HOUSE, "1986", "1986", "first hands"),
        ("keeper", "1986", "2015", "given away"),
        (HOUSE, "2015", "now", "gift"),
    ]


def test_a_loan_that_became_a_gift_keeps_owner_and_holder_apart():
    told = line(
        event("purchase", "1989", to="ines"),
        event("loan", "1994", from_="ines", to=HOUSE),
        event("gift", "1996", from_="ines", to=HOUSE),
    )
    assert told == [
        ("ines", "1989", "1996", "purchase"),
        (HOUSE, "1994", "1996", "loan"),
        (HOUSE, "1996", "now", "gift"),
    ]


def test_whoever_collects_a_tree_owns_it():
    assert line(event("collected", "1961-05", by="edvin"))[0] == ("edvin", "1961", "now", "collected")
    assert line(event("collected", "1961-05", by="edvin", to="house-2"))[0][0] == "house-2"


def test_joint_holders_stand_together():
    assert line(event("gift", "1970", from_="a", to=("b", "c"), joint=True))[1][0] == "b & c"


def test_a_death_ends_the_line():
    told = line(event("gift", "1985", from_="a", to=HOUSE), event("died", "2019-08"))
    assert told[-1] == (HOUSE, "1985", "2019", "gift")


def test_what_lies_after_the_as_of_day_or_is_planned_has_not_happened():
    events = (event("gift", "1985", from_="a", to=HOUSE), event("given away", "2020", from_=HOUSE, to="b"))
    assert line(*events, as_of=date(2019, 1, 1))[-1][0] == HOUSE
    planned = event("given away", "2025", from_=HOUSE, to="b", planned=True)
    assert line(events[0], planned)[-1][0] == HOUSE


def test_found_in_collection_came_some_time_before():
    assert line(event("found in collection", "1990", to=HOUSE))[0] == (HOUSE, "-1990", "now", "found in collection")


def test_hands_are_those_who_worked_and_not_those_who_gave():
    found = custody(event("struck", "1951", by="edda"), event("gift", "1960", from_="edda", to="b", by="clerk"))
    assert [(hand.stewards, hand.kind) for hand in found.hands] == [(("edda",), "struck")]


@pytest.mark.parametrize(
    ("events", "word"),
    [
        ((), "in collection"),
        ((event("died", "2019"),), "died"),
        ((event("missing", "2019"),), "missing"),
        ((event("missing", "2019"), event("found again", "2020")), "in collection"),
        ((event("loan", "2024", from_=HOUSE, to="b"),), "on loan elsewhere"),
        ((event("loan", "2020", "2021", from_=HOUSE, to="b"),), "in collection"),
        ((event("loan", "2024", from_="b", to=HOUSE),), "on loan here"),
        ((event("given away", "2020", from_=HOUSE, to="b"),), "given away"),
        (
            (event("given away", "2020", from_=HOUSE, to="b"), event("gift", "2022", from_="b", to=HOUSE)),
            "in collection",
        ),
    ],
)
def test_the_state_follows_from_what_happened(events, word):
    assert custody(*events).state.word == word


def test_on_display_until_it_is_over_or_moved_away():
    shown = event("on display", "2026-05-04", "2026-12", at="lower-court")
    assert custody(shown).state.on_display
    assert custody(shown).state.place == "lower-court"
    assert not custody(event("on display", "2026-05-04", "2026-10", at="lower-court")).state.on_display
    assert not custody(shown, event("rested", "2026-10-30")).state.on_display


def test_the_machine_form_keeps_what_is_not_known_as_null():
    found = custody(event("potted", "1953", by="edda"), event("gift", "1989", from_="ines", to=HOUSE))
    told = lineage_as_json(found, Lineage("T1"), {"edda": steward("edda", "Edda")}, AS_OF)
    (gap,) = told["gaps"]
    assert gap["from"] == {"earliest": "1953-01-01", "latest": "1953-12-31"}
    assert gap["to"] == {"earliest": "1989-01-01", "latest": "1989-12-31"}
    assert (gap["years_min"], gap["years_max"], gap["state"]) == (35, 36, "unknown")
    assert (gap["after"], gap["before"]) == ("edda", None)
    assert told["holders"][-1]["to"] is None


def test_a_gap_is_a_period_without_holders():
    assert isinstance(custody(event("potted", "1953", by="a")).periods[0], CustodyPeriod)
    assert custody(event("potted", "1953", by="a")).gaps == ()
