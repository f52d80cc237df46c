"""Every stated uncertainty against the package `uncertainties`, which propagates with exact derivatives.

It keeps track of what rests on the same number (a mark that ends both lengths, one scale in two pictures, a mark that
holds the alignment and bounds the scale): JCGM 100:2008, 5.2.2, equation (13). Nothing of ours is used by it.
"""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

import pytest
import uncertainties
from uncertainties import umath

from archive_tools.illustrate.measure import length, same_scale, uncertainty_of_change
from archive_tools.illustrate.movement import movement
from archive_tools.illustrate.richer_models import PLACING
from archive_tools.model.photo import PictureScale

Marks = dict[str, tuple[float, float]]
BEFORE: Marks = {
    "left": (412.0, 903.5), "right": (1088.0, 917.0), "base": (765.0, 880.0), "apex": (801.0, 122.0),
    "fork": (640.0, 433.0), "stub": (700.0, 431.0),
}  # fmt: skip
AFTER: Marks = {
    "left": (512.0, 1003.5), "right": (1304.0, 1001.0), "base": (924.0, 968.0), "apex": (951.0, 377.0),
    "fork": (771.0, 452.0), "stub": (838.0, 455.0),
}  # fmt: skip
POT = PictureScale("left", "right", Decimal("46.0"), Decimal("0.4"))


def placed(marks: Marks) -> dict[str, tuple[Any, Any]]:
    return {
        name: (uncertainties.ufloat(x, PLACING), uncertainties.ufloat(y, PLACING)) for name, (x, y) in marks.items()
    }


def apart(one: tuple[Any, Any], other: tuple[Any, Any]) -> Any:
    return umath.sqrt((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2)


def read(marks: dict[str, tuple[Any, Any]], known: Any, one: str, other: str) -> Any:
    return known * apart(marks[one], marks[other]) / apart(marks["left"], marks["right"])


@pytest.mark.parametrize(
    ("one", "other"),
    [("base", "apex"), ("left", "apex"), ("apex", "right"), ("fork", "stub"), ("right", "base"), ("left", "right")],
)
def test_a_length(one: str, other: str) -> None:
    theirs = read(placed(BEFORE), uncertainties.ufloat(46, 0.4), one, other)
    ours = length(BEFORE, POT, one, other)
    assert ours.cm == pytest.approx(theirs.n, rel=1e-12)
    assert ours.uncertainty == pytest.approx(theirs.s, rel=1e-9)


@pytest.mark.parametrize("second", [POT, PictureScale("left", "right", Decimal("50.0"), Decimal("0.4"))])
@pytest.mark.parametrize(("one", "other"), [("base", "apex"), ("left", "apex"), ("fork", "stub"), ("left", "right")])
def test_the_change_of_a_length(second: PictureScale, one: str, other: str) -> None:
    known = uncertainties.ufloat(46, 0.4)
    also = known if second == POT else uncertainties.ufloat(50, 0.4)
    theirs = read(placed(AFTER), also, one, other) - read(placed(BEFORE), known, one, other)
    first, then = length(BEFORE, POT, one, other), length(AFTER, second, one, other)
    ours = uncertainty_of_change(first, then, one_scale=same_scale(POT, second))
    assert then.cm - first.cm == pytest.approx(theirs.n, rel=1e-9, abs=1e-12)
    assert ours == pytest.approx(theirs.s, rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("known", ["11.0", "12.5", "13.0", "46.0"])
def test_a_scale_measured_by_itself_has_not_changed_by_the_last_bit(known: str) -> None:
    scale = PictureScale("left", "right", Decimal(known), None)
    for one, other in (("left", "right"), ("right", "left")):
        first, then = length(BEFORE, scale, one, other), length(AFTER, scale, one, other)
        assert then.cm == first.cm == float(known)
        assert first.by_placing == then.by_placing == 0


@pytest.mark.parametrize(
    "held", [("left", "right"), ("left", "right", "base"), ("base", "left", "right", "apex"), ("base", "fork", "stub")]
)
def test_the_movement_of_a_mark(held: tuple[str, ...]) -> None:
    """The similarity of least squares (Umeyama 1991) written out in numbers that know their uncertainty."""
    before = {name: BEFORE[name] for name in (*held, "apex")}
    after = {name: _laid(BEFORE[name]) for name in (*held, "left", "right")} | {"apex": (951.0, 377.0)}
    first, second = placed(before), placed(after)
    names = [name for name in held if name != "apex"]
    z = [first[name] for name in names]
    w = [second[name] for name in names]
    mean_z, mean_w = ([sum(axis) / len(names) for axis in zip(*side, strict=True)] for side in (z, w))
    real = imaginary = spread = 0
    for (x, y), (u, v) in zip(z, w, strict=True):
        a, b, c, d = x - mean_z[0], y - mean_z[1], u - mean_w[0], v - mean_w[1]
        real, imaginary, spread = real + a * c + b * d, imaginary + a * d - b * c, spread + a**2 + b**2
    real, imaginary = real / spread, imaginary / spread
    a, b = first["apex"][0] - mean_z[0], first["apex"][1] - mean_z[1]
    carried = mean_w[0] + real * a - imaginary * b, mean_w[1] + imaginary * a + real * b
    cm = uncertainties.ufloat(46, 0.4) / apart(second["left"], second["right"])
    right, up = (second["apex"][0] - carried[0]) * cm, (carried[1] - second["apex"][1]) * cm
    ours = movement(before, after, held, "apex", POT)
    assert (ours.right, ours.up) == pytest.approx((right.n, up.n), rel=1e-9)
    assert (ours.right_uncertainty, ours.up_uncertainty) == pytest.approx((right.s, up.s), rel=1e-4)


def _laid(point: tuple[float, float]) -> tuple[float, float]:
    """Turned by 3 degrees, enlarged by 1.17 and shifted."""
    turned = complex(*point) * complex(math.cos(0.052), math.sin(0.052)) * 1.17 + complex(30, -44)
    return turned.real, turned.imag
