"""Walks whose stops the curator put in order, against trying everything and against the other exact ways."""

from __future__ import annotations

import random
from typing import Any

import pytest

from archive_tools.model.tour_plan import Candidate, WalkAsked
from archive_tools.reason.tours import by_order, by_places, by_sets
from archive_tools.reason.tours.by_search import best_by_search
from archive_tools.reason.tours.plan import plan_walk
from archive_tools.reason.tours.schedule import keeps_ranks, on_the_clock, worth
from tests.reason.tours.walks import asked, best_by_trying_all

KINDS: list[dict[str, Any]] = [
    {},
    {"required": 0.3},
    {"windows": 0.6},
    {"windows": 0.4, "required": 0.2},
    {"ends": False},
]


@pytest.mark.parametrize("seed", range(100))
def test_no_choice_of_stops_is_worth_more(seed: int) -> None:
    chance = random.Random(seed)
    walk = asked(
        chance, chance.randint(1, 6), chance.randint(2, 6), chance.randint(40, 500), ranked=1.0, **KINDS[seed % 5]
    )
    best, order = best_by_trying_all(walk), by_order.best_by_order(walk)
    if best is None:
        assert order is None
        return
    assert order is not None and worth(order) == best
    assert keeps_ranks(order) and on_the_clock(walk, order) is not None


@pytest.mark.parametrize("seed", range(30))
def test_it_agrees_with_the_other_exact_ways(seed: int) -> None:
    walk = asked(random.Random(2000 + seed), 11, 6, 400, ranked=1.0, required=0.1)
    orders = by_order.best_by_order(walk), by_places.best_by_places(walk), by_sets.best_by_sets(walk)
    assert len({None if order is None else worth(order) for order in orders}) == 1


def test_forty_stops_in_order_are_proved_the_best() -> None:
    walk = asked(random.Random(3), 40, 12, 1800, ranked=1.0, windows=0.2)
    plan = plan_walk(walk)
    assert plan.is_best
    found = best_by_search(walk, rounds=20)
    assert found is not None and worth(found) <= plan.interest


def test_of_walks_worth_the_same_it_is_the_one_that_is_over_first() -> None:
    stops = tuple(
        Candidate(key, "court", 5, dwell, rank=rank) for rank, (key, dwell) in enumerate([("a", 90), ("b", 60)])
    )
    walk = WalkAsked(stops, {("court", "court"): 0}, 100)
    assert [stop.key for stop in by_order.best_by_order(walk) or ()] == ["b"]


def test_two_stops_at_one_place_in_the_order_are_left_to_the_other_ways() -> None:
    walk = WalkAsked(tuple(Candidate(key, "court", 5, 60, rank=1) for key in "ab"), {("court", "court"): 0}, 100)
    assert not by_order.fits(walk)
