"""A plan of the courts with the way of a walk: points and lines, in shares of a box, for a drawing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from math import dist

from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.context import Context

HIGH = 300
"""Pixels of the drawing from top to bottom; across it is as wide as the page lets it be."""
_WIDTHS = (330, 640)
"""On a telephone, and at its widest: words are put where they stand free at both."""
_NAME, _SMALL, _CJK, _LINE = 9.0, 8.0, 18.0, 19


@dataclass(frozen=True, slots=True)
class Side:
    """Where words stand beside a point: pixels across and down to the first line, and which end of it is there."""

    dx: int
    dy: int
    anchor: str


_SIDES = (
    Side(12, -4, "start"), Side(-12, -4, "end"), Side(8, -28, "start"), Side(-8, -28, "end"),
    Side(8, 24, "start"), Side(-8, 24, "end"), Side(0, -31, "middle"), Side(0, 25, "middle"),
)  # fmt: skip
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class CourtPoint:
    """A place of the walk: in hundredths of the box across and down, with the numbers of its stops, "1, 4–6"."""

    name: str
    across: float
    down: float
    stops: str
    side: Side
    """Where its words stand."""


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
    spots = {
        key: (round(6 + 88 * (x - min(east)) / wide, 2), round(20 + 60 * (max(north) - y) / high, 2))
        for key, (x, y) in at.items()
    }
    walked = [key for key in order if key in spots]
    pairs = tuple(dict.fromkeys((a, b) for a, b in pairwise(walked) if a != b))
    words = {
        key: (
            context.place(key),
            _runs([number for number, stop in enumerate(plan.stops, 1) if stop.place == key]),
        )
        for key in spots
    }
    sides = _sides(spots, words, pairs)
    points = {key: CourtPoint(words[key][0], *spots[key], words[key][1], sides[key]) for key in spots}
    at_stops = _("%(place)s: stops %(numbers)s")
    told = [at_stops % {"place": p.name, "numbers": p.stops} if p.stops else p.name for p in points.values()]
    return WayOfWalk(tuple(points.values()), tuple((points[a], points[b]) for a, b in pairs), _("; ").join(told))


def _sides(
    spots: Mapping[str, tuple[float, float]],
    words: Mapping[str, tuple[str, str]],
    pairs: tuple[tuple[str, str], ...],
) -> dict[str, Side]:
    """For each point the side on which its words meet the fewest ways, points and other words."""
    chosen: dict[str, Side] = {}

    def cost(key: str, side: Side) -> float:
        met = 0.0
        for width in _WIDTHS:
            box = _box(spots[key], words[key], side, width)
            met += 1000 * (box[0] < 0 or box[2] > width or box[1] < 0 or box[3] > HIGH)
            for a, b in pairs:
                met += _length_within(box, _pixels(spots[a], width), _pixels(spots[b], width))
            met += sum(
                100 * _overlap(box, _round(_pixels(spot, width))) for other, spot in spots.items() if other != key
            )
            met += sum(
                100 * _overlap(box, _box(spots[other], words[other], there, width)) for other, there in chosen.items()
            )
        return met

    for key in spots:
        chosen[key] = min(_SIDES, key=partial(cost, key))
    return chosen


def _pixels(spot: tuple[float, float], width: int) -> tuple[float, float]:
    return spot[0] * width / 100, spot[1] * HIGH / 100


def _round(point: tuple[float, float]) -> Box:
    return point[0] - 8, point[1] - 8, point[0] + 8, point[1] + 8


def _box(spot: tuple[float, float], words: tuple[str, str], side: Side, width: int) -> Box:
    """What the words beside a point cover, in pixels."""
    x, y = _pixels(spot, width)
    name, stops = words
    wide = max(sum(_CJK if ord(letter) > 0x2E7F else _NAME for letter in name), _SMALL * len(stops))
    begin = x + side.dx - {"start": 0.0, "middle": 0.5, "end": 1.0}[side.anchor] * wide
    first = y + side.dy
    return begin - 3, first - 17, begin + wide + 3, first + 6 + (_LINE if stops else 0)


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _length_within(box: Box, a: tuple[float, float], b: tuple[float, float]) -> float:
    """How many pixels of the way from `a` to `b` lie under the words, to within a hundredth of the way."""
    steps = [(a[0] + (b[0] - a[0]) * t / 100, a[1] + (b[1] - a[1]) * t / 100) for t in range(101)]
    inside = sum(box[0] < x < box[2] and box[1] < y < box[3] for x, y in steps)
    return inside * dist(a, b) / 100


def _runs(numbers: list[int]) -> str:
    """Numbers with runs joined: 1, 2, 3, 5 is "1–3, 5"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs)
