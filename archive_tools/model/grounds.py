"""The grounds: courts, benches and the paths between them; tours and talks through them."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.dates import WhenWritten
from archive_tools.model.grades import Visibility
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class Place:
    """A court or bench; `at` is (x, y) in metres on the house's own plan."""

    id: str
    name: Words
    where: Where
    at: tuple[float, float] | None = None
    open_to: str = "staff"
    shade: Words | None = None
    water: Words | None = None
    visibility: Visibility | None = None
    effective: Visibility = Visibility.INTERNAL


@dataclass(frozen=True, slots=True)
class Path:
    """A way between two places, in metres."""

    between: tuple[str, str]
    metres: float
    step_free: bool
    where: Where


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop of a tour: a tree, a place or an object; `seconds` to stay."""

    tree: str | None
    place: str | None
    object: str | None
    seconds: int | None
    text: Words | None
    where: Where


@dataclass(frozen=True, slots=True)
class Tour:
    """A walk against the clock."""

    id: str
    title: Words
    where: Where
    when: WhenWritten | None = None
    start_time: str | None = None
    minutes: int | None = None
    language: str | None = None
    audience: str = "public"
    start: str | None = None
    end: str | None = None
    step_free: bool = False
    must: tuple[str, ...] = ()
    prefer: str | None = None
    stops: tuple[Stop, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    effective: Visibility = Visibility.INTERNAL


@dataclass(frozen=True, slots=True)
class TalkSection:
    """A part of a talk. `show` holds `accession/photo` and `accession#comparison`."""

    title: Words | None
    seconds: int | None
    trees: tuple[str, ...]
    trees_query: str | None
    text: Words | None
    show: tuple[str, ...]
    where: Where


@dataclass(frozen=True, slots=True)
class Talk:
    """A talk of so many minutes."""

    id: str
    title: Words
    where: Where
    when: WhenWritten | None = None
    minutes: int | None = None
    language: str | None = None
    audience: str = "public"
    speaker: str | None = None
    sections: tuple[TalkSection, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    effective: Visibility = Visibility.INTERNAL
