"""collection.yml read into the settings of the house."""

from __future__ import annotations

import re

from archive_tools.model.collection import Settings
from archive_tools.model.dates import DEFAULT_MARGINS, DatePolicy, Duration
from archive_tools.model.grades import Visibility
from archive_tools.model.tree import Due
from archive_tools.model.vocabulary import HAZARDS, STYLES
from archive_tools.read.fields import House
from archive_tools.read.folders import Ground
from archive_tools.read.record_files import read_record
from archive_tools.read.schema_collection import CollectionSchema, DefaultsSchema, MarginsSchema
from archive_tools.read.schema_event import where_item
from archive_tools.read.validation import Parts, Written

FILE = "collection.yml"
_PARTS = {"due": Parts("due")}


def read_settings(ground: Ground) -> Settings | None:
    """The settings, or None, with the problems told, if name or custodian cannot be read."""
    found = read_record(
        CollectionSchema, ground.root / FILE, FILE, House(), ground.telling, own=("", "collection", FILE), parts=_PARTS
    )
    if found is None or found[1].record is None:
        return None
    return _settings(found[1].record, found[0])


def house_of(settings: Settings | None, folders: frozenset[str]) -> House:
    """What records need to know of the house. `folders` are the names of the trees' folders."""
    starts = frozenset(start for name in folders for start in _starts(name))
    if settings is None:
        return House(is_accession=starts.__contains__)
    pattern = settings.accession_pattern

    def is_accession(text: str) -> bool:
        return text in starts or (pattern is not None and re.fullmatch(pattern, text) is not None)

    style = settings.vocabulary.get("style", ())
    hazards = settings.vocabulary.get("hazards", ())
    return House(settings.dates, frozenset({*STYLES, *style}), frozenset({*HAZARDS, *hazards}), is_accession)


def _starts(folder: str) -> list[str]:
    """All that the accession of a folder named `<accession>-<slug>` may be."""
    pieces = folder.split("-")
    return ["-".join(pieces[:count]) for count in range(1, len(pieces) + 1)]


def _settings(schema: CollectionSchema, written: Written) -> Settings:
    values = {
        name: value
        for name, value in schema.written().items()
        if name not in ("hemisphere", "approximate", "defaults", "vocabulary", "due", "at_the_time", "unbroken_within")
    }
    where = written.where
    words = schema.vocabulary
    vocabulary = {"style": words.style or (), "hazards": words.hazards or ()} if words else {}
    due: tuple[Due, ...] = tuple(
        one.due(where_item(where, "due", number)) for number, one in enumerate(schema.due or ()) if one
    )
    return Settings(
        where=where,
        dates=DatePolicy(schema.hemisphere or "", _margins(schema.approximate)),
        defaults=_defaults(schema.defaults),
        at_the_time=schema.at_the_time or Duration(1, 0, 0, "P1Y"),
        unbroken_within=schema.unbroken_within or Duration(10, 0, 0, "P10Y"),
        vocabulary=vocabulary,
        due=due,
        **values,
    )


def _margins(schema: MarginsSchema | None) -> tuple[tuple[str, Duration], ...]:
    said = schema.written() if schema else {}
    return tuple((unit, said.get(unit, width)) for unit, width in DEFAULT_MARGINS)


def _defaults(schema: DefaultsSchema | None) -> dict[str, Visibility]:
    return dict(schema.written()) if schema else {}
