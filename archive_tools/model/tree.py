"""A tree or planting: its record."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.dates import Duration, WhenWritten
from archive_tools.model.event import Event, Note
from archive_tools.model.grades import Visibility
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class OtherNumber:
    """A number the tree bore or bears elsewhere."""

    number: str
    given_by: str | None
    from_: WhenWritten | None
    until: WhenWritten | None


@dataclass(frozen=True, slots=True)
class Member:
    """A plant of a planting; one with an `accession` has a record of its own."""

    id: str
    where: Where
    accession: str | None = None
    taxon: str | None = None
    count: int = 1
    from_: WhenWritten | None = None
    until: WhenWritten | None = None
    place_in_planting: Words | None = None
    began: Words | None = None


@dataclass(frozen=True, slots=True)
class OriginLocality:
    """Where the plant was dug or gathered. Only `public_text` is ever public; coordinates by their sensitivity."""

    text: Words | None
    public_text: Words | None
    latitude: float | None
    longitude: float | None
    sensitivity: str


@dataclass(frozen=True, slots=True)
class Kin:
    """A relative kept elsewhere."""

    text: Words
    holder: str | None
    url: str | None


@dataclass(frozen=True, slots=True)
class Due:
    """Work that comes round: every so often (least, most), in these months, counted by a cycle if it has one.

    `taxon` and `trees` narrow a house rule; a tree's own rule has neither.
    """

    kind: str
    every: tuple[Duration, Duration] | None
    months: tuple[int, ...]
    cycle: str | None
    text: Words | None
    where: Where
    taxon: str | None = None
    trees: str | None = None


@dataclass(frozen=True, slots=True)
class NotShown:
    """Why a tree is not shown, from when to when."""

    when: WhenWritten | None
    until: WhenWritten | None
    why: Words | None


@dataclass(frozen=True, slots=True)
class Tree:
    """One accessioned tree or planting, with all that lies in its folder. `folder` is relative to the collection."""

    accession: str
    folder: str
    where: Where
    taxon: tuple[str, ...]
    name: Words | None = None
    common_name: Words | None = None
    rootstock: str | None = None
    native_to: Words | None = None
    tradition: str | None = None
    form: tuple[str, ...] = ()
    penjing_class: str | None = None
    kind: str = "single"
    members: tuple[Member, ...] = ()
    other_numbers: tuple[OtherNumber, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    place: str | None = None
    place_visibility: Visibility | None = None
    label: Words | None = None
    credit_line: Words | None = None
    talking_points: Words | None = None
    label_written: WhenWritten | None = None
    portrait: str | None = None
    origin_locality: OriginLocality | None = None
    hazards: tuple[str, ...] = ()
    events: tuple[Event, ...] = ()
    notes: tuple[Note, ...] = ()
    photos: tuple[Photo, ...] = ()
    comparisons: tuple[ComparisonWanted, ...] = ()
    kin: tuple[Kin, ...] = ()
    due: tuple[Due, ...] = ()
    not_shown: tuple[NotShown, ...] = ()
    effective: Visibility = Visibility.INTERNAL

    @property
    def is_planting(self) -> bool:
        """A forest, group or landscape of several plants."""
        return self.kind == "planting"

    def event(self, event_id: str) -> Event | None:
        """The event with this id, if the tree has it."""
        return next((event for event in self.events if event.id == event_id), None)

    def photo(self, file: str) -> Photo | None:
        """The photograph with this file name, if the tree has it."""
        return next((photo for photo in self.photos if photo.file == file), None)

    def called(self, language: str = "") -> str:
        """What the tree is called on a page: its name, else its common name, else its botanical name."""
        for words in (self.name, self.common_name):
            if words:
                return words.say(language)
        return ", ".join(self.taxon)
