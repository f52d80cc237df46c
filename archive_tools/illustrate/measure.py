"""Lengths and movements in photographs, each with its uncertainty.

A length is read by its own picture's scale: L = R p / q, where R is the known length between the scale's marks, q their
distance and p the distance measured, in pixels. Uncertainty is first-order propagation (JCGM 100:2008, 5.1.2) from
R and from the placing of every mark; where all four marks differ it comes to
(u_L / L)^2 = (u_R / R)^2 + (u_p / p)^2 + (u_q / q)^2 with u_p = u_q = sqrt(2) x placing. Marks that serve twice are
counted as what they are: the scale measured by itself is as uncertain as the scale, no more.

What is nearer to the camera than the scale reads too long, what is farther too short; no number here can tell.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from archive_tools.illustrate.alignment import CannotAlign, Point, Similarity, similarity
from archive_tools.model.photo import PictureScale

PLACING = 2.0
"""How well a mark is placed, in pixels along each axis (standard uncertainty), unless told otherwise."""


class CannotMeasure(ValueError):  # noqa: N818  (said of the picture)
    """Nothing can be measured; the text says why, in plain words."""


@dataclass(frozen=True, slots=True)
class Length:
    """A length and its standard uncertainty (k = 1), both in centimetres."""

    cm: float
    uncertainty: float


@dataclass(frozen=True, slots=True)
class Movement:
    """How far a mark moved, to the right and up, with the standard uncertainty (k = 1) of each, in centimetres."""

    right: float
    up: float
    right_uncertainty: float
    up_uncertainty: float


def uncertainty_of(scale: PictureScale) -> float:
    """Standard uncertainty of the known length, in centimetres.

    Where none is written, the last place written is taken to be rounded: half a unit of it over sqrt(3)
    (JCGM 100:2008, 4.3.7).
    """
    if scale.plus_minus is not None:
        return float(scale.plus_minus)
    exponent = scale.cm.as_tuple().exponent
    return 0.5 * 10.0 ** (exponent if isinstance(exponent, int) else 0) / math.sqrt(3)


def length(
    marks: Mapping[str, Point], scale: PictureScale | None, from_mark: str, to_mark: str, placing: float = PLACING
) -> Length:
    """The length between two marks by the picture's scale. `placing` is in pixels.

    Raises CannotMeasure without a scale, without the marks, or where the scale's marks are too near each other.
    """
    known, known_uncertainty, scale_from, scale_to = _usable(marks, scale, placing)
    one, other = _mark(marks, from_mark), _mark(marks, to_mark)
    p, q = math.dist(one, other), math.dist(scale_from[1], scale_to[1])
    value = known * p / q
    # How the value answers to a shift of each mark: along the measured line by R/q, along the scale by -R p/q^2.
    answers: dict[str, complex] = {}
    if p > 0:
        along = complex(other[0] - one[0], other[1] - one[1]) / p * known / q
        answers[to_mark] = answers.get(to_mark, 0j) + along
        answers[from_mark] = answers.get(from_mark, 0j) - along
    scaled = complex(scale_to[1][0] - scale_from[1][0], scale_to[1][1] - scale_from[1][1]) / q * value / q
    answers[scale_to[0]] = answers.get(scale_to[0], 0j) - scaled
    answers[scale_from[0]] = answers.get(scale_from[0], 0j) + scaled
    by_placing = math.sqrt(sum(abs(answer) ** 2 for answer in answers.values())) * placing
    return Length(value, math.hypot(by_placing, value * known_uncertainty / known))


def movement(
    before: Mapping[str, Point],
    after: Mapping[str, Point],
    align_on: tuple[str, ...],
    mark: str,
    scale: PictureScale | None,
    placing: float = PLACING,
) -> Movement:
    """How far `mark` moved between two pictures once they are aligned on the other marks.

    Measured by the scale of the picture `after`. The uncertainty holds the placing of the mark in both pictures, the
    alignment (a least-squares fit in four unknowns, whose variance at a point grows with its distance from the marks;
    where the marks fit worse than their placing explains, that misfit counts instead), and the scale.
    Raises CannotMeasure without a scale or with fewer than two other marks.
    """
    start, end = _mark(before, mark), _mark(after, mark)
    others = tuple(name for name in align_on if name != mark)
    try:
        laid = similarity([_mark(before, name) for name in others], [_mark(after, name) for name in others])
    except CannotAlign as reason:
        raise CannotMeasure(f"without “{mark}” itself the pictures cannot be laid over each other: {reason}") from None
    known, known_uncertainty, scale_from, scale_to = _usable(after, scale, placing)
    q = math.dist(scale_from[1], scale_to[1])
    cm = known / q
    carried = laid.carry(start)
    right, up = (end[0] - carried[0]) * cm, (carried[1] - end[1]) * cm
    pixels = math.sqrt(placing**2 * (1 + laid.scale**2) + _of_alignment(laid, start, placing))
    relative = math.hypot(known_uncertainty / known, math.sqrt(2) * placing / q)
    return Movement(right, up, math.hypot(pixels * cm, right * relative), math.hypot(pixels * cm, up * relative))


def _of_alignment(laid: Similarity, point: Point, placing: float) -> float:
    """Variance, along each axis, of where the alignment carries `point`, in square pixels of the second picture."""
    variance = placing**2 * (1 + laid.scale**2)
    if laid.marks > 2:
        variance = max(variance, laid.residual**2 * laid.marks / (2 * laid.marks - 4))
    return variance * (1 / laid.marks + math.dist(point, laid.centre) ** 2 / laid.spread)


def _mark(marks: Mapping[str, Point], name: str) -> Point:
    if name not in marks:
        raise CannotMeasure(f"the picture has no mark “{name}”")
    return marks[name]


def _usable(
    marks: Mapping[str, Point], scale: PictureScale | None, placing: float
) -> tuple[float, float, tuple[str, Point], tuple[str, Point]]:
    """The known length, its uncertainty, and the scale's two marks."""
    if scale is None:
        raise CannotMeasure("the picture has no scale")
    ends = (scale.from_mark, _mark(marks, scale.from_mark)), (scale.to_mark, _mark(marks, scale.to_mark))
    if math.dist(ends[0][1], ends[1][1]) <= 4 * placing:
        raise CannotMeasure("the marks of the scale are too near each other")
    if scale.cm <= 0:
        raise CannotMeasure("the scale has no length")
    return float(scale.cm), uncertainty_of(scale), *ends
