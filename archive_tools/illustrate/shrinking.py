"""A decoded picture of any kind brought to eight bits a band and to the size that is wanted.

Very large ones are brought near that size strip by strip, so that no second picture of the full size ever stands in
memory beside the decoded one.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

FILTER = Image.Resampling.HAMMING
"""As like the original as Lanczos once it is a JPEG (structural similarity), and half the work."""

_GAP = 1
"""How many times the wanted size a picture keeps at least when it is averaged down first: with 1, whole pixels are
averaged as long as it stays as large as is wanted, as the decoder does with a JPEG. Against 2 that costs a thousandth
of structural similarity, and saves a third of the work."""
_STRIP = 4_000_000
"""Pixels handled at a time."""
_PREMULTIPLIED = {"RGBA": "RGBa", "LA": "La"}
"""A transparent pixel's colour must not bleed into its neighbours."""
_PLAIN = {
    "1": "L",
    "P": "RGB",
    "PA": "RGBA",
    "La": "LA",
    "RGBa": "RGBA",
    "YCbCr": "RGB",
    "HSV": "RGB",
    "RGBX": "RGB",
}


def shrunk(image: Image.Image, size: tuple[int, int]) -> Image.Image:
    """The decoded picture at `size` (never larger than it is), in mode L, LA, RGB, RGBA, CMYK or LAB."""
    white = _white(image)
    factor = min(image.width // (size[0] * _GAP), image.height // (size[1] * _GAP))
    if factor < 2:
        pixels, exact = _premultiplied(_eight_bits(image, white)), (float(image.width), float(image.height))
    else:
        pixels, exact = _averaged(image, factor, white), (image.width / factor, image.height / factor)
    if pixels.size != size:
        # The box leaves out what the last, broken blocks of pixels stand for beyond the picture's edge.
        pixels = pixels.resize(size, FILTER, box=(0.0, 0.0, *exact))
    back = {seen: plain for plain, seen in _PREMULTIPLIED.items()}
    return pixels.convert(back[pixels.mode]) if pixels.mode in back else pixels


def _averaged(image: Image.Image, factor: int, white: float) -> Image.Image:
    """Each square of `factor` pixels as one."""
    rows = max(1, _STRIP // image.width // factor) * factor
    sheet: Image.Image | None = None
    for top in range(0, image.height, rows):
        strip = image.crop((0, top, image.width, min(top + rows, image.height)))
        part = _premultiplied(_eight_bits(strip, white)).reduce(factor)
        if sheet is None:
            sheet = Image.new(part.mode, (-(-image.width // factor), -(-image.height // factor)))
        sheet.paste(part, (0, top // factor))
    if sheet is None:
        raise ValueError("a picture without pixels")
    return sheet


def _premultiplied(image: Image.Image) -> Image.Image:
    return image.convert(_PREMULTIPLIED[image.mode]) if image.mode in _PREMULTIPLIED else image


def _white(image: Image.Image) -> float:
    """What stands for white in 32-bit whole numbers or fractions, which files fill to 1, to 255 or to 65535."""
    if image.mode not in ("I", "F"):
        return 255.0
    found = image.getextrema()
    top = float(found[1]) if isinstance(found[1], (int, float)) else 255.0
    return 1.0 if top <= 1.0 else 255.0 if top <= 255.0 else 65535.0


def _eight_bits(image: Image.Image, white: float) -> Image.Image:
    mode = image.mode
    if mode.startswith("I;16"):
        return Image.fromarray((np.asarray(image) >> 8).astype(np.uint8))
    if mode in ("I", "F"):
        values = np.nan_to_num(np.asarray(image, dtype=np.float64))
        return Image.fromarray(np.clip(values / white * 255.0 + 0.5, 0, 255).astype(np.uint8))
    if "transparency" in image.info and mode in ("P", "L", "RGB", "1"):
        return image.convert("RGBA")
    return image.convert(_PLAIN[mode]) if mode in _PLAIN else image
