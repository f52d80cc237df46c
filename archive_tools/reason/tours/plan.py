"""Planning a walk: by the way of solving that suits it, with what was left out and what more time would buy."""

from __future__ import annotations

from dataclasses import replace

from archive_tools.model.tour_plan import WalkAsked, WalkPlan
from archive_tools.reason.tours import by_order, by_places, by_sets
from archive_tools.reason.tours.bound import most_possible
from archive_tools.reason.tours.by_search import best_by_search
from archive_tools.reason.tours.schedule import Order, on_the_clock, worth


class CannotPlan(ValueError):  # noqa: N818  (said of the walk that was asked for)
    """No walk keeps to what was asked; the text says why, in plain words."""


def plan_walk(asked: WalkAsked) -> WalkPlan:
    """The walk that is worth most in the time.

    It is proved to be the best where stops stand at few places, are few, or are all told in order; else it is the best
    that was found, with a bound in `best_possible`. Raises CannotPlan where the required stops do not fit into the time
    or cannot be reached.
    """
    order, proved = _solved(asked)
    clocked = on_the_clock(asked, order) if order is not None else None
    if order is None or clocked is None:
        raise CannotPlan(_why(asked))
    visits, last_walk, seconds = clocked
    value = worth(order)
    left_out = {c.key: _reason(asked, c.key) for c in asked.candidates if c not in order}
    bound = value if proved else max(value, min(most_possible(asked), worth(asked.candidates)))
    return WalkPlan(visits, value, seconds, bound, last_walk, left_out)


def with_more_time(asked: WalkAsked, plan: WalkPlan, seconds: int = 300) -> tuple[str, ...]:
    """Keys of the stops that so many seconds more would add to a plan (five minutes, unless said)."""
    longer = plan_walk(replace(asked, seconds=asked.seconds + seconds))
    seen = {visit.key for visit in plan.visits}
    return tuple(visit.key for visit in longer.visits if visit.key not in seen)


def _solved(asked: WalkAsked) -> tuple[Order | None, bool]:
    if by_places.fits(asked):
        return by_places.best_by_places(asked), True
    if by_order.fits(asked):
        return by_order.best_by_order(asked), True
    if len(asked.candidates) <= by_sets.MOST_STOPS:
        return by_sets.best_by_sets(asked), True
    return best_by_search(asked), False


def _why(asked: WalkAsked) -> str:
    required = tuple(c for c in asked.candidates if c.required)
    for stop in required:
        for end in (asked.start, asked.end):
            if end is not None and (end, stop.place) not in asked.walking:
                return f"no way that may be walked leads from {end} to {stop.place}, where {stop.key} stands"
    if asked.start and asked.end and (asked.start, asked.end) not in asked.walking:
        return f"no way that may be walked leads from {asked.start} to {asked.end}"
    needed = _needed(replace(asked, candidates=required))
    if needed is None:
        return "the stops that must be seen cannot be reached while they are open"
    return f"the stops that must be seen need {-(-needed // 60)} minutes, and there are {asked.seconds // 60}"


def _needed(asked: WalkAsked) -> int | None:
    """The seconds that the required stops take by themselves, in the best order found."""
    order, _ = _solved(replace(asked, seconds=asked.seconds + 24 * 3600))
    clocked = on_the_clock(replace(asked, seconds=asked.seconds + 24 * 3600), order) if order is not None else None
    return None if clocked is None else clocked[2]


def _reason(asked: WalkAsked, key: str) -> str:
    stop = next(c for c in asked.candidates if c.key == key)
    alone = replace(asked, candidates=(stop,))
    ends = [end for end in (asked.start, asked.end) if end is not None]
    if any((end, stop.place) not in asked.walking for end in ends):
        return "out of reach"
    return "no time" if on_the_clock(alone, (stop,)) is not None else "longer than the walk"
