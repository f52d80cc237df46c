"""The whole collection, as read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NewType

from archive_tools.model.dates import DatePolicy, Duration
from archive_tools.model.grades import Visibility
from archive_tools.model.grounds import Path, Place, Talk, Tour
from archive_tools.model.people import CollectionObject, Source, Steward
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Due, Tree
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class Settings:
    """collection.yml: the house and its policies. Durations are by the calendar; speeds in m/s and words a minute."""

    name: Words
    custodian: str
    where: Where
    dates: DatePolicy
    defaults: Mapping[str, Visibility]
    """Visibility of things that say nothing, by kind of thing ("trees", "events", …); missing = internal."""
    at_the_time: Duration
    unbroken_within: Duration
    site_url: str | None = None
    accent: str | None = None
    languages: tuple[str, ...] = ("en",)
    timezone: str = "UTC"
    accession_pattern: str | None = None
    speaking_rate: int = 130
    walking_speed: float = 0.8
    label_words: int = 75
    rights: str | None = None
    vocabulary: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Further terms, under "style" and "hazards"."""
    due: tuple[Due, ...] = ()


@dataclass(frozen=True, slots=True)
class HandWrittenPage:
    """A page of the site written by hand, in Markdown. `path` is where it will stand, like "visiting.md"."""

    path: str
    title: str
    body: str
    where: Where
    visibility: Visibility = Visibility.PUBLIC


@dataclass(frozen=True, slots=True)
class Collection:
    """Everything in the folder. Mappings are by id or accession, in a fixed order that does not depend on the disk."""

    settings: Settings
    trees: Mapping[str, Tree]
    stewards: Mapping[str, Steward]
    sources: Mapping[str, Source]
    objects: Mapping[str, CollectionObject]
    places: Mapping[str, Place]
    paths: tuple[Path, ...]
    tours: Mapping[str, Tour]
    talks: Mapping[str, Talk]
    pages: tuple[HandWrittenPage, ...] = ()


Selected = NewType("Selected", Collection)
"""A collection cut down to what one edition may show, with withheld stewards and sources masked.

Only the editions stage makes one; everything that draws or prints takes it (inside an EditionView), never a
whole Collection."""
