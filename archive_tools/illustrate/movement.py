"""How far a mark moved from one photograph to another, once the two lie on each other by other things.

The uncertainty is first-order propagation (JCGM 100:2008, 5.1.2), with the derivatives taken numerically through the
whole reckoning, whatever the model of the alignment: so a mark that holds the alignment and bounds the scale as well
is counted as the one mark it is.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import AFFINE, PERSPECTIVE, CannotAlign, Laid, Point, similarity
from archive_tools.illustrate.measure import CannotMeasure, mark_of, uncertainty_of, usable_scale
from archive_tools.illustrate.richer_models import (
    PLACING,
    affine,
    chi_square,
    lay,
    misfits,
    on_one_line,
    perspective,
)
from archive_tools.model.photo import PictureScale
from archive_tools.model.reasons import N_

_BELIEVED = 0.05
"""Where the residuals of the marks are less likely than this, their misfit counts instead of their placing."""
_STEP = 0.25
"""Pixels by which each coordinate is moved to see what it does."""
_INDEPENDENT = 8
"""Places found by the program lie on few things: many of them are worth no more than this many marks."""

Marks = Mapping[str, Point]
Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Movement:
    """How far a mark moved, to the right and up, with the standard uncertainty (k = 1) of each, in centimetres."""

    right: float
    up: float
    right_uncertainty: float
    up_uncertainty: float


def movement(
    before: Marks,
    after: Marks,
    align_on: Sequence[str],
    mark: str,
    scale: PictureScale | None,
    placing: float = PLACING,
) -> Movement:
    """How far `mark` moved between two pictures once they are aligned on the other marks.

    Measured by the scale of the picture `after`. The uncertainty holds the placing of the mark in both pictures, the
    placing of the marks the alignment rests on (where they fit worse than placing explains, that misfit counts
    instead), and the scale. Raises CannotMeasure without a scale, with fewer than two other marks, and where three or
    more all lie on one line: they seem to confirm each other, and tell nothing of what lies away from it. Likewise
    where the residuals ask for a freer placement that the marks cannot carry (`Laid.kept_simple`).
    """
    mark_of(before, mark), mark_of(after, mark)
    others = tuple(name for name in align_on if name != mark)
    first, second = ([mark_of(marks, name) for name in others] for marks in (before, after))
    try:
        laid = lay(first, second, placing)
    except CannotAlign as reason:
        raise CannotMeasure(
            N_("without “%(mark)s” itself the pictures cannot be laid over each other: %(why)s"),
            mark=mark,
            why=reason.why,
        ) from None
    if len(others) > 2 and (on_one_line(first, placing) or on_one_line(second, placing)):
        raise CannotMeasure(N_("the marks to align on lie on one line, so nothing holds the pictures away from it"))
    if laid.kept_simple is not None:
        # Of pots seen from other heights such placements erred by more than their residuals tell.
        raise CannotMeasure(
            N_("the marks to align on miss each other by more than their placing explains, and tell too little of why")
        )
    known = usable_scale(after, scale, placing)
    moving = _Reckoning(before, after, others, mark, known, laid)
    misfit = math.sqrt(chi_square(laid, placing) / laid.free) if misfits(laid, placing, _BELIEVED) else 1.0
    return moving.measured(placing, max(misfit, 1.0))


def movement_laid(
    before: Marks, after: Marks, laid: Laid, mark: str, scale: PictureScale | None, placing: float = PLACING
) -> Movement:
    """How far `mark` moved between two pictures that are aligned by what does not change in them, not by marks.

    Raises CannotMeasure without a scale or without the mark.
    """
    start, end, known = mark_of(before, mark), mark_of(after, mark), usable_scale(after, scale, placing)
    ends = after[known.from_mark], after[known.to_mark]
    q = math.dist(*ends)
    cm = float(known.cm) / q
    carried = laid.carry(start)
    right, up = (end[0] - carried[0]) * cm, (carried[1] - end[1]) * cm
    worth = min(laid.points, _INDEPENDENT)
    lever = 1 / worth + math.dist(start, laid.centre) ** 2 / (laid.spread / laid.points * worth)
    pixels = math.sqrt(placing**2 * (1 + laid.scale**2) + max(laid.residual, placing / 2) ** 2 * lever)
    relative = math.hypot(uncertainty_of(known) / float(known.cm), math.sqrt(2) * placing / q)
    return Movement(right, up, math.hypot(pixels * cm, right * relative), math.hypot(pixels * cm, up * relative))


@dataclass(frozen=True, slots=True)
class _Reckoning:
    """One movement as a function of everything that was placed by hand."""

    before: Marks
    after: Marks
    others: tuple[str, ...]
    mark: str
    scale: PictureScale
    laid: Laid

    def measured(self, placing: float, misfit: float) -> Movement:
        ends = (self.scale.from_mark, self.scale.to_mark)
        in_first, in_second = (*self.others, self.mark), tuple(dict.fromkeys((*self.others, self.mark, *ends)))
        placed = [self.before[name] for name in in_first] + [self.after[name] for name in in_second]
        holds = np.array([name in self.others for name in (*in_first, *in_second)])
        nominal = np.array([*(number for point in placed for number in point), float(self.scale.cm)])
        spread = np.append(np.repeat(np.where(holds, placing * misfit, placing), 2), uncertainty_of(self.scale))

        def moved(numbers: Array) -> Array:
            points = [(float(x), float(y)) for x, y in numbers[:-1].reshape(-1, 2)]
            first = dict(zip(in_first, points, strict=False))
            second = dict(zip(in_second, points[len(in_first) :], strict=True))
            carried = self._laid_again(first, second).carry(first[self.mark])
            end, cm = second[self.mark], float(numbers[-1]) / math.dist(second[ends[0]], second[ends[1]])
            return np.array([(end[0] - carried[0]) * cm, (carried[1] - end[1]) * cm])

        right, up = moved(nominal)
        both = np.sqrt((_answers(moved, nominal) ** 2 * spread[:, None] ** 2).sum(axis=0))
        return Movement(float(right), float(up), float(both[0]), float(both[1]))

    def _laid_again(self, first: Marks, second: Marks) -> Laid:
        before, after = [first[name] for name in self.others], [second[name] for name in self.others]
        if self.laid.model == AFFINE:
            return affine(before, after)
        if self.laid.model == PERSPECTIVE:
            return perspective(before, after, np.array(self.laid.matrix))
        return similarity(before, after)


def _answers(function: Callable[[Array], Array], at: Array) -> Array:
    """How each result answers to each number, by central differences; the last number by a thousandth of itself."""
    rows = []
    for place in range(len(at)):
        step = np.zeros(len(at))
        step[place] = _STEP if place < len(at) - 1 else at[place] / 1000
        rows.append((function(at + step) - function(at - step)) / (2 * step[place]))
    return np.array(rows)
