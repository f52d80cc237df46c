"""Colours as every browser shows them: sRGB, by LittleCMS where a profile is embedded.

Perceptual intent and black point compensation. A picture without a profile is taken to be sRGB already
(IEC 61966-2-1); inks without one are turned by the plain formula.
"""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO

from PIL import Image, ImageCms

PAPER = (255, 255, 255)
"""What is seen through transparent parts."""


def on_paper(image: Image.Image, profile: bytes | None) -> Image.Image:
    """A picture of eight bits a band (L, LA, RGB, RGBA, CMYK, LAB) in sRGB, transparent parts laid on white paper."""
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
