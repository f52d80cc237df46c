"""Pairs of photographs of which it is known how one lies over the other, because it was laid so."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np
from numpy.typing import NDArray
from PIL import Image

import archive_tools

DEMO = Path(archive_tools.__file__).parents[1] / "demo_collection"
_TREES = ["S1979.2", "S1983.6", "S1986.1", "S1994.3", "S1998.4", "S2001.5", "S2003.7", "S2006.2", "S2015.9", "S2019.1"]
HALF = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1.0]])
"""OpenCV counts from the centres of pixels; marks, and this project, from their corners."""

Grey = NDArray[np.uint8]
Array = NDArray[np.float64]


@dataclass(frozen=True)
class Known:
    """Two grey pictures, and the 3 x 3 matrix that carries points of the first to the second."""

    before: Grey
    after: Grey
    true: Array

    def worst(self, carry) -> float:
        """The largest error, in pixels of the second picture, over all that both pictures show."""
        height, width = self.before.shape
        errors = []
        for x in np.linspace(0, width, 7):
            for y in np.linspace(0, height, 7):
                u, v, w = self.true @ [x, y, 1]
                if 0 <= u / w <= self.after.shape[1] and 0 <= v / w <= self.after.shape[0]:
                    errors.append(math.dist(carry((x, y)), (u / w, v / w)))
        return max(errors)


def photographs() -> list[Path]:
    """The photographs of ten trees of the demo."""
    return sorted(file for tree in _TREES for file in (DEMO / "trees").glob(f"{tree}-*/photos/*.jpg"))


def grey(path: Path, longest: int = 800) -> Grey:
    with Image.open(path) as image:
        image.thumbnail((longest, longest), Image.Resampling.LANCZOS)
        return np.asarray(image.convert("L"))


def constructed(rng: np.random.Generator, picture: Grey, other: Grey, tilt: float = 0.0, changed: float = 0.3) -> Known:
    """Turned up to 15 degrees, 0.6 to 1.6 times as large, moved, in another light, and a part of it another picture.

    tilt: how much perspective is added, in shares of the picture's size. changed: how large that part is.
    """
    height, width = picture.shape
    scale, turn = math.exp(rng.uniform(math.log(0.6), math.log(1.6))), math.radians(rng.uniform(-15, 15))
    linear = scale * np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    middle = np.array([width / 2, height / 2])
    shift = middle - linear @ middle + rng.uniform(-0.06, 0.06, 2) * (width, height)
    true = np.vstack([np.column_stack([linear, shift]), [0, 0, 1]])
    if tilt:
        leaning = [*(rng.uniform(-tilt, tilt, 2) / (width, height)), 1]
        true = true @ np.array([[1, rng.uniform(-tilt, tilt), 0], [rng.uniform(-tilt, tilt), 1, 0], leaning])
        true /= true[2, 2]
    sharp = cv2.GaussianBlur(picture, (0, 0), 0.35 / scale) if scale < 1 else picture
    after = cv2.warpPerspective(sharp, np.linalg.inv(HALF) @ true @ HALF, (width, height), flags=cv2.INTER_CUBIC)
    across = int(width * rng.uniform(0.45, 0.9))
    down = min(int(changed * width * height / across), height)
    left, top = int(rng.integers(0, width - across + 1)), int(rng.integers(0, height - down + 1))
    patch = cv2.resize(other, (width, height), interpolation=cv2.INTER_AREA)
    after[top : top + down, left : left + across] = patch[top : top + down, left : left + across]
    lit = 255 * (np.clip(after * rng.uniform(0.75, 1.15) + rng.uniform(-15, 20), 0, 255) / 255) ** rng.uniform(0.7, 1.4)
    return Known(picture, np.clip(lit + rng.normal(0, 3, lit.shape), 0, 255).astype(np.uint8), true)
