"""Cutting a collection down to one edition.

The cut is made before any reasoning: chronology, proofs and custody are solved from what is left, so that no conclusion
gives away what was cut.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from archive_tools.editions.masking import N_, Masks, may_show, shown_stewards
from archive_tools.model.collection import Collection, Selected
from archive_tools.model.event import Event, EventRef, Note
from archive_tools.model.grades import Edition, Visibility
from archive_tools.model.grounds import Talk, Tour
from archive_tools.model.people import CollectionObject, Source
from archive_tools.model.photo import Photo
from archive_tools.model.tree import Member, OriginLocality, Tree
from archive_tools.model.view import LeftOut


def select(collection: Collection, edition: Edition) -> tuple[Selected, tuple[LeftOut, ...]]:
    """What `edition` may show of a collection whose effective visibility is set, and what was left out of it."""
    masks = Masks(collection, edition)
    shown = _Shown(collection, edition)
    trees = {a: _tree(tree, masks, shown) for a, tree in collection.trees.items() if a in shown.trees}
    objects = {
        i: _object(thing, masks, shown) for i, thing in collection.objects.items() if masks.is_object_shown(thing)
    }
    sources = {
        i: replace(
            source, made_by=masks.all_stewards(source.made_by), file=None if edition is Edition.PUBLIC else source.file
        )
        for i, source in collection.sources.items()
        if may_show(source.effective, edition)
    }
    tours = {i: _tour(tour, masks, shown) for i, tour in collection.tours.items() if may_show(tour.effective, edition)}
    talks = {i: _talk(talk, masks, shown) for i, talk in collection.talks.items() if may_show(talk.effective, edition)}
    places = {i: place for i, place in collection.places.items() if may_show(place.effective, edition)}
    masked_sources: dict[str, Source] = {source.id: source for source in masks.sources.values()}
    selected = replace(
        collection,
        trees=trees,
        stewards=shown_stewards(masks),
        sources={**sources, **masked_sources},
        objects={**objects, **{thing.id: thing for thing in masks.objects.values()}},
        places=places,
        paths=tuple(path for path in collection.paths if all(end in places for end in path.between)),
        tours=tours,
        talks=talks,
        pages=tuple(page for page in collection.pages if may_show(page.visibility, edition)),
    )
    return Selected(selected), _left_out(collection, edition, masks)


class _Shown:
    """Which trees and events the edition holds: references to others are dropped."""

    def __init__(self, collection: Collection, edition: Edition) -> None:
        self.edition = edition
        self.trees = {a for a, tree in collection.trees.items() if may_show(tree.effective, edition)}
        self.events = {
            (a, event.id)
            for a, tree in collection.trees.items()
            for event in tree.events
            if may_show(event.effective, edition)
        }
        self.photos = {
            (a, photo.file)
            for a, tree in collection.trees.items()
            for photo in tree.photos
            if may_show(photo.effective, edition)
        }

    def holds(self, reference: EventRef, home: str) -> bool:
        """Whether the event (or tree) referred to is in the edition."""
        accession = reference.accession or home
        if reference.event is None:
            return accession in self.trees
        return accession in self.trees and (
            (accession, reference.event) in self.events
            or any(key == accession and file.rsplit(".", 1)[0] == reference.event for key, file in self.photos)
        )


def _tree(tree: Tree, masks: Masks, shown: _Shown) -> Tree:
    public = shown.edition is Edition.PUBLIC
    members = frozenset(member.id for member in tree.members)
    events = tuple(
        _event(event, masks, shown, members) for event in tree.events if may_show(event.effective, shown.edition)
    )
    photos = tuple(
        _photo(photo, tree.accession, masks, shown) for photo in tree.photos if may_show(photo.effective, shown.edition)
    )
    files = {photo.file for photo in photos}
    place_told = may_show(tree.place_visibility or Visibility.INTERNAL, shown.edition)
    return replace(
        tree,
        events=events,
        photos=photos,
        notes=tuple(
            _note(note, tree.accession, masks, shown) for note in tree.notes if may_show(note.effective, shown.edition)
        ),
        comparisons=tuple(
            wanted
            for wanted in tree.comparisons
            if may_show(wanted.effective, shown.edition) and wanted.before in files and wanted.after in files
        ),
        portrait=tree.portrait if tree.portrait in files else None,
        place=masks.place(tree.place) if place_told else None,
        members=tuple(_member(member, shown) for member in tree.members),
        other_numbers=tuple(
            replace(number, given_by=masks.steward(number.given_by) if number.given_by else None)
            for number in tree.other_numbers
        ),
        kin=tuple(replace(kin, holder=masks.steward(kin.holder) if kin.holder else None) for kin in tree.kin),
        origin_locality=_locality(tree.origin_locality, public=public),
        # Neither can say that it is public, so neither is.
        due=() if public else tree.due,
        not_shown=() if public else tree.not_shown,
    )


def _locality(locality: OriginLocality | None, *, public: bool) -> OriginLocality | None:
    if locality is None or not public:
        return locality
    if locality.public_text is None:
        return None
    return OriginLocality(None, locality.public_text, None, None, locality.sensitivity)


def _member(member: Member, shown: _Shown) -> Member:
    return member if member.accession is None or member.accession in shown.trees else replace(member, accession=None)


def _event(event: Event, masks: Masks, shown: _Shown, members: frozenset[str] = frozenset()) -> Event:
    mother = event.from_tree if event.from_tree and shown.holds(event.from_tree, event.tree) else None
    up_to = event.rings.up_to if event.rings else None
    rings = event.rings
    if rings and up_to and not shown.holds(up_to, event.tree):
        # Rings dated by a hidden event bound nothing that may be told.
        rings = None
    return replace(
        event,
        by=masks.all_stewards(event.by),
        from_=masks.all_stewards(event.from_),
        to=masks.all_stewards(event.to),
        with_=masks.all_stewards(event.with_),
        awarded_by=masks.steward(event.awarded_by) if event.awarded_by else None,
        # A planting's own members are named by their ids; which of them has a record of its own is not told by it.
        trees=tuple(
            r for r in event.trees if shown.holds(r, event.tree) or (r.event is None and r.accession in members)
        ),
        from_tree=mother,
        at=masks.place(event.at),
        into=masks.object(event.into),
        objects=tuple(thing for thing in map(masks.object, event.objects) if thing),
        sources=tuple(map(masks.source, event.sources)),
        timing=tuple(timing for timing in event.timing if shown.holds(timing.other, event.tree)),
        does=event.does if event.does and (event.tree, event.does) in shown.events else None,
        rings=rings,
    )


def _note(note: Note, home: str, masks: Masks, shown: _Shown) -> Note:
    return replace(
        note,
        by=masks.all_stewards(note.by),
        sources=tuple(map(masks.source, note.sources)),
        trees=tuple(accession for accession in note.trees if accession in shown.trees),
        event=note.event if note.event and (home, note.event) in shown.events else None,
    )


def _photo(photo: Photo, home: str, masks: Masks, shown: _Shown) -> Photo:
    public = shown.edition is Edition.PUBLIC
    known = masks.collection.stewards
    people = masks.named_only(photo.people)
    return replace(
        photo,
        of=tuple(accession for accession in photo.of if accession in shown.trees),
        photographer=masks.steward(photo.photographer) if photo.photographer else None,
        rights_holder=masks.steward(photo.rights_holder) if photo.rights_holder else None,
        held_by=masks.steward(photo.held_by) if photo.held_by else None,
        # Only stewards whom the edition names are named in its pictures; other people's names stay in the house.
        people=tuple(person for person in people if person in known) if public else people,
        permission=None if public else photo.permission,
        sources=tuple(map(masks.source, photo.sources)),
        timing=tuple(timing for timing in photo.timing if shown.holds(timing.other, home)),
    )


def _object(thing: CollectionObject, masks: Masks, shown: _Shown) -> CollectionObject:
    events = tuple(_event(event, masks, shown) for event in thing.events if may_show(event.effective, shown.edition))
    return replace(
        thing,
        events=events,
        maker=masks.steward(thing.maker) if thing.maker else None,
        owner=masks.steward(thing.owner) if thing.owner else None,
    )


def _tour(tour: Tour, masks: Masks, shown: _Shown) -> Tour:
    stops = tuple(
        stop
        for stop in tour.stops
        if (stop.tree is None or stop.tree in shown.trees) and (stop.place is None or masks.place(stop.place))
    )
    return replace(
        tour,
        must=tuple(accession for accession in tour.must if accession in shown.trees),
        stops=stops,
        start=masks.place(tour.start),
        end=masks.place(tour.end),
    )


def _talk(talk: Talk, masks: Masks, shown: _Shown) -> Talk:
    sections = tuple(
        replace(
            section,
            trees=tuple(accession for accession in section.trees if accession in shown.trees),
            show=tuple(thing for thing in section.show if thing.replace("#", "/").split("/")[0] in shown.trees),
        )
        for section in talk.sections
    )
    return replace(talk, sections=sections, speaker=masks.steward(talk.speaker) if talk.speaker else None)


def _left_out(collection: Collection, edition: Edition, masks: Masks) -> tuple[LeftOut, ...]:
    trees = collection.trees.values()
    sorts: list[tuple[str, Iterable[Visibility]]] = [
        (N_("trees"), (tree.effective for tree in trees)),
        (N_("events"), (event.effective for tree in trees for event in tree.events)),
        (N_("notes"), (note.effective for tree in trees for note in tree.notes)),
        (N_("photographs"), (photo.effective for tree in trees for photo in tree.photos)),
        (N_("sources"), (source.effective for source in collection.sources.values())),
    ]
    told = []
    for what, visibilities in sorts:
        hidden = sum(1 for visibility in visibilities if not may_show(visibility, edition))
        if hidden:
            why = N_("not public") if edition is Edition.PUBLIC else N_("restricted")
            told.append(LeftOut(what, why, hidden))
    if masks.stewards:
        told.append(LeftOut(N_("stewards"), N_("named otherwise or not at all"), len(masks.stewards)))
    return tuple(told)
