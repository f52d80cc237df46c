"""From an original to plain pixels: upright, in sRGB, eight bits, without transparency. Originals are only read.

Orientation: Exif 2.32, tag 0x0112. Colour: an embedded ICC profile is honoured by LittleCMS (perceptual intent,
black point compensation); a picture without one is taken to be sRGB already (IEC 61966-2-1).
"""

from __future__ import annotations

import struct
import warnings
from functools import lru_cache
from io import BytesIO
from typing import BinaryIO

import numpy as np
from PIL import Image, ImageCms

ORIENTATION = 0x0112
PAPER = (255, 255, 255)
"""What is seen through transparent parts."""
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
    try:
        with warnings.catch_warnings():
            # Of large scans, before it refuses what is too large, and of broken notes, which do not matter here.
            warnings.simplefilter("ignore")
            return Image.open(file)
    except Image.DecompressionBombError as error:
        raise CannotRead("it claims far more pixels than a photograph has") from error
    except _BROKEN as error:
        raise CannotRead("the file is damaged, or no JPEG, PNG, TIFF or WebP picture") from error


def upright_size(image: Image.Image) -> tuple[int, int]:
    """Width and height once the picture stands upright, in pixels."""
    width, height = image.size
    return (height, width) if _orientation(image) in _ON_ITS_SIDE else (width, height)


def upright_srgb(image: Image.Image, size: tuple[int, int]) -> Image.Image:
    """The whole picture at `size` (of the upright picture, never larger than it), as plain RGB pixels in sRGB.

    A JPEG is decoded at the smallest of its own eighths that still holds `size`, which saves most of the work;
    one resize brings it to `size`. Raises CannotRead for a damaged file.
    """
    orientation = _orientation(image)
    stored = (size[1], size[0]) if orientation in _ON_ITS_SIDE else size
    profile = image.info.get("icc_profile")
    try:
        image.draft(None, stored)
        image.load()
        pixels = _eight_bits(image)
        if pixels.size != stored:
            pixels = pixels.resize(stored, Image.Resampling.LANCZOS, reducing_gap=3.0)
        pixels = _on_paper(pixels, profile)
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
    if image.format == "TIFF":
        return 1  # Pillow turns these itself as it decodes them, and tells their upright size
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            value = image.getexif().get(ORIENTATION, 1)
    except Exception:  # broken notes must not cost the picture, and Pillow raises many kinds of error here
        return 1
    return value if isinstance(value, int) and 1 <= value <= 8 else 1


def _eight_bits(image: Image.Image) -> Image.Image:
    """The picture in a mode of eight bits a band: L, LA, RGB, RGBA, CMYK or LAB."""
    mode = image.mode
    if mode.startswith("I;16"):
        return Image.fromarray((np.asarray(image) >> 8).astype(np.uint8))
    if mode in ("I", "F"):
        return _from_long_numbers(np.asarray(image, dtype=np.float64))
    if "transparency" in image.info and mode in ("P", "L", "RGB", "1"):
        return image.convert("RGBA")
    plain = {
        "1": "L",
        "P": "RGB",
        "PA": "RGBA",
        "La": "LA",
        "RGBa": "RGBA",
        "YCbCr": "RGB",
        "HSV": "RGB",
        "RGBX": "RGB",
    }
    return image.convert(plain[mode]) if mode in plain else image


def _from_long_numbers(values: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> Image.Image:
    """Grey from 32-bit whole numbers or fractions, which files fill to 1, to 255 or to 65535."""
    top = float(values.max(initial=0.0))
    white = 1.0 if top <= 1.0 else 255.0 if top <= 255.0 else 65535.0
    return Image.fromarray(np.clip(values / white * 255.0 + 0.5, 0, 255).astype(np.uint8))


def _on_paper(image: Image.Image, profile: bytes | None) -> Image.Image:
    """In sRGB, with transparent parts laid on white paper."""
    if image.mode not in ("LA", "RGBA"):
        return _in_srgb(image, profile)
    opaque = _in_srgb(image.convert(image.mode[:-1]), profile)
    sheet = Image.new("RGB", image.size, PAPER)
    sheet.paste(opaque, mask=image.getchannel("A"))
    return sheet


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    transform = _to_srgb(profile, image.mode) if profile else _lab_to_srgb() if image.mode == "LAB" else None
    if transform is None:
        return image.convert("RGB")
    turned = ImageCms.applyTransform(image, transform)
    return image.convert("RGB") if turned is None else turned


@lru_cache(maxsize=16)
def _to_srgb(profile: bytes, mode: str) -> ImageCms.ImageCmsTransform | None:
    """How to bring pixels of `mode` to sRGB; None where the profile is broken or of another kind of picture."""
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        return ImageCms.buildTransform(
            source,
            ImageCms.createProfile("sRGB"),
            mode,
            "RGB",
            renderingIntent=ImageCms.Intent.PERCEPTUAL,
            flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
        )
    except (ImageCms.PyCMSError, OSError):
        return None


@lru_cache(maxsize=1)
def _lab_to_srgb() -> ImageCms.ImageCmsTransform:
    return ImageCms.buildTransform(ImageCms.createProfile("LAB"), ImageCms.createProfile("sRGB"), "LAB", "RGB")
