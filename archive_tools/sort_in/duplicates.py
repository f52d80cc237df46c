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


def same_pictures(pictures: Sequence[Picture], kept: Sequence[Kept], pixels: PixelsHash) -> Mapping[str, Same]:
    """By source path, the pictures that need not be taken in because another one is the same.

    Of equals in the folder the one with a camera's date stays, else the first by path. Pixels are hashed only where
    size and look leave it open that two pictures are the same.
    """
    found: dict[str, Same] = {}
    bytes_kept = {one.sha256: one.path for one in reversed(kept)}
    firsts: dict[str, str] = {}
    for picture in pictures:
        if picture.sha256 in bytes_kept:
            found[picture.file] = Same("bytes", bytes_kept[picture.sha256], True)
        elif picture.sha256 in firsts:
            found[picture.file] = Same("bytes", firsts[picture.sha256], False)
        else:
            firsts[picture.sha256] = picture.file
    by_size: dict[tuple[int, int], list[tuple[str, bool, int | None]]] = {}
    for one in kept:
        by_size.setdefault((one.width, one.height), []).append((one.path, True, one.look))
    left = (one for one in pictures if one.file not in found)
    for picture in sorted(left, key=lambda one: (one.taken is None, one.file)):
        alike = by_size.setdefault((picture.width, picture.height), [])
        for other, in_collection, look in alike:
            if (look is None) != (picture.look is None):
                continue
            if look is not None and picture.look is not None and (look ^ picture.look).bit_count() > _SAME_LOOK:
                continue
            own = pixels(picture.file, False)
            if own is not None and own == pixels(other, in_collection):
                found[picture.file] = Same("pixels", other, in_collection)
                break
        else:
            alike.append((picture.file, False, picture.look))
    return found


def near_pictures(pictures: Sequence[Picture], kept: Sequence[Kept]) -> Mapping[str, tuple[Near, ...]]:
    """By source path, what looks nearly like it: the collection's pictures, and those before it in the folder."""
    seen = [(one.file, one.look) for one in pictures if one.look is not None]
    own = [(one.path, one.look) for one in kept if one.look is not None]
    if not seen:
        return {}
    looks, others = _bytes(look for _, look in seen), _bytes(look for _, look in (*own, *seen))
    found: dict[str, list[Near]] = {}
    for row, (file, _) in enumerate(seen):
        before = len(own) + row
        apart = _BITS[others[:before] ^ looks[row]].sum(axis=1, dtype=np.uint16)
        for column in np.flatnonzero(apart <= NEAR):
            other = own[column][0] if column < len(own) else seen[column - len(own)][0]
            found.setdefault(file, []).append(Near(other, bool(column < len(own)), int(apart[column])))
    return {
        file: tuple(sorted(ones, key=lambda one: (one.bits, not one.in_collection, one.other)))
        for file, ones in found.items()
    }


_BITS = np.array([number.bit_count() for number in range(256)], dtype=np.uint8)


def _bytes(looks: Iterable[int]) -> Any:
    """Looks as rows of 32 bytes."""
    return np.frombuffer(b"".join(look.to_bytes(32, "big") for look in looks), dtype=np.uint8).reshape(-1, 32)
