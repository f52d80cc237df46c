"""A second look at two pictures, once it is known nearly how one lies over the other: at the tree itself.

What two pictures of a tree share is mostly its pot and what it stands on. These lie nearer to the camera than the trunk
does, so that a camera a few steps aside moves the trunk over the pot, and pictures laid by the pot would show a tree
that moved. So the tree is looked at alone. Where a place of it must lie is known to a few pixels by now, and far more
of them can be told apart than by looking everywhere (guided matching: Hartley & Zisserman 2004, Multiple View Geometry
in Computer Vision, 2nd edition, 4.8.1). Chance matches are sorted out part by part: in a part that both pictures show,
the places move together; in another they scatter over all that was searched.

Scale and turn alone are fitted: what stands at many depths has no perspective of its own, and they stray least. How far
each part then lies off tells how much depth there is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import SIMILARITY, CannotAlign
from archive_tools.illustrate.features import AGREES, Agreement, Places, carry_all, clear_matches, misses, refit
from archive_tools.model.reasons import N_

SEARCHED = 12.0
"""Pixels at working size, around where a place must lie, in which it is looked for."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 0.22, 0.78, 0.06, 0.62
"""Where in a photograph the tree stands, above its pot."""
_TOGETHER = 2.5
"""Pixels: places of one part that move alike differ by less."""
_PARTS = 8
_FEWEST, _LEAST_SHARE = 5, 0.35
"""A part is common to both pictures if so many of its places, and so large a share, move together. By chance it would
be one in twenty-three: the share of the searched circle that such a neighbourhood takes up."""
_LOOKS, _ROUNDS = 3, 5

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Closer:
    """What a second look found. off: how far, in pixels, each part of the tree that both pictures show lies off."""

    agreement: Agreement
    off: Array

    @property
    def depth(self) -> float:
        """By how much the parts lie off, root mean square, in pixels."""
        return float(np.sqrt((self.off**2).mean()))


def looked_again(found: Agreement, before: Places, after: Places) -> Closer:
    """The agreement by scale and turn of all of the tree that is found again near where `found` carries it.

    Raises CannotAlign where too little is found.
    """
    there, here = _only_tree(before), _only_tree(after)
    laid = found.laid
    for _ in range(_LOOKS):
        first, second = clear_matches(there, here, laid, SEARCHED)
        part = _part(second, after.size)
        together = _together(second - carry_all(laid, first), part)
        first, second, part = first[together], second[together], part[together]
        held = np.ones(len(first), bool)
        for _round in range(_ROUNDS):
            if held.sum() < 2 * _FEWEST:
                raise CannotAlign(TOO_LITTLE)
            laid = refit(SIMILARITY, first[held], second[held])
            closer = misses(laid, first, second) < AGREES
            if (closer == held).all():
                break
            held = closer
    moved = second - carry_all(laid, first)
    off = np.array([float(np.linalg.norm(np.median(moved[part == one], axis=0))) for one in np.unique(part)])
    laid = refit(SIMILARITY, first[held], second[held])
    return Closer(Agreement(laid, first[held], second[held], len(first)), off)


TOO_LITTLE = N_("too little of the tree itself looks alike in the two pictures, and what it stands in may have moved")


def _only_tree(places: Places) -> Places:
    x, y = places.at[:, 0] / places.size[0], places.at[:, 1] / places.size[1]
    kept = (x > _LEFT) & (x < _RIGHT) & (y > _TOP) & (y < _BOTTOM)
    return replace(places, at=places.at[kept], told=places.told[kept])


def _part(points: Array, size: tuple[int, int]) -> NDArray[np.int_]:
    at = np.clip((points / np.array(size) * _PARTS).astype(int), 0, _PARTS - 1)
    return np.asarray(at[:, 0] * _PARTS + at[:, 1])


def _together(moves: Array, part: NDArray[np.int_]) -> NDArray[np.bool_]:
    """Which places move as most of their part do, in parts where many do."""
    held = np.zeros(len(moves), bool)
    for one in np.unique(part):
        here = np.flatnonzero(part == one)
        if len(here) < _FEWEST:
            continue
        alike = np.linalg.norm(moves[here, None] - moves[None, here], axis=2) < _TOGETHER
        most = int(alike.sum(axis=1).argmax())
        if alike[most].sum() >= max(_FEWEST, _LEAST_SHARE * len(here)):
            held[here[alike[most]]] = True
    return held
