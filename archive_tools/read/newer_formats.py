"""Which formats are read, and HEIC where the optional library for it is there."""

from __future__ import annotations

from functools import lru_cache

from PIL import Image

from archive_tools.model.photo import LARGEST_PIXELS

READABLE = "JPEG, PNG, TIFF, WebP or AVIF"
FORMATS = ("JPEG", "PNG", "TIFF", "WEBP", "AVIF", "HEIF")
WITHOUT_HEIC = (
    "the file is a HEIC picture, and the library for those is not installed here; "
    f"pip install 'archive-tools[heic]', or save a {READABLE} copy of it"
)


@lru_cache(maxsize=1)
def heif_version() -> str:
    """The version of pillow-heif, or "" where it is not installed."""
    try:
        import pillow_heif
    except ImportError:
        return ""
    return str(pillow_heif.__version__)


@lru_cache(maxsize=1)
def prepare_pillow() -> None:
    """Let Pillow open large scans, and HEIC where the library for it is there. (AVIF it opens itself.)"""
    # Pillow refuses what is twice as large as this.
    Image.MAX_IMAGE_PIXELS = LARGEST_PIXELS // 2
    if heif_version():
        import pillow_heif

        pillow_heif.register_heif_opener()
