"""Alignment without marks on public pictures: pairs whose placement was published, or laid out anew from them.

The pictures: scikit-image's `skimage.data` (in its wheel) and OpenCV's samples (Debian's opencv-doc, see
fetch_pictures.sh). The views of the motorcycle are of Scharstein et al. 2014, "High-resolution stereo datasets with
subpixel-accurate ground truth" (GCPR); the wall with graffiti and its homography of Mikolajczyk & Schmid 2005, "A
performance evaluation of local descriptors" (IEEE Transactions on Pattern Analysis and Machine Intelligence
27:1615-1630), its pixels counted from their centres. The limits are the project's own promise.
"""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from itertools import combinations
from pathlib import Path

import cv2
import numpy as np
import pytest
import skimage

from archive_tools.illustrate.acceptance import accepted
from archive_tools.illustrate.alignment import PERSPECTIVE, CannotAlign, Laid
from archive_tools.illustrate.features import Places, agreed, places_in
from tests.conftest import missing
from tests.outside.constructed_pairs import HALF, Grey, constructed, grey
from tests.outside.public_pictures import HOW, opencv_samples

pytestmark = pytest.mark.slow
SKIMAGE = Path(skimage.__file__).parent / "data"
PICTURES = (
    "astronaut.png",
    "brick.png",
    "camera.png",
    "chelsea.png",
    "coffee.png",
    "coins.png",
    "hubble_deep_field.jpg",
    "ihc.png",
    "motorcycle_left.png",
    "rocket.jpg",
)


def laid(before: Places, after: Places) -> Laid:
    return accepted(agreed(before, after), before, after).laid


@pytest.fixture(scope="module")
def pictures() -> dict[str, Grey]:
    return {name: grey(SKIMAGE / name, 700) for name in PICTURES}


@pytest.mark.parametrize(("seed", "tilt"), [(80211, 0.0), (80212, 0.04)])
def test_public_pictures_laid_anew_lie_as_they_were_laid(pictures: dict[str, Grey], seed: int, tilt: float) -> None:
    """Two of each, turned, enlarged, in another light, and a third of them another picture."""
    rng = np.random.default_rng(seed)
    errors = []
    for name in PICTURES * 2:
        other = rng.choice([one for one in PICTURES if one != name])
        pair = constructed(rng, pictures[name], pictures[str(other)], tilt)
        try:
            errors.append(pair.worst(laid(places_in(pair.before), places_in(pair.after)).carry))
        except CannotAlign:
            continue
    assert len(errors) >= len(PICTURES)
    assert float(np.quantile(errors, 0.95)) < 2
    assert max(errors) < 5


def test_public_pictures_of_different_things_are_refused(pictures: dict[str, Grey]) -> None:
    places = {name: places_in(picture) for name, picture in pictures.items()}
    for one, other in combinations(PICTURES, 2):
        with pytest.raises(CannotAlign):
            laid(places[one], places[other])


def test_two_views_with_depth_are_not_shown_as_one() -> None:
    """The published disparities of the two views differ by tens of pixels between near and far."""
    left, right = (grey(SKIMAGE / f"motorcycle_{side}.png", 2000) for side in ("left", "right"))
    with np.load(SKIMAGE / "motorcycle_disp.npz") as kept:
        disparity = kept["arr_0"]
    there = disparity[np.isfinite(disparity)]
    assert float(np.quantile(there, 0.95) - np.quantile(there, 0.05)) > 20
    with pytest.raises(CannotAlign):
        laid(places_in(left), places_in(right))


def test_a_wall_seen_aslant_is_placed_as_published_and_not_shown() -> None:
    """Near the published homography, and more aslant than a photographer who comes back to a tree ever stands."""
    folder = opencv_samples()
    if folder is None:
        missing(f"pairs of pictures, {HOW},")
    numbers = ET.parse(folder / "H1to3p.xml").getroot()[0].findtext("data")
    assert numbers is not None
    true = HALF @ np.array([float(number) for number in numbers.split()]).reshape(3, 3) @ np.linalg.inv(HALF)
    first, second = (grey(folder / f"graf{n}.png", 2000) for n in (1, 3))
    height, width = second.shape
    before, after = places_in(first), places_in(second)
    found = agreed(before, after)
    (tilted,) = (one.laid for one in found if one.laid.model == PERSPECTIVE)
    wall = np.array([(x, y) for x in np.linspace(0, width, 9) for y in np.linspace(0, height, 9)])
    carried = cv2.perspectiveTransform(wall[None], true)[0]
    errors = [
        math.dist(tilted.carry((float(x), float(y))), at)
        for (x, y), at in zip(wall, carried, strict=True)
        if 0 <= at[0] <= width and 0 <= at[1] <= height
    ]
    assert len(errors) > 40
    assert float(np.median(errors)) < 2.5
    assert max(errors) < 12
    with pytest.raises(CannotAlign):
        accepted(found, before, after)


@pytest.mark.parametrize(("one", "other"), [("aloeL.jpg", "aloeR.jpg"), ("basketball1.png", "basketball2.png")])
def test_scenes_that_moved_are_not_shown(one: str, other: str) -> None:
    """A plant seen by two cameras side by side, and players between two moments: both of OpenCV's samples."""
    folder = opencv_samples()
    if folder is None:
        missing(f"pairs of pictures, {HOW},")
    with pytest.raises(CannotAlign):
        laid(places_in(grey(folder / one, 1400)), places_in(grey(folder / other, 1400)))
