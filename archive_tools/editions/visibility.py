"""Who may see each thing: what is written, else the collection's default, never more than the thing it belongs to.

Everything here fails closed: what does not say public is not public, and where two rules meet the closer one wins.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from archive_tools.model.collection import Collection, Settings
from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Event, Note
from archive_tools.model.grades import Visibility
from archive_tools.model.kinds import KINDS
from archive_tools.model.people import CollectionObject, Source
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.tree import Tree


def closest(*visibilities: Visibility) -> Visibility:
    """The least visible of several."""
    return max(visibilities, key=lambda visibility: visibility.closeness)


def with_effective_visibility(collection: Collection, as_of: date) -> Collection:
    """The same collection with `effective` set on every thing, as it holds on the day `as_of`."""
    rules = _Rules(collection.settings, as_of)
    sources = {
        i: replace(s, effective=rules.own("sources", s.visibility, s.public_from))
        for i, s in collection.sources.items()
    }
    trees = {a: _tree_alone(tree, rules) for a, tree in collection.trees.items()}
    trees = {a: _tree_whole(tree, trees, sources, rules) for a, tree in trees.items()}
    return replace(
        collection,
        trees=trees,
        sources=sources,
        stewards={
            i: replace(s, effective=rules.own("stewards", s.visibility, s.public_from))
            for i, s in collection.stewards.items()
        },
        objects={i: _object(thing, sources, rules) for i, thing in collection.objects.items()},
        places={i: replace(p, effective=rules.own("places", p.visibility, None)) for i, p in collection.places.items()},
        tours={
            i: replace(t, effective=rules.own("tours", t.visibility, t.public_from))
            for i, t in collection.tours.items()
        },
        talks={
            i: replace(t, effective=rules.own("talks", t.visibility, t.public_from))
            for i, t in collection.talks.items()
        },
    )


class _Rules:
    """The collection's defaults and the day for which embargoes are worked out."""

    def __init__(self, settings: Settings, as_of: date) -> None:
        self.defaults = settings.defaults
        self.as_of = as_of

    def own(self, sort: str, written: Visibility | None, public_from: WhenWritten | None) -> Visibility:
        """What a thing's own words and the default for its sort say, an embargo included."""
        visibility = written or self.defaults.get(sort, Visibility.INTERNAL)
        return closest(visibility, Visibility.INTERNAL) if self._embargoed(public_from) else visibility

    def _embargoed(self, public_from: WhenWritten | None) -> bool:
        # A vague embargo lasts to its latest possible day; one without a latest day never ends.
        return public_from is not None and (public_from.latest is None or self.as_of < public_from.latest)


def _tree_alone(tree: Tree, rules: _Rules) -> Tree:
    return replace(tree, effective=rules.own("trees", tree.visibility, tree.public_from))


def _tree_whole(tree: Tree, trees: dict[str, Tree], sources: dict[str, Source], rules: _Rules) -> Tree:
    events = tuple(_event(event, tree.effective, sources, rules) for event in tree.events)
    by_id = {event.id: event for event in events}
    photos = tuple(_photo(photo, tree, trees, rules) for photo in tree.photos)
    by_file = {photo.file: photo for photo in photos}
    return replace(
        tree,
        events=events,
        photos=photos,
        notes=tuple(_note(note, tree, by_id, trees, rules) for note in tree.notes),
        comparisons=tuple(_comparison(wanted, tree, by_file, rules) for wanted in tree.comparisons),
    )


def _event(event: Event, parent: Visibility, sources: dict[str, Source], rules: _Rules) -> Event:
    kind = KINDS[event.kind]
    own = rules.own("events", event.visibility, event.public_from)
    if event.visibility is None:
        if kind.restricted_unless_said:
            own = Visibility.RESTRICTED
        elif _rests_on_restricted_alone(event, sources):
            own = closest(own, Visibility.INTERNAL)
    return replace(event, effective=closest(own, parent))


def _rests_on_restricted_alone(event: Event, sources: dict[str, Source]) -> bool:
    cited = [sources[citation.source] for citation in event.sources if citation.source in sources]
    return bool(cited) and all(source.effective is Visibility.RESTRICTED for source in cited)


def _object(thing: CollectionObject, sources: dict[str, Source], rules: _Rules) -> CollectionObject:
    own = rules.own("objects", thing.visibility, thing.public_from)
    return replace(thing, effective=own, events=tuple(_event(event, own, sources, rules) for event in thing.events))


def _photo(photo: Photo, tree: Tree, trees: dict[str, Tree], rules: _Rules) -> Photo:
    own = rules.own("photographs", photo.visibility, photo.public_from)
    if may_show_children(photo) and photo.consent != "yes":
        own = closest(own, Visibility.INTERNAL)
    return replace(photo, effective=closest(own, tree.effective, *_of(photo.of, trees)))


def may_show_children(photo: Photo) -> bool:
    """Whether a recognisable child may be in the picture: said so, or people are and nothing is said."""
    return photo.children is True or (photo.children is None and bool(photo.people))


def _of(accessions: Iterable[str], trees: dict[str, Tree]) -> list[Visibility]:
    return [trees[accession].effective for accession in accessions if accession in trees]


def _note(note: Note, tree: Tree, events: dict[str, Event], trees: dict[str, Tree], rules: _Rules) -> Note:
    own = rules.own("notes", note.visibility, note.public_from)
    # A note tells of its event, so it is never more visible than the event is.
    about = [events[note.event].effective] if note.event in events else []
    return replace(note, effective=closest(own, tree.effective, *about, *_of(note.trees, trees)))


def _comparison(wanted: ComparisonWanted, tree: Tree, photos: dict[str, Photo], rules: _Rules) -> ComparisonWanted:
    own = rules.own("events", wanted.visibility, wanted.public_from)
    shown = [photos[file].effective for file in (wanted.before, wanted.after) if file in photos]
    return replace(wanted, effective=closest(own, tree.effective, *shown))
