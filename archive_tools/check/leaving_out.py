"""Leaving out of a collection what problems concern, and with it whatever would hang in the air."""

from __future__ import annotations

import dataclasses
from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, TypeVar

from archive_tools.model.collection import Collection
from archive_tools.model.event import Event, EventRef, Note
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.places_in_files import Mark, Step, Where
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.tree import Tree

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

    R = TypeVar("R", bound=DataclassInstance)

Item = TypeVar("Item", Event, Photo, Note, ComparisonWanted)
V = TypeVar("V")

Place = tuple[str, tuple[Step, ...], str]
"""Where a thing is written: one that stands under several trees has the same place under each of them."""


@dataclass(slots=True)
class _Wanted:
    """What the problems ask to leave out: things by sort, as (owner, id), each with the spots of its problems.

    Values by (sort, id) of their record.
    """

    things: dict[str, dict[tuple[str, str], list[Mark]]] = field(default_factory=dict)
    values: dict[tuple[str, str], dict[str, set[int]]] = field(default_factory=dict)


def without(collection: Collection, problems: Iterable[Problem]) -> Collection:
    """The collection without the statements that errors of reach `statement` name in their `subject`.

    A subject is (owner, sort, id). Sorts are "event", "photo", "comparison" and "note" of a tree (an object's events
    too), each with all that depends on it: notes on an event, comparisons and portraits of a photograph, timings and
    references that would lead nowhere. `id#2` is the second of that id. A thing goes only if the problem lies in it,
    so that one of the same name elsewhere stays. "tour", "talk" and "page" go as a whole, "path" by its number.
    "tree value", "steward value", "source value", "object value", "photo value" (owner "accession/file") and
    "collection value" leave out one value of a record (`portrait`) or one item of it (`members/2`).
    """
    wanted = _wanted(problems)
    if not wanted.things and not wanted.values:
        return collection
    gone = {sort: _places(collection, sort, wanted.things[sort]) for sort in _ITEMS if sort in wanted.things}
    before = _ids(collection, {})
    after = _ids(collection, gone)
    # A note is never more visible than its event, so it cannot stay when that goes: it would become a free note.
    gone.setdefault("note", set()).update(
        _place(note)
        for tree in collection.trees.values()
        for note in tree.notes
        if note.event and (tree.accession, note.event) in before - after
    )
    lost = before - after
    paths, pages = wanted.things.get("path", {}), wanted.things.get("page", {})
    return replace(
        collection,
        settings=_valued(collection.settings, wanted, "collection", ""),
        trees={a: _tree(tree, gone, lost, wanted) for a, tree in collection.trees.items()},
        stewards={i: _valued(steward, wanted, "steward", i) for i, steward in collection.stewards.items()},
        sources={i: _valued(source, wanted, "source", i) for i, source in collection.sources.items()},
        objects={
            i: _valued(replace(thing, events=_events(thing.events, i, gone, lost)), wanted, "object", i)
            for i, thing in collection.objects.items()
        },
        tours=_unnamed(collection.tours, wanted.things.get("tour", {})),
        talks=_unnamed(collection.talks, wanted.things.get("talk", {})),
        paths=tuple(path for index, path in enumerate(collection.paths) if ("", str(index)) not in paths),
        pages=tuple(page for page in collection.pages if ("", page.path) not in pages),
    )


_ITEMS = ("event", "photo", "note", "comparison")


def _wanted(problems: Iterable[Problem]) -> _Wanted:
    wanted = _Wanted()
    for problem in problems:
        if problem.reach is not Reach.STATEMENT or problem.severity is not Severity.ERROR or problem.subject is None:
            continue
        owner, sort, name = problem.subject
        if sort.endswith(" value"):
            key, _, index = name.partition("/")
            values = wanted.values.setdefault((sort.removesuffix(" value"), owner), {})
            values.setdefault(key, set()).add(int(index) if index else _WHOLE)
        else:
            wanted.things.setdefault(sort, {}).setdefault((owner, name), []).append(problem.mark)
    return wanted


_WHOLE = -1


def _items(collection: Collection, sort: str) -> Iterator[tuple[str, Event | Photo | Note | ComparisonWanted]]:
    for tree in collection.trees.values():
        for item in getattr(tree, f"{sort}s"):
            yield tree.accession, item
    for thing in collection.objects.values() if sort == "event" else ():
        for event in thing.events:
            yield thing.id, event


def _called(item: Event | Photo | Note | ComparisonWanted) -> str:
    return item.file if isinstance(item, Photo) else item.id


def _place(item: Event | Photo | Note | ComparisonWanted) -> Place:
    return item.where.file, item.where.base, _called(item)


def _places(collection: Collection, sort: str, named: Mapping[tuple[str, str], list[Mark]]) -> set[Place]:
    found: set[Place] = set()
    count: dict[tuple[str, str], int] = {}
    for owner, item in _items(collection, sort):
        name = _called(item)
        nth = count[owner, name] = count.get((owner, name), 0) + 1
        # Things about several trees lie in folders of their own, and stand under each tree.
        for key in ((owner, name), (owner, f"{name}#{nth}"), ("notes", name), ("photos", name)):
            if any(_lies_in(item.where, mark) for mark in named.get(key, ())):
                found.add(_place(item))
    return found


def _lies_in(where: Where, mark: Mark) -> bool:
    if mark.file != where.file:
        return False
    paths = [path for path, spot in where.marks.items() if spot == (mark.line, mark.column)]
    return not paths or any(path[: len(where.base)] == where.base for path in paths)


def _ids(collection: Collection, gone: Mapping[str, set[Place]]) -> set[tuple[str, str]]:
    """(owner, id) of every event and photograph that stays."""
    return {
        (owner, item.id)
        for sort in ("event", "photo")
        for owner, item in _items(collection, sort)
        if _place(item) not in gone.get(sort, ())
    }


def _kept(items: tuple[Item, ...], gone: set[Place]) -> tuple[Item, ...]:
    return tuple(item for item in items if _place(item) not in gone)


def _tree(tree: Tree, gone: Mapping[str, set[Place]], lost: set[tuple[str, str]], wanted: _Wanted) -> Tree:
    photos = _kept(tree.photos, gone.get("photo", set()))
    files_lost = {photo.file for photo in tree.photos} - {photo.file for photo in photos}
    photos = tuple(_photo(photo, tree.accession, lost, wanted) for photo in photos)
    cut = replace(
        tree,
        events=_events(tree.events, tree.accession, gone, lost),
        photos=photos,
        notes=_kept(tree.notes, gone.get("note", set())),
        comparisons=tuple(
            one
            for one in _kept(tree.comparisons, gone.get("comparison", set()))
            if one.before not in files_lost and one.after not in files_lost
        ),
        portrait=None if tree.portrait in files_lost else tree.portrait,
    )
    return _valued(cut, wanted, "tree", tree.accession)


def _photo(photo: Photo, accession: str, lost: set[tuple[str, str]], wanted: _Wanted) -> Photo:
    cut = _valued(photo, wanted, "photo", f"{accession}/{photo.file}")
    names = dict(cut.marks)
    measurable = cut.scale is not None and cut.scale.from_mark in names and cut.scale.to_mark in names
    return replace(
        cut,
        scale=cut.scale if measurable else None,
        timing=tuple(one for one in photo.timing if not _leads_nowhere(one.other, accession, lost)),
    )


def _events(
    events: tuple[Event, ...], owner: str, gone: Mapping[str, set[Place]], lost: set[tuple[str, str]]
) -> tuple[Event, ...]:
    return tuple(_mended(event, owner, lost) for event in _kept(events, gone.get("event", set())))


def _mended(event: Event, owner: str, lost: set[tuple[str, str]]) -> Event:
    """The event without references to what is no longer there; a tree named with a lost event stays named."""
    if not lost:
        return event
    up_to = event.rings.up_to if event.rings else None
    mother = event.from_tree
    return replace(
        event,
        does=None if event.does and (owner, event.does) in lost else event.does,
        timing=tuple(one for one in event.timing if not _leads_nowhere(one.other, owner, lost)),
        # Rings dated by an event that is gone bound nothing.
        rings=None if up_to and _leads_nowhere(up_to, owner, lost) else event.rings,
        from_tree=EventRef(mother.accession, None) if mother and _leads_nowhere(mother, owner, lost) else mother,
        trees=tuple(
            EventRef(other.accession, None) if _leads_nowhere(other, owner, lost) else other for other in event.trees
        ),
    )


def _leads_nowhere(reference: EventRef, home: str, lost: set[tuple[str, str]]) -> bool:
    return reference.event is not None and (reference.accession or home, reference.event) in lost


def _unnamed(things: Mapping[str, V], gone: Container[tuple[str, str]]) -> Mapping[str, V]:
    return {name: thing for name, thing in things.items() if (name, name) not in gone}


def _valued(record: R, wanted: _Wanted, sort: str, name: str) -> R:
    """The record with the values left out that are wanted gone: back to what they are when nothing is written."""
    values = wanted.values.get((sort, name))
    if not values:
        return record
    changes: dict[str, Any] = {}
    for one in dataclasses.fields(record):
        if one.name not in values or (_WHOLE in values[one.name] and one.default is dataclasses.MISSING):
            continue
        items = values[one.name]
        if _WHOLE in items:
            changes[one.name] = one.default
        else:
            changes[one.name] = tuple(v for i, v in enumerate(getattr(record, one.name)) if i not in items)
    return replace(record, **changes)
