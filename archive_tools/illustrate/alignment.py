"""How one photograph lies over another, and the simplest way of laying it: scale, turn and shift.

Least squares after Umeyama 1991, "Least-squares estimation of transformation parameters between two point patterns",
IEEE Transactions on Pattern Analysis and Machine Intelligence 13:376-380. In a plane the solution has a closed form:
with both sets centred, and points written as complex numbers z -> w, the factor is sum(conj(z) w) / sum(|z|^2).
A mirror image is never used: a photograph can be turned, but a tree does not change its left for its right.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from archive_tools.model.reasons import N_, Cannot

Point = tuple[float, float]
Row = tuple[float, float, float]
Matrix = tuple[Row, ...]

SIMILARITY, AFFINE, PERSPECTIVE = "similarity", "affine", "perspective"
_UNKNOWNS = {SIMILARITY: 4, AFFINE: 6, PERSPECTIVE: 8}
_SAME_SPOT = 1e-6
"""Marks nearer to each other than this many pixels lie on one spot."""
_MIRROR_GAIN = 4.0
"""A mirror image that fits this much better than any turn tells that one picture is mirrored."""


class CannotAlign(Cannot):
    """Two pictures cannot be laid over each other; `why` says it, in plain words."""


class TooFewMarks(CannotAlign):
    """The pictures share too few marks to be held by marks at all."""


@dataclass(frozen=True, slots=True)
class Laid:
    """Where a point of one picture lies in another.

    model: "similarity", "affine" or "perspective". matrix: from pixels to pixels, two rows of three, or three rows for
    a perspective. residual: root mean square distance of the points after alignment, in pixels of the second picture.
    centre, spread: mean of the points of the first picture, and the sum of their squared distances from it.
    points: how many were used. kept_simple: why a richer model that the residuals ask for was not used.
    """

    model: str
    matrix: Matrix
    residual: float
    centre: Point
    spread: float
    points: int
    kept_simple: str | None = None

    def carry(self, point: Point) -> Point:
        """Where `point` of the first picture lies in the second. Raises CannotAlign for a point behind the camera."""
        (a, b, c), (d, e, f) = self.matrix[0], self.matrix[1]
        x, y = point
        if len(self.matrix) == 2:
            return a * x + b * y + c, d * x + e * y + f
        depth = self.depth(point)
        if depth <= 0:
            raise CannotAlign(N_("laid over each other, a part of the earlier picture would lie behind the camera"))
        return (a * x + b * y + c) / depth, (d * x + e * y + f) / depth

    def depth(self, point: Point) -> float:
        """The third coordinate of a carried point: 1 unless the model is a perspective."""
        if len(self.matrix) == 2:
            return 1.0
        g, h, i = self.matrix[2]
        return g * point[0] + h * point[1] + i

    def near(self, point: Point) -> tuple[tuple[float, float], tuple[float, float]]:
        """How small steps at `point` of the first picture appear in the second: the four first derivatives."""
        (a, b, _), (d, e, _) = self.matrix[0], self.matrix[1]
        if len(self.matrix) == 2:
            return (a, b), (d, e)
        (g, h, _), depth = self.matrix[2], self.depth(point)
        u, v = self.carry(point)
        return ((a - u * g) / depth, (b - u * h) / depth), ((d - v * g) / depth, (e - v * h) / depth)

    @property
    def scale(self) -> float:
        """How much larger things are in the second picture, at the middle of the points."""
        (a, b), (d, e) = self.near(self.centre)
        return math.sqrt(abs(a * e - b * d))

    @property
    def turn(self) -> float:
        """In degrees, positive clockwise on the page (y runs down), at the middle of the points."""
        (a, b), (d, e) = self.near(self.centre)
        return math.degrees(math.atan2(d - b, a + e))

    @property
    def stretch(self) -> float:
        """How much more one direction is enlarged than the other, at the middle of the points; 1 for none."""
        (a, b), (d, e) = self.near(self.centre)
        total, area = a * a + b * b + d * d + e * e, abs(a * e - b * d)
        half = math.sqrt(max(total * total / 4 - area * area, 0.0))
        return math.sqrt((total / 2 + half) / max(total / 2 - half, 1e-12))

    @property
    def free(self) -> int:
        """How many measured numbers are left over to judge the fit by."""
        return 2 * self.points - _UNKNOWNS[self.model]

    @property
    def back(self) -> Matrix:
        """The matrix the other way, from the second picture to the first, of the same shape as `matrix`."""
        (a, b, c), (d, e, f) = self.matrix[0], self.matrix[1]
        g, h, i = self.matrix[2] if len(self.matrix) == 3 else (0.0, 0.0, 1.0)
        whole = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
        if not whole:
            raise CannotAlign(N_("the marks of the two pictures have nothing in common"))
        rows: tuple[Row, Row, Row] = (
            (e * i - f * h, c * h - b * i, b * f - c * e),
            (f * g - d * i, a * i - c * g, c * d - a * f),
            (d * h - e * g, b * g - a * h, a * e - b * d),
        )
        one = whole if len(self.matrix) == 2 else rows[2][2]
        turned = tuple((row[0] / one, row[1] / one, row[2] / one) for row in rows)
        return turned[: len(self.matrix)]


def similarity(before: Sequence[Point], after: Sequence[Point]) -> Laid:
    """The similarity that carries `before` onto `after` with the least sum of squared distances.

    Raises CannotAlign for fewer than two pairs, for marks on one spot, and where one picture seems to be mirrored.
    """
    count = len(before)
    if count != len(after):
        raise ValueError(f"{count} marks against {len(after)}")
    if count < 2:
        raise TooFewMarks(N_("two marks in both pictures are needed"))
    first, second = [complex(*point) for point in before], [complex(*point) for point in after]
    first_mean, second_mean = sum(first) / count, sum(second) / count
    z, w = [point - first_mean for point in first], [point - second_mean for point in second]
    first_spread, second_spread = sum(abs(point) ** 2 for point in z), sum(abs(point) ** 2 for point in w)
    if min(first_spread, second_spread) < count * _SAME_SPOT**2:
        raise CannotAlign(N_("the marks lie on one spot"))
    product = sum((a.conjugate() * b for a, b in zip(z, w, strict=True)), 0j)
    mirrored = sum((a * b for a, b in zip(z, w, strict=True)), 0j)
    left_over = max(second_spread - abs(product) ** 2 / first_spread, 0.0)
    mirror_left_over = max(second_spread - abs(mirrored) ** 2 / first_spread, 0.0)
    if left_over > second_spread / 100 and mirror_left_over * _MIRROR_GAIN**2 < left_over:
        raise CannotAlign(N_("one of the pictures seems to be mirrored"))
    if abs(product) < 1e-12 * math.sqrt(first_spread * second_spread):
        raise CannotAlign(N_("the marks of the two pictures have nothing in common"))
    factor = product / first_spread
    shift = second_mean - factor * first_mean
    matrix = ((factor.real, -factor.imag, shift.real), (factor.imag, factor.real, shift.imag))
    residual = math.sqrt(sum(abs(b - factor * a - shift) ** 2 for a, b in zip(first, second, strict=True)) / count)
    return Laid(SIMILARITY, matrix, residual, (first_mean.real, first_mean.imag), first_spread, count)


def shared_marks(
    before: Mapping[str, Point], after: Mapping[str, Point], asked: Sequence[str] = (), moved: Sequence[str] = ()
) -> tuple[str, ...]:
    """The names of the marks to align on.

    Those `asked` for; else all that both pictures have, in the order of the first, except those whose movement is
    to be measured: what moved must not hold the picture still. Raises TooFewMarks, naming what is missing.
    """
    for name in asked:
        if name not in before:
            raise TooFewMarks(N_("the earlier picture has no mark “%(name)s”"), name=name)
        if name not in after:
            raise TooFewMarks(N_("the later picture has no mark “%(name)s”"), name=name)
    names = tuple(asked) or tuple(name for name in before if name in after and name not in moved)
    if not names:
        raise TooFewMarks(N_("the two pictures share no mark to align on; two are needed"))
    if len(names) < 2:
        raise TooFewMarks(
            N_("the two pictures share only the mark “%(name)s” to align on; two are needed"), name=names[0]
        )
    return names
