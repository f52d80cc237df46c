"""A good walk among many stops: greedy insertion, improved by taking out and putting in again.

Iterated local search for the orienteering problem, in the manner of Vansteenwegen, Souffriau, Vanden Berghe and Van
Oudheusden 2009, "Iterated local search for the team orienteering problem with time windows", Computers & Operations
Research 36:3281-3290. The same question always gets the same answer: chance comes from a fixed seed, and the work is
counted in rounds, not in seconds.
"""

from __future__ import annotations

import random
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from archive_tools.model.tour_plan import WalkAsked
from archive_tools.reason.tours.schedule import Order, keeps_ranks, on_the_clock, worth

_FAR = 10**9
_SEED = 1959
_CHANCES = 80
"""So many of the best places for a stop are tried where windows or ranks may forbid them."""
_EAGERNESS = (1.0, 1.5, 2.0, 0.7)
"""Powers of interest in the order of greed: what is worth most, against what is worth most for its time."""


def best_by_search(asked: WalkAsked, rounds: int | None = None) -> Order | None:
    """The best order found; None where no order of the required stops was found that fits into the time.

    rounds: how often to improve; by default fewer the more stops there are, so that 400 take seconds.
    """
    search = _Search(asked)
    if rounds is None:
        rounds = max(150, min(800, 48_000 // max(len(asked.candidates), 1)))
        rounds //= 3 if search.has_windows or search.has_ranks else 1
    start = search.with_required()
    if start is None:
        return None
    chance = random.Random(_SEED)
    best = now = search.shortened(search.filled(start, 1.0))
    since = 0
    for round_number in range(rounds):
        lifted = search.without_some(now, chance, 1 + since // 40)
        tried = search.shortened(search.filled(lifted, chance.choice(_EAGERNESS), chance))
        tried = search.filled(tried, 1.0)
        if search.better(tried, now) or chance.random() < 0.02:
            now = tried
        if search.better(now, best):
            best, since = now, 0
        else:
            since += 1
        if since and since % 150 == 0:
            now = best
        if round_number and worth(search.order(best)) == worth(asked.candidates):
            break
    return search.order(best)


Route = list[int]


class _Search:
    """The stops by number, with the seconds between them; the start and the end are the last two numbers."""

    def __init__(self, asked: WalkAsked) -> None:
        self.asked = asked
        self.stops = asked.candidates
        count = len(self.stops)
        self.start, self.end = count, count + 1
        places: list[str | None] = [*(stop.place for stop in self.stops), asked.start, asked.end]
        names = sorted({place for place in places if place is not None})
        number = {place: at for at, place in enumerate(names)}
        between = np.full((len(names) + 1, len(names) + 1), _FAR, dtype=np.int64)
        between[-1, :] = between[:, -1] = 0  # an end that is not said is near to everything
        for (one, other), seconds in asked.walking.items():
            if one in number and other in number:
                between[number[one], number[other]] = seconds
        at = np.array([number[place] if place is not None else len(names) for place in places])
        self.walk: NDArray[np.int64] = between[np.ix_(at, at)]
        self.dwell = np.array([stop.dwell for stop in self.stops], dtype=np.int64)
        self.interest = np.array([stop.interest for stop in self.stops], dtype=np.float64)
        self.has_windows = any(stop.windows for stop in self.stops)
        self.has_ranks = any(stop.rank is not None for stop in self.stops)

    def order(self, route: Route) -> Order:
        return tuple(self.stops[at] for at in route)

    def seconds(self, route: Route) -> int:
        steps = [self.start, *route, self.end]
        walked = int(self.walk[steps[:-1], steps[1:]].sum())
        return walked + int(self.dwell[route].sum()) if route else walked

    def allowed(self, route: Route) -> bool:
        if self.has_ranks and not keeps_ranks(self.order(route)):
            return False
        if self.has_windows:
            return on_the_clock(self.asked, self.order(route)) is not None
        return self.seconds(route) <= self.asked.seconds

    def better(self, one: Route, other: Route) -> bool:
        gain = int(self.interest[one].sum() - self.interest[other].sum()) if one or other else 0
        return gain > 0 or (gain == 0 and self.seconds(one) < self.seconds(other))

    def with_required(self) -> Route | None:
        """The required stops alone, each put where it costs least, the hardest to place first where that fails."""
        required = [at for at, stop in enumerate(self.stops) if stop.required]
        for sorting in (lambda at: -int(self.dwell[at]), lambda at: -int(self.walk[self.start, at]), lambda at: at):
            route: Route = []
            for at in sorted(required, key=sorting):
                chances = [[*route[:p], at, *route[p:]] for p in range(len(route) + 1)]
                chances = [chance for chance in chances if self.allowed(chance)]
                if not chances:
                    break
                route = min(chances, key=self.seconds)
            else:
                return route
        return None

    def filled(self, route: Route, eagerness: float, chance: random.Random | None = None) -> Route:
        """Put in further stops, one after another, where they are worth most for their time, until none fits."""
        route = list(route)
        left = self.asked.seconds - self.seconds(route)
        outside = np.setdiff1d(np.arange(len(self.stops)), np.array(route, dtype=np.int64))
        while outside.size:
            before, after = np.array([self.start, *route]), np.array([*route, self.end])
            more = self.walk[np.ix_(before, outside)] + self.walk[np.ix_(outside, after)].T
            more = more - self.walk[before, after][:, None] + self.dwell[outside][None, :]
            value = np.where(more <= left, self.interest[outside][None, :] ** eagerness / (more + 1.0), -1.0)
            if chance is not None:
                value = value * np.array([chance.uniform(0.8, 1.2) for _ in range(outside.size)])[None, :]
            put = self._best_place(route, outside, value)
            if put is None:
                return route
            position, which = put
            left -= int(more[position, which])
            route.insert(position, int(outside[which]))
            if self.has_windows:
                left = self.asked.seconds - self.seconds(route)
            outside = np.delete(outside, which)
        return route

    def _best_place(
        self, route: Route, outside: NDArray[np.int64], value: NDArray[np.float64]
    ) -> tuple[int, int] | None:
        if not (self.has_windows or self.has_ranks):
            flat = int(value.argmax())
            position, which = divmod(flat, value.shape[1])
            return (position, which) if value[position, which] > 0 else None
        for flat in np.argsort(-value, axis=None, kind="stable")[:_CHANCES]:
            position, which = divmod(int(flat), value.shape[1])
            if value[position, which] <= 0:
                return None
            if self.allowed([*route[:position], int(outside[which]), *route[position:]]):
                return position, which
        return None

    def without_some(self, route: Route, chance: random.Random, most: int) -> Route:
        """A stretch of the walk taken out, and now and then a stop elsewhere; required stops stay."""
        if not route:
            return route
        length = chance.randint(1, max(1, min(most + 2, len(route))))
        begin = chance.randrange(len(route))
        gone = {route[(begin + step) % len(route)] for step in range(length)}
        if chance.random() < 0.3:
            gone.add(chance.choice(route))
        kept = [at for at in route if at not in gone or self.stops[at].required]
        return kept if self.allowed(kept) else route

    def shortened(self, route: Route) -> Route:
        """The same stops in an order that takes less walking: stretches turned round (2-opt) and single stops moved."""
        length, improved = self.seconds(route), True
        while improved:
            improved = False
            for shorter in self._neighbours(route):
                if self.seconds(shorter) < length and self.allowed(shorter):
                    route, length, improved = shorter, self.seconds(shorter), True
                    break
        return route

    def _neighbours(self, route: Route) -> Sequence[Route]:
        """Orders near this one that walk less, by the steps that differ; ranks and windows are judged elsewhere."""
        steps = np.array([self.start, *route, self.end])
        count = len(route)
        found: list[Route] = []
        step = self.walk[steps[:-1], steps[1:]]
        for i in range(count):
            j = np.arange(i + 1, count)
            if j.size:
                turned = (
                    self.walk[steps[i], steps[j + 1]] + self.walk[steps[i + 1], steps[j + 2]] - step[i] - step[j + 1]
                )
                found += [route[:i] + route[i : at + 1][::-1] + route[at + 1 :] for at in j[turned < 0]]
            rest = route[:i] + route[i + 1 :]
            ends = np.array([self.start, *rest, self.end])
            out = step[i] + step[i + 1] - self.walk[steps[i], steps[i + 2]]
            put = self.walk[ends[:-1], route[i]] + self.walk[route[i], ends[1:]] - self.walk[ends[:-1], ends[1:]]
            found += [[*rest[:at], route[i], *rest[at:]] for at in np.flatnonzero(put < out)]
        return found
