"""Every stated ± against many drawn placings of the marks (Monte Carlo, JCGM 101:2008).

The scenes are the renderer's own points of the demo's pictures (picture_maker/points.json): where they lie is exact, so
what a measurement misses is what placing the marks and knowing the scale leave open. 90 to 99 in 100 within k = 2 and a
width of at most 1.2 times what is drawn are the project's own promise; a normal error would be within in 95.4.
"""

from __future__ import annotations

import json
import math
from decimal import Decimal

import numpy as np
import pytest

from archive_tools.illustrate.measure import length, uncertainty_of_change
from archive_tools.illustrate.movement import movement, movement_laid
from archive_tools.illustrate.richer_models import PLACING, perspective
from archive_tools.model.photo import PictureScale
from tests.outside.constructed_pairs import DEMO

POINTS = json.loads((DEMO / "picture_maker" / "points.json").read_text(encoding="utf-8"))
KNOWN_WITHIN = 0.3
"""Centimetres: how well the width of a pot is known here (k = 1)."""


def scale_of(width: float) -> PictureScale:
    return PictureScale("rim left", "rim right", Decimal(f"{width:.4f}"), Decimal(str(KNOWN_WITHIN)))


def jittered(rng: np.random.Generator, points: dict[str, list[float]]) -> dict[str, tuple[float, float]]:
    return {name: (x + rng.normal(0, PLACING), y + rng.normal(0, PLACING)) for name, (x, y) in points.items()}


def drawn_lengths(rng, points, width, one, other, count=400):
    def placed(name):
        return np.array(points[name]) + rng.normal(0, PLACING, (count, 2))

    at = {name: placed(name) for name in {"rim left", "rim right", one, other}}
    p, q = (np.linalg.norm(at[a] - at[b], axis=1) for a, b in ((one, other), ("rim left", "rim right")))
    return rng.normal(width, KNOWN_WITHIN, count) * p / q


def test_lengths_in_five_hundred_pictures() -> None:
    rng = np.random.default_rng(20)
    names = sorted(POINTS)
    within, stated, drawn = 0, [], []
    for _ in range(500):
        scene = POINTS[names[int(rng.integers(len(names)))]]
        points, width = scene["points"], scene["rim_width_cm"]
        # Now and then a length that shares a mark with the scale.
        one = "rim left" if rng.random() < 0.3 else "apex"
        other = "trunk base" if rng.random() < 0.7 else "rightmost leaf"
        if other not in points or math.dist(points[one], points[other]) < 60:
            other = "rim right"
        true = width * math.dist(points[one], points[other]) / math.dist(points["rim left"], points["rim right"])
        told = rng.normal(width, KNOWN_WITHIN)
        found = length(jittered(rng, points), scale_of(told), one, other)
        within += abs(found.cm - true) <= 2 * found.uncertainty
        stated.append(found.uncertainty)
        drawn.append(drawn_lengths(rng, points, width, one, other).std())
    assert 450 <= within <= 495
    assert np.mean(stated) <= 1.2 * np.mean(drawn)


@pytest.mark.parametrize("one_scale", [True, False])
def test_the_change_of_a_length_between_two_pictures(one_scale: bool) -> None:
    """With one pot in both, its unknown error moves both lengths together; with two pots, each its own way."""
    rng = np.random.default_rng(21)
    photographs = [POINTS[name] for name in sorted(POINTS) if "S1979.2" in name]
    within, stated, missed = 0, [], []
    for _ in range(500):
        pair = [photographs[int(at)] for at in rng.choice(len(photographs), 2, replace=False)]
        off = rng.normal(0, KNOWN_WITHIN, 2)
        lengths, true = [], []
        for at, scene in enumerate(pair):
            points, width = scene["points"], scene["rim_width_cm"]
            told = width + off[0 if one_scale else at]
            q = math.dist(points["rim left"], points["rim right"])
            true.append(width * math.dist(points["trunk base"], points["apex"]) / q)
            lengths.append(length(jittered(rng, points), scale_of(told), "trunk base", "apex"))
        uncertainty = uncertainty_of_change(*lengths, one_scale=one_scale)
        missed.append(lengths[1].cm - lengths[0].cm - true[1] + true[0])
        within += abs(missed[-1]) <= 2 * uncertainty
        stated.append(uncertainty)
    assert 450 <= within <= 495
    assert 0.85 * np.std(missed) <= np.mean(stated) <= 1.2 * np.std(missed)


BENCH = {
    "rim left": (500.0, 900.0),
    "rim right": (1500.0, 940.0),
    "foot": (980.0, 890.0),
    "fork": (1010.0, 620.0),
    "wound": (930.0, 480.0),
    "wall left": (200.0, 250.0),
    "wall right": (1750.0, 300.0),
}
APEX = (960.0, 200.0)
LAID = {
    "similarity": [[0.9, 0.1, 60.0], [-0.1, 0.9, 150.0], [0, 0, 1]],
    "affine": [[0.95, 0.12, 30.0], [-0.02, 0.85, 90.0], [0, 0, 1]],
    "perspective": [[0.95, 0.06, 40.0], [-0.04, 1.0, 60.0], [1.2e-4, -5e-5, 1]],
}


@pytest.mark.slow
@pytest.mark.parametrize(("model", "count"), [("similarity", 250), ("affine", 150), ("perspective", 80)])
def test_the_movement_of_a_mark_by_every_model(model: str, count: int) -> None:
    """The apex came 150 pixels down in the later picture, and 40 to the right."""
    true = np.array(LAID[model])

    def carried(point):
        u, v, w = true @ [*point, 1]
        return u / w, v / w

    after = {name: carried(at) for name, at in BENCH.items()}
    after["apex"] = (carried(APEX)[0] + 40, carried(APEX)[1] + 150)
    before = {**BENCH, "apex": APEX}
    cm = 50 / math.dist(after["rim left"], after["rim right"])
    rng = np.random.default_rng(22)
    stated, seen = [], []
    for _ in range(count):
        scale = scale_of(rng.normal(50, KNOWN_WITHIN))
        found = movement(jittered(rng, before), jittered(rng, after), tuple(BENCH), "apex", scale)
        stated.append((found.right_uncertainty, found.up_uncertainty))
        seen.append((found.right - 40 * cm, found.up + 150 * cm))
    for axis in (0, 1):
        missed, told = np.array(seen)[:, axis], np.array(stated)[:, axis]
        assert 0.90 <= float((np.abs(missed) <= 2 * told).mean()) <= 0.995
        # A little wider than drawn: now and then marks fit worse than their placing explains, and that counts.
        assert 0.9 * missed.std() <= told.mean() <= 1.25 * missed.std()


def test_a_movement_by_unchanged_places_is_no_surer_than_its_own_marks() -> None:
    laid = perspective(list(BENCH.values()), list(BENCH.values()))
    before, after = {**BENCH, "apex": APEX}, {**BENCH, "apex": (APEX[0], APEX[1] + 150)}
    found = movement_laid(before, after, laid, "apex", scale_of(50))
    cm = 50 / math.dist(BENCH["rim left"], BENCH["rim right"])
    assert found.up == pytest.approx(-150 * cm)
    assert found.up_uncertainty > math.sqrt(2) * PLACING * cm


def test_a_scale_nearer_than_the_tree_makes_it_read_short() -> None:
    """By similar triangles: a scale nearer than the object by d, at distance D, reads true x (D - d) / D."""
    focal, distance, nearer, true, known = 1500.0, 200.0, 10.0, 60.0, 40.0
    tree, scale = focal * true / distance, focal * known / (distance - nearer)
    marks = {"rim left": (0.0, 0.0), "rim right": (scale, 0.0), "foot": (900.0, 900.0), "apex": (900.0, 900.0 - tree)}
    read = length(marks, scale_of(known), "foot", "apex").cm
    assert read == pytest.approx(true * (distance - nearer) / distance)
    assert read == pytest.approx(true * 0.95)  # 5 in 100 too short, as the pages say
