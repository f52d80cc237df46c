"""Two pictures of a pair brought to one brightness and contrast, for the eye that looks from one to the other.

The mean and the spread of lightness of the earlier picture are made those of the later one (the statistics of Reinhard
et al. 2001, "Color transfer between images", IEEE Computer Graphics and Applications 21(5):34-41, for lightness only),
so that a dark slide beside a bright picture does not look like a change of the tree. Colour stays as each picture has
it: a sepia print stays sepia. It is done in the pictures of a slider only, never to a photograph shown by itself.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

MATCHING = "exposure 1"
"""Changes with the recipe, and with it the names of the pictures made by it."""
_LEAST, _MOST = 0.6, 1.6
"""How far contrast is changed at most: more would only make grain of a faded print."""


def matched(picture: Image.Image, to: Image.Image) -> Image.Image:
    """`picture` with the lightness of `to`: its mean, and its spread within limits. Both are RGB."""
    mean, spread = _lightness(picture)
    wanted, wanted_spread = _lightness(to)
    factor = min(max(wanted_spread / spread, _LEAST), _MOST) if spread > 0 else 1.0
    levels = np.clip(np.arange(256) * factor + (wanted - mean * factor), 0, 255)
    return picture.point([round(float(level)) for level in levels] * 3)


def _lightness(picture: Image.Image) -> tuple[float, float]:
    """Mean and standard deviation of the weighted sum of red, green and blue (ITU-R BT.601), which Pillow calls L."""
    grey = np.asarray(picture.convert("L"), dtype=np.float64)
    return float(grey.mean()), float(grey.std())
