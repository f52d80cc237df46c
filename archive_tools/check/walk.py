"""Walks through a collection that several rules share."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.model.collection import Collection
from archive_tools.model.event import Event, Note
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.tree import Tree


def all_events(collection: Collection) -> Iterator[tuple[str, Event]]:
    """Every event with its accession, then those of objects with the object's id."""
    for tree in collection.trees.values():
        for event in tree.events:
            yield tree.accession, event
    for thing in collection.objects.values():
        for event in thing.events:
            yield thing.id, event


def all_notes(collection: Collection) -> Iterator[tuple[Tree, Note]]:
    """Every note with its tree; one about several trees comes once for each."""
    for tree in collection.trees.values():
        for note in tree.notes:
            yield tree, note


def all_photos(collection: Collection) -> Iterator[tuple[Tree, Photo]]:
    """Every photograph with its tree; one of several trees comes once for each."""
    for tree in collection.trees.values():
        for photo in tree.photos:
            yield tree, photo


def all_comparisons(collection: Collection) -> Iterator[tuple[Tree, ComparisonWanted]]:
    """Every comparison with its tree."""
    for tree in collection.trees.values():
        for wanted in tree.comparisons:
            yield tree, wanted
