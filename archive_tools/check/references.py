"""Sources, objects, places, trees and events that are named but not recorded."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from archive_tools.check.telling import (
    error,
    in_comparison,
    in_event,
    in_note,
    in_photo,
    in_value,
    left_out,
    likely_slip,
)
from archive_tools.check.walk import all_comparisons, all_events, all_notes, all_photos
from archive_tools.model.collection import Collection
from archive_tools.model.event import Citation, Event, EventRef, Timing
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem
from archive_tools.model.vocabulary import nearest


def unknown_sources(collection: Collection) -> Iterator[Problem]:
    """`source` of events, notes, photographs and stewards."""
    rule = "unknown-source"

    def faults(cited: tuple[Citation, ...]) -> Iterator[tuple[int, str, str]]:
        for index, citation in enumerate(cited):
            if citation.source not in collection.sources:
                near = nearest(citation.source, collection.sources)
                instead = near or f"a new file sources/{citation.source}.yml"
                yield index, f"there is no source “{citation.source}”", instead

    for owner, event in all_events(collection):
        for index, what, instead in faults(event.sources):
            yield in_event(owner, event, ("source", index), rule, what, instead)
    for tree, note in all_notes(collection):
        for index, what, instead in faults(note.sources):
            yield in_note(tree.accession, note, ("source", index), rule, what, instead)
    for tree, photo in all_photos(collection):
        for index, what, instead in faults(photo.sources):
            yield in_photo(tree.accession, photo, ("source", index), rule, what, instead)
    for steward in collection.stewards.values():
        record = ("steward", steward.id)
        for index, what, instead in faults(steward.sources):
            yield in_value(steward.where.at("source", index), record, f"sources/{index}", rule, what, instead)
        for number, taught in enumerate(steward.taught_by):
            for index, what, instead in faults(taught.sources):
                mark = steward.where.at("taught_by", number, "source", index)
                yield in_value(mark, record, f"taught_by/{number}", rule, what, instead)


def unknown_objects(collection: Collection) -> Iterator[Problem]:
    """`into` and `objects` of events."""
    for owner, event in all_events(collection):
        named = [(("into",), event.into)] if event.into else []
        for at, thing in [*named, *((("objects", i), thing) for i, thing in enumerate(event.objects))]:
            if thing not in collection.objects:
                instead = nearest(thing, collection.objects) or f"a new file objects/{thing}.yml"
                yield in_event(owner, event, at, "unknown-object", f"there is no object “{thing}”", instead)


def unknown_places(collection: Collection) -> Iterator[Problem]:
    """Where trees stand, where events were (plain text may stand there too), and the ends of paths."""
    rule = "unknown-place"
    for tree in collection.trees.values():
        if tree.place is not None and tree.place not in collection.places:
            instead = nearest(tree.place, collection.places) or "a place that places.yml lists"
            what = f"there is no place “{tree.place}”"
            yield in_value(tree.where.at("place"), ("tree", tree.accession), "place", rule, what, instead)
    for owner, event in all_events(collection):
        if event.at is not None and event.at not in collection.places:
            near = likely_slip(event.at, collection.places)
            if near is not None:
                yield in_event(owner, event, ("at",), rule, f"there is no place “{event.at}”", near)
    for index, path in enumerate(collection.paths):
        for end, place in enumerate(path.between):
            if place not in collection.places:
                instead = nearest(place, collection.places) or "a place listed above"
                subject = ("", "path", str(index))
                yield left_out(path.where, ("between", end), subject, rule, f"there is no place “{place}”", instead)


def unknown_trees(collection: Collection) -> Iterator[Problem]:
    """Accessions named by events, photographs and members; an event of a planting may name members by their ids.

    (Those that a note is about, or a photograph of no known tree, are told when they are given to their trees.)
    """
    rule = "unknown-tree"
    members = {a: [member.id for member in tree.members] for a, tree in collection.trees.items()}

    def fault(accession: str, own: list[str]) -> tuple[str, str | None] | None:
        if accession in collection.trees or accession in own:
            return None
        noun = "tree or member" if own else "tree"
        return f"there is no {noun} “{accession}”", nearest(accession, [*own, *collection.trees])

    for owner, event in all_events(collection):
        for index, other in enumerate(event.trees):
            if other.accession and (found := fault(other.accession, members.get(owner, []))):
                yield in_event(owner, event, ("trees", index), rule, *found)
        if event.from_tree and event.from_tree.accession and (found := fault(event.from_tree.accession, [])):
            yield in_event(owner, event, ("from_tree",), rule, *found)
    for tree, photo in all_photos(collection):
        for index, accession in enumerate(photo.of):
            if found := fault(accession, []):
                yield in_photo(tree.accession, photo, ("of", index), rule, *found)
    for tree in collection.trees.values():
        for member in tree.members:
            if member.accession and (found := fault(member.accession, [])):
                yield error(member.where.at("accession"), rule, *found)


def unknown_events(collection: Collection) -> Iterator[Problem]:
    """Events named by `timing`, `does`, `up_to`, `trees`, `from_tree` and notes. Photographs may be named too."""
    known = {a: [*(e.id for e in t.events), *(p.id for p in t.photos)] for a, t in collection.trees.items()}
    known.update({i: [event.id for event in thing.events] for i, thing in collection.objects.items()})
    rule = "unknown-event"

    def fault(home: str, reference: EventRef) -> tuple[str, str | None] | None:
        owner = reference.accession or home
        if owner not in known:
            # An unknown tree behind `trees` and `from_tree` is told by the rule above.
            return f"there is no tree {owner}", nearest(owner, collection.trees)
        if reference.event is None or reference.event in known[owner]:
            return None
        near = nearest(reference.event, known[owner])
        prefix = f"{reference.accession}#" if reference.accession else ""
        return f"{owner} has no event “{reference.event}”", f"{prefix}{near}" if near else None

    def timings(home: str, written: tuple[Timing, ...]) -> Iterator[tuple[Mark, str, str | None]]:
        for timing in written:
            if found := fault(home, timing.other):
                yield timing.where.at(timing.relation), *found

    for owner, event in all_events(collection):
        for at, reference in _references(event):
            if reference.accession in (None, *known) and (found := fault(owner, reference)):
                yield in_event(owner, event, at, rule, *found)
        for mark, what, instead in timings(owner, event.timing):
            yield _at(mark, in_event(owner, event, ("timing",), rule, what, instead))
        if event.rings and event.rings.up_to and (found := fault(owner, event.rings.up_to)):
            yield _at(event.rings.where.at("up_to"), in_event(owner, event, ("rings",), rule, *found))
    for tree, photo in all_photos(collection):
        for mark, what, instead in timings(tree.accession, photo.timing):
            yield _at(mark, in_photo(tree.accession, photo, ("timing",), rule, what, instead))
    for tree, note in all_notes(collection):
        homes = [a for a in (tree.accession, *note.trees) if a in known]
        if note.event and all(fault(home, EventRef(None, note.event)) for home in homes):
            near = nearest(note.event, known[tree.accession])
            what = f"there is no event “{note.event}” to attach this note to"
            yield in_note(tree.accession, note, ("event",), rule, what, near)


def _references(event: Event) -> Iterator[tuple[tuple[str | int, ...], EventRef]]:
    if event.does:
        yield ("does",), EventRef(None, event.does)
    for index, other in enumerate(event.trees):
        yield ("trees", index), other
    if event.from_tree:
        yield ("from_tree",), event.from_tree


def _at(mark: Mark, problem: Problem) -> Problem:
    return replace(problem, mark=mark)


def unknown_photographs(collection: Collection) -> Iterator[Problem]:
    """Portraits, and the two photographs of a comparison."""
    rule = "unknown-photo"
    for tree in collection.trees.values():
        files = [photo.file for photo in tree.photos]
        if tree.portrait is not None and tree.portrait not in files:
            what = f"{tree.accession} has no photograph “{tree.portrait}”"
            instead = nearest(tree.portrait, files)
            yield in_value(tree.where.at("portrait"), ("tree", tree.accession), "portrait", rule, what, instead)
    for tree, wanted in all_comparisons(collection):
        files = [photo.file for photo in tree.photos]
        for key, file in (("before", wanted.before), ("after", wanted.after)):
            if file not in files:
                what = f"{tree.accession} has no photograph “{file}”"
                yield in_comparison(tree.accession, wanted, (key,), rule, what, nearest(file, files))
