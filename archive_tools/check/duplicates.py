"""Ids given twice, and pictures kept twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from archive_tools.check.telling import error, left_out, warning
from archive_tools.model.collection import Collection
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Where
from archive_tools.model.problems import Problem


def ids_given_twice(collection: Collection) -> Iterator[Problem]:
    """Events, comparisons, photographs and members of one tree (events of one object) that share an id.

    The first keeps the id; the later one is left out, as `id#2`.
    """
    for tree in collection.trees.values():
        owner = tree.accession
        yield from _twice(owner, "event", ((event.id, event.where) for event in tree.events))
        yield from _twice(owner, "comparison", ((wanted.id, wanted.where) for wanted in tree.comparisons))
        yield from _twice(owner, "photo", ((photo.file, photo.where) for photo in tree.photos))
        first: dict[str, Where] = {}
        for member in tree.members:
            if member.id in first:
                what = f"two members are called “{member.id}”; the first is at {first[member.id].at('id')}"
                yield error(member.where.at("id"), "same-id", what, "another id for one of them")
            first.setdefault(member.id, member.where)
    for thing in collection.objects.values():
        yield from _twice(thing.id, "event", ((event.id, event.where) for event in thing.events))


def _twice(owner: str, sort: str, named: Iterable[tuple[str, Where]]) -> Iterator[Problem]:
    seen: dict[str, tuple[Where, int]] = {}
    key = "file" if sort == "photo" else "id"
    noun = {"event": "events", "comparison": "comparisons", "photo": "entries"}[sort]
    for name, where in named:
        if name not in seen:
            seen[name] = (where, 1)
            continue
        first, count = seen[name][0], seen[name][1] + 1
        seen[name] = (first, count)
        what = f"two {noun} of {owner} are called “{name}”; the first is at {first.at(key)}"
        instead = "one entry for each file" if sort == "photo" else "another id for one of them"
        yield left_out(where, (key,), (owner, sort, f"{name}#{count}"), "same-id", what, instead)


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
