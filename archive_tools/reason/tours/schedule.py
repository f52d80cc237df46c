"""An order of stops put on the clock."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from archive_tools.model.tour_plan import Candidate, Visit, WalkAsked

Order = tuple[Candidate, ...]


def worth(stops: Iterable[Candidate]) -> int:
    """What seeing these stops is worth together."""
    return sum(stop.interest for stop in stops)


def begins(stop: Candidate, ready: int) -> int | None:
    """The first second from `ready` on at which the stop can be made whole; None when there is none."""
    if not stop.windows:
        return ready
    chances = (max(ready, opens) for opens, closes in stop.windows if max(ready, opens) + stop.dwell <= closes)
    return min(chances, default=None)


def on_the_clock(asked: WalkAsked, order: Sequence[Candidate]) -> tuple[tuple[Visit, ...], int, int] | None:
    """The visits, the walking seconds to the end, and when the walk is over; None where it cannot be walked in time."""
    clock, here = 0, asked.start
    visits = []
    for stop in order:
        walk = 0 if here is None else asked.walking.get((here, stop.place))
        begin = None if walk is None else begins(stop, clock + walk)
        if walk is None or begin is None:
            return None
        visits.append(Visit(stop.key, stop.place, walk, begin, begin + stop.dwell, begin - clock - walk))
        clock, here = begin + stop.dwell, stop.place
    last = 0 if here is None or asked.end is None else asked.walking.get((here, asked.end))
    if last is None or clock + last > asked.seconds:
        return None
    return tuple(visits), last, clock + last


def keeps_ranks(order: Sequence[Candidate]) -> bool:
    """Whether the ranked stops come in the order of their ranks."""
    ranks = [stop.rank for stop in order if stop.rank is not None]
    return ranks == sorted(ranks)
