"""A plan of the courts with the way of a walk: points and lines, in shares of a box, for a drawing."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.context import Context


@dataclass(frozen=True, slots=True)
class CourtPoint:
    """A place of the walk: in hundredths of the box across and down, with the numbers of its stops, "1, 4–6"."""

    name: str
    across: float
    down: float
    stops: str
    left: bool
    """Whether its words stand to its left."""


@dataclass(frozen=True, slots=True)
class WayOfWalk:
    """The places in order of first coming, and the ways walked between them as pairs of points."""

    points: tuple[CourtPoint, ...]
    ways: tuple[tuple[CourtPoint, CourtPoint], ...]
    says: str


def way_of_walk(context: Context, plan: TourPlan) -> WayOfWalk | None:
    """The plan of a walk; None where fewer than two of its places have a point on the house's plan."""
    _ = context.translations.gettext
    order = [*([plan.start] if plan.start else []), *(stop.place for stop in plan.stops)]
    order += [plan.end] if plan.end else []
    places = {key: context.records.places[key] for key in dict.fromkeys(order) if key in context.records.places}
    at = {key: place.at for key, place in places.items() if place.at is not None}
    if len(at) < 2:
        return None
    east, north = [x for x, _y in at.values()], [y for _x, y in at.values()]
    wide, high = max(max(east) - min(east), 1.0), max(max(north) - min(north), 1.0)
    points = {}
    for key, (x, y) in at.items():
        across = 6 + 88 * (x - min(east)) / wide
        numbers = [number for number, stop in enumerate(plan.stops, 1) if stop.place == key]
        points[key] = CourtPoint(
            context.place(key),
            round(across, 2),
            round(14 + 74 * (max(north) - y) / high, 2),
            _runs(numbers),
            across > 55,
        )
    walked = [key for key in order if key in points]
    pairs = dict.fromkeys((a, b) for a, b in pairwise(walked) if a != b)
    told = [
        f"{p.name}: {_('stops %(numbers)s') % {'numbers': p.stops}}" if p.stops else p.name for p in points.values()
    ]
    return WayOfWalk(tuple(points.values()), tuple((points[a], points[b]) for a, b in pairs), "; ".join(told))


def _runs(numbers: list[int]) -> str:
    """Numbers with runs joined: 1, 2, 3, 5 is "1–3, 5"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs)
