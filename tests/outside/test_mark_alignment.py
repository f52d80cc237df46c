"""Alignment by marks, judged by placements that are exact and by the points that the demo's renderer worked out.

The limit of a pixel is the project's own promise. scikit-image's and OpenCV's estimators, which share no code with
ours, are given the same marks.
"""

from __future__ import annotations

import json
import math
from itertools import combinations
from statistics import median

import cv2
import numpy as np
import pytest
from skimage.transform import SimilarityTransform

from archive_tools.illustrate.alignment import SIMILARITY, CannotAlign, Point
from archive_tools.illustrate.richer_models import lay
from tests.outside.constructed_pairs import DEMO

POINTS = json.loads((DEMO / "picture_maker" / "points.json").read_text(encoding="utf-8"))
WRITTEN = 0.1
"""Pixels: photos.yml gives marks to a tenth."""
STAYS = ("bend", "branch", "trunk base")
"""Wood that keeps its place between ages (picture_maker/README.md)."""
ONE_LINE = ("S1979.2", "S1998.4", "S2001.5", "S2015.9")
"""Trees seen from one front whose marked wood neither grew nor moved, and lies near one plane: a camera that stands
elsewhere then moves it nearly as the models say. Of wood at many depths no placement of one picture is exact."""


def as_written(point: tuple[float, float]) -> Point:
    return tuple(round(number / WRITTEN) * WRITTEN for number in point)  # type: ignore[return-value]


def known(rng: np.random.Generator) -> np.ndarray:
    """Turned up to 15 degrees, 0.6 to 1.6 times as large, and moved."""
    scale, turn = math.exp(rng.uniform(math.log(0.6), math.log(1.6))), math.radians(rng.uniform(-15, 15))
    true = np.eye(3)
    true[:2, :2] = scale * np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    true[:2, 2] = rng.uniform(-60, 60, 2)
    return true


def carried(true: np.ndarray, point: tuple[float, float]) -> tuple[float, float]:
    u, v, w = true @ [*point, 1]
    return u / w, v / w


def test_two_hundred_constructed_pairs() -> None:
    """The renderer's points of a picture, laid exactly and written down to a tenth; judged all over the picture."""
    rng = np.random.default_rng(20261125)
    names = sorted(name for name, scene in POINTS.items() if len(scene["points"]) >= 10)
    for _ in range(200):
        scene = POINTS[names[int(rng.integers(len(names)))]]
        before = [(float(x), float(y)) for x, y in scene["points"].values()]
        true = known(rng)
        laid = lay([as_written(at) for at in before], [as_written(carried(true, at)) for at in before])
        width, height = scene["size"]
        everywhere = [*before, (0, 0), (width, 0), (width, height), (0, height)]
        assert max(math.dist(laid.carry(at), carried(true, at)) for at in everywhere) < 1


def test_beside_scikit_image_and_opencv() -> None:
    """Five marks placed by eye (2 px): ours is no farther from the truth than theirs, nor from them.

    Now and then the errors of placing look like stretch, and another model is asked for: in at most two of ten.
    """
    scene = POINTS["trees/S1979.2-halvards-maple/photos/2025-06_front_1.jpg"]["points"]
    before = np.array(
        [scene[name] for name in ("trunk base", "first branch", "second branch", "rim left", "rim right")]
    )
    compared = 0
    for seed in range(10):
        rng = np.random.default_rng(seed)
        true = known(rng)
        after = np.array([carried(true, tuple(at)) for at in before]) + rng.normal(0, 2, before.shape)
        laid = lay([tuple(at) for at in before], [tuple(at) for at in after])
        if laid.model != SIMILARITY:
            continue
        compared += 1
        theirs = SimilarityTransform.from_estimate(before, after)
        other, _ = cv2.estimateAffinePartial2D(before, after, method=cv2.LMEDS, refineIters=0)
        truth = np.array(carried(true, (640.0, 500.0)))
        ours = np.array(laid.carry((640.0, 500.0)))
        assert ours == pytest.approx(theirs(np.array([[640.0, 500.0]]))[0], abs=1e-6)
        assert np.linalg.norm(ours - truth) <= np.linalg.norm(other @ [640, 500, 1] - truth) + 2
    assert compared >= 8


def test_wood_that_was_not_marked_lies_on_itself() -> None:
    """Each place in turn is left out of the marks, and is then to lie where the renderer has it.

    Half of them do within a pixel; the farthest are those beyond all marks, up to half a hundredth of the picture.
    """
    missed: list[float] = []
    for accession in ONE_LINE:
        pictures = [one for one in sorted(POINTS) if f"/{accession}-" in one and "_front_" in one]
        for first, second in combinations(pictures, 2):
            missed += _left_out(POINTS[first]["points"], POINTS[second]["points"])
    assert len(missed) > 150
    assert median(missed) < 1
    assert float(np.quantile(missed, 0.95)) < 3
    assert max(missed) < 0.005 * 1280


def _left_out(there: dict[str, list[float]], here: dict[str, list[float]]) -> list[float]:
    wood = sorted(name for name in there if name in here and any(word in name for word in STAYS))
    found = []
    if len(wood) >= 4:
        for held in wood:
            marks = [name for name in wood if name != held]
            try:
                laid = lay([as_written(tuple(there[n])) for n in marks], [as_written(tuple(here[n])) for n in marks])
            except CannotAlign:
                continue
            found.append(math.dist(laid.carry(tuple(there[held])), here[held]))
    return found
