"""A simple temporal problem with calendar-exact bounds: points in whole days, and lapses of time between them.

After Dechter, Meiri and Pearl, "Temporal constraint networks", Artificial Intelligence 49 (1991) 61-95: the tightest
bounds of every point are found by passing each bound on along the lapses until nothing moves. Where a lapse is in
months or years its length depends on where it begins, so bounds are moved by the calendar
(`archive_tools.model.calendar`) and not by a number of days. These moves are monotone, so the fixpoint is still the
tightest answer.

Days are ordinals (1 = 0001-01-01); EARLY and LATE stand for "no bound". Every bound belongs to a numbered owner, a
statement or a part of the structure, and only owners that are switched on count.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from archive_tools.model.dates import Duration
from archive_tools.reason.chronology.lapses import (
    EARLY,
    LATE,
    Move,
    fewest_days,
    first_day_reaching,
    last_day_reaching,
    later,
    most_days,
)
from archive_tools.reason.chronology.reasons import Why, all_behind, circle

Arc = tuple[int, int, Move | None, int]
"""Target point, whole days to move by, how to move instead where months are involved, owner."""
_UNMOVED: Why = (-1, -1)


@dataclass(slots=True)
class Network:
    """Points and the bounds on them and between them; only added to, never changed."""

    raises: list[list[Arc]] = field(default_factory=list)
    """For each point, the arcs along which its earliest day pushes others later."""
    lowers: list[list[Arc]] = field(default_factory=list)
    """For each point, the arcs along which its latest day pulls others earlier."""
    dates: list[tuple[int, int, int, int]] = field(default_factory=list)
    """(point, earliest, latest, owner)"""
    ahead: list[list[tuple[int, int, int]]] = field(default_factory=list)
    """For each point, (other, days, owner): the other is so many days later at the very least; to test circles by."""
    lapsing: list[tuple[int, int]] = field(default_factory=list)
    """(point, owner) whence some lapse longer than nothing leads: no circle without one is contradictory."""

    def point(self) -> int:
        """A new point."""
        self.raises.append([])
        self.lowers.append([])
        self.ahead.append([])
        return len(self.raises) - 1

    def between(self, point: int, first: int, last: int, owner: int) -> None:
        """The point lies from day `first` to day `last` (EARLY, LATE: no bound)."""
        self.dates.append((point, first, last, owner))

    def order(self, a: int, b: int, owner: int) -> None:
        """`a` is not after `b`."""
        self.raises[a].append((b, 0, None, owner))
        self.lowers[b].append((a, 0, None, owner))
        self.ahead[a].append((b, 0, owner))

    def at_least(self, a: int, b: int, lapse: Duration, owner: int) -> None:
        """`a` + `lapse` <= `b`."""
        days, months = lapse.days, lapse.whole_months
        self.raises[a].append((b, days, later(lapse) if months else None, owner))
        self.lowers[b].append((a, -days, last_day_reaching(lapse) if months else None, owner))
        self._test_by(a, b, fewest_days(lapse), owner)

    def at_most(self, a: int, b: int, lapse: Duration, owner: int) -> None:
        """`b` <= `a` + `lapse`."""
        days, months = lapse.days, lapse.whole_months
        self.lowers[a].append((b, days, later(lapse) if months else None, owner))
        self.raises[b].append((a, -days, first_day_reaching(lapse) if months else None, owner))
        self._test_by(b, a, -most_days(lapse), owner)

    def _test_by(self, a: int, b: int, days: int, owner: int) -> None:
        self.ahead[a].append((b, days, owner))
        if days > 0:
            self.lapsing.append((a, owner))

    def written(self) -> dict[int, tuple[int, int]]:
        """The days of each dated point by its own dates alone."""
        days: dict[int, tuple[int, int]] = {}
        for point, first, last, _ in self.dates:
            known = days.get(point, (EARLY, LATE))
            days[point] = max(first, known[0]), min(last, known[1])
        return days

    def behind_lapses(self, on: Sequence[int]) -> set[int]:
        """The points to which some lapse longer than nothing leads, directly or through others."""
        found: set[int] = set()
        work = [
            b for a, owner in self.lapsing if on[owner] for b, days, by in self.ahead[a] if by == owner and days > 0
        ]
        while work:
            point = work.pop()
            if point not in found:
                found.add(point)
                work += [b for b, _, owner in self.ahead[point] if on[owner]]
        return found

    def leads(self, a: int, b: int, on: Sequence[int]) -> bool:
        """Whether lapses that are on lead from `a` to `b`, so that `b` is not before `a`."""
        seen, work = {a}, [a]
        while work:
            point = work.pop()
            if point == b:
                return True
            reached = {end for end, days, owner in self.ahead[point] if days >= 0 and on[owner]}
            work += reached - seen
            seen |= reached
        return False


@dataclass(slots=True)
class Case:
    """One consistent reading: the tightest earliest and latest day of every point, and whence each came."""

    earliest: list[int]
    latest: list[int]
    why_earliest: list[Why]
    why_latest: list[Why]


class Conflict(Exception):  # noqa: N818  (it is an answer, not a fault)
    """No days fit. `owners` are enough to show it: all that took part, or all there are where that cannot be told."""

    def __init__(self, owners: frozenset[int]) -> None:
        super().__init__("no days fit")
        self.owners = owners


class _Crossed(Exception):  # noqa: N818
    """The earliest day of a point has passed its latest, or the horizon."""

    def __init__(self, point: int) -> None:
        super().__init__(point)
        self.point = point


Choice = tuple[int, tuple[int, ...], int]
"""A point that is the earliest of others: (point, the others, owner)."""


def tightest(network: Network, on: Sequence[int], choices: Iterable[Choice] = ()) -> Case:
    """The tightest bounds that follow from the owners that are `on`. Raises Conflict where no days fit.

    Of `choices` only one half is used here: the point is not before the earliest possible day of any of the others.
    That half is exact without trying cases, because the least of two solutions is again a solution. The other half,
    that one of them is not after the point, needs cases: see `beginnings`.
    """
    size = len(network.raises)
    _refuse_circles(network, on, size)
    case = Case([EARLY] * size, [LATE] * size, [_UNMOVED] * size, [_UNMOVED] * size)
    earliest, latest = case.earliest, case.latest
    why_earliest, why_latest = case.why_earliest, case.why_latest
    up: dict[int, None] = {}
    down: dict[int, None] = {}
    for point, first, last, owner in network.dates:
        if on[owner]:
            if first > earliest[point]:
                earliest[point], why_earliest[point] = first, (-1, owner)
                up[point] = None
            if last < latest[point]:
                latest[point], why_latest[point] = last, (-1, owner)
                down[point] = None
    choices = list(choices)
    try:
        for point in up:
            if earliest[point] > latest[point]:
                raise _Crossed(point)
        _raise_earliest(network, on, case, deque(up), choices)
        _lower_latest(network, on, case, deque(down))
    except _Crossed as crossed:
        raise Conflict(_shown_by(case, crossed.point, on, choices)) from None
    return case


def _raise_earliest(
    network: Network, on: Sequence[int], case: Case, work: deque[int], choices: Iterable[Choice]
) -> None:
    earliest, latest, why = case.earliest, case.latest, case.why_earliest
    watched: dict[int, list[Choice]] = {}
    for choice in choices:
        for other in choice[1]:
            watched.setdefault(other, []).append(choice)
    waiting = set(work)
    while work:
        point = work.popleft()
        waiting.discard(point)
        day = earliest[point]
        for target, days, move, owner in network.raises[point]:
            if on[owner]:
                moved = day + days if move is None else move(day)
                if moved > earliest[target]:
                    earliest[target], why[target] = moved, (point, owner)
                    if moved > latest[target] or moved >= LATE:
                        raise _Crossed(target)
                    if target not in waiting:
                        waiting.add(target)
                        work.append(target)
        for target, others, owner in watched.get(point, ()):
            first = min(others, key=earliest.__getitem__)
            if earliest[first] > earliest[target]:
                earliest[target], why[target] = earliest[first], (first, owner)
                if earliest[target] > latest[target]:
                    raise _Crossed(target)
                if target not in waiting:
                    waiting.add(target)
                    work.append(target)


def _lower_latest(network: Network, on: Sequence[int], case: Case, work: deque[int]) -> None:
    earliest, latest, why = case.earliest, case.latest, case.why_latest
    waiting = set(work)
    while work:
        point = work.popleft()
        waiting.discard(point)
        day = latest[point]
        for target, days, move, owner in network.lowers[point]:
            if on[owner]:
                moved = day + days if move is None else move(day)
                if moved < latest[target]:
                    latest[target], why[target] = moved, (point, owner)
                    if moved < earliest[target] or moved <= EARLY:
                        raise _Crossed(target)
                    if target not in waiting:
                        waiting.add(target)
                        work.append(target)


def _shown_by(case: Case, point: int, on: Sequence[int], choices: Iterable[Choice]) -> frozenset[int]:
    """The owners that together show that the ends of `point` cross."""
    below = all_behind(case.why_earliest, point, {owner: others for _, others, owner in choices})
    above = all_behind(case.why_latest, point, {})
    return _all_on(on) if below is None or above is None else frozenset(below | above)


def _all_on(on: Sequence[int]) -> frozenset[int]:
    return frozenset(owner for owner, switched in enumerate(on) if switched)


def _refuse_circles(network: Network, on: Sequence[int], size: int) -> None:
    """Raise Conflict if going round some circle of lapses always ends later than it began, wherever it begins.

    Every lapse is taken at the days that ask least: at least so long at its fewest days, at most so long at its most.
    This finds contradictions without any date, and those that passing bounds on would only find at the horizon.
    """
    work = deque(dict.fromkeys(point for point, owner in network.lapsing if on[owner]))
    if not work:
        return
    least = [0] * size
    steps = [0] * size
    why = [_UNMOVED] * size
    waiting = set(work)
    while work:
        point = work.popleft()
        waiting.discard(point)
        for target, days, owner in network.ahead[point]:
            if least[point] + days > least[target] and on[owner]:
                least[target], why[target] = least[point] + days, (point, owner)
                steps[target] = steps[point] + 1
                if steps[target] > size:
                    raise Conflict(circle(why, target) or _all_on(on))
                if target not in waiting:
                    waiting.add(target)
                    work.append(target)
