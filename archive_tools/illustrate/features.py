"""Laying one photograph over another by what has not changed in both: the pot, the bench, the foot of the trunk.

Places are found and described by SIFT (Lowe 2004, International Journal of Computer Vision 60:91-110), compared as
square roots (Arandjelović & Zisserman 2012, CVPR), matched where each is the other's best and clearly better than the
second best; the placement that most of them agree on is sought by MAGSAC++ (Barath et al. 2020, CVPR), all as OpenCV
has them. Between scale and turn, stretch, and perspective decides Torr's criterion (Torr 1998, Philosophical
Transactions of the Royal Society A 356:1321-1340), which charges each unknown. Whether the outcome may be shown is
another matter: see `acceptance`.

Seeds are fixed and OpenCV works in one thread, so that the same two pictures always give the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import AFFINE, PERSPECTIVE, SIMILARITY, CannotAlign, Laid, similarity
from archive_tools.illustrate.richer_models import affine, perspective
from archive_tools.model.reasons import N_

WORKING = 1400
"""Longest side, in pixels, at which places are looked for."""
_PLACES = 3000
_CLEARLY = 0.8
"""The best match is at most this far off, measured by the second best (Lowe 2004, 7.1)."""
AGREES = 3.0
"""Pixels, at working size: a place that is carried nearer than this agrees."""
_NOISE = (0.3, 1.0)
"""Pixels, at working size: a place is found no better and no worse than this. Between the two, the model with most
freedom tells how well: what a stiffer one misses beyond that is no noise."""
_FEWEST = 8
_ROUNDS = 10
_TOO_FEW_LIE_ALIKE = N_("of %(n)s places that look alike in the two pictures too few lie alike")

Array = NDArray[np.float64]
Grey = NDArray[np.uint8]


@dataclass(frozen=True, slots=True)
class Places:
    """Places of one picture: (x, y) from the corner of the first pixel, their descriptions, and the picture's size."""

    at: Array
    told: NDArray[np.float32]
    size: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Agreement:
    """What most matched places agree on. before, after: the places that agree; matches: how many were matched."""

    laid: Laid
    before: Array
    after: Array
    matches: int


def places_in(grey: Grey) -> Places:
    """The places of a grey picture that can be found again in another."""
    cv2.setNumThreads(1)
    even = cv2.createCLAHE(clipLimit=2.0, tileGridSize=(8, 8)).apply(grey)
    found, told = cv2.SIFT_create(nfeatures=_PLACES, contrastThreshold=0.02).detectAndCompute(even, None)  # type: ignore[attr-defined]
    size = (grey.shape[1], grey.shape[0])
    if told is None:
        return Places(np.zeros((0, 2)), np.zeros((0, 128), np.float32), size)
    roots = np.sqrt(told / np.maximum(told.sum(axis=1, keepdims=True), 1e-9))
    return Places(np.array([place.pt for place in found], float) + 0.5, roots.astype(np.float32), size)


def agreed(before: Places, after: Places) -> tuple[Agreement, ...]:
    """What most matched places agree on, by each model that fits, the most credible first. Raises CannotAlign."""
    first, second = clear_matches(before, after)
    if len(first) < _FEWEST:
        raise CannotAlign(N_("too few places in the two pictures look alike: %(n)s"), n=len(first))
    start = _start(first, second)
    settled = []
    for model, _fit in _MODELS:
        with suppress(CannotAlign):
            settled.append((model, *_settled(model, start, first, second)))
    if not settled:
        raise CannotAlign(_TOO_FEW_LIE_ALIKE, n=len(first))
    freest = settled[-1][1].residual
    noise = min(max(freest, _NOISE[0]), _NOISE[1])

    def cost(model: str, missed: Array) -> float:
        penalty = _UNKNOWNS[model] * math.log(4 * len(first))
        return float(np.minimum((missed / noise) ** 2, (AGREES / noise) ** 2).sum()) + penalty

    settled.sort(key=lambda one: cost(one[0], one[3]))
    return tuple(Agreement(laid, first[held], second[held], len(first)) for _, laid, held, _ in settled)


def _settled(model: str, held: NDArray[np.bool_], first: Array, second: Array) -> tuple[Laid, NDArray[np.bool_], Array]:
    """One model fitted to the places that agree with it, until they are the same ones. Raises CannotAlign."""
    for _ in range(_ROUNDS):
        if held.sum() < _FEWEST:
            raise CannotAlign(N_("too few places agree"))
        laid = refit(model, first[held], second[held])
        missed = misses(laid, first, second)
        closer = missed < AGREES
        if (closer == held).all():
            break
        held = closer
    if held.sum() < _FEWEST:
        raise CannotAlign(N_("too few places agree"))
    return refit(model, first[held], second[held]), held, missed


def refit(model: str, first: Array, second: Array) -> Laid:
    """The placement by one model that fits the points best. Raises CannotAlign."""
    return dict(_MODELS)[model](_points(first), _points(second))


def misses(laid: Laid, first: Array, second: Array) -> Array:
    """How far each point is carried beside its fellow, in pixels of the second picture."""
    missed = np.linalg.norm(carry_all(laid, first) - second, axis=1)
    return np.where(np.isnan(missed), np.inf, missed)


def clear_matches(
    before: Places, after: Places, laid: Laid | None = None, reach: float = math.inf
) -> tuple[Array, Array]:
    """Places that are each other's best match and clearly better than the second best, in both pictures.

    laid, reach: only what lies within so many pixels of where `laid` carries a place is looked at.
    """
    if len(before.at) < 2 or len(after.at) < 2:
        return np.zeros((0, 2)), np.zeros((0, 2))
    # Of unit vectors the squared distance is 2 - 2 x their product.
    alike = before.told @ after.told.T
    if laid is not None:
        carried = carry_all(laid, before.at).astype(np.float32)
        there = after.at.astype(np.float32)
        away = (carried**2).sum(axis=1)[:, None] + (there**2).sum(axis=1) - 2 * carried @ there.T
        alike[~(away < reach**2)] = -1.0
    best = alike.argmax(axis=1)
    rows = np.arange(len(best))
    top = alike[rows, best]
    mutual = alike.argmax(axis=0)[best] == rows
    alike[rows, best] = -1.0
    second = alike.max(axis=1)
    clear = (1 - top) < _CLEARLY**2 * (1 - second)
    kept = np.flatnonzero(mutual & clear & (top > 0))
    first, second_at = before.at[kept], after.at[best[kept]]
    # One place described twice, by two directions, is one place.
    _, once = np.unique(np.round(np.hstack([first, second_at]), 1), axis=0, return_index=True)
    once.sort()
    return first[once], second_at[once]


def carry_all(laid: Laid, points: Array) -> Array:
    """Where the points of the first picture lie in the second; not a number for one behind the camera."""
    rows = np.array([*laid.matrix, (0.0, 0.0, 1.0)][:3])
    carried = np.column_stack([points, np.ones(len(points))]) @ rows.T
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(carried[:, 2:] > 0, carried[:, :2] / carried[:, 2:], np.nan)


def _start(first: Array, second: Array) -> NDArray[np.bool_]:
    """The largest set of matches found to agree, by perspective or by scale and turn."""
    cv2.setRNGSeed(1)
    source, target = first.astype(np.float32), second.astype(np.float32)
    _, tilted = cv2.findHomography(source, target, cv2.USAC_MAGSAC, AGREES, maxIters=10000, confidence=0.9999)
    _, plain = cv2.estimateAffinePartial2D(
        source, target, ransacReprojThreshold=1.5 * AGREES, maxIters=5000, confidence=0.9999
    )
    sets = [found.ravel().astype(bool) for found in (tilted, plain) if found is not None]
    if not sets:
        raise CannotAlign(_TOO_FEW_LIE_ALIKE, n=len(first))
    return max(sets, key=lambda found: int(found.sum()))


def _points(at: Array) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in at]


_MODELS: tuple[tuple[str, Callable[[list[tuple[float, float]], list[tuple[float, float]]], Laid]], ...] = (
    (SIMILARITY, similarity),
    (AFFINE, affine),
    (PERSPECTIVE, perspective),
)
_UNKNOWNS = {SIMILARITY: 4, AFFINE: 6, PERSPECTIVE: 8}
