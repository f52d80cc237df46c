"""Where two aligned photographs both have something to show: the largest upright rectangle inside both.

Nothing is drawn in that a picture does not hold, so the corners that one of them lacks are cut from both. The rectangle
keeps all the marks where any rectangle can, so that the tree stays whole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import CannotAlign, Point, Similarity

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


def common_box(laid: Similarity, before: tuple[int, int], after: tuple[int, int], keep: Sequence[Point] = ()) -> Box:
    """The largest rectangle that lies in `after` and in `before` laid over it. Sizes are (width, height).

    `keep` are points, in pixels of `after`, that should lie inside. Raises CannotAlign where too little is common.
    """
    corners = [(0.0, 0.0), (before[0], 0.0), (float(before[0]), float(before[1])), (0.0, float(before[1]))]
    polygon = _clipped([laid.carry(corner) for corner in corners], after)
    found = _largest(polygon, keep) if len(polygon) >= 3 else None
    smaller = min(before[0] * before[1] * laid.scale**2, float(after[0] * after[1]))
    if found is None or found.area < LEAST_SHARE * smaller:
        raise CannotAlign("laid over each other, the two pictures have too little in common")
    return found


def _clipped(polygon: list[Point], size: tuple[int, int]) -> list[Point]:
    """A convex polygon cut down to the rectangle from (0, 0) to `size` (Sutherland & Hodgman 1974)."""
    for axis, limit, keeps_less in (
        (0, 0.0, False),
        (0, float(size[0]), True),
        (1, 0.0, False),
        (1, float(size[1]), True),
    ):
        kept: list[Point] = []
        for here, there in zip(polygon, polygon[1:] + polygon[:1], strict=True):
            inside, next_inside = (
                (point[axis] <= limit) if keeps_less else (point[axis] >= limit) for point in (here, there)
            )
            if inside:
                kept.append(here)
            if inside != next_inside:
                share = (limit - here[axis]) / (there[axis] - here[axis])
                kept.append((here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1])))
        polygon = kept
        if not polygon:
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
