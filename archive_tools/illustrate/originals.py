"""Opening originals: for reading only, and only while they are still what they were when the collection was read."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from archive_tools.illustrate.pixels import CannotRead, open_original, upright_size, upright_srgb
from archive_tools.model.photo import Photo


@dataclass(frozen=True, slots=True)
class Original:
    """A photograph's file, the SHA-256 of its bytes, and its size in pixels when it stands upright."""

    path: Path
    fingerprint: str
    width: int
    height: int

    @property
    def size(self) -> tuple[int, int]:
        """(width, height)."""
        return self.width, self.height


def original_of(photo: Photo, root: Path) -> Original:
    """The original of a photograph. What the record does not know of it is read from the file (CannotRead)."""
    path = root / photo.path
    if photo.fingerprint and photo.width > 0 and photo.height > 0:
        return Original(path, photo.fingerprint, photo.width, photo.height)
    with _opened(path) as (image, fingerprint):
        return Original(path, fingerprint, *upright_size(image))


def pixels_of(original: Original, size: tuple[int, int]) -> Image.Image:
    """The whole original at `size`, upright and in sRGB. Raises CannotRead, also where the file has changed since."""
    with _opened(original.path) as (image, fingerprint):
        if fingerprint != original.fingerprint or upright_size(image) != original.size:
            raise CannotRead("the file was changed while the site was being made; build again")
        return upright_srgb(image, size)


@contextmanager
def _opened(path: Path) -> Iterator[tuple[Image.Image, str]]:
    try:
        file = path.open("rb")
    except OSError as error:
        raise CannotRead(f"the file cannot be opened ({error.strerror})") from error
    with file:
        fingerprint = hashlib.file_digest(file, "sha256").hexdigest()
        file.seek(0)
        with open_original(file) as image:
            yield image, fingerprint
