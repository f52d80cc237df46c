"""Lengths in one photograph, and their change from one to another, each with its uncertainty.

A length is read by its own picture's scale: L = R p / q, where R is the known length between the scale's marks, q their
distance and p the distance measured, in pixels. Uncertainty is first-order propagation (JCGM 100:2008, 5.1.2) from
R and from the placing of every mark; where all four marks differ it comes to
(u_L / L)^2 = (u_R / R)^2 + (u_p / p)^2 + (u_q / q)^2 with u_p = u_q = sqrt(2) x placing. Marks that serve twice are
counted as what they are: the scale measured by itself is as uncertain as the scale, no more.

What is nearer to the camera than the scale reads too long, what is farther too short; no number here can tell. One
view gives lengths in one plane of reference, and no others without more of the scene being known (Criminisi, Reid &
Zisserman 2000, "Single view metrology", International Journal of Computer Vision 40:123-148).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from archive_tools.illustrate.alignment import Point
from archive_tools.illustrate.richer_models import PLACING
from archive_tools.model.photo import PictureScale
from archive_tools.model.reasons import N_, Cannot

_LEAST_SCALE = 10 * math.sqrt(2)
"""Placings between the marks of a scale: nearer, and its distance is known to no more than a tenth, so that propagation
of the first order no longer holds for what is divided by it (JCGM 100:2008, 5.1.2, note)."""
_LEAST_LENGTH = 2 * math.sqrt(2)
"""Placings between two marks: nearer, and twice the uncertainty of their distance is more than the distance."""


class CannotMeasure(Cannot):
    """Nothing can be measured; `why` says it, in plain words."""


@dataclass(frozen=True, slots=True)
class Length:
    """A length in centimetres, and the two parts of its standard uncertainty (k = 1), in centimetres.

    by_placing: from placing the marks. by_scale: from the known length itself.
    """

    cm: float
    by_placing: float
    by_scale: float

    @property
    def uncertainty(self) -> float:
        """The standard uncertainty (k = 1), in centimetres."""
        return math.hypot(self.by_placing, self.by_scale)


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

    Raises CannotMeasure without a scale, without the marks, or where the scale's marks or those measured are too near
    each other.
    """
    known = usable_scale(marks, scale, placing)
    scale_from, scale_to = marks[known.from_mark], marks[known.to_mark]
    one, other = mark_of(marks, from_mark), mark_of(marks, to_mark)
    p, q, cm = math.dist(one, other), math.dist(scale_from, scale_to), float(known.cm)
    if p <= _LEAST_LENGTH * placing:
        raise CannotMeasure(
            N_("“%(one)s” and “%(other)s” are marked too near each other to measure between them"),
            one=from_mark,
            other=to_mark,
        )
    value = cm * (p / q)  # in this order the scale measured by itself is the scale, to the last bit
    # How the value answers to a shift of each mark: along the measured line by R/q, along the scale by -R p/q^2.
    along = complex(other[0] - one[0], other[1] - one[1]) / p * cm / q
    answers = {to_mark: along, from_mark: -along}
    scaled = complex(scale_to[0] - scale_from[0], scale_to[1] - scale_from[1]) / q * value / q
    answers[known.to_mark] = answers.get(known.to_mark, 0j) - scaled
    answers[known.from_mark] = answers.get(known.from_mark, 0j) + scaled
    by_placing = math.sqrt(sum(abs(answer) ** 2 for answer in answers.values())) * placing
    return Length(value, by_placing, value * uncertainty_of(known) / cm)


def uncertainty_of_change(before: Length, after: Length, *, one_scale: bool) -> float:
    """Standard uncertainty (k = 1) of after - before, in centimetres.

    one_scale: the known length is the same thing in both pictures, so that its error moves both lengths together and
    tells in their difference only as far as they differ.
    """
    by_scale = abs(after.by_scale - before.by_scale) if one_scale else math.hypot(before.by_scale, after.by_scale)
    return math.hypot(before.by_placing, after.by_placing, by_scale)


def same_scale(one: PictureScale | None, other: PictureScale | None) -> bool:
    """Whether two pictures are scaled by the same thing: marks of the same names, the same length told alike."""
    if one is None or other is None or one != other:
        return False
    # 60 and 60.0 are one number, but not equally well known.
    return uncertainty_of(one) == uncertainty_of(other)


def usable_scale(marks: Mapping[str, Point], scale: PictureScale | None, placing: float) -> PictureScale:
    """The scale, if a length can be read by it; else CannotMeasure says why not."""
    if scale is None:
        raise CannotMeasure(N_("the picture has no scale"))
    ends = mark_of(marks, scale.from_mark), mark_of(marks, scale.to_mark)
    if math.dist(*ends) <= _LEAST_SCALE * placing:
        raise CannotMeasure(N_("the marks of the scale are too near each other"))
    if scale.cm <= 0:
        raise CannotMeasure(N_("the scale has no length"))
    return scale


def mark_of(marks: Mapping[str, Point], name: str) -> Point:
    """Where a mark lies; CannotMeasure where the picture has none of that name."""
    if name not in marks:
        raise CannotMeasure(N_("the picture has no mark “%(name)s”"), name=name)
    return marks[name]
