"""Laying one photograph over another: the similarity (scale, turn, shift) that best carries marks onto marks.

Least squares after Umeyama 1991, "Least-squares estimation of transformation parameters between two point patterns",
IEEE Transactions on Pattern Analysis and Machine Intelligence 13:376-380. In a plane the solution has a closed form:
with both sets centred, and points written as complex numbers z -> w, the factor is sum(conj(z) w) / sum(|z|^2).
A mirror image is never used: a photograph can be turned, but a tree does not change its left for its right.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

Point = tuple[float, float]
Matrix = tuple[tuple[float, float, float], tuple[float, float, float]]

_SAME_SPOT = 1e-6
"""Marks nearer to each other than this many pixels lie on one spot."""
_MIRROR_GAIN = 4.0
"""A mirror image that fits this much better than any turn tells that one picture is mirrored."""


class CannotAlign(ValueError):  # noqa: N818  (said of the pictures)
    """Two pictures cannot be laid over each other; the text says why, in plain words."""


@dataclass(frozen=True, slots=True)
class Similarity:
    """Where a point of one picture lies in another.

    matrix: 2 x 3, from pixels to pixels. scale: how much larger things are in the second picture. turn: in degrees,
    positive clockwise on the page (y runs down). residual: root mean square distance of the marks after alignment,
    in pixels of the second picture. centre, spread: mean of the marks of the first picture, and the sum of their
    squared distances from it, from which the uncertainty of a carried point follows. marks: how many were used.
    """

    matrix: Matrix
    scale: float
    turn: float
    residual: float
    centre: Point
    spread: float
    marks: int

    def carry(self, point: Point) -> Point:
        """Where `point` of the first picture lies in the second."""
        (a, b, c), (d, e, f) = self.matrix
        x, y = point
        return a * x + b * y + c, d * x + e * y + f


def similarity(before: Sequence[Point], after: Sequence[Point]) -> Similarity:
    """The similarity that carries `before` onto `after` with the least sum of squared distances.

    Raises CannotAlign for fewer than two pairs, for marks on one spot, and where one picture seems to be mirrored.
    """
    count = len(before)
    if count != len(after):
        raise ValueError(f"{count} marks against {len(after)}")
    if count < 2:
        raise CannotAlign("two marks in both pictures are needed")
    first, second = [complex(*point) for point in before], [complex(*point) for point in after]
    first_mean, second_mean = sum(first) / count, sum(second) / count
    z, w = [point - first_mean for point in first], [point - second_mean for point in second]
    first_spread, second_spread = sum(abs(point) ** 2 for point in z), sum(abs(point) ** 2 for point in w)
    if min(first_spread, second_spread) < count * _SAME_SPOT**2:
        raise CannotAlign("the marks lie on one spot")
    product = sum((a.conjugate() * b for a, b in zip(z, w, strict=True)), 0j)
    mirrored = sum((a * b for a, b in zip(z, w, strict=True)), 0j)
    left_over = max(second_spread - abs(product) ** 2 / first_spread, 0.0)
    mirror_left_over = max(second_spread - abs(mirrored) ** 2 / first_spread, 0.0)
    if left_over > second_spread / 100 and mirror_left_over * _MIRROR_GAIN**2 < left_over:
        raise CannotAlign("one of the pictures seems to be mirrored")
    if abs(product) < 1e-12 * math.sqrt(first_spread * second_spread):
        raise CannotAlign("the marks of the two pictures have nothing in common")
    factor = product / first_spread
    shift = second_mean - factor * first_mean
    matrix = ((factor.real, -factor.imag, shift.real), (factor.imag, factor.real, shift.imag))
    residual = math.sqrt(sum(abs(b - factor * a - shift) ** 2 for a, b in zip(first, second, strict=True)) / count)
    centre = (first_mean.real, first_mean.imag)
    return Similarity(matrix, abs(factor), math.degrees(cmath.phase(factor)), residual, centre, first_spread, count)


def shared_marks(
    before: Mapping[str, Point], after: Mapping[str, Point], asked: Sequence[str] = (), moved: Sequence[str] = ()
) -> tuple[str, ...]:
    """The names of the marks to align on.

    Those `asked` for; else all that both pictures have, in the order of the first, except those whose movement is
    to be measured: what moved must not hold the picture still. Raises CannotAlign, naming what is missing.
    """
    for name in asked:
        for which, marks in (("earlier", before), ("later", after)):
            if name not in marks:
                raise CannotAlign(f"the {which} picture has no mark “{name}”")
    names = tuple(asked) or tuple(name for name in before if name in after and name not in moved)
    if len(names) < 2:
        has = "no mark" if not names else f"only the mark “{names[0]}”"
        raise CannotAlign(f"the two pictures share {has} to align on; two are needed")
    return names
