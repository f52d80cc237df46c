"""The best walk among few stops, with time windows: exact, over every set of stops and the stop it ends with.

Of two ways to have made the same stops and to stand at the same one, the earlier is never worse (Held and Karp 1962,
"A dynamic programming approach to sequencing problems", Journal of SIAM 10:196-210).
"""

from __future__ import annotations

from archive_tools.model.tour_plan import WalkAsked
from archive_tools.reason.tours.schedule import Order, begins

MOST_STOPS = 12


def best_by_sets(asked: WalkAsked) -> Order | None:
    """The stops of the walk that is worth most, in order; None where what is required does not fit into the time."""
    stops = asked.candidates
    required = sum(1 << at for at, stop in enumerate(stops) if stop.required)
    ready: dict[tuple[int, int], int] = {}
    came: dict[tuple[int, int], tuple[int, int]] = {}
    best: tuple[int, int, tuple[int, int]] | None = None
    if not required and _home(asked, asked.start, 0) is not None:
        best = (0, 0, (0, -1))
    states: list[tuple[int, int]] = [(0, -1)]
    ready[0, -1] = 0
    for chosen, last in states:
        for at, stop in enumerate(stops):
            if chosen >> at & 1 or not _in_rank(asked, chosen, at):
                continue
            here = asked.start if last < 0 else stops[last].place
            walk = 0 if here is None else asked.walking.get((here, stop.place))
            begin = None if walk is None else begins(stop, ready[chosen, last] + walk)
            if begin is None or begin + stop.dwell > asked.seconds:
                continue
            state = (chosen | 1 << at, at)
            if state not in ready:
                states.append(state)
            if begin + stop.dwell < ready.get(state, asked.seconds + 1):
                ready[state], came[state] = begin + stop.dwell, (chosen, last)
    for state in states[1:]:
        over = _home(asked, stops[state[1]].place, ready[state])
        if over is None or state[0] & required != required:
            continue
        value = sum(stop.interest for at, stop in enumerate(stops) if state[0] >> at & 1)
        if best is None or (value, -over) > best[:2]:
            best = (value, -over, state)
    if best is None:
        return None
    backwards = []
    state = best[2]
    while state[1] >= 0:
        backwards.append(stops[state[1]])
        state = came[state]
    return tuple(reversed(backwards))


def _home(asked: WalkAsked, here: str | None, clock: int) -> int | None:
    """When the walk is over, or None when it cannot end in time."""
    last = 0 if here is None or asked.end is None else asked.walking.get((here, asked.end))
    return None if last is None or clock + last > asked.seconds else clock + last


def _in_rank(asked: WalkAsked, chosen: int, at: int) -> bool:
    rank = asked.candidates[at].rank
    if rank is None:
        return True
    return not any(
        chosen >> other & 1 and stop.rank is not None and stop.rank > rank
        for other, stop in enumerate(asked.candidates)
    )
