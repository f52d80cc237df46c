"""Where the public pictures with camera notes lie, and how a test gets them."""

from __future__ import annotations

import os
from pathlib import Path

_ROOT = Path(__file__).resolve().parents[2]
ENDINGS = frozenset({".jpg", ".jpeg", ".tif", ".tiff", ".png", ".webp", ".heic", ".heif", ".avif"})
_SETS = (
    ("exiftool", "Image-ExifTool-*"),
    ("exiv2", "exiv2-*"),
    ("libexif", "libexif-*"),
    ("jhead", "jhead-*"),
    ("metadata-extractor", "metadata-extractor-*"),
)
HOW = "fetched by tests/outside/fetch_pictures.sh"


def _folder() -> Path:
    return Path(os.environ.get("PUBLIC_PICTURES", _ROOT / ".public_pictures"))


def images_of_libraries() -> dict[str, list[Path]]:
    """The test images of other libraries (Debian source packages); a set that is not there is missing."""
    sets: dict[str, list[Path]] = {}
    for name, pattern in _SETS:
        found = [file for top in sorted(_folder().glob(pattern)) for file in sorted(top.rglob("*"))]
        pictures = [file for file in found if file.suffix.lower() in ENDINGS and file.is_file()]
        if pictures:
            sets[name] = pictures
    return sets


def go_samples() -> list[Path]:
    """The beginnings of photographs by some fifty cameras, cut off behind the camera's notes."""
    return sorted(_folder().glob("goexif/**/exif/samples/*.jpg"))


def opencv_samples() -> Path | None:
    """The sample pictures of OpenCV (Debian package opencv-doc), or None where they are not."""
    for top in (_folder() / "opencv-doc", Path("/")):
        folder = top / "usr/share/doc/opencv-doc/examples/data"
        if (folder / "H1to3p.xml").is_file():
            return folder
    return None
