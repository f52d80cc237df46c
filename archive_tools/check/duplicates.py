"""Members called the same, pictures kept twice, and pictures that look the same."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import error, warning
from archive_tools.check.walk import all_photos
from archive_tools.model.collection import Collection
from archive_tools.model.dates import Span
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Where
from archive_tools.model.problems import Problem
from archive_tools.model.stamps import meet

_BITS, _PIECES = 256, 16
_SAME_DAY, _ANY_DAY = 12, 6
"""In how many of 256 bits the looks of two pictures may differ: of the same time, and of any. Copies at other sizes and
qualities differ in 6 at most; two pictures of one tree from one spot in 16 and more (measured on drawn trees)."""


def members_called_the_same(collection: Collection) -> Iterator[Problem]:
    """Two members of one planting with the same id. (Events, notes and pictures are told apart when they are read.)"""
    for tree in collection.trees.values():
        first: dict[str, Where] = {}
        for member in tree.members:
            known = first.setdefault(member.id, member.where)
            if known is not member.where:
                what = f"two members are called “{member.id}”; the first is in {known.at('id')}"
                yield error(member.where.at("id"), "duplicate-id", what, "another id for one of them")


def pictures_kept_twice(collection: Collection) -> Iterator[Problem]:
    """Originals that are the same to the last byte."""
    first: dict[str, Photo] = {}
    for tree in collection.trees.values():
        for photo in tree.photos:
            if not photo.fingerprint:
                continue
            known = first.setdefault(photo.fingerprint, photo)
            if known.path != photo.path:
                what = f"{photo.path} is the same picture as {known.path}, to the last byte"
                instead = "one of them, with `of` naming every tree that it shows"
                yield warning(photo.where.at("file"), "same-picture", what, instead)


def pictures_that_look_the_same(collection: Collection) -> Iterator[Problem]:
    """Two files of one photograph: another scan, print or size, each told once.

    Where they are dated differently, one of the dates is wrong. An entry that names the other settles it.
    """
    photos = {photo.path: photo for _, photo in all_photos(collection) if len(photo.look) == _BITS // 4}
    told: set[str] = set()
    for first, second, apart in _near(list(photos.values())):
        dated_alike = meet(_days(first), _days(second))
        if apart > (_SAME_DAY if dated_alike else _ANY_DAY) or second.path in told:
            continue
        if first.fingerprint == second.fingerprint or _names(first, second) or _names(second, first):
            continue
        told.add(second.path)
        if dated_alike:
            what = f"{second.path} looks the same as {first.path}: the same photograph in another size, scan or print"
            rule = "looks-the-same"
        else:
            what = f"{second.path} ({_when(second)}) looks the same as {first.path} ({_when(first)}): one date is wrong"
            rule = "looks-the-same-dated-otherwise"
        instead = f"one of them, or `why: the same photograph as {first.id}` where both belong"
        yield warning(second.where.at("file"), rule, what, instead)


def _near(photos: list[Photo]) -> Iterator[tuple[Photo, Photo, int]]:
    """Pairs whose looks may be near, in order of their paths, with the number of bits in which they differ.

    Two looks that differ in fewer bits than there are pieces share a piece unchanged: only such pairs are compared.
    """
    ordered = sorted(photos, key=lambda photo: photo.path)
    looks = [int(photo.look, 16) for photo in ordered]
    size = _BITS // _PIECES
    pairs: set[tuple[int, int]] = set()
    for piece in range(_PIECES):
        alike: dict[int, list[int]] = {}
        for place, look in enumerate(looks):
            alike.setdefault((look >> piece * size) & ((1 << size) - 1), []).append(place)
        for places in alike.values():
            pairs.update((one, other) for index, one in enumerate(places) for other in places[index + 1 :])
    for one, other in sorted(pairs):
        apart = (looks[one] ^ looks[other]).bit_count()
        if apart < _PIECES:
            yield ordered[one], ordered[other], apart


def _names(photo: Photo, other: Photo) -> bool:
    """Whether the entry of one speaks of the other by its name."""
    return any(other.id in text for words in (photo.why, photo.caption) if words for text in words.all_texts)


def _days(photo: Photo) -> Span:
    return Span(photo.when.earliest, photo.when.latest) if photo.when else Span(None, None)


def _when(photo: Photo) -> str:
    return photo.when.text if photo.when else "no date"
