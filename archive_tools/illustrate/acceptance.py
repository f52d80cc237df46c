"""Whether an alignment that the program found by itself may be shown.

Every test here can only refuse. Agreement of places must be far beyond chance (counted as Moisan & Stival 2004,
International Journal of Computer Vision 57:201-218, count false alarms), spread over the picture, the same whichever
part of the picture is left out, and such as a photographer who comes back to a tree could have brought about. And
places must not agree only around the tree: two trees before one wall share the wall.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import SIMILARITY, CannotAlign, Laid, Point
from archive_tools.illustrate.features import AGREES, Agreement, Places, refit
from archive_tools.illustrate.richer_models import implausible
from archive_tools.illustrate.second_look import TOO_LITTLE, Closer, looked_again
from archive_tools.model.reasons import N_, Reason, because

FEWEST = 25
"""Places that must agree."""
LEAST_SHARE = 0.1
"""Of the places that look alike."""
FALSE_ALARMS = -12.0
"""Power of ten: so many agreements as good as this one are expected by chance at most."""
LEAST_SPREAD = 0.06
"""Share of the later picture that the places which agree must enclose."""
LEAST_CELLS = 6
"""Of sixteen equal parts of the later picture, so many must hold a place that agrees."""
SCALES = (0.5, 2.0)
MOST_TURN = 20.0
"""Degrees."""
MOST_STRETCH = 1.25
LARGEST_RESIDUAL = 1.05
"""Pixels at working size. What misses by more has depth: of the pairs named below none came under 1.16, while a plane
scene taken smaller and turned comes to 1.00.
"""
_NARROW_SPREAD, _NARROW_CELLS = 0.02, 3
"""Where the places that agree lie closer together, scale and turn alone, which stray least beyond them, must do, and
the whole picture must stay where it is whichever of them are left out."""
LEAST_MIDDLE = 0.2
"""In the middle of the picture places must agree at least so often, measured by how often they do around it."""
STEADY = 2.2
"""Pixels at working size: leaving out any third of the places moves no part of what is common farther than this."""

NEARLY = (0.95, 1.2)
"""Scale and turn alone may stand for a more credible answer that is refused where they explain so large a part of its
places, and miss by so many times as much at most."""

TREE_FEWEST, TREE_PARTS, TREE_STEADY = 100, 10, 2.5
"""So many places and parts of the tree itself must agree; and pixels at working size, as `STEADY`, for all of the
picture."""
MOST_DEPTH = 0.95
"""Pixels at working size: by so much the parts of the tree lie off at most (root mean square).

The limits of the tree were set on 396 pairs drawn by the picture maker for this alone, of 23 trees before other walls
and by other cameras than the demo's; what they do on the demo's own pairs is a test.
"""

_LEFT, _RIGHT, _TOP, _BOTTOM = 0.3, 0.7, 0.3, 0.9
_JUDGED = 30
"""Where the middle has fewer places than this, it cannot be judged by them."""

Array = NDArray[np.float64]


def accepted(found: Sequence[Agreement], before: Places, after: Places) -> Agreement:
    """The most credible of several answers, if it may be shown, or else the tree itself laid by scale and turn.

    What fits as closely as places can be found shows no depth, and holds for all of the picture. Where things at many
    depths disagree, the tree alone is asked (see `second_look`). before, after: all the places of the two pictures.
    Raises CannotAlign with what is wrong.
    """
    best = found[0]
    why = unlike(best, before, after)
    if why is not None:
        raise CannotAlign(why)
    for one in found:
        as_many = len(one.before) >= NEARLY[0] * len(best.before)
        as_near = one.laid.residual <= NEARLY[1] * best.laid.residual
        if one is best or (one.laid.model == SIMILARITY and as_many and as_near):
            reason = refused(one, before, after)
            if reason is None:
                return one
            why = why or reason
    if why is not None and best.laid.residual <= LARGEST_RESIDUAL:
        # No depth: scale and turn would only lay it worse.
        raise CannotAlign(why)
    level = next((one for one in found if one.laid.model == SIMILARITY), best)
    closer = looked_again(level, before, after)
    why = refused_tree(closer, before, after)
    if why is not None:
        raise CannotAlign(why)
    return closer.agreement


def unlike(found: Agreement, first: Places, second: Places) -> Reason | None:
    """Why two pictures have too little in common, or are too different, to be laid over each other; None if not."""
    laid, count = found.laid, len(found.before)
    if count < FEWEST or count < LEAST_SHARE * found.matches or false_alarms(found, second.size) > FALSE_ALARMS:
        return because(
            N_("only %(n)s of %(all)s places that look alike in the two pictures lie alike"), n=count, all=found.matches
        )
    if not SCALES[0] <= laid.scale <= SCALES[1]:
        times = f"{max(laid.scale, 1 / laid.scale):.1f}"
        return because(N_("one picture would be %(times)s times as large as the other"), times=times)
    if abs(laid.turn) > MOST_TURN:
        return because(N_("one picture would be turned by %(degrees)s degrees"), degrees=f"{abs(laid.turn):.0f}")
    if min(in_the_middle(found.before, first), in_the_middle(found.after, second)) < LEAST_MIDDLE:
        return because(
            N_("what looks alike in the two pictures lies around the tree, and may be only what stands behind it")
        )
    return None


def refused(found: Agreement, first: Places, second: Places) -> Reason | None:
    """Why an alignment must not be shown as one that holds for all of the picture; None if it may."""
    unfit = unlike(found, first, second)
    if unfit is not None:
        return unfit
    before, after = first.size, second.size
    laid = found.laid
    if laid.stretch > MOST_STRETCH:
        times = f"{laid.stretch:.2f}"
        return because(N_("it would stretch the picture %(times)s times more one way than the other"), times=times)
    corners = [(0.0, 0.0), (float(before[0]), 0.0), (float(before[0]), float(before[1])), (0.0, float(before[1]))]
    lost = implausible(laid, corners)
    if lost is not None:
        return lost
    if laid.residual > LARGEST_RESIDUAL:
        pixels = f"{laid.residual:.1f}"
        return because(N_("the places that look alike miss each other by %(pixels)s pixels"), pixels=pixels)
    wide = spread(found.after, after) >= LEAST_SPREAD and cells(found.after, after) >= LEAST_CELLS
    if not wide and (
        laid.model != SIMILARITY
        or spread(found.after, after) < _NARROW_SPREAD
        or cells(found.after, after) < _NARROW_CELLS
    ):
        return because(N_("the places that look alike lie in one corner of the pictures, and the rest may have moved"))
    # What only turns and scales strays little beyond the places that hold it; the others stray far.
    steady_around = wide and laid.model == SIMILARITY
    wavering = unsteady(found, after, _around(found) if steady_around else _whole(before))
    return _laid_differently(wavering) if wavering > STEADY else None


def refused_tree(found: Closer, first: Places, second: Places) -> Reason | None:
    """Why an alignment by the tree alone must not be shown; None if it may."""
    if len(found.agreement.before) < TREE_FEWEST or len(found.off) < TREE_PARTS:
        return because(TOO_LITTLE)
    if found.depth > MOST_DEPTH:
        pixels = f"{found.depth:.1f}"
        return because(N_("the places that look alike miss each other by %(pixels)s pixels"), pixels=pixels)
    wavering = unsteady(found.agreement, second.size, _whole(first.size))
    return _laid_differently(wavering) if wavering > TREE_STEADY else None


def _laid_differently(pixels: float) -> Reason:
    return because(
        N_("different parts of the pictures would have them laid differently, by %(pixels)s pixels"),
        pixels=f"{pixels:.0f}",
    )


def false_alarms(found: Agreement, after: tuple[int, int]) -> float:
    """Power of ten of how many agreements as good as this one pure chance would give."""
    n, k = found.matches, len(found.before)
    sample = (2 * found.laid.points - found.laid.free) // 2
    if k <= sample:
        return math.inf
    alone = math.log10(math.pi * AGREES**2 / (after[0] * after[1]))
    return math.log10(n) + _choose(n, k) + _choose(k, sample) + (k - sample) * alone


def spread(points: Array, size: tuple[int, int]) -> float:
    """The share of a picture that the points enclose."""
    import cv2

    hull = cv2.convexHull(points.astype(np.float32))
    return float(cv2.contourArea(hull)) / (size[0] * size[1])


def cells(points: Array, size: tuple[int, int]) -> int:
    """How many of sixteen equal parts of a picture hold one of the points."""
    places = np.clip((points / np.array(size) * 4).astype(int), 0, 3)
    return len(set(map(tuple, places.tolist())))


def in_the_middle(agreeing: Array, places: Places) -> float:
    """How much more often a place agrees in the middle of a picture, where the tree and its pot are, than around it."""

    def middle(points: Array) -> int:
        x, y = points[:, 0] / places.size[0], points[:, 1] / places.size[1]
        return int(((x > _LEFT) & (x < _RIGHT) & (y > _TOP) & (y < _BOTTOM)).sum())

    there, here = middle(places.at), middle(agreeing)
    around, agreeing_around = len(places.at) - there, len(agreeing) - here
    if there < _JUDGED or agreeing_around == 0:
        return math.inf
    return (here / there) / (agreeing_around / around)


def unsteady(found: Agreement, after: tuple[int, int], probes: list[Point]) -> float:
    """How far the picture moves at most, in pixels, when a third of the places, side by side, is left out of the fit.

    probes: where in the earlier picture that is judged; those that fall outside the later picture do not count.
    """
    whole = [found.laid.carry(probe) for probe in probes]
    worst = 0.0
    for axis in (0, 1):
        order = np.argsort(found.before[:, axis], kind="stable")
        for third in np.array_split(order, 3):
            kept = np.ones(len(order), bool)
            kept[third] = False
            try:
                other: Laid = refit(found.laid.model, found.before[kept], found.after[kept])
                moved = [math.dist(other.carry(probe), at) for probe, at in zip(probes, whole, strict=True)]
            except CannotAlign:
                return math.inf
            inside = [d for d, (x, y) in zip(moved, whole, strict=True) if 0 <= x <= after[0] and 0 <= y <= after[1]]
            worst = max([worst, *inside])
    return worst


def _around(found: Agreement) -> list[Point]:
    """Nine points as far out as the places that agree."""
    x, y = (float(number) for number in found.before.mean(axis=0))
    across, down = (float(number) for number in np.abs(found.before - (x, y)).max(axis=0) * 0.9)
    return [(x + i * across, y + j * down) for i in (-1, 0, 1) for j in (-1, 0, 1)]


def _whole(size: tuple[int, int]) -> list[Point]:
    """Twenty-five points all over a picture."""
    return [(size[0] * i / 4, size[1] * j / 4) for i in range(5) for j in range(5)]


def _choose(n: int, k: int) -> float:
    """Power of ten of the number of ways to choose k of n."""
    return (math.lgamma(n + 1) - math.lgamma(k + 1) - math.lgamma(n - k + 1)) / math.log(10)
