"""The planner against trying everything, and against what must never happen."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.model.tour_plan import Candidate, WalkAsked
from archive_tools.reason.tours import by_places, by_sets
from archive_tools.reason.tours.by_search import best_by_search
from archive_tools.reason.tours.plan import CannotPlan, plan_walk, with_more_time
from archive_tools.reason.tours.schedule import keeps_ranks, on_the_clock, worth
from tests.reason.tours.walks import asked, best_by_trying_all

KINDS = [
    {},
    {"required": 0.3},
    {"ranked": 0.6},
    {"ranked": 0.5, "required": 0.3},
    {"windows": 0.6},
    {"windows": 0.4, "ranked": 0.4, "required": 0.2},
    {"ends": False},
]


@pytest.mark.parametrize("seed", range(300))
def test_no_order_of_any_stops_is_worth_more(seed: int) -> None:
    chance = random.Random(seed)
    walk = asked(
        chance, chance.randint(1, 6), chance.randint(2, 6), chance.randint(60, 500), **KINDS[seed % len(KINDS)]
    )
    best = best_by_trying_all(walk)
    if best is None:
        with pytest.raises(CannotPlan):
            plan_walk(walk)
        return
    plan = plan_walk(walk)
    assert plan.interest == best
    assert plan.is_best


@pytest.mark.parametrize("seed", range(40))
def test_both_exact_ways_agree_on_walks_too_large_for_trying_all(seed: int) -> None:
    chance = random.Random(1000 + seed)
    kind = [{}, {"required": 0.2}, {"ranked": 0.5, "required": 0.2}, {"ends": False}][seed % 4]
    walk = asked(chance, 11, chance.randint(4, 9), chance.randint(200, 700), **kind)
    one, other = by_places.best_by_places(walk), by_sets.best_by_sets(walk)
    assert (one is None) == (other is None)
    if one is not None and other is not None:
        assert worth(one) == worth(other)
        assert on_the_clock(walk, one) is not None


@given(seed=st.integers(0, 10**6), kind=st.sampled_from(KINDS), many=st.booleans())
@settings(max_examples=30, deadline=None)
def test_time_windows_ranks_and_what_is_required_are_kept(seed: int, kind: dict[str, float], many: bool) -> None:
    chance = random.Random(seed)
    walk = asked(chance, chance.randint(14, 30) if many else 8, 8, chance.randint(100, 900), **kind)
    try:
        plan = plan_walk(walk)
    except CannotPlan:
        return
    stops = {stop.key: stop for stop in walk.candidates}
    clock, here = 0, walk.start
    for visit in plan.visits:
        stop = stops[visit.key]
        assert visit.walk == (walk.walking[here, visit.place] if here else 0)
        assert clock + visit.walk + visit.wait == visit.arrive
        assert visit.leave == visit.arrive + stop.dwell
        assert not stop.windows or any(a <= visit.arrive and visit.leave <= b for a, b in stop.windows)
        clock, here = visit.leave, visit.place
    assert clock + plan.last_walk == plan.seconds <= walk.seconds
    seen = [stops[visit.key] for visit in plan.visits]
    assert keeps_ranks(seen)
    assert {s.key for s in walk.candidates if s.required} <= {s.key for s in seen}
    assert {s.key for s in seen} | set(plan.left_out) == set(stops)
    assert plan.interest == worth(seen) <= plan.best_possible


def test_the_same_question_gets_the_same_answer() -> None:
    walk = asked(random.Random(5), 20, 20, 800)
    assert plan_walk(walk) == plan_walk(walk)


def line(*stops: Candidate, seconds: int) -> WalkAsked:
    """Places a, b, c on a line, a minute apart; from a and back to it."""
    places = "abc"
    walking = {(x, y): 60 * abs(places.index(x) - places.index(y)) for x in places for y in places}
    return WalkAsked(stops, walking, seconds, "a", "a")


def test_what_must_be_seen_and_does_not_fit_is_said_in_minutes() -> None:
    with pytest.raises(CannotPlan, match="need 5 minutes, and there are 4"):
        plan_walk(line(Candidate("T1", "c", 1, 60, required=True), seconds=240))


def test_a_place_that_no_way_leads_to_is_named() -> None:
    walk = line(Candidate("T1", "yard", 1, 60, required=True), Candidate("T2", "a", 1, 60), seconds=600)
    with pytest.raises(CannotPlan, match="leads from a to yard, where T1 stands"):
        plan_walk(walk)


def test_what_was_left_out_and_what_five_minutes_more_would_buy() -> None:
    walk = line(
        Candidate("near", "a", 5, 60), Candidate("far", "c", 4, 60), Candidate("long", "a", 9, 1000), seconds=310
    )
    plan = plan_walk(walk)
    assert [visit.key for visit in plan.visits] == ["near"]
    assert plan.left_out == {"far": "no time", "long": "longer than the walk"}
    assert with_more_time(walk, plan) == ("far",)


def test_a_search_finds_the_best_of_small_walks_nearly_always() -> None:
    """The search alone, where the best is known: a fallback that is not exact, and never worse than a tenth below."""
    ratios = []
    for seed in range(12):
        walk = asked(random.Random(seed), 11, 11, 500)
        best, found = by_sets.best_by_sets(walk), best_by_search(walk, rounds=100)
        assert best is not None and found is not None
        ratios.append(worth(found) / worth(best))
    assert sum(ratio == 1 for ratio in ratios) >= 10
    assert min(ratios) >= 0.95
