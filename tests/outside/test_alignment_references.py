"""Alignment and measuring against what no one here wrote.

Umeyama 1991 (doi 10.1109/34.88573) as scikit-image has it (`SimilarityTransform`, its own code); closed forms worked
by hand; first-order propagation of uncertainty (JCGM 100:2008, 5.1.2).
"""

import math
from decimal import Decimal

import cv2
import numpy as np
import pytest
from PIL import Image
from scipy.optimize import least_squares
from scipy.stats import chi2
from skimage.transform import AffineTransform, ProjectiveTransform, SimilarityTransform, warp

from archive_tools.illustrate.alignment import CannotAlign, similarity
from archive_tools.illustrate.common_area import common_box
from archive_tools.illustrate.frame import frame_of
from archive_tools.illustrate.measure import length
from archive_tools.illustrate.movement import movement
from archive_tools.illustrate.richer_models import affine, chance, perspective
from archive_tools.model.photo import PictureScale


def test_two_marks_worked_by_hand():
    # (0,0)->(10,20), (100,0)->(70,100): the vector (100,0) becomes (60,80), of the same length, turned by atan2(80,60).
    laid = similarity([(0, 0), (100, 0)], [(10, 20), (70, 100)])
    assert laid.scale == pytest.approx(1, abs=1e-12)
    assert laid.turn == pytest.approx(53.130, abs=5e-4)
    assert laid.carry((0, 50)) == pytest.approx((-30, 50), abs=1e-9)
    assert laid.residual == pytest.approx(0, abs=1e-9)
    assert np.array(laid.matrix) == pytest.approx(np.array([[0.6, -0.8, 10], [0.8, 0.6, 20]]), abs=1e-12)


def test_three_marks_that_cannot_all_fit_worked_by_hand():
    # Three unit vectors a third of a turn apart, the first pushed out by 3 along itself: by symmetry no turn.
    # Centred: z = the unit vectors, w = (3, 0) and (-3/2, +-sqrt(3)/2). The sum of z.w is 3 + 2 (3/4 + 3/4) = 6, that
    # of |z|^2 is 3, so the scale is 2; what is left over is sum |w|^2 - 6^2 / 3 = 9 + 2 (9/4 + 3/4) - 12 = 3.
    triangle = [(math.cos(a), math.sin(a)) for a in (0, 2 * math.pi / 3, 4 * math.pi / 3)]
    pushed = [(triangle[0][0] + 3, triangle[0][1]), *triangle[1:]]
    laid = similarity(triangle, pushed)
    assert laid.scale == pytest.approx(2, abs=1e-12)
    assert laid.turn == pytest.approx(0, abs=1e-12)
    assert laid.carry((0, 0)) == pytest.approx((1, 0), abs=1e-12)
    assert laid.residual == pytest.approx(1, abs=1e-12)  # sqrt(3 / 3)


def test_a_perspective_worked_by_hand():
    # The unit square onto (0,0), (4,0), (3,2), (1,2): its middle is where the diagonals cross, at (2, 4/3).
    square = [(0, 0), (1, 0), (1, 1), (0, 1)]
    laid = perspective(square, [(0, 0), (4, 0), (3, 2), (1, 2)])
    assert laid.carry((0.5, 0.5)) == pytest.approx((2, 4 / 3), abs=1e-9)
    assert laid.residual == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("seed", range(10))
def test_stretch_and_perspective_against_scikit_image_and_opencv(seed):
    rng = np.random.default_rng(seed)
    before = rng.uniform(0, 1500, (int(rng.integers(6, 12)), 2))
    tilted = np.array([[1.1, 0.1, 40], [-0.05, 0.9, 20], [1e-4, -8e-5, 1]])
    carried = np.column_stack([before, np.ones(len(before))]) @ tilted.T
    after = carried[:, :2] / carried[:, 2:] + rng.normal(0, 2, before.shape)
    points = [tuple(p) for p in before], [tuple(p) for p in after]
    # scikit-image's affine estimate is not least squares in the picture, so the two agree where points fit exactly.
    exact = before @ np.array([[1.1, 0.1], [-0.05, 0.9]]).T + (40, 20)
    theirs = AffineTransform.from_estimate(before, exact)
    assert np.array(affine(points[0], [tuple(p) for p in exact]).matrix) == pytest.approx(theirs.params[:2], abs=1e-6)

    def left_over(numbers):
        return (before @ numbers[:4].reshape(2, 2).T + numbers[4:] - after).ravel()

    best = least_squares(left_over, [1, 0, 0, 1, 0, 0], x_scale=[1, 1, 1, 1, 1000, 1000], xtol=1e-14, ftol=1e-14)
    assert affine(*points).residual == pytest.approx(math.sqrt(2 * best.cost / len(before)), rel=1e-6)
    # OpenCV refines the direct transform by Levenberg and Marquardt, to the same least squares as ours.
    refined, _ = cv2.findHomography(before, after, 0)
    laid = perspective(*points)
    for probe in [(0, 0), (1500, 0), (1500, 1500), (0, 1500), (700, 700)]:
        assert laid.carry(probe) == pytest.approx(
            tuple((refined @ [*probe, 1])[:2] / (refined @ [*probe, 1])[2]), abs=0.05
        )
    direct = ProjectiveTransform.from_estimate(before, after)
    missed = math.sqrt(np.mean(direct.residuals(before, after) ** 2))
    assert laid.residual <= missed + 1e-9  # least squares in the picture fits no worse than the direct transform
    assert laid.residual == pytest.approx(missed, rel=0.1)


@pytest.mark.parametrize("freedom", [2, 4, 6, 10])
def test_the_chance_of_a_chi_square_against_scipy(freedom):
    for value in (0.1, 3.0, 9.21, 40.0):
        assert chance(value, freedom) == pytest.approx(chi2.sf(value, freedom), rel=1e-9)


@pytest.mark.parametrize("seed", range(40))
def test_against_scikit_image(seed):
    rng = np.random.default_rng(seed)
    count = int(rng.integers(2, 9))
    before = rng.uniform(0, 4000, (count, 2))
    turn, scale = rng.uniform(-math.pi, math.pi), math.exp(rng.uniform(-2, 2))
    rotation = scale * np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    after = before @ rotation.T + rng.uniform(-2000, 2000, 2) + rng.normal(0, 25 * scale, (count, 2))
    reference = SimilarityTransform.from_estimate(before, after)
    laid = similarity([tuple(point) for point in before], [tuple(point) for point in after])
    assert np.array(laid.matrix) == pytest.approx(reference.params[:2], rel=1e-9, abs=1e-6)
    assert laid.scale == pytest.approx(reference.scale, rel=1e-9)
    assert math.radians(laid.turn) == pytest.approx(reference.rotation, abs=1e-9)
    assert laid.residual == pytest.approx(math.sqrt(np.mean(reference.residuals(before, after) ** 2)), abs=1e-6)


def test_no_other_similarity_fits_better():
    rng = np.random.default_rng(5)
    before, after = rng.uniform(0, 1000, (6, 2)), rng.uniform(0, 1000, (6, 2))
    best = similarity([tuple(p) for p in before], [tuple(p) for p in after])
    (a, minus_b, c), (b, _, f) = best.matrix
    assert b == -minus_b

    def missed(a, b, c, f):
        return float((((before @ np.array([[a, b], [-b, a]])) + [c, f] - after) ** 2).sum())

    least = missed(a, b, c, f)
    for step in rng.normal(0, 1, (300, 4)) * [0.01, 0.01, 5, 5]:
        assert missed(a + step[0], b + step[1], c + step[2], f + step[3]) >= least


def test_a_length_with_the_uncertainty_of_first_order_propagation():
    # R = 300 +- 0.5 mm over q = 1200 px, measured p = 900 px, placing 1.5 px: 225.00 +- 0.76 mm.
    marks = {"rim left": (100.0, 900.0), "rim right": (1300.0, 900.0), "foot": (700.0, 950.0), "apex": (700.0, 50.0)}
    scale = PictureScale("rim left", "rim right", Decimal("30"), Decimal("0.05"))
    found = length(marks, scale, "foot", "apex", placing=1.5)
    assert found.cm * 10 == pytest.approx(225.00, abs=0.005)
    assert found.uncertainty * 10 == pytest.approx(0.76, abs=0.005)


def test_the_uncertainty_of_a_length_against_many_drawn_placings():
    # Monte Carlo (JCGM 101:2008) where a mark serves both the scale and the length, so that the errors are not free.
    marks = {"a": (0.0, 0.0), "b": (800.0, 60.0), "c": (-300.0, 700.0)}
    scale = PictureScale("a", "b", Decimal("40"), Decimal("0.2"))
    found = length(marks, scale, "a", "c", placing=3)
    rng = np.random.default_rng(11)
    drawn = {name: np.array(at) + rng.normal(0, 3, (200_000, 2)) for name, at in marks.items()}
    known = rng.normal(40, 0.2, 200_000)
    p, q = (np.linalg.norm(drawn[name] - drawn["a"], axis=1) for name in ("c", "b"))
    assert found.uncertainty == pytest.approx(float((known * p / q).std()), rel=0.02)


def test_the_uncertainty_of_a_movement_against_many_drawn_placings():
    turn, factor, placing = 0.2, 1.3, 2.0
    rotation = factor * np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    before = {"base": (500.0, 900.0), "left": (200.0, 1000.0), "right": (800.0, 1010.0), "apex": (480.0, 100.0)}
    after = {name: tuple(rotation @ at + [40, -30]) for name, at in before.items()}
    after["apex"] = (after["apex"][0] + 30, after["apex"][1] + 120)
    scale = PictureScale("left", "right", Decimal("45"), Decimal("0.3"))
    align_on = ("base", "left", "right")
    found = movement(before, after, align_on, "apex", scale, placing)
    q = math.dist(after["left"], after["right"])
    assert (found.right, found.up) == pytest.approx((30 * 45 / q, -120 * 45 / q), abs=1e-9)
    rng = np.random.default_rng(3)
    seen = []
    for _ in range(4000):
        first = {name: tuple(np.array(at) + rng.normal(0, placing, 2)) for name, at in before.items()}
        second = {name: tuple(np.array(at) + rng.normal(0, placing, 2)) for name, at in after.items()}
        laid = similarity([first[name] for name in align_on], [second[name] for name in align_on])
        cm = rng.normal(45, 0.3) / math.dist(second["left"], second["right"])
        carried = laid.carry(first["apex"])
        seen.append(((second["apex"][0] - carried[0]) * cm, (carried[1] - second["apex"][1]) * cm))
    spread = np.array(seen).std(axis=0)
    # The formula leaves out that the scale's marks also hold the alignment: within a tenth here.
    assert found.right_uncertainty == pytest.approx(spread[0], rel=0.1)
    assert found.up_uncertainty == pytest.approx(spread[1], rel=0.1)


def test_the_pixels_of_an_aligned_pair_against_scikit_images_warp():
    """The whole way through the frame (scaled down, cut, turned back) against one direct warp of the original."""
    rng = np.random.default_rng(2)
    small = rng.integers(0, 256, (24, 30), dtype=np.uint8)
    picture = Image.fromarray(small).resize((1500, 1200), Image.Resampling.BICUBIC)
    laid = similarity([(300, 900), (1100, 950)], [(420, 1010), (1300, 1180)])
    size = (1800, 1400)
    frame = frame_of(laid, common_box(laid, picture.size, size), picture.size, size)
    left, top, width, height = frame.crop
    reduced = picture.resize(frame.before, Image.Resampling.LANCZOS)
    ours = np.asarray(
        reduced.transform((width, height), Image.Transform.AFFINE, frame.back, Image.Resampling.BICUBIC), dtype=float
    )
    # scikit-image counts from pixel centres, Pillow and our marks from pixel corners: half a pixel apart on both sides.
    half = SimilarityTransform(translation=(0.5, 0.5))
    across, down = frame.after[0] / size[0], frame.after[1] / size[1]
    assert across == pytest.approx(down, rel=1e-3)
    to_after = SimilarityTransform(matrix=np.array([*laid.matrix, (0, 0, 1)]))
    to_crop = SimilarityTransform(scale=across) + SimilarityTransform(translation=(-left, -top))
    whole = half + to_after + to_crop + half.inverse
    direct = warp(np.asarray(picture, dtype=float) / 255, whole.inverse, output_shape=(height, width), order=3) * 255
    inner = (slice(4, -4), slice(4, -4))
    missed = np.abs(ours[inner] - direct[inner]).mean()
    assert missed < 0.7  # rounding to whole levels alone costs a quarter of one
    for down_by, right_by in ((0, 1), (1, 0), (0, -1), (-1, 0)):
        shifted = np.roll(direct, (down_by, right_by), (0, 1))
        assert np.abs(ours[inner] - shifted[inner]).mean() > 2 * missed  # even one pixel aside would be seen


def test_marks_on_one_spot_and_single_marks_are_refused():
    with pytest.raises(CannotAlign, match="two marks"):
        similarity([(1, 1)], [(2, 2)])
    with pytest.raises(CannotAlign, match="one spot"):
        similarity([(1, 1), (1, 1)], [(2, 2), (5, 5)])
    with pytest.raises(CannotAlign, match="one spot"):
        similarity([(1, 1), (9, 1)], [(2, 2), (2, 2)])
