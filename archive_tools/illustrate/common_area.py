"""Where two aligned photographs both have something to show: the largest upright rectangle inside both.

Nothing is drawn in that a picture does not hold, so the corners that one of them lacks are cut from both. The rectangle
keeps all the marks where any rectangle can, so that the tree stays whole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import CannotAlign, Laid, Point
from archive_tools.model.reasons import N_

LEAST_SHARE = 0.15
"""Of the smaller picture: with less in common, a comparison shows nothing."""
_STEPS = 240


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle, in pixels of the second picture."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def area(self) -> float:
        """In square pixels."""
        return (self.right - self.left) * (self.bottom - self.top)


def common_box(laid: Laid, before: tuple[int, int], after: tuple[int, int], keep: Sequence[Point] = ()) -> Box:
    """The largest rectangle that lies in `after` and in `before` laid over it. Sizes are (width, height).

    `keep` are points, in pixels of `after`, that should lie inside. Raises CannotAlign where too little is common.
    """
    whole = outline(laid, before)
    found = _largest(polygon, keep) if len(polygon := _clipped(whole, after)) >= 3 else None
    smaller = min(_area(whole), float(after[0] * after[1]))
    if found is None or found.area < LEAST_SHARE * smaller:
        raise CannotAlign(N_("laid over each other, the two pictures have too little in common"))
    return found


def outline(laid: Laid, size: tuple[int, int]) -> list[Point]:
    """The corners of a picture laid into another. Raises CannotAlign where one would lie behind the camera."""
    width, height = float(size[0]), float(size[1])
    return [laid.carry(corner) for corner in ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))]


def box_inside(outlines: Sequence[list[Point]], size: tuple[int, int]) -> Box | None:
    """The largest rectangle inside a picture of this size and inside every outline laid into it; None for none."""
    common = [(0.0, 0.0), (float(size[0]), 0.0), (float(size[0]), float(size[1])), (0.0, float(size[1]))]
    for one in outlines:
        turned = one if _signed(one) > 0 else one[::-1]
        for here, there in zip(turned, turned[1:] + turned[:1], strict=True):
            common = _left_of(common, here, there)
            if len(common) < 3:
                return None
    return _largest(common, ())


def _signed(polygon: list[Point]) -> float:
    turned = zip(polygon, polygon[1:] + polygon[:1], strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in turned) / 2


def _left_of(polygon: list[Point], one: Point, other: Point) -> list[Point]:
    """A convex polygon cut down to one side of a line (Sutherland & Hodgman 1974)."""

    def side(point: Point) -> float:
        return (other[0] - one[0]) * (point[1] - one[1]) - (other[1] - one[1]) * (point[0] - one[0])

    kept: list[Point] = []
    for here, there in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        first, second = side(here), side(there)
        if first >= 0:
            kept.append(here)
        if (first >= 0) != (second >= 0):
            share = first / (first - second)
            kept.append((here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1])))
    return kept


def _area(polygon: list[Point]) -> float:
    return abs(_signed(polygon))


def _clipped(polygon: list[Point], size: tuple[int, int]) -> list[Point]:
    """A convex polygon cut down to the rectangle from (0, 0) to `size`."""
    corners = [(0.0, 0.0), (float(size[0]), 0.0), (float(size[0]), float(size[1])), (0.0, float(size[1]))]
    for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
        polygon = _left_of(polygon, here, there)
        if len(polygon) < 3:
            return []
    return polygon


def _largest(polygon: list[Point], keep: Sequence[Point]) -> Box | None:
    """The largest upright rectangle in a convex polygon, among those that hold `keep` if there are any.

    Between two x the upper edge of a convex shape comes lowest, and the lower edge highest, at one of the two: so each
    pair of x gives its tallest rectangle at once. The x tried are the corners, the kept points and a fine comb between.
    """
    low, high = min(x for x, _ in polygon), max(x for x, _ in polygon)
    if high - low < 1:
        return None
    tried = np.unique(np.concatenate([np.linspace(low, high, _STEPS), [x for x, _ in polygon], [x for x, _ in keep]]))
    tried = tried[(tried >= low) & (tried <= high)]
    top, bottom = _edges(polygon, tried)
    tops, bottoms = np.maximum.outer(top, top), np.minimum.outer(bottom, bottom)
    areas = np.where(bottoms > tops, (tried[None, :] - tried[:, None]) * (bottoms - tops), 0.0)
    if keep:
        left, right = min(x for x, _ in keep), max(x for x, _ in keep)
        above, below = min(y for _, y in keep), max(y for _, y in keep)
        holds = (tried[:, None] <= left) & (tried[None, :] >= right) & (tops <= above) & (bottoms >= below)
        if (areas * holds).max(initial=0.0) > 0:
            areas = areas * holds
    at = np.unravel_index(int(np.argmax(areas)), areas.shape)
    if areas[at] <= 0:
        return None
    return Box(float(tried[at[0]]), float(tops[at]), float(tried[at[1]]), float(bottoms[at]))


def _edges(polygon: list[Point], xs: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The least and greatest y of a convex polygon at each x."""
    top, bottom = np.full(xs.shape, np.inf), np.full(xs.shape, -np.inf)
    for (x0, y0), (x1, y1) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        if x0 == x1:
            at = np.isclose(xs, x0)
            top[at], bottom[at] = np.minimum(top[at], min(y0, y1)), np.maximum(bottom[at], max(y0, y1))
            continue
        at = (xs >= min(x0, x1)) & (xs <= max(x0, x1))
        y = y0 + (xs[at] - x0) * (y1 - y0) / (x1 - x0)
        top[at], bottom[at] = np.minimum(top[at], y), np.maximum(bottom[at], y)
    return top, bottom
