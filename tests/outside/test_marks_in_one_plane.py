"""Alignment by marks, judged by the renderer: places that lie in one plane have one exact answer, whatever the cameras.

A plane seen by two cameras is carried by a perspective and by nothing less (Hartley & Zisserman 2004, Multiple View
Geometry in Computer Vision, 2nd edition, section 13.1). The limit of a pixel is the project's own promise; marks are
written to a tenth, as photos.yml has them, or placed by eye to 2 pixels. OpenCV's and scikit-image's estimators, which
share no code with ours, are given the same marks.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal

import cv2
import numpy as np
import pytest
from skimage.transform import AffineTransform, ProjectiveTransform, SimilarityTransform

from archive_tools.illustrate.alignment import SIMILARITY, similarity
from archive_tools.illustrate.measure import CannotMeasure
from archive_tools.illustrate.movement import movement
from archive_tools.illustrate.richer_models import affine, lay, perspective
from archive_tools.model.photo import PictureScale
from tests.outside.pot_places import FOOT, FRONT, LIP, InPlane, pairs, register, worst


def of(plane: str, marks: int) -> Iterator[InPlane]:
    """The pairs whose plane has a visible place left to judge by."""
    return (pair for pair in pairs() if pair.plane == plane and len(pair.visible) > marks)


def facing(plane: str, marks: int) -> Iterator[InPlane]:
    """Those from one side: a front is not laid over a back."""
    return (pair for pair in of(plane, marks) if pair.azimuth < 90)


def test_places_and_points_tell_of_the_same_pictures() -> None:
    """The rim's ends were worked out when the pictures were rendered, the places later: the scenes are the same.

    The rim's ends lie on the bulge of the lip, up to three thousandths of its half width farther out than the upper
    edge, and points lie up to 0.9 pixels off (README.md of the picture maker). From behind, left is right.
    """
    assert len(register()) >= 135
    for path, scene in register().items():
        ends = [scene["places"]["lip 180"], scene["places"]["lip 000"]]
        if abs(scene["camera"]["azimuth"]) > 90:
            ends.reverse()
        allowed = 0.9 + 0.003 * math.dist(*ends) / 2
        for end, name in zip(ends, ("rim left", "rim right"), strict=True):
            assert math.dist(end, scene["points"][name]) < allowed, path


def test_there_is_enough_to_judge_by() -> None:
    assert len(pairs()) >= 300
    assert len({pair.before.split("/")[1] for pair in pairs()}) >= 25
    assert sum(pair.azimuth > 90 for pair in pairs()) >= 3


@pytest.mark.parametrize(
    ("plane", "marks"), [(plane, marks) for plane in (LIP, FOOT) for marks in (6, 8)] + [(FRONT, 6)]
)
def test_a_perspective_carries_every_place_of_the_plane(plane: str, marks: int) -> None:
    """In every pair, also of front and back, prints, slides and telephones, to less than a pixel."""
    for pair in of(plane, marks):
        laid = perspective(*pair.placed(pair.in_order[:marks]))
        assert worst(laid.carry, pair, pair.in_order[marks:]) < 1, (pair.before, pair.after)


@pytest.mark.parametrize(("plane", "share"), [(LIP, 0.97), (FRONT, 1.0), (FOOT, 0.75)])
def test_four_marks_do_so_where_they_are_well_spread(plane: str, share: float) -> None:
    """Four fix a perspective and leave nothing over.

    Where they lie nearly on a line, as along the foot of a rectangle that shows only its front or on a lip at the
    height of the eye, the tenths that marks are written to are carried far. So `lay` asks for six.
    """
    missed = []
    for pair in of(plane, 4):
        laid = perspective(*pair.placed(pair.in_order[:4]))
        missed.append(worst(laid.carry, pair, pair.in_order[4:]))
    assert np.mean(np.array(missed) < 1) >= share


@pytest.mark.parametrize("fit", [similarity, affine, lay])
def test_simpler_models_carry_an_upright_plane_between_cameras_nearly_alike(fit) -> None:
    """Within 2 degrees of each other round the tree and half a degree in height."""
    alike = [pair for pair in of(FRONT, 6) if pair.azimuth <= 2 and pair.elevation <= 0.5]
    assert len(alike) >= 40
    for pair in alike:
        laid = fit(*pair.placed(pair.in_order[:6]))
        assert worst(laid.carry, pair, pair.in_order[6:]) < 0.5, (pair.before, pair.after)


@pytest.mark.parametrize("plane", [LIP, FOOT, FRONT])
def test_where_the_simplest_model_is_kept_its_residual_says_how_far_it_may_miss(plane: str) -> None:
    """Marks are taken to be placed to 2 pixels, and what fits that well is not stretched.

    So a place may lie farther off than a pixel, and the residual tells: nowhere in the plane is it off by more than
    twice that and a pixel.
    """
    simple = 0
    for pair in facing(plane, 6):
        laid = lay(*pair.placed(pair.in_order[:6]))
        if laid.model == SIMILARITY:
            simple += 1
            assert worst(laid.carry, pair, pair.in_order[6:]) < 2 * laid.residual + 1, (pair.before, pair.after)
    assert simple >= 50


def test_upright_places_are_mostly_within_a_pixel_by_whatever_model_is_chosen() -> None:
    """Between any two cameras that the demo has, by the simplest model that 2 pixels do not contradict."""
    missed = []
    for pair in facing(FRONT, 6):
        laid = lay(*pair.placed(pair.in_order[:6]))
        missed.append(worst(laid.carry, pair, pair.in_order[6:]))
    assert np.mean(np.array(missed) < 1) >= 0.9
    assert max(missed) < 5


@pytest.mark.parametrize(("plane", "marks"), [(LIP, 8), (FOOT, 6), (FRONT, 6)])
def test_beside_opencv_and_scikit_image(plane: str, marks: int) -> None:
    """Marks placed by eye: over all pairs theirs come no nearer to the truth, and none leaves a smaller residual.

    OpenCV seeks the same least squares (in whole pixels, for ten steps); scikit-image's is the direct transform alone.
    """
    rng = np.random.default_rng(20261126)
    ours, scikit, opencv = [], [], []
    for pair in of(plane, marks):
        placed, rest = pair.in_order[:marks], pair.in_order[marks:]
        before, after = pair.placed(placed, rng)
        laid = perspective(before, after)
        first, second = np.array(before), np.array(after)
        theirs = ProjectiveTransform.from_estimate(first, second).params
        other, _ = cv2.findHomography(first, second, method=0)
        for matrix in (theirs, other):
            assert laid.residual <= float(np.sqrt(((_times(matrix, first) - second) ** 2).sum(axis=1).mean())) + 1e-9
        true = np.array([pair.second[name] for name in rest])
        at = np.array([pair.first[name] for name in rest])
        for missed, matrix in ((ours, np.array(laid.matrix)), (scikit, theirs), (opencv, other)):
            missed.append(float(np.sqrt(((_times(matrix, at) - true) ** 2).sum(axis=1).mean())))
    assert np.mean(ours) < 1.02 * np.mean(opencv)
    assert np.mean(ours) < 1.02 * np.mean(scikit)


def test_a_similarity_is_scikit_images_and_a_stretch_comes_as_near() -> None:
    """scikit-image fits a stretch by the direct transform, not by least squares: the same within a hundredth."""
    rng = np.random.default_rng(7)
    ours, theirs = [], []
    for pair in facing(FRONT, 6):
        before, after = pair.placed(pair.in_order[:6], rng)
        first, second = np.array(before), np.array(after)
        turned, stretched = similarity(before, after), affine(before, after)
        same, other = (kind.from_estimate(first, second) for kind in (SimilarityTransform, AffineTransform))
        for name in pair.in_order[6:]:
            at, true = np.array([pair.first[name]]), pair.second[name]
            assert turned.carry(pair.first[name]) == pytest.approx(same(at)[0], abs=1e-6)
            ours.append(math.dist(stretched.carry(pair.first[name]), true))
            theirs.append(math.dist(other(at)[0], true))
    assert np.mean(ours) < 1.01 * np.mean(theirs)


def test_a_place_that_did_not_move_is_within_the_stated_uncertainty() -> None:
    """Six marks of an upright plane placed by eye, a seventh measured: 90 to 99 in 100 within k = 2."""
    within, stated, seen = _unmoved(FRONT, rounds=2)
    assert 0.90 <= within <= 0.99
    assert 0.9 * seen <= stated <= 1.2 * seen


@pytest.mark.slow
@pytest.mark.parametrize("plane", [LIP, FOOT])
def test_a_level_plane_seen_aslant_is_held_less_surely(plane: str) -> None:
    """Marks on lip or foot alone: what the simpler model misses by is not chance.

    A few degrees of another height stretch such a plane more than a picture may be stretched, or bend it less than 2
    pixels can tell. The ± then holds in 85 of 100 at least, not in 95.
    """
    within, _, _ = _unmoved(plane, rounds=3)
    assert 0.85 <= within <= 0.99


def _unmoved(plane: str, rounds: int) -> tuple[float, float, float]:
    rng = np.random.default_rng(11)
    within, stated, seen = [], [], []
    for _ in range(rounds):
        for pair in facing(plane, 6):
            held = str(rng.choice(pair.visible))
            marks = [name for name in pair.in_order if name != held][:6]
            names = sorted({*marks, held, "lip 180", "lip 000"})
            first, second = (dict(zip(names, placed, strict=True)) for placed in pair.placed(names, rng))
            scale = PictureScale("lip 180", "lip 000", Decimal(str(pair.rim_width_cm)), Decimal("0.3"))
            try:
                found = movement(first, second, marks, held, scale)
            except CannotMeasure:  # the marks lie on one line, or ask for more than they can carry
                continue
            for moved, doubt in ((found.right, found.right_uncertainty), (found.up, found.up_uncertainty)):
                within.append(abs(moved) <= 2 * doubt)
                stated.append(doubt)
                seen.append(moved)
    return float(np.mean(within)), float(np.mean(stated)), float(np.std(seen))


def _times(matrix: np.ndarray, points: np.ndarray) -> np.ndarray:
    carried = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return carried[:, :2] / carried[:, 2:]
