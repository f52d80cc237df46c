"""Walks through random grounds: never through a closed place, over a step when asked not to, or at a shut time.

Ways are reckoned again by networkx over the paths that may be walked.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

import networkx
from hypothesis import example, given, settings
from hypothesis import strategies as st

from archive_tools.model.collection import Collection, Selected
from archive_tools.model.findings import Custody, Findings, TreeState
from archive_tools.model.grades import Edition
from archive_tools.model.grounds import Path, Place, Stop, Tour
from archive_tools.model.places_in_files import Where
from archive_tools.model.tour_plan import StopText, TourPlan, Window
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.reason.tours.plan import CannotPlan
from archive_tools.reason.tours.tour import WhatIf, plan_tour
from tests.making import AS_OF, collection, tree

HERE = Where("places.yml")
PLACES = ("gate", "court", "wall", "pond", "yard")
TREES = tuple(f"T{n}" for n in range(6))
SPEED = 0.8


class Grounds(NamedTuple):
    """Who may go where, the paths, where each tree stands (None: not in the collection)."""

    staff_only: frozenset[str]
    paths: tuple[tuple[str, str, int, bool], ...]
    standing: tuple[str | None, ...]


class Asked(NamedTuple):
    """A tour and what is asked of it otherwise."""

    audience: str
    step_free: bool
    minutes: int
    must: frozenset[str]
    listed: tuple[str, ...]
    ends: tuple[str | None, str | None]
    shut: dict[str, tuple[Window, ...]]


places = st.sampled_from(PLACES)
grounds = st.builds(
    Grounds,
    st.frozensets(places, max_size=2),
    st.lists(
        st.tuples(places, places, st.integers(1, 90), st.booleans()).filter(lambda path: path[0] != path[1]),
        min_size=3,
        max_size=12,
    ).map(tuple),
    st.tuples(*(st.none() | places for _ in TREES)),
)
windows = st.tuples(st.integers(0, 1500), st.integers(60, 900)).map(lambda at: (at[0], at[0] + at[1]))
walks = st.builds(
    Asked,
    st.sampled_from(("public", "staff")),
    st.booleans(),
    st.integers(3, 25),
    st.frozensets(st.sampled_from(TREES), max_size=2),
    st.lists(st.sampled_from(TREES), max_size=3, unique=True).map(tuple),
    st.tuples(st.none() | places, st.none() | places),
    st.dictionaries(places, windows.map(lambda window: (window,)), max_size=2),
)


def view_of(land: Grounds) -> EditionView:
    trees = [tree(accession=accession) for accession in TREES]
    whole: Collection = collection(
        *trees,
        places={
            name: Place(name, Words.plain(name), HERE, open_to="staff" if name in land.staff_only else "public")
            for name in PLACES
        },
        paths=tuple(Path((a, b), metres, step_free, HERE) for a, b, metres, step_free in land.paths),
    )
    custodies = {
        accession: Custody(accession, (), (), TreeState(place is not None, "in collection", False, place))
        for accession, place in zip(TREES, land.standing, strict=True)
    }
    findings = Findings(AS_OF, custodies=custodies)
    return EditionView(Edition.INTERNAL, AS_OF, Selected(whole), findings)


def planned(land: Grounds, asked: Asked) -> TourPlan:
    tour = Tour(
        "round", Words.plain("A round"), Where("tours/round.yml"), minutes=asked.minutes, audience=asked.audience,
        start=asked.ends[0], end=asked.ends[1], step_free=asked.step_free, must=tuple(sorted(asked.must)),
        stops=tuple(Stop(accession, None, None, None, None, HERE) for accession in asked.listed),
    )  # fmt: skip
    texts = {accession: StopText("word " * (15 * at), "en") for at, accession in enumerate(TREES)}
    return plan_tour(view_of(land), tour, texts, AS_OF, WhatIf(shut=asked.shut))


def seconds_of_ways(land: Grounds, asked: Asked) -> dict[str, dict[str, int]]:
    """Whole seconds from each place to each that can be walked to, by networkx."""
    graph = networkx.Graph()
    graph.add_nodes_from(PLACES)
    for a, b, metres, step_free in land.paths:
        closed = asked.audience == "public" and {a, b} & land.staff_only
        if closed or (asked.step_free and not step_free):
            continue
        if not graph.has_edge(a, b) or metres < graph[a][b]["weight"]:
            graph.add_edge(a, b, weight=metres)
    return {
        start: {end: math.ceil(round(metres / SPEED, 6)) for end, metres in reached.items()}
        for start, reached in networkx.all_pairs_dijkstra_path_length(graph)
    }


CHAIN = Grounds(
    frozenset({"yard"}),
    (("gate", "court", 48, True), ("court", "wall", 30, False), ("court", "wall", 66, True), ("wall", "yard", 5, True)),
    ("court", "wall", "yard", None, "gate", "court"),
)


@settings(max_examples=60)
@given(grounds, walks)
@example(CHAIN, Asked("public", True, 20, frozenset({"T1"}), (), ("gate", "gate"), {"court": ((0, 300),)}))
@example(CHAIN, Asked("staff", False, 20, frozenset({"T2"}), ("T1",), ("gate", "yard"), {}))
def test_nobody_is_led_where_or_when_nobody_may_go(land: Grounds, asked: Asked) -> None:
    try:
        plan = planned(land, asked)
    except CannotPlan:
        return
    ways = seconds_of_ways(land, asked)
    here, clock = asked.ends[0], 0
    for stop in plan.stops:
        assert asked.audience == "staff" or stop.place not in land.staff_only
        assert land.standing[TREES.index(stop.id)] == stop.place
        assert stop.walk == (0 if here is None else ways[here][stop.place])
        assert stop.arrive == clock + stop.walk + stop.wait
        assert all(stop.leave <= shuts or stop.arrive >= opens for shuts, opens in asked.shut.get(stop.place, ()))
        here, clock = stop.place, stop.leave
    if here is not None and asked.ends[1] is not None:
        assert plan.last_walk == ways[here][asked.ends[1]]
    assert plan.seconds == clock + plan.last_walk <= 60 * asked.minutes
    assert asked.must <= {stop.id for stop in plan.stops}


@settings(max_examples=60)
@given(grounds, walks)
def test_what_is_not_seen_has_a_true_reason(land: Grounds, asked: Asked) -> None:
    asked = asked._replace(must=frozenset(), listed=(), shut={})
    try:
        plan = planned(land, asked)
    except CannotPlan:
        start, end = asked.ends
        assert start is not None and end is not None
        way = seconds_of_ways(land, asked)[start].get(end)
        assert way is None or way > 60 * asked.minutes
        return
    ways = seconds_of_ways(land, asked)
    seen = {stop.id for stop in plan.stops}
    assert seen.isdisjoint(one.id for one in plan.left_out)
    assert seen | {one.id for one in plan.left_out} == set(TREES)
    for one in plan.left_out:
        place = land.standing[TREES.index(one.id)]
        ends = [end for end in asked.ends if end is not None]
        if place is None:
            assert one.why == "not here"
        elif asked.audience == "public" and place in land.staff_only:
            assert one.why == "not open"
        elif any(place not in ways[end] for end in ends):
            assert one.why == "out of reach"
        else:
            assert one.why in {"no time", "longer than the walk"}


def test_a_step_free_walk_takes_the_longer_way() -> None:
    """48 m at 0.8 m/s are 60 s; from the court to the wall 30 m over steps (38 s), 66 m without (83 s)."""
    asked = Asked("public", False, 20, frozenset({"T1"}), ("T0", "T1"), ("gate", "gate"), {})
    over, round_ = planned(CHAIN, asked), planned(CHAIN, asked._replace(step_free=True))
    assert [stop.walk for stop in over.stops] == [60, 38]
    assert [stop.walk for stop in round_.stops] == [60, 83]
    # Back to the gate, 78 m and 114 m.
    assert (over.last_walk, round_.last_walk) == (98, 143)


def test_what_if_it_had_to_be_without_steps_is_asked_without_changing_the_plan() -> None:
    view = view_of(CHAIN)
    tour = Tour("round", Words.plain("A round"), HERE, minutes=20, start="gate", end="gate", must=("T1",))
    assert not plan_tour(view, tour, {}, AS_OF).step_free
    asked = plan_tour(view, tour, {}, AS_OF, WhatIf(step_free=True))
    assert asked.step_free
    assert asked == plan_tour(view, replace(tour, step_free=True), {}, AS_OF)
