"""Stewards and sources: whose hands, and on whose word."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Citation, Event
from archive_tools.model.grades import Grade, Visibility
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class Taught:
    """A teacher of this steward, from when to when."""

    who: str
    from_: WhenWritten | None = None
    until: WhenWritten | None = None
    sources: tuple[Citation, ...] = ()
    grade: Grade | None = None


@dataclass(frozen=True, slots=True)
class Steward:
    """A person, couple, family, estate, nursery, club or institution.

    In an edition that may not name them, `masked` is true: `id` is then an opaque one, `name` the public name or
    "name withheld", and everything else is empty. A masked steward has no page.
    """

    id: str
    name: Words
    where: Where
    names: tuple[tuple[str, str], ...] = ()
    """Names in other scripts and art names: (language or kind, name); the first is "" where none is written."""
    aliases: tuple[str, ...] = ()
    sort_name: str | None = None
    pronunciation: str | None = None
    kind: str = "unknown"
    members: tuple[str, ...] = ()
    born: WhenWritten | None = None
    died: WhenWritten | None = None
    active: WhenWritten | None = None
    grade: Grade | None = None
    sources: tuple[Citation, ...] = ()
    taught_by: tuple[Taught, ...] = ()
    member_of: tuple[str, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    public_name: Words | None = None
    about: Words | None = None
    same_as: tuple[str, ...] = ()
    effective: Visibility = Visibility.INTERNAL
    masked: bool = False

    @property
    def sorts_as(self) -> str:
        """How the name is filed."""
        return self.sort_name or self.name.say()


@dataclass(frozen=True, slots=True)
class Source:
    """One ledger, letter, interview, publication …

    In an edition that may not show it, `masked` is true and `title` says only that it is not public.
    """

    id: str
    title: Words
    kind: str
    where: Where
    when: WhenWritten | None = None
    at_the_time: bool | None = None
    made_by: tuple[str, ...] = ()
    kept_at: Words | None = None
    file: str | None = None
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    citation: Words | None = None
    effective: Visibility = Visibility.INTERNAL
    masked: bool = False


@dataclass(frozen=True, slots=True)
class CollectionObject:
    """A pot, tray, stand, stone, scroll or accent with a story of its own."""

    id: str
    name: Words
    where: Where
    kind: str = "pot"
    maker: str | None = None
    mark: Words | None = None
    material: Words | None = None
    glaze: Words | None = None
    size: Words | None = None
    owner: str | None = None
    events: tuple[Event, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    public_name: Words | None = None
    effective: Visibility = Visibility.INTERNAL
    masked: bool = False
