"""How long it takes to walk from any place to any other, by the paths there are.

Shortest ways after Dijkstra 1959, "A note on two problems in connexion with graphs", Numerische Mathematik 1:269-271.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable, Mapping

from archive_tools.model.grounds import Path

Ways = dict[str, dict[str, float]]


def ways(paths: Iterable[Path], *, step_free: bool = False, open_places: Iterable[str] | None = None) -> Ways:
    """Metres from place to place along single paths, both ways; of several between the same places the shortest.

    step_free: only paths that say so. open_places: only paths between these (None: all).
    """
    allowed = None if open_places is None else set(open_places)
    found: Ways = {}
    for path in paths:
        one, other = path.between
        if (step_free and not path.step_free) or (allowed is not None and not {one, other} <= allowed):
            continue
        for here, there in ((one, other), (other, one)):
            so_far = found.setdefault(here, {}).get(there, math.inf)
            found[here][there] = min(so_far, path.metres)
    return found


def metres_from(start: str, known: Ways) -> dict[str, float]:
    """The shortest way from `start` to every place that can be reached, in metres."""
    best = {start: 0.0}
    waiting = [(0.0, start)]
    while waiting:
        far, here = heapq.heappop(waiting)
        if far > best[here]:
            continue
        for there, step in known.get(here, {}).items():
            if far + step < best.get(there, math.inf):
                best[there] = far + step
                heapq.heappush(waiting, (best[there], there))
    return best


def walking_seconds(places: Iterable[str], known: Ways, speed: float) -> Mapping[tuple[str, str], int]:
    """Whole seconds, rounded up, from each of `places` to each other at `speed` metres a second."""
    wanted = list(dict.fromkeys(places))
    found: dict[tuple[str, str], int] = {}
    for start in wanted:
        far = metres_from(start, known)
        # A metre too little of rounding in floating point must not become a second more.
        found |= {(start, end): math.ceil(round(far[end] / speed, 6)) for end in wanted if end in far}
    return found
