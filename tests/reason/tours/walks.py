"""Random walks to plan, and the plainest way there is to plan them."""

from __future__ import annotations

import math
import random
from itertools import permutations

from archive_tools.model.tour_plan import Candidate, WalkAsked
from archive_tools.reason.tours.schedule import keeps_ranks, on_the_clock, worth


def grounds(chance: random.Random, places: int, reach: int = 120) -> dict[tuple[str, str], int]:
    """Whole seconds between places strewn on a plane."""
    spots = {f"p{n}": (chance.uniform(0, reach), chance.uniform(0, reach)) for n in range(places)}
    return {(a, b): math.ceil(math.dist(spots[a], spots[b])) for a in spots for b in spots}


def asked(
    chance: random.Random,
    stops: int,
    places: int,
    seconds: int,
    *,
    required: float = 0.0,
    ranked: float = 0.0,
    windows: float = 0.0,
    ends: bool = True,
) -> WalkAsked:
    candidates = []
    for n in range(stops):
        opens = chance.randint(0, seconds)
        candidates.append(
            Candidate(
                f"t{n}",
                f"p{chance.randrange(places)}",
                chance.randint(1, 30),
                chance.randint(5, 90),
                required=chance.random() < required,
                rank=n if chance.random() < ranked else None,
                windows=((opens, opens + chance.randint(60, 300)),) if chance.random() < windows else (),
            )
        )
    start, end = ("p0", f"p{places - 1}") if ends else (None, None)
    return WalkAsked(tuple(candidates), grounds(chance, places), seconds, start, end)


def best_by_trying_all(walk: WalkAsked) -> int | None:
    """The most that any order of any of the stops is worth; None where what is required never fits."""
    required = {stop.key for stop in walk.candidates if stop.required}
    best: int | None = None
    for count in range(len(walk.candidates) + 1):
        for order in permutations(walk.candidates, count):
            if required <= {stop.key for stop in order} and keeps_ranks(order):
                value = worth(order)
                if (best is None or value > best) and on_the_clock(walk, order) is not None:
                    best = value
    return best
