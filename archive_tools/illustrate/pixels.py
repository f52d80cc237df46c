"""From an original to plain pixels: upright, in sRGB, eight bits, without transparency. Originals are only read.

Orientation: Exif 2.32, tag 0x0112. Colour is the affair of `colour`, size that of `shrinking`.
"""

from __future__ import annotations

import struct
import warnings
from functools import lru_cache
from typing import BinaryIO

from PIL import Image

from archive_tools.illustrate.colour import on_paper
from archive_tools.illustrate.shrinking import shrunk
from archive_tools.model.photo import LARGEST_PIXELS

FORMATS = ("JPEG", "PNG", "TIFF", "WEBP", "AVIF", "HEIF")
ORIENTATION = 0x0112
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_ON_ITS_SIDE = frozenset({5, 6, 7, 8})
_BROKEN = (OSError, ValueError, SyntaxError, EOFError, RuntimeError, LookupError, TypeError, struct.error)
"""What Pillow and its decoders raise for files that are damaged or no pictures at all."""


class CannotRead(ValueError):  # noqa: N818  (said of the file)
    """A picture that cannot be read; its text completes "this picture cannot be shown: "."""


def open_original(file: BinaryIO) -> Image.Image:
    """Open a picture without decoding it yet. Raises CannotRead."""
    _prepare()
    try:
        with warnings.catch_warnings():
            # Of large scans, before it refuses what is too large, and of broken notes, which do not matter here.
            warnings.simplefilter("ignore")
            image = Image.open(file, formats=FORMATS)
    except Image.DecompressionBombError as error:
        raise CannotRead("it claims far more pixels than a photograph has") from error
    except _BROKEN as error:
        raise CannotRead("the file is damaged, or no JPEG, PNG, TIFF, WebP, AVIF or (with pillow-heif) HEIC") from error
    if image.width * image.height > LARGEST_PIXELS:
        image.close()
        raise CannotRead("it claims far more pixels than a photograph has")
    return image


@lru_cache(maxsize=1)
def _prepare() -> None:
    """Let Pillow open large scans, and HEIC where the optional library for it is there. Once in each process."""
    # Pillow refuses what is twice as large as this.
    Image.MAX_IMAGE_PIXELS = LARGEST_PIXELS // 2
    try:
        import pillow_heif
    except ImportError:
        return
    pillow_heif.register_heif_opener()


def upright_size(image: Image.Image) -> tuple[int, int]:
    """Width and height once the picture stands upright, in pixels."""
    width, height = image.size
    return (height, width) if _orientation(image) in _ON_ITS_SIDE else (width, height)


def upright_srgb(image: Image.Image, size: tuple[int, int]) -> Image.Image:
    """The whole picture at `size` (of the upright picture, never larger than it), as plain RGB pixels in sRGB.

    A JPEG is decoded at the smallest of its half, quarter and eighth that still holds `size`, which saves most of the
    work; one resize brings it to `size`. Raises CannotRead for a damaged file.
    """
    orientation = _orientation(image)
    stored = (size[1], size[0]) if orientation in _ON_ITS_SIDE else size
    profile = image.info.get("icc_profile")
    try:
        image.draft(None, stored)
        image.load()
        pixels = on_paper(shrunk(image, stored), profile)
    except MemoryError as error:
        raise CannotRead("it needs more memory than this machine has") from error
    except _BROKEN as error:
        raise CannotRead(f"the picture in the file is damaged ({error})") from error
    return only_pixels(pixels.transpose(_TURNS[orientation]) if orientation in _TURNS else pixels)


def only_pixels(image: Image.Image) -> Image.Image:
    """A copy of an RGB picture that carries nothing but its pixels: no profile, no notes, no comment."""
    plain = Image.new("RGB", image.size)
    plain.paste(image)
    return plain


def _orientation(image: Image.Image) -> int:
    if image.format in ("TIFF", "HEIF"):
        return 1  # turned by the decoder itself, which tells their upright size
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            value = image.getexif().get(ORIENTATION, 1)
    except Exception:  # broken notes must not cost the picture, and Pillow raises many kinds of error here
        return 1
    return value if isinstance(value, int) and 1 <= value <= 8 else 1
