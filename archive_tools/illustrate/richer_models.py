"""Stretch and perspective, where marks can carry them and their residuals ask for them.

A camera that stood elsewhere, or a print photographed aslant, shows more than a turned and enlarged picture. But every
further unknown lets marks fit that do not belong together. So the simplest model is kept until its residuals are too
large for the placing of marks: the chi-square test of a least-squares fit (Pearson 1900, Philosophical Magazine
50:157-175), and for each richer model the test of nested fits (Wilks 1938, Annals of Mathematical Statistics 9:60-62),
counted in what the richer fit itself leaves over where that is more than placing explains.
Perspective: normalised direct linear transform, refined by least squares in the later picture
(Hartley & Zisserman 2004, Multiple View Geometry in Computer Vision, 2nd edition, algorithms 4.2 and 4.3).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import AFFINE, PERSPECTIVE, SIMILARITY, CannotAlign, Laid, Point, similarity
from archive_tools.model.reasons import N_, Reason, because

PLACING = 2.0
"""How well a mark is placed, in pixels along each axis (standard uncertainty), unless told otherwise."""
FEWEST = {SIMILARITY: 2, AFFINE: 4, PERSPECTIVE: 6}
"""Marks a model needs here: more than would fix it, so that something is left over to judge it by."""
LEVEL = 0.01
"""A fit so unlikely is not believed."""
WORST_MISFIT = 0.15
"""Marks that miss each other by more than this share of their own spread do not show the same places."""
_OFF_THE_LINE = 2.0
"""Marks within so many placings of a line lie on it, as far as anybody can tell."""
_MOST_STRETCH = 1.6
_MOST_DEPTH = 1.8
"""Farther from a plain photograph of the same place than this, a model has lost its way."""

Array = NDArray[np.float64]


def lay(before: Sequence[Point], after: Sequence[Point], placing: float = PLACING) -> Laid:
    """The simplest model that the marks do not contradict, fitted to them.

    placing: standard uncertainty of each coordinate of a mark, in pixels. Raises CannotAlign where no model can be
    fitted or the marks do not show the same places.
    """
    found = similarity(before, after)
    richer: tuple[tuple[str, Callable[[Sequence[Point], Sequence[Point]], Laid]], ...] = (
        (AFFINE, affine),
        (PERSPECTIVE, perspective),
    )
    for model, fit in richer:
        if not misfits(found, placing):
            return found
        if len(before) < FEWEST[model]:
            continue
        why = _cannot_carry(before, model, placing) or _cannot_carry(after, model, placing)
        if why is None:
            try:
                tried = fit(before, after)
            except CannotAlign as reason:
                why = reason.why
            else:
                why = implausible(tried, before)
                if why is None and _asked_for(found, tried, placing):
                    found = tried
        if why is not None:
            found = replace(found, kept_simple=why.say())
    radius = found.scale * math.sqrt(found.spread / found.points)
    if found.residual > max(WORST_MISFIT * radius, 4 * placing):
        raise CannotAlign(
            N_("the marks contradict each other: laid as well as can be, they miss by %(pixels)s pixels"),
            pixels=f"{found.residual:.0f}",
        )
    return found


def misfits(laid: Laid, placing: float, level: float = LEVEL) -> bool:
    """Whether the residuals are too large to come from placing the marks."""
    return laid.free > 0 and chance(chi_square(laid, placing), laid.free) < level


def chi_square(laid: Laid, placing: float) -> float:
    """The squared residuals in units of their variance: a mark is placed in both pictures, and carried by the scale."""
    return laid.residual**2 * laid.points / (placing**2 * (1 + laid.scale**2))


def chance(value: float, freedom: int) -> float:
    """How likely a chi-square of an even number of degrees of freedom is at least `value` (a finite sum)."""
    term, total = 1.0, 1.0
    for k in range(1, freedom // 2):
        term *= value / 2 / k
        total += term
    return math.exp(-value / 2) * total


def affine(before: Sequence[Point], after: Sequence[Point]) -> Laid:
    """The affine map that carries `before` onto `after` with the least sum of squared distances."""
    first, second = np.asarray(before, float), np.asarray(after, float)
    middle, size = first.mean(axis=0), _size(first)
    design = np.column_stack([(first - middle) / size, np.ones(len(first))])
    solved = np.linalg.lstsq(design, second, rcond=None)[0].T
    linear = solved[:, :2] / size
    rows = np.column_stack([linear, solved[:, 2] - linear @ middle])
    return fitted(AFFINE, rows, first, second)


def perspective(before: Sequence[Point], after: Sequence[Point], start: Array | None = None) -> Laid:
    """The perspective that carries `before` onto `after` with the least sum of squared distances in the second picture.

    start: a 3 x 3 matrix to begin from, instead of the direct linear transform. Raises CannotAlign where it is lost.
    """
    first, second = np.asarray(before, float), np.asarray(after, float)
    to_first, to_second = _normalising(first), _normalising(second)
    z, w = _times(to_first, first), _times(to_second, second)
    h = _direct(z, w) if start is None else to_second @ start @ np.linalg.inv(to_first)
    # Of marks nearly on a line the direct transform may be worse than no tilt at all.
    level = np.append(np.linalg.lstsq(np.column_stack([z, np.ones(len(z))]), w, rcond=None)[0].T.ravel(), [0.0, 0.0])
    begun = [level] if abs(h[2, 2]) < 1e-9 else [level, (h / h[2, 2]).ravel()[:8]]
    p = _refined(min(begun, key=lambda numbers: _missed(numbers, z, w)), z, w)
    if not np.isfinite(p).all():
        raise CannotAlign(N_("the marks do not fix a perspective"))
    whole = np.linalg.inv(to_second) @ np.append(p, 1.0).reshape(3, 3) @ to_first
    # A matrix and its negative carry alike; the one is wanted in which the marks lie before the camera. Its last number
    # is -1 where the corner that pixels are counted from lies beyond the horizon of the marks' plane.
    depth = float(whole[2] @ [*first.mean(axis=0), 1.0])
    return fitted(PERSPECTIVE, whole / math.copysign(whole[2, 2] or depth, depth), first, second)


def fitted(model: str, rows: Array, first: Array, second: Array) -> Laid:
    """A model with its residual at these points."""
    whole = rows if len(rows) == 3 else np.vstack([rows, [0.0, 0.0, 1.0]])
    missed = _times(whole, first) - second
    middle = first.mean(axis=0)
    matrix = tuple((float(a), float(b), float(c)) for a, b, c in rows)
    residual = math.sqrt(float((missed**2).sum()) / len(first))
    spread = float(((first - middle) ** 2).sum())
    return Laid(model, matrix, residual, (float(middle[0]), float(middle[1])), spread, len(first))


def on_one_line(points: Sequence[Point], placing: float = PLACING) -> bool:
    """Whether points lie on one line as far as their placing can tell; two always do."""
    if len(points) < 3:
        return True
    centred = np.asarray(points, float) - np.mean(points, axis=0)
    off = float(np.linalg.svd(centred, compute_uv=False)[1])
    return off / math.sqrt(len(points)) < _OFF_THE_LINE * placing


def implausible(laid: Laid, corners: Sequence[Point]) -> Reason | None:
    """Why no camera would show the same thing so, judged at some points of the first picture; None if one could."""
    depths = [laid.depth(corner) for corner in (laid.centre, *corners)]
    if min(depths) <= 0:
        return because(N_("it would lay a part of the picture behind the camera"))
    (a, b), (d, e) = laid.near(laid.centre)
    if a * e - b * d <= 0:
        return because(N_("it would turn the picture inside out"))
    if laid.stretch > _MOST_STRETCH:
        return because(
            N_("it would stretch the picture %(times)s times more one way than the other"), times=f"{laid.stretch:.1f}"
        )
    if max(depths) / min(depths) > _MOST_DEPTH:
        return because(N_("it would tilt the picture farther than a camera does"))
    return None


def _asked_for(simple: Laid, rich: Laid, placing: float) -> bool:
    """Whether what the richer model gains is more than chance gives it.

    That marks were placed better than `placing` is not concluded from how closely the richer model fits: a tree is not
    flat, and what stands at many depths now and then fits a stretch by accident. On wood that had not moved (the demo's
    points, each in turn left out) that conclusion carried places up to 47 pixels astray where this one misses by 7.
    """
    variance = placing**2 * (1 + simple.scale**2)
    left_over = rich.residual**2 * rich.points
    unit = max(variance, left_over / rich.free)
    gained = simple.residual**2 * simple.points - left_over
    return chance(max(gained, 0.0) / unit, simple.free - rich.free) < LEVEL


def _cannot_carry(points: Sequence[Point], model: str, placing: float) -> Reason | None:
    if on_one_line(points, placing):
        return because(N_("the marks lie on one line, and nothing holds the picture away from it"))
    if model == PERSPECTIVE and not any(
        not any(on_one_line(three, placing) for three in combinations(four, 3)) for four in combinations(points[:12], 4)
    ):
        return because(N_("all the marks but one lie on one line, which cannot show a tilt"))
    return None


def _size(points: Array) -> float:
    return float(np.sqrt(((points - points.mean(axis=0)) ** 2).sum(axis=1).mean())) or 1.0


def _normalising(points: Array) -> Array:
    middle, factor = points.mean(axis=0), math.sqrt(2) / _size(points)
    return np.array([[factor, 0, -factor * middle[0]], [0, factor, -factor * middle[1]], [0, 0, 1.0]])


def _times(matrix: Array, points: Array) -> Array:
    carried = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return np.asarray(carried[:, :2] / carried[:, 2:])


def _direct(z: Array, w: Array) -> Array:
    nought, one = np.zeros(len(z)), np.ones(len(z))
    x, y, u, v = z[:, 0], z[:, 1], w[:, 0], w[:, 1]
    rows = np.vstack(
        [
            np.column_stack([x, y, one, nought, nought, nought, -u * x, -u * y, -u]),
            np.column_stack([nought, nought, nought, x, y, one, -v * x, -v * y, -v]),
        ]
    )
    # Four marks leave the answer to the full decomposition; of many places that one would be huge.
    return np.asarray(np.linalg.svd(rows, full_matrices=len(z) < 5)[2][-1].reshape(3, 3))


def _refined(p: Array, z: Array, w: Array) -> Array:
    """The least squares near `p`, by the damped steps of Levenberg and Marquardt.

    Undamped steps run away where the marks hardly tell one tilt from another (Marquardt 1963, Journal of the Society
    for Industrial and Applied Mathematics 11:431-441).
    """
    missed, damping = _missed(p, z, w), 1e-3
    for _ in range(100):
        step = _improvement(p, z, w, damping)
        tried, far = _missed(p + step, z, w), float(np.abs(step).max())
        if tried < missed:
            p, missed, damping = p + step, tried, damping / 10
        else:
            damping *= 10
        if far < 1e-8:
            break
    return p


def _missed(p: Array, z: Array, w: Array) -> float:
    """The sum of squared distances; infinite where a mark would lie behind the camera."""
    depth = p[6] * z[:, 0] + p[7] * z[:, 1] + 1
    if not depth.min() > 0:
        return math.inf
    u, v = ((p[at] * z[:, 0] + p[at + 1] * z[:, 1] + p[at + 2]) / depth for at in (0, 3))
    return float(((u - w[:, 0]) ** 2 + (v - w[:, 1]) ** 2).sum())


def _improvement(p: Array, z: Array, w: Array, damping: float) -> Array:
    """One step of Gauss and Newton, held back by `damping`."""
    x, y, nought, one = z[:, 0], z[:, 1], np.zeros(len(z)), np.ones(len(z))
    depth = p[6] * x + p[7] * y + 1
    u, v = (p[0] * x + p[1] * y + p[2]) / depth, (p[3] * x + p[4] * y + p[5]) / depth
    rows_u = np.column_stack([x, y, one, nought, nought, nought, -u * x, -u * y]) / depth[:, None]
    rows_v = np.column_stack([nought, nought, nought, x, y, one, -v * x, -v * y]) / depth[:, None]
    rows = np.vstack([rows_u, rows_v])
    left_over = np.concatenate([w[:, 0] - u, w[:, 1] - v, np.zeros(8)])
    held = np.diag(math.sqrt(damping) * np.linalg.norm(rows, axis=0))
    return np.asarray(np.linalg.lstsq(np.vstack([rows, held]), left_over, rcond=None)[0])
