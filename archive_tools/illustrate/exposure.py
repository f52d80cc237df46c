"""Two pictures of a pair brought nearer in brightness and contrast, for the eye that looks from one to the other.

The mean and the spread of lightness of the earlier picture are moved towards those of the later one (the statistics of
Reinhard et al. 2001, "Color transfer between images", IEEE Computer Graphics and Applications 21(5):34-41, for
lightness only), so that a dark slide beside a bright picture does not look like a change of the tree. They are moved
part of the way: what is behind the tree counts in the mean too, and a dark wall must not be made a bright one. Black
stays black and white stays white. Colour stays as each picture has it: a sepia print stays sepia. It is done in the
pictures of a slider only, never to a photograph shown by itself.
"""

from __future__ import annotations

import math

import numpy as np
from PIL import Image

MATCHING = "exposure 2"
"""Changes with the recipe, and with it the names of the pictures made by it."""
MOST_MOVED = 28.0
"""Levels of 255 by which the mean is moved at most: about two thirds of a stop at middle grey."""
_LEAST, _MOST = 0.85, 1.25
"""How far contrast is changed at most: more would only make grain of a faded print."""


def matched(picture: Image.Image, to: Image.Image) -> Image.Image:
    """`picture` with its lightness nearer to that of `to`: mean and spread, each within limits. Both are RGB."""
    mean, spread = _lightness(picture)
    wanted, wanted_spread = _lightness(to)
    moved = mean + min(max(wanted - mean, -MOST_MOVED), MOST_MOVED)
    factor = min(max(wanted_spread / spread, _LEAST), _MOST) if spread > 0 else 1.0
    return picture.point([round(255 * level) for level in _curve(mean / 255, moved / 255, factor)] * 3)


def _curve(mean: float, moved: float, factor: float) -> list[float]:
    """From 0..255 to 0..1: a power that carries one mean to the other, with the contrast about it changed smoothly.

    The contrast is changed as an S-curve does it, so that both ends stay where they are.
    """
    if not 0 < mean < 1 or not 0 < moved < 1:
        return [level / 255 for level in range(256)]
    power = math.log(moved) / math.log(mean)
    levels = np.power(np.arange(256) / 255, power)
    bent = np.where(
        levels < moved,
        moved * np.power(levels / moved, factor),
        1 - (1 - moved) * np.power((1 - levels) / (1 - moved), factor),
    )
    return [float(level) for level in np.clip(bent, 0, 1)]


def _lightness(picture: Image.Image) -> tuple[float, float]:
    """Mean and standard deviation of the weighted sum of red, green and blue (ITU-R BT.601), which Pillow calls L."""
    grey = np.asarray(picture.convert("L"), dtype=np.float64)
    return float(grey.mean()), float(grey.std())
