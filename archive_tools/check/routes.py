"""What tours and talks lead to: their trees, places, objects and pictures."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import left_out
from archive_tools.model.collection import Collection
from archive_tools.model.grounds import Stop, Talk, Tour
from archive_tools.model.problems import Problem
from archive_tools.model.tree import Tree
from archive_tools.model.vocabulary import nearest

Fault = tuple[tuple[str | int, ...], str, str, str | None]


def unknown_in_tours(collection: Collection) -> Iterator[Problem]:
    """Trees, places and objects of tours; a tour with one that is not recorded is left out."""
    for tour in collection.tours.values():
        subject = (tour.id, "tour", tour.id)
        for at, rule, what, instead in _tour_faults(collection, tour):
            yield left_out(tour.where, at, subject, rule, what, instead)
        for stop in tour.stops:
            for at, rule, what, instead in _stop_faults(collection, stop):
                yield left_out(stop.where, at, subject, rule, what, instead)


def unknown_in_talks(collection: Collection) -> Iterator[Problem]:
    """Trees and pictures of talks; a talk with one that is not recorded is left out."""
    for talk in collection.talks.values():
        yield from _talk_faults(collection, talk)


def _tour_faults(collection: Collection, tour: Tour) -> Iterator[Fault]:
    for index, accession in enumerate(tour.must):
        if accession not in collection.trees:
            yield ("must", index), *_no_tree(collection, accession)
    for key, place in (("start", tour.start), ("end", tour.end)):
        if place is not None and place not in collection.places:
            yield (key,), *_no_place(collection, place)


def _stop_faults(collection: Collection, stop: Stop) -> Iterator[Fault]:
    if stop.tree is not None and stop.tree not in collection.trees:
        yield ("tree",), *_no_tree(collection, stop.tree)
    if stop.place is not None and stop.place not in collection.places:
        yield ("place",), *_no_place(collection, stop.place)
    if stop.object is not None and stop.object not in collection.objects:
        near = nearest(stop.object, collection.objects)
        yield ("object",), "unknown-object", f"there is no object “{stop.object}”", near


def _talk_faults(collection: Collection, talk: Talk) -> Iterator[Problem]:
    subject = (talk.id, "talk", talk.id)
    for section in talk.sections:
        for index, accession in enumerate(section.trees):
            if accession not in collection.trees:
                yield left_out(section.where, ("trees", index), subject, *_no_tree(collection, accession))
        for index, shown in enumerate(section.show):
            if fault := _show_fault(collection, shown):
                yield left_out(section.where, ("show", index), subject, *fault)


def _show_fault(collection: Collection, shown: str) -> tuple[str, str, str | None] | None:
    sign = "#" if "#" in shown else "/"
    accession, found, named = shown.partition(sign)
    tree = collection.trees.get(accession)
    if not found or not named:
        return "bad-reference", f"“{shown}” shows nothing", "accession/photograph or accession#comparison"
    if tree is None:
        return _no_tree(collection, accession)
    known = _comparisons(tree) if sign == "#" else _photographs(tree)
    if named in known:
        return None
    sort = "comparison" if sign == "#" else "photograph"
    near = nearest(named, known)
    what = f"{accession} has no {sort} “{named}”"
    return f"unknown-{'comparison' if sign == '#' else 'photo'}", what, f"{accession}{sign}{near}" if near else None


def _comparisons(tree: Tree) -> list[str]:
    return [wanted.id for wanted in tree.comparisons]


def _photographs(tree: Tree) -> list[str]:
    return [*(photo.file for photo in tree.photos), *(photo.id for photo in tree.photos)]


def _no_tree(collection: Collection, accession: str) -> tuple[str, str, str | None]:
    return "unknown-tree", f"there is no tree {accession}", nearest(accession, collection.trees)


def _no_place(collection: Collection, place: str) -> tuple[str, str, str | None]:
    return "unknown-place", f"there is no place “{place}”", nearest(place, collection.places)
