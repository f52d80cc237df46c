"""Records of every sort thrown together: whatever they say, the chronology answers, and its answer hangs together."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.model.collection import Collection
from archive_tools.model.event import EventRef
from archive_tools.model.findings import TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.kinds import KINDS
from archive_tools.model.tree import Member, Tree
from archive_tools.reason.chronology import solve
from archive_tools.reason.chronology_json import as_json
from tests.making import AS_OF, HOUSE, collection, event, photo, steward, tree, when
from tests.reason.chronology_asking import CARE, HERE, after, days, event_days, rings, shown, stated

TEXTS = ("1951", "1951-03", "1953~", "195X", "1949/1957", "1960?", "../1955", "1948-07-04", "1962/..", "1970")
DATES = [None, *map(when, TEXTS), when("1980-02-29")]
LAPSES = (None, "P1Y", "P1M", "P3D", "P2Y", "P6M", "P10D")


def anything(seed: int) -> Collection:
    """One to three trees or plantings that refer to each other, and three stewards, all drawn from `seed`."""
    chance = random.Random(seed)
    count = chance.randint(1, 3)
    stewards = [
        steward(
            name, name, born=chance.choice(DATES), died=chance.choice(DATES), grade=chance.choice([None, *Grade]),
            kind=chance.choice(["person", "estate"]),
        )
        for name in "abc"
    ]  # fmt: skip
    return collection(*(_tree(chance, number, count) for number in range(count)), stewards=stewards)


def _tree(chance: random.Random, number: int, count: int) -> Tree:
    planting = chance.random() < 0.2
    size = chance.randint(1, 7)
    kinds = sorted(KINDS) if planting else sorted(kind for kind in KINDS if kind != "assembled")
    events = []
    for at in range(size):
        written = event(
            chance.choice(kinds), id=f"e{at}", standing=chance.choice(list(Grade)), **_keys(chance, size, count)
        )
        events.append(replace(written, when=chance.choice(DATES), until=chance.choice([None] * 12 + DATES)))
    photos = [
        photo(
            f"p{at}.jpg", when=chance.choice(DATES), shows=chance.choice([(), ("trained",), ("container",)]),
            standing=chance.choice(list(Grade)), sure=chance.choice(["yes", "yes", "probably", "no"]),
            dated_by=chance.choice([None, "lab stamp"]), timing=(after("e0"),) if chance.random() < 0.3 else (),
        )
        for at in range(chance.randint(0, 2))
    ]  # fmt: skip
    member = Member("m", HERE, f"T{chance.randrange(count)}", from_=chance.choice(DATES))
    return tree(
        *events, accession=f"T{number}", photos=tuple(photos), kind="planting" if planting else "single",
        members=(member,) if planting else (),
    )  # fmt: skip


def _keys(chance: random.Random, size: int, count: int) -> dict[str, Any]:
    keys: dict[str, Any] = {}
    other = EventRef(f"T{chance.randrange(count)}", None)
    if chance.random() < 0.4:
        keys[chance.choice(["by", "from_", "to", "with_"])] = chance.choice(["a", "b", "c", HOUSE, HOUSE])
    if chance.random() < 0.15:
        up_to = f"e{chance.randrange(size)}" if chance.random() < 0.5 else None
        keys["rings"] = rings(chance.randint(1, 60), (chance.randint(0, 2), chance.choice([None, 5])), up_to=up_to)
    if chance.random() < 0.15:
        of, on = chance.choice(list(Milestone)), chance.choice([None, "1990"])
        keys["states_age"] = stated(of, chance.randint(1, 30), chance.choice([None, 40]), on)
    if chance.random() < 0.2:
        named = f"T{chance.randrange(count)}#e{chance.randrange(5)}"
        relation = chance.choice(["after", "before"])
        keys["timing"] = (after(named, chance.choice(LAPSES), chance.choice(LAPSES), relation),)
    if chance.random() < 0.2:
        keys["from_tree"] = other
    if chance.random() < 0.2:
        keys["trees"] = (other,)
    if chance.random() < 0.2:
        keys["shows"] = (chance.choice(["trained", "container"]),)
    return keys


@settings(max_examples=400, deadline=None)
@given(st.integers(0, 10**9))
def test_whatever_is_written_there_is_an_answer_that_hangs_together(seed: int) -> None:
    for found in solve(anything(seed), AS_OF, today=AS_OF).values():
        json.dumps(as_json(found))
        _hangs_together(found)


def _hangs_together(found: TreeChronology) -> None:
    for milestone, one in found.milestones.items():
        for grade, bounds in one.layers.items():
            assert bounds.earliest is None or bounds.latest is None or bounds.earliest <= bounds.latest
            age = one.ages[grade]
            assert age.min is None or age.max is None or age.min <= age.max
            if found.under_review:
                assert not bounds.known
        # An end that is known has a proof, and one that is not known has none.
        for end, proof in (("earliest", one.because_earliest), ("latest", one.because_latest)):
            known = any(getattr(bounds, end) is not None for bounds in one.layers.values())
            assert bool(proof) is known, (milestone, end)
    for clash in found.contradictions:
        assert len(set(clash.statements)) == len(clash.statements) > 0
        if clash.left_out is None:
            assert {s.grade for s in clash.statements} == {Grade.DOCUMENTED}
        else:
            assert clash.left_out in clash.statements
            assert clash.left_out.grade is max(s.grade for s in clash.statements) is not Grade.DOCUMENTED
    assert found.under_review is any(clash.left_out is None for clash in found.contradictions)


def test_many_tied_trees_with_several_possible_beginnings_are_each_solved_as_if_alone() -> None:
    """Forty daughters of one mother, each with two possible beginnings and a print before the end of both."""

    def daughter(number: int) -> Tree:
        return tree(
            event("layer severed", "1940", from_tree=EventRef("M", None)),
            event("training begun", "1953/1955", id="a"),
            event("training begun", "1952/1958", id="b"),
            photos=(shown("1953-06-15"),),
            accession=f"T{number}",
        )

    mother = tree(event("sown", "1900"), accession="M")
    together = solve(collection(mother, *map(daughter, range(40))), AS_OF, today=AS_OF)
    for number in range(40):
        found = together[f"T{number}"]
        assert days(found, CARE) == ("1952-01-01", "1953-06-15")
        assert event_days(found, "a") == ("1953-01-01", "1955-12-31")
        assert event_days(found, "b") == ("1952-01-01", "1958-12-31")
        assert not found.contradictions
