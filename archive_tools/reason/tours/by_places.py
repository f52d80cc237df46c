"""The best walk where many stops stand at few places: exact, without time windows.

What costs walking is which places are seen, what costs standing is which stops are made there. For every set of
places the shortest walk through it follows from smaller sets (Held and Karp 1962, "A dynamic programming approach to
sequencing problems", Journal of SIAM 10:196-210); for what is left of the time, the stops at those places that are
worth most are a knapsack (Bellman 1957, "Dynamic Programming"). Stops that the curator put in order are a chain
through which the walk must go; which of them fit is tried from the most worth downwards.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from archive_tools.model.tour_plan import Candidate, WalkAsked
from archive_tools.reason.tours.schedule import Order, worth

MOST_PLACES = 12
MOST_CHOICES = 12
_NEVER = np.iinfo(np.int64).max // 4

Table = NDArray[np.int64]


def fits(asked: WalkAsked) -> bool:
    """Whether this way of solving serves: no windows, few places, few ranked stops that may be left out."""
    ranked = [c for c in asked.candidates if c.rank is not None]
    free = [c for c in asked.candidates if c.rank is None]
    passed = {asked.start, asked.end}
    return (
        not any(c.windows for c in asked.candidates)
        and len({c.place for c in free} - passed) <= MOST_PLACES
        and sum(not c.required for c in ranked) <= MOST_CHOICES
    )


def best_by_places(asked: WalkAsked) -> Order | None:
    """The stops of the walk that is worth most, in order; None where what is required does not fit into the time."""
    ranked = sorted((c for c in asked.candidates if c.rank is not None), key=lambda c: (c.rank, c.key))
    free = [c for c in asked.candidates if c.rank is None]
    most_of_free = worth(free)
    best: Order | None = None
    for chain in _chains(ranked):
        if best is not None and worth(chain) + most_of_free <= worth(best):
            break
        found = _Chain(asked, chain, free).best()
        if found is not None and (best is None or worth(found) > worth(best)):
            best = found
    return best


def _chains(ranked: Sequence[Candidate]) -> Iterator[tuple[Candidate, ...]]:
    """The ranked stops with some of those left out that may be, from the most worth downwards."""
    optional = [c for c in ranked if not c.required]
    dropped = [set(some) for count in range(len(optional) + 1) for some in combinations(optional, count)]
    for some in sorted(dropped, key=worth):
        yield tuple(c for c in ranked if c not in some)


@dataclass(frozen=True, slots=True)
class _Walks:
    """at_chain[k][S]: the shortest walk through the first k nodes and the set S, ending at node k; at_place[k][S][j]:
    ending at the place j of S instead.
    """

    at_chain: list[Table]
    at_place: list[Table]
    whole: Table
    """By set: the shortest whole walk."""


class _Chain:
    """One choice of ranked stops, through which the walk goes in order."""

    def __init__(self, asked: WalkAsked, chain: Sequence[Candidate], free: Sequence[Candidate]) -> None:
        self.asked = asked
        self.chain = tuple(chain)
        self.nodes: list[str | None] = [asked.start, *(c.place for c in chain), asked.end]
        passed = {node for node in self.nodes if node is not None}
        reached = [c for c in free if self._reached(c.place)]
        self.lost = [c for c in free if c.required and c not in reached]
        self.on_the_way = [c for c in reached if c.place in passed]
        aside: dict[str, list[Candidate]] = {}
        for candidate in reached:
            if candidate.place not in passed:
                aside.setdefault(candidate.place, []).append(candidate)
        # Places with many stops first: their stops are then put into fewer knapsacks.
        self.places = sorted(aside, key=lambda place: (-len(aside[place]), place))
        self.aside = [aside[place] for place in self.places]

    def _reached(self, place: str) -> bool:
        return all(node is None or (node, place) in self.asked.walking for node in self.nodes)

    def best(self) -> Order | None:
        if self.lost:
            return None
        walks = self._walks()
        required = [c for c in (*self.on_the_way, *(c for stops in self.aside for c in stops)) if c.required]
        standing = sum(c.dwell for c in (*self.chain, *required))
        left = self.asked.seconds - standing
        must = sum(1 << at for at, stops in enumerate(self.aside) if any(c.required for c in stops))
        best_value, best_set = -1, -1
        for chosen, table in self._knapsacks(max(left, 0)):
            if chosen & must != must or walks.whole[chosen] > left:
                continue
            value = int(table[left - walks.whole[chosen]])
            if value > best_value:
                best_value, best_set = value, chosen
        if best_set < 0:
            return None
        picked = {c.key for c in required}
        picked |= {c.key for c in self._picked(best_set, int(left - walks.whole[best_set]))}
        return self._in_order(walks, best_set, picked)

    def _walking(self, one: str | None, other: str | None) -> int:
        """An end that is not said costs nothing to reach."""
        if one is None or other is None:
            return 0
        return self.asked.walking.get((one, other), int(_NEVER))

    def _walks(self) -> _Walks:
        count = len(self.places)
        between = np.array([[self._walking(a, b) for b in self.places] for a in self.places], dtype=np.int64)
        at_chain, at_place = [], []
        here = np.full(1 << count, _NEVER, dtype=np.int64)
        here[0] = 0
        for k, node in enumerate(self.nodes[:-1]):
            out = np.array([self._walking(node, place) for place in self.places], dtype=np.int64)
            aside = np.full((1 << count, count), _NEVER, dtype=np.int64)
            for chosen in range(1 << count):
                start = here[chosen] + out
                if chosen:
                    start = np.minimum(start, (aside[chosen][:, None] + between).min(axis=0))
                for j in range(count):
                    bit = 1 << j
                    if not chosen & bit and start[j] < aside[chosen | bit, j]:
                        aside[chosen | bit, j] = start[j]
            at_chain.append(here)
            at_place.append(aside)
            following = self.nodes[k + 1]
            back = np.array([self._walking(place, following) for place in self.places], dtype=np.int64)
            here = np.minimum(here + self._walking(node, following), _NEVER)
            if count:
                here = np.minimum(here, (aside + back).min(axis=1))
        at_chain.append(here)
        return _Walks(at_chain, at_place, np.minimum(here, _NEVER))

    def _knapsacks(self, seconds: int) -> Iterator[tuple[int, Table]]:
        """By set of places: the most that stops there, which need not be made, are worth within so many seconds."""
        start = _with(np.zeros(seconds + 1, dtype=np.int64), self.on_the_way)
        waiting: list[tuple[int, int, Table]] = [(0, 0, start)]
        while waiting:
            at, chosen, table = waiting.pop()
            if at == len(self.places):
                yield chosen, table
                continue
            waiting.append((at + 1, chosen, table))
            waiting.append((at + 1, chosen | 1 << at, _with(table, self.aside[at])))

    def _picked(self, chosen: int, seconds: int) -> list[Candidate]:
        stops = [*self.on_the_way, *(c for at, some in enumerate(self.aside) if chosen >> at & 1 for c in some)]
        stops = [c for c in stops if not c.required]
        tables = [np.zeros(seconds + 1, dtype=np.int64)]
        for stop in stops:
            tables.append(_with(tables[-1], [stop]))
        picked = []
        for at in range(len(stops), 0, -1):
            if tables[at][seconds] > tables[at - 1][seconds]:
                picked.append(stops[at - 1])
                seconds -= stops[at - 1].dwell
        return picked

    def _in_order(self, walks: _Walks, chosen: int, picked: set[str]) -> Order:
        """The stops of the shortest walk through a set of places, found backwards from its end."""
        backwards: list[str | int | None] = []
        k, at, left = len(self.nodes) - 1, -1, chosen
        while k > 0 or at >= 0:
            backwards.append(self.nodes[k] if at < 0 else at)
            k, at, left = self._before(walks, k, at, left)
        order: list[Candidate] = []
        told = iter(self.chain)
        waiting = [c for c in self.on_the_way if c.key in picked]
        steps = [self.nodes[0], *reversed(backwards)]
        chain_steps = 0
        for step in steps:
            if isinstance(step, int):
                order += [c for c in self.aside[step] if c.key in picked]
                continue
            if 0 < chain_steps <= len(self.chain):
                order.append(next(told))
            chain_steps += 1
            order += [c for c in waiting if c.place == step]
            waiting = [c for c in waiting if c.place != step]
        return tuple(order)

    def _before(self, walks: _Walks, k: int, at: int, chosen: int) -> tuple[int, int, int]:
        """The step before: at node k (`at` < 0) or at a place aside after node k, having seen the set `chosen`."""
        if at < 0:
            wanted, before, node = walks.at_chain[k][chosen], k - 1, self.nodes[k]
            for j, place in enumerate(self.places):
                if chosen >> j & 1 and walks.at_place[before][chosen, j] + self._walking(place, node) == wanted:
                    return before, j, chosen
            return before, -1, chosen
        wanted, before_set = walks.at_place[k][chosen, at], chosen & ~(1 << at)
        for j, place in enumerate(self.places):
            near = before_set >> j & 1 and walks.at_place[k][before_set, j] + self._walking(place, self.places[at])
            if near and near == wanted:
                return k, j, before_set
        return k, -1, before_set


def _with(table: Table, stops: Sequence[Candidate]) -> Table:
    """The knapsack table with further stops to choose from; those that must be made are counted elsewhere."""
    made = table.copy()
    for stop in stops:
        if not stop.required and stop.dwell < len(made):
            better = made[: len(made) - stop.dwell] + stop.interest
            np.maximum(made[stop.dwell :], better, out=made[stop.dwell :])
    return made
