"""Which cuts a photograph has, how large they are and what they are called: all known before anything is encoded.

A cut fits a square of 480, 960 or 1920 pixels and is never larger than its original. Its name is made from the
original's fingerprint, the recipe and the size, so that a page can point at it, and a later run can find it, without
looking into a file; and a name tells nothing about what is in the picture.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from itertools import pairwise

import PIL
from PIL import features

from archive_tools.illustrate.shrinking import FILTER
from archive_tools.model.pictures import Cut, CutPicture

LIMITS = (480, 960, 1920)
"""Longest sides, in pixels, smallest first."""
QUALITY = 82
ENCODED: dict[str, str | int | bool] = {
    "quality": QUALITY,
    "optimize": True,
    "progressive": True,
    "subsampling": "4:2:0",
}
"""How every cut is encoded as a JPEG, in Pillow's words."""
RECIPE = "; ".join(
    ["4", *(f"{word} {value}" for word, value in ENCODED.items()), FILTER.name, f"Pillow {PIL.__version__}"]
    + [f"{part} {features.version(part)}" for part in ("libjpeg_turbo", "littlecms2", "webp", "avif", "libtiff")]
)
"""Our own recipe, its settings, and the libraries that carry it out: another of them may make other pixels of the same
original, and every name then changes with it, so that a cut is never taken for one that was made differently. Its
number changes with what is not a setting."""
FOLDER = "pictures"
"""Where cuts stand in the site, and in the cache."""


@dataclass(frozen=True, slots=True)
class Size:
    """Width and height in pixels; `halved` when it is made by halving the next larger one."""

    width: int
    height: int
    halved: bool = False

    @property
    def pair(self) -> tuple[int, int]:
        """(width, height), as Pillow takes it."""
        return self.width, self.height


def sizes_of(width: int, height: int) -> tuple[Size, ...]:
    """The sizes of the cuts of an upright picture of `width` x `height` pixels, smallest first.

    Raises ValueError for a picture without pixels.
    """
    if width < 1 or height < 1:
        raise ValueError(f"a picture of {width} x {height} pixels")
    longest = max(width, height)
    sides = [side for side in LIMITS[:-1] if side < longest] + [min(longest, LIMITS[-1])]
    sizes = [_within(width, height, sides[-1])]
    for larger, side in pairwise(reversed(sides)):
        if side * 2 == larger:
            sizes.append(Size((sizes[-1].width + 1) // 2, (sizes[-1].height + 1) // 2, halved=True))
        else:
            sizes.append(_within(width, height, side))
    return tuple(reversed(sizes))


def name_of(size: Size, *made_from: str) -> str:
    """The file name of a cut: a hash of what it is made from, the recipe and its size."""
    told = "\n".join((*made_from, f"recipe {RECIPE}", f"{size.width} x {size.height}"))
    return hashlib.sha256(told.encode()).hexdigest()[:32] + ".jpg"


def picture_of(sizes: tuple[Size, ...], *made_from: str) -> CutPicture:
    """The cuts of these sizes with their addresses in the site."""
    return CutPicture(tuple(Cut(f"{FOLDER}/{name_of(size, *made_from)}", size.width, size.height) for size in sizes))


def _within(width: int, height: int, side: int) -> Size:
    longest = max(width, height)
    return Size(max(1, round(width * side / longest)), max(1, round(height * side / longest)))
