"""Whence a bound came: the way back from a day to the statements behind it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

Why = tuple[int, int]
"""The point a bound was passed on from (-1: a date), and the owner of the step."""


def chain(why: Sequence[Why], point: int) -> list[int]:
    """The owners that lead to a bound of `point`, from the date at its root to the last step."""
    owners: list[int] = []
    seen: set[int] = set()
    while point >= 0 and point not in seen:
        seen.add(point)
        point, owner = why[point]
        if owner >= 0:
            owners.append(owner)
    owners.reverse()
    return owners


def all_behind(why: Sequence[Why], point: int, others_of: Mapping[int, tuple[int, ...]]) -> set[int] | None:
    """All owners behind a bound, with those of every point of a choice; None where it came round in a circle of months.

    `others_of`: by the owner of a choice, the points it chooses from. In a circle the bounds on the way were raised
    more than once, and what began it is no longer known.
    """
    owners: set[int] = set()
    done: set[int] = set()
    work = [point]
    while work:
        at, way = work.pop(), set[int]()
        while at >= 0 and at not in done:
            if at in way:
                return None
            way.add(at)
            at, owner = why[at]
            if owner >= 0:
                owners.add(owner)
            work.extend(others_of.get(owner, ()))
        done |= way
    return owners


def circle(why: Sequence[Why], point: int) -> frozenset[int]:
    """The owners of the circle that leads to `point`; none where it was replaced by a longer one meanwhile."""
    seen: list[int] = []
    while point >= 0 and point not in seen:
        seen.append(point)
        point = why[point][0]
    return frozenset(why[one][1] for one in seen[seen.index(point) :]) if point >= 0 else frozenset()
