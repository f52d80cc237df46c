"""What a picture looks like, in 256 bits: pictures that look the same differ in few of them.

The perceptual hash of ImageHash (discrete cosine transform of the picture at 64 × 64, the 16 × 16 slowest waves against
their median). On photographs of trees from the same spot: copies at other sizes, qualities and tones differ in at
most 6 bits, ones trimmed by a hundredth or turned by a degree in 12 as a rule; different pictures in 16 and more.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_SIDE = 16
LEAST = 8 * _SIDE
"""Pixels a side that a picture should have to be looked at."""
_STRIP = 4_000_000
"""Pixels of a picture with transparent parts that are brought down at a time."""
_LEAST_CONTRAST = 4.0
"""Standard deviation, of 255, below which a picture has nothing to be known by: a blank page, a lens cap."""


def look_of(picture: Image.Image, orientation: int = 1) -> str:
    """The upright picture's look as 64 hex digits; "" where it has too little contrast to be known again."""
    import imagehash

    small = _grey(_smaller(picture)).resize((4 * _SIDE, 4 * _SIDE), Image.Resampling.LANCZOS)
    if orientation in _TURNS:
        small = small.transpose(_TURNS[orientation])
    if float(np.asarray(small, dtype=np.float32).std()) < _LEAST_CONTRAST:
        return ""
    return str(imagehash.phash(small, hash_size=_SIDE))


def _smaller(picture: Image.Image) -> Image.Image:
    """Near enough to the size that is looked at, so that no second picture of the full size stands in memory."""
    factor = min(picture.width, picture.height) // (3 * 4 * _SIDE)
    if factor < 2:
        return picture
    if picture.mode in ("1", "P", "PA") or picture.mode.startswith("I;"):
        # These cannot be averaged as they are; some pixels of many do for a look.
        return picture.resize((picture.width // factor, picture.height // factor), Image.Resampling.NEAREST)
    if picture.mode not in ("LA", "RGBA"):
        return picture.reduce(factor)
    # Of a picture with transparent parts Pillow would make a second one of the full size first.
    small = Image.new(picture.mode, (-(-picture.width // factor), -(-picture.height // factor)))
    rows = max(1, _STRIP // picture.width // factor) * factor
    for top in range(0, picture.height, rows):
        strip = picture.crop((0, top, picture.width, min(top + rows, picture.height)))
        small.paste(strip.reduce(factor), (0, top // factor))
    return small


def _grey(picture: Image.Image) -> Image.Image:
    if picture.mode == "L":
        return picture
    if picture.mode.startswith("I") or picture.mode == "F":
        # Pillow would cut longer numbers off at 255.
        values = np.asarray(picture, dtype=np.float32)
        return Image.fromarray((values * (255.0 / max(float(values.max(initial=0.0)), 1e-9))).astype(np.uint8))
    if picture.mode == "LAB":
        # Pillow turns Lab into nothing else by itself; its first band is the lightness.
        return picture.getchannel("L")
    return picture.convert("L")
