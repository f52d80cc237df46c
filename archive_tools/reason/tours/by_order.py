"""The best walk where the curator put every stop in order: exact, with time windows.

What is open is only which stops are left out. For each stop that a walk may have come to, the ways there that are
worth keeping are those than which none is both earlier over and worth as much: a shortest path problem with one
resource, solved by labels (Desrochers and Soumis 1988, "A generalized permanent labelling algorithm for the shortest
path problem with time windows", INFOR 26:191-212).
"""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.tour_plan import WalkAsked
from archive_tools.reason.tours.schedule import Order, begins

MOST_STOPS = 80


@dataclass(frozen=True, slots=True)
class _Way:
    """A walk as far as its last stop: when that is over, what it is worth, the stop's number, and the way before it."""

    over: int
    worth: int
    stop: int
    before: _Way | None


def fits(asked: WalkAsked) -> bool:
    """Whether this way of solving serves: every stop has its own place in the order."""
    ranks = [c.rank for c in asked.candidates]
    return len(ranks) <= MOST_STOPS and None not in ranks and len(set(ranks)) == len(ranks)


def best_by_order(asked: WalkAsked) -> Order | None:
    """The stops of the walk that is worth most, in order; None where what is required does not fit into the time.

    Of walks that are worth the same it is the one that is over first.
    """
    stops = sorted(asked.candidates, key=lambda c: c.rank or 0)
    # No required stop may be passed over: a walk comes to a stop from the last required one before it, or later.
    firsts, first = [], -1
    for number, stop in enumerate(stops):
        firsts.append(first)
        first = number if stop.required else first
    kept: list[list[_Way]] = []
    for number, stop in enumerate(stops):
        found = []
        for before in range(firsts[number], number):
            here = asked.start if before < 0 else stops[before].place
            walk = 0 if here is None else asked.walking.get((here, stop.place))
            if walk is None:
                continue
            for way in kept[before] if before >= 0 else [None]:
                begin = begins(stop, (way.over if way else 0) + walk)
                if begin is not None and begin + stop.dwell <= asked.seconds:
                    found.append(_Way(begin + stop.dwell, (way.worth if way else 0) + stop.interest, number, way))
        kept.append(_worth_keeping(found))
    whole: list[tuple[int, int, _Way | None]] = []
    if first < 0 and (over := _over(asked, 0, asked.start)) is not None:
        whole.append((0, -over, None))
    for number in range(max(first, 0), len(stops)):
        for way in kept[number]:
            if (over := _over(asked, way.over, stops[number].place)) is not None:
                whole.append((way.worth, -over, way))
    if not whole:
        return None
    best = max(whole, key=lambda one: one[:2])[2]
    order = []
    while best is not None:
        order.append(stops[best.stop])
        best = best.before
    return tuple(reversed(order))


def _worth_keeping(ways: list[_Way]) -> list[_Way]:
    """The ways than which none is both over as early and worth as much."""
    kept: list[_Way] = []
    for way in sorted(ways, key=lambda way: (way.over, -way.worth)):
        if not kept or way.worth > kept[-1].worth:
            kept.append(way)
    return kept


def _over(asked: WalkAsked, clock: int, here: str | None) -> int | None:
    """When the walk is over at its end; None where the end cannot be reached in time."""
    walk = 0 if here is None or asked.end is None else asked.walking.get((here, asked.end))
    return clock + walk if walk is not None and clock + walk <= asked.seconds else None
