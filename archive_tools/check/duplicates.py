"""Members called the same, and pictures kept twice."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import error, warning
from archive_tools.model.collection import Collection
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Where
from archive_tools.model.problems import Problem


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
