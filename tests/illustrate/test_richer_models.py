"""Stretch and perspective: when marks ask for them, and when they cannot carry them."""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares

from archive_tools.illustrate.alignment import CannotAlign, similarity
from archive_tools.illustrate.richer_models import affine, chance, implausible, lay, on_one_line, perspective

WELL_SPREAD = [(500.0, 900.0), (1500.0, 940.0), (980.0, 700.0), (200.0, 250.0), (1750.0, 300.0), (930.0, 480.0)]
STRETCHED = np.array([[1.15, 0.1, 30.0], [-0.02, 0.85, 90.0], [0, 0, 1]])
TILTED = np.array([[0.95, 0.06, 40.0], [-0.04, 1.0, 60.0], [1.2e-4, -5e-5, 1]])
ASLANT = np.array([[0.5, 0, 100.0], [0, -0.6, 50.0], [0, 2e-3, -1]])
TURNED = np.array([[0.9, 0.2, 40.0], [-0.2, 0.9, 60.0], [0, 0, 1]])


def carried(matrix, points, rng=None, placing=2.0):
    found = []
    for x, y in points:
        u, v, w = matrix @ [x, y, 1]
        off = (0, 0) if rng is None else rng.normal(0, placing, 2)
        found.append((u / w + off[0], v / w + off[1]))
    return found


def test_marks_that_fit_by_scale_and_turn_ask_for_no_more():
    rng = np.random.default_rng(1)
    models = [lay(carried(np.eye(3), WELL_SPREAD, rng), carried(TURNED, WELL_SPREAD, rng)).model for _ in range(200)]
    assert models.count("similarity") >= 190  # one in a hundred is the level of the test


@pytest.mark.parametrize(("true", "model"), [(STRETCHED, "affine"), (TILTED, "perspective")])
def test_marks_that_do_not_fit_ask_for_what_they_need(true, model):
    rng = np.random.default_rng(2)
    for _ in range(20):
        laid = lay(carried(np.eye(3), WELL_SPREAD, rng), carried(true, WELL_SPREAD, rng))
        assert laid.model == model
        assert laid.residual < 8
        assert len(laid.matrix) == (3 if model == "perspective" else 2)


def test_four_marks_carry_a_stretch_and_three_do_not():
    assert lay(WELL_SPREAD[:4], carried(STRETCHED, WELL_SPREAD[:4])).model == "affine"
    assert lay(WELL_SPREAD[:3], carried(STRETCHED, WELL_SPREAD[:3])).model == "similarity"


def test_five_marks_do_not_carry_a_perspective():
    """Four fix it, so that five leave a single mark to judge it by."""
    assert lay(WELL_SPREAD[:5], carried(TILTED, WELL_SPREAD[:5])).model != "perspective"


def test_marks_on_one_line_carry_no_stretch_and_it_is_said():
    line = [(100.0 * i, 500.0 + 30.0 * i) for i in range(6)]
    along = [(x + (0 if i % 2 else 30), y) for i, (x, y) in enumerate(line)]
    laid = lay(line, along)
    assert laid.model == "similarity"
    assert laid.kept_simple == "the marks lie on one line, and nothing holds the picture away from it"


def test_all_marks_but_one_on_a_line_carry_no_perspective():
    """Though their residuals ask for it: a foot and five marks along the rim."""
    rim = [(100.0 * i, 500.0) for i in range(6)] + [(250.0, 0.0)]
    bent = [(x + 0.0006 * (x - 250) ** 2, y) for x, y in rim]
    laid = lay(rim, bent)
    assert laid.model != "perspective"
    assert laid.kept_simple == "all the marks but one lie on one line, which cannot show a tilt"


def test_two_marks_always_lie_on_a_line_and_a_triangle_does_not():
    assert on_one_line([(0, 0), (900, 700)])
    assert on_one_line([(0, 0), (100, 3), (200, 0)])
    assert not on_one_line([(0, 0), (100, 20), (200, 0)])


def test_marks_of_different_places_are_refused():
    swapped = [WELL_SPREAD[at] for at in (1, 2, 0, 4, 3, 5)]
    with pytest.raises(CannotAlign, match=r"contradict each other: laid as well as can be, they miss by \d+ pixels"):
        lay(WELL_SPREAD, swapped)


def test_a_stretch_no_camera_makes_is_not_used():
    flat = np.array([[2.0, 0, 0], [0, 0.9, 0], [0, 0, 1]])
    assert "stretch" in str(implausible(affine(WELL_SPREAD, carried(flat, WELL_SPREAD)), WELL_SPREAD))
    steep = np.array([[1, 0, 0], [0, 1, 0], [4.5e-4, 0, 1]])
    assert "tilt" in str(implausible(perspective(WELL_SPREAD, carried(steep, WELL_SPREAD)), [(0, 0), (3000, 2000)]))


def test_a_point_behind_the_camera_is_refused():
    laid = perspective(WELL_SPREAD, carried(TILTED, WELL_SPREAD))
    with pytest.raises(CannotAlign, match="behind the camera"):
        laid.carry((-20000.0, 0.0))


def test_marks_lie_before_the_camera_though_the_corner_of_the_picture_lies_beyond_their_horizon():
    """As on the lip of a pot, seen from its two sides: the corner that pixels are counted from is beyond the bench."""
    near = [(300.0, 700.0), (900.0, 720.0), (1000.0, 800.0), (250.0, 810.0), (600.0, 900.0), (640.0, 690.0)]
    laid = perspective(near, carried(ASLANT, near))
    assert laid.depth((0.0, 0.0)) < 0 < min(laid.depth(point) for point in near)
    for point in [*near, (500.0, 750.0)]:
        assert laid.carry(point) == pytest.approx(carried(ASLANT, [point])[0], abs=1e-6)
        u, v, w = np.array(laid.back) @ [*laid.carry(point), 1]
        assert (u / w, v / w) == pytest.approx(point, abs=1e-6)
    with pytest.raises(CannotAlign, match="behind the camera"):
        laid.carry((0.0, 0.0))


def test_a_perspective_of_marks_nearly_on_a_line_does_not_run_away():
    """Marks along the visible foot of a rectangle: undamped steps left tens of pixels over where there is one.

    What is found is the least that scipy finds too, from there and from the truth.
    """
    rng = np.random.default_rng(4)
    foot = [(280.0, 651.0), (380.0, 655.0), (500.0, 656.0), (640.0, 656.0), (780.0, 655.0), (900.0, 650.0)]
    for _ in range(12):
        before, after = carried(np.eye(3), foot, rng), carried(TURNED, foot, rng)
        laid = perspective(before, after)
        least = min(_least(np.array(laid.matrix), before, after), _least(TURNED, before, after))
        assert laid.residual <= 1.02 * least
        assert laid.residual <= affine(before, after).residual


def _least(start, before, after):
    """The root mean square of what scipy's Levenberg and Marquardt leave over (MINPACK)."""

    def missed(numbers):
        found = carried(np.append(numbers, start[2, 2]).reshape(3, 3) @ to_middle, before)
        return (np.array(found) - after).ravel() / math.sqrt(len(before))

    middle = np.mean(before, axis=0)
    to_middle = np.array([[0.01, 0, -0.01 * middle[0]], [0, 0.01, -0.01 * middle[1]], [0, 0, 1]])
    begun = start @ np.linalg.inv(to_middle)
    start = begun / begun[2, 2]
    return math.sqrt(2 * least_squares(missed, start.ravel()[:8], x_scale="jac", xtol=1e-12, ftol=1e-12).cost)


@pytest.mark.parametrize("true", [TURNED, STRETCHED, TILTED])
def test_the_way_back_leads_back(true):
    fit = {3: perspective}.get(3) if true is TILTED else affine
    laid = fit(WELL_SPREAD, carried(true, WELL_SPREAD))
    back = np.array([*laid.back, (0, 0, 1)][:3])
    for point in WELL_SPREAD:
        u, v = laid.carry(point)
        x, y, w = back @ [u, v, 1]
        assert (x / w, y / w) == pytest.approx(point, abs=1e-6)
    assert len(laid.back) == len(laid.matrix)


def test_scale_turn_and_stretch_of_every_model_are_those_at_its_middle():
    plain = similarity(WELL_SPREAD, carried(TURNED, WELL_SPREAD))
    assert (plain.scale, plain.turn, plain.stretch) == pytest.approx(
        (math.hypot(0.9, 0.2), math.degrees(math.atan2(-0.2, 0.9)), 1)
    )
    wide = np.diag([1.5, 1.0, 1.0])
    stretched = affine(WELL_SPREAD, carried(wide, WELL_SPREAD))
    assert (stretched.scale, stretched.turn, stretched.stretch) == pytest.approx((math.sqrt(1.5), 0, 1.5))


def test_the_chance_of_a_chi_square_of_two_degrees_is_an_exponential():
    assert chance(3.0, 2) == pytest.approx(math.exp(-1.5))
    assert chance(0.0, 6) == 1
