"""Which pictures are the same as others: byte for byte, pixel for pixel, or nearly, by how they look."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from archive_tools.sort_in.facts import Kept, Picture

NEAR = 12
"""Bits of 256 in which the looks of two pictures may differ that are called near: copies at other sizes and qualities
differ in at most 6, trimmed ones in 12 as a rule, different pictures in 16 and more (as `read.look` found)."""
_SAME_LOOK = 6
"""Bits in which the looks of two pictures with the same pixels may differ: few, by rounding on the way."""


@dataclass(frozen=True, slots=True)
class Same:
    """A picture that another already is. kind: "bytes" or "pixels". other: its path; in_collection: where it lies."""

    kind: str
    other: str
    in_collection: bool


@dataclass(frozen=True, slots=True)
class Near:
    """A picture that looks nearly like another; `bits` of 256 in which they differ, 0 to NEAR."""

    other: str
    in_collection: bool
    bits: int


PixelsHash = Callable[[str, bool], str | None]
"""The hash of a picture's upright pixels, by its path and whether it is the collection's; None if it cannot be read."""


def compared(
    pictures: Iterable[Picture], kept: Sequence[Kept], pixels: PixelsHash
) -> tuple[Mapping[str, Same], Mapping[str, tuple[Near, ...]]]:
    """By source path: the pictures that need not be taken in because another is the same, and what looks nearly alike.

    Of equals in the folder the one with a camera's date stays, else the first by path. Pixels are hashed only where
    size and look leave it open that two pictures are the same.
    """
    ordered = sorted(pictures, key=lambda one: (one.taken is None, one.file))
    same = _same_bytes(ordered, kept)
    different = [one for one in ordered if one.file not in same]
    near = _near(different, kept)
    sizes = {(one.path, True): (one.width, one.height) for one in kept}
    sizes |= {(one.file, False): (one.width, one.height) for one in different}
    blank = [(one.path, True) for one in kept if one.look is None]
    for picture in different:
        alike = [(n.other, n.in_collection) for n in near.get(picture.file, ()) if n.bits <= _SAME_LOOK]
        for other in alike if picture.look is not None else blank:
            if sizes[other] != (picture.width, picture.height) or (other[0] in same and not other[1]):
                continue
            own = pixels(picture.file, False)
            if own is not None and own == pixels(*other):
                same[picture.file] = Same("pixels", *other)
                break
        else:
            if picture.look is None:
                blank.append((picture.file, False))
    return same, {file: ones for file, ones in near.items() if file not in same}


def _same_bytes(ordered: Iterable[Picture], kept: Iterable[Kept]) -> dict[str, Same]:
    found: dict[str, Same] = {}
    first: dict[str, tuple[str, bool]] = {}
    for one in kept:
        first.setdefault(one.sha256, (one.path, True))
    for picture in ordered:
        if picture.sha256 in first:
            found[picture.file] = Same("bytes", *first[picture.sha256])
        else:
            first[picture.sha256] = (picture.file, False)
    return found


def _near(pictures: Sequence[Picture], kept: Sequence[Kept]) -> dict[str, tuple[Near, ...]]:
    """What looks nearly like each picture: of the collection's own, and of those that stand before it."""
    seen = [(one.file, one.look) for one in pictures if one.look is not None]
    own = [(one.path, one.look) for one in kept if one.look is not None]
    looks = _words(look for _, look in (*own, *seen))
    found: dict[str, tuple[Near, ...]] = {}
    for row, (file, _) in enumerate(seen):
        before = len(own) + row
        apart = _bits(looks[:before] ^ looks[before])
        near = [
            Near((own[at] if at < len(own) else seen[at - len(own)])[0], bool(at < len(own)), int(apart[at]))
            for at in np.flatnonzero(apart <= NEAR)
        ]
        if near:
            found[file] = tuple(sorted(near, key=lambda one: (one.bits, not one.in_collection, one.other)))
    return found


def _words(looks: Iterable[int]) -> Any:
    """Looks as rows of four 64-bit words."""
    data = b"".join(look.to_bytes(32, "big") for look in looks)
    return np.frombuffer(data, dtype=np.uint64).reshape(-1, 4)


_BITS = np.array([number.bit_count() for number in range(256)], dtype=np.uint8)


def _bits(words: Any) -> Any:
    """How many bits are set in each row of words."""
    if hasattr(np, "bitwise_count"):
        return np.bitwise_count(words).sum(axis=1, dtype=np.uint16)
    return _BITS[words.view(np.uint8)].sum(axis=1, dtype=np.uint16)
