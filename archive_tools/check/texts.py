"""Every text of a collection that a reader may meet, with its place and who may see it.

Ids and file names count as texts too: they become addresses of the site.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from archive_tools.model.collection import Collection
from archive_tools.model.event import Citation, Event
from archive_tools.model.grades import Visibility
from archive_tools.model.people import CollectionObject, Source, Steward
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.places_in_files import Mark, Step, Where
from archive_tools.model.tree import Tree
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class Told:
    """One text. `runs_on` is True where its lines are the lines of the file, beginning at `mark`.

    `is_address`: an id or file name, in which a hyphen or underscore may stand for a space.
    """

    mark: Mark
    text: str
    seen_by: Visibility
    runs_on: bool = False
    is_address: bool = False

    def place_of(self, offset: int) -> Mark:
        """The place in the file of the character at `offset`, as exactly as it can be known."""
        if not self.runs_on or self.mark.line is None:
            return self.mark
        before = self.text[:offset]
        column = offset - (before.rfind("\n") + 1) + 1
        return Mark(self.mark.file, self.mark.line + before.count("\n"), column)


def all_texts(collection: Collection) -> Iterator[Told]:
    """Every text, in the order of trees, stewards, sources, objects, grounds and pages."""
    hidden = {source.id for source in collection.sources.values() if source.effective is not Visibility.PUBLIC}
    for tree in collection.trees.values():
        yield from _of_tree(tree)
        for event in tree.events:
            yield from _of_event(event, hidden)
        yield from _of_notes(tree, hidden)
        for photo in tree.photos:
            yield from _of_photo(photo, hidden)
        for wanted in tree.comparisons:
            yield from _of_comparison(wanted)
    for steward in collection.stewards.values():
        yield from _of_steward(steward)
    for source in collection.sources.values():
        yield from _of_source(source)
    for thing in collection.objects.values():
        yield from _of_object(thing)
        for event in thing.events:
            yield from _of_event(event, hidden)
    yield from _of_grounds(collection)
    yield from _texts(collection.settings.where, collection.settings, ("name",), Visibility.PUBLIC)
    for page in collection.pages:
        yield Told(page.where.at("title"), page.title, page.visibility)
        # Below front matter the line on which the text begins is not known.
        begins = Mark(page.where.file, None if len(page.where.marks) > 1 else 1)
        yield Told(begins, page.body, page.visibility, runs_on=True)
        yield Told(Mark(page.where.file), page.path, page.visibility, is_address=True)


def _of_tree(tree: Tree) -> Iterator[Told]:
    seen = tree.effective
    keys = ("name", "common_name", "native_to", "label", "credit_line", "talking_points", "rootstock")
    yield from _texts(tree.where, tree, keys, seen)
    yield from (Told(tree.where.at("taxon", index), text, seen) for index, text in enumerate(tree.taxon))
    yield Told(tree.where.at("accession"), tree.folder, seen, is_address=True)
    locality = tree.origin_locality
    if locality and locality.public_text:
        yield from _words(tree.where, ("origin_locality", "public_text"), locality.public_text, seen)
    for member in tree.members:
        yield from _texts(member.where, member, ("place_in_planting", "began"), seen)
        yield Told(member.where.at("id"), member.id, seen, is_address=True)
    for index, kin in enumerate(tree.kin):
        yield from _words(tree.where, ("kin", index, "text"), kin.text, seen)
        yield from _plain(tree.where, ("kin", index, "holder"), kin.holder, seen)
        yield from _plain(tree.where, ("kin", index, "url"), kin.url, seen)
    for index, number in enumerate(tree.other_numbers):
        yield from _plain(tree.where, ("other_numbers", index, "number"), number.number, seen)
        yield from _plain(tree.where, ("other_numbers", index, "given_by"), number.given_by, seen)


def _of_event(event: Event, hidden_sources: set[str]) -> Iterator[Told]:
    seen, where = event.effective, event.where
    yield from _texts(where, event, ("title", "text", "was", "becomes", "award", "cause", "awarded_by", "at"), seen)
    yield from _plain(where, ("from_tree",), event.from_tree_text, seen)
    for key, hands in (("by", event.by), ("from", event.from_), ("to", event.to), ("with", event.with_)):
        yield from (Told(where.at(key, index), text, seen) for index, text in enumerate(hands))
    for index, measured in enumerate(event.measured):
        yield Told(where.at("measured", index, "what"), measured.what, seen)
    yield from _citations(where, event.sources, seen, hidden_sources)
    yield Told(where.at("id"), event.id, seen, is_address=True)


def _of_notes(tree: Tree, hidden_sources: set[str]) -> Iterator[Told]:
    for note in tree.notes:
        seen = note.effective
        yield from _texts(note.where, note, ("title",), seen)
        yield from (Told(note.where.at("by", index), text, seen) for index, text in enumerate(note.by))
        yield from _citations(note.where, note.sources, seen, hidden_sources)
        yield Told(Mark(note.path, note.body_line), note.body, seen, runs_on=True)
        yield Told(Mark(note.path), note.id, seen, is_address=True)


def _of_photo(photo: Photo, hidden_sources: set[str]) -> Iterator[Told]:
    seen = photo.effective
    keys = ("caption", "alt", "why", "credit", "photographer", "rights_holder", "held_by", "rights")
    yield from _texts(photo.where, photo, keys, seen)
    yield from (Told(photo.where.at("marks", name), name, seen) for name, _ in photo.marks)
    yield from _citations(photo.where, photo.sources, seen, hidden_sources)
    yield Told(photo.where.at("file"), photo.file, seen, is_address=True)


def _of_comparison(wanted: ComparisonWanted) -> Iterator[Told]:
    yield from _texts(wanted.where, wanted, ("title", "text"), wanted.effective)
    for index, measure in enumerate(wanted.measure):
        yield from _words(wanted.where, ("measure", index, "name"), measure.name, wanted.effective)
    yield Told(wanted.where.at("id"), wanted.id, wanted.effective, is_address=True)


def _of_steward(steward: Steward) -> Iterator[Told]:
    where = steward.where
    # What the public edition calls a steward is public whoever they are; the rest only of those whom it names.
    if steward.public_name is not None:
        yield from _words(where, ("public_name",), steward.public_name, Visibility.PUBLIC)
    seen = steward.effective if steward.public_name is None else Visibility.INTERNAL
    yield from _texts(where, steward, ("name", "sort_name", "pronunciation", "about"), seen)
    yield from (Told(where.at("aliases", index), text, seen) for index, text in enumerate(steward.aliases))
    yield from (Told(where.at("names", index), text, seen) for index, (_, text) in enumerate(steward.names))
    yield from (Told(where.at("same_as", index), text, seen) for index, text in enumerate(steward.same_as))
    yield Told(Mark(where.file), steward.id, seen, is_address=True)


def _of_source(source: Source) -> Iterator[Told]:
    yield from _texts(source.where, source, ("title", "kept_at", "citation"), source.effective)
    for index, text in enumerate(source.made_by):
        yield Told(source.where.at("made_by", index), text, source.effective)
    yield Told(Mark(source.where.file), source.id, source.effective, is_address=True)


def _of_object(thing: CollectionObject) -> Iterator[Told]:
    if thing.public_name is not None:
        yield from _words(thing.where, ("public_name",), thing.public_name, Visibility.PUBLIC)
    seen = thing.effective if thing.public_name is None else Visibility.INTERNAL
    keys = ("name", "mark", "material", "glaze", "size", "maker", "owner")
    yield from _texts(thing.where, thing, keys, seen)
    yield Told(Mark(thing.where.file), thing.id, seen, is_address=True)


def _of_grounds(collection: Collection) -> Iterator[Told]:
    for place in collection.places.values():
        yield from _texts(place.where, place, ("name", "shade", "water"), place.effective)
        yield Told(place.where.at(), place.id, place.effective, is_address=True)
    for tour in collection.tours.values():
        yield from _texts(tour.where, tour, ("title",), tour.effective)
        for stop in tour.stops:
            yield from _texts(stop.where, stop, ("text",), tour.effective)
        yield Told(Mark(tour.where.file), tour.id, tour.effective, is_address=True)
    for talk in collection.talks.values():
        yield from _texts(talk.where, talk, ("title", "speaker"), talk.effective)
        for section in talk.sections:
            yield from _texts(section.where, section, ("title", "text"), talk.effective)
        yield Told(Mark(talk.where.file), talk.id, talk.effective, is_address=True)


def _citations(where: Where, cited: Iterable[Citation], seen: Visibility, hidden_sources: set[str]) -> Iterator[Told]:
    for index, citation in enumerate(cited):
        # The shelf mark and words of a hidden source are hidden with it.
        by = Visibility.INTERNAL if citation.source in hidden_sources and seen is Visibility.PUBLIC else seen
        yield from _plain(where, ("source", index, "at"), citation.at, by)
        yield from _plain(where, ("source", index, "quote"), citation.quote, by)


def _texts(where: Where, record: Any, keys: Iterable[str], seen: Visibility) -> Iterator[Told]:
    for key in keys:
        value: Words | str | None = getattr(record, key)
        if isinstance(value, Words):
            yield from _words(where, (key,), value, seen)
        else:
            yield from _plain(where, (key,), value, seen)


def _words(where: Where, at: tuple[Step, ...], words: Words, seen: Visibility) -> Iterator[Told]:
    for language, text in words.by_language:
        yield Told(where.at(*at, language) if language else where.at(*at), text, seen)


def _plain(where: Where, at: tuple[Step, ...], text: str | None, seen: Visibility) -> Iterator[Told]:
    if text is not None:
        yield Told(where.at(*at), text, seen)
