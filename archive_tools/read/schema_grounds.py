"""places.yml, tours/ and talks/ as written."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, model_validator

from archive_tools.model.grounds import Path, Place, Stop, Talk, TalkSection, Tour
from archive_tools.model.places_in_files import Where
from archive_tools.model.vocabulary import AUDIENCES, OPEN_TO
from archive_tools.read.fields import (
    Id,
    Record,
    Text,
    TextOrLanguages,
    Texts,
    WhoMaySee,
    YesOrNo,
    as_list,
    one_of,
    text_of,
    wrong,
)
from archive_tools.read.fields_of_time import Count, Metres, Spot, TimeOfDay, When
from archive_tools.read.schema_event import where_item

Audience = Annotated[str, one_of(AUDIENCES, "an audience")]
QUERY = re.compile(r"\s*[a-z_]+\s*(?:=|!=|<|>|~|\bis\b|\bin\b)")


class PlaceInGroundsSchema(Record):
    """A court or bench."""

    name: TextOrLanguages
    at: Spot | None = None
    open_to: Annotated[str, one_of(OPEN_TO, "whom a place is open to")] | None = None
    shade: TextOrLanguages | None = None
    water: TextOrLanguages | None = None
    visibility: WhoMaySee | None = None

    def place(self, name: str, where: Where) -> Place:
        """The place as the model has it."""
        return Place(id=name, where=where, **self.written())


class PathSchema(Record):
    """A way between two places."""

    between: Annotated[tuple[Id, ...], BeforeValidator(as_list)]
    metres: Metres
    step_free: YesOrNo | None = None

    @model_validator(mode="after")
    def _two_ends(self) -> PathSchema:
        if len(self.between) != 2 or self.between[0] == self.between[1]:
            raise wrong("bad-value", "a path lies between two places", "between: [one, another]")
        return self

    def path(self, where: Where) -> Path:
        """The path as the model has it."""
        return Path((self.between[0], self.between[1]), self.metres, bool(self.step_free), where)


class GroundsSchema(Record):
    """The two keys of places.yml; the places themselves are read one by one."""

    places: dict[str, Any] | None = None
    paths: Annotated[tuple[PathSchema | None, ...], BeforeValidator(as_list)] | None = None


class StopSchema(Record):
    """A stop of a tour."""

    tree: Text | None = None
    place: Text | None = None
    object: Text | None = None
    seconds: Count | None = None
    text: TextOrLanguages | None = None

    @model_validator(mode="after")
    def _one_thing(self) -> StopSchema:
        if sum(value is not None for value in (self.tree, self.place, self.object)) != 1:
            raise wrong("bad-value", "a stop is at one thing: a tree, a place or an object", "tree: and its accession")
        return self

    def stop(self, where: Where) -> Stop:
        """The stop as the model has it."""
        return Stop(self.tree, self.place, self.object, self.seconds, self.text, where)


class TourSchema(Record):
    """The keys of a tour."""

    title: TextOrLanguages
    when: When | None = Field(None, alias="date")
    start_time: TimeOfDay | None = None
    minutes: Count | None = None
    language: Text | None = None
    audience: Audience | None = None
    start: Text | None = None
    end: Text | None = None
    step_free: YesOrNo | None = None
    must: Texts | None = None
    prefer: Text | None = None
    stops: Annotated[tuple[StopSchema, ...], BeforeValidator(as_list)] | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None

    def tour(self, name: str, where: Where) -> Tour:
        """The tour as the model has it."""
        values = self.written()
        values["stops"] = tuple(
            stop.stop(where_item(where, "stops", number)) for number, stop in enumerate(self.stops or ())
        )
        return Tour(id=name, where=where, **values)


def _trees(value: Any) -> tuple[str, ...] | str:
    """Accessions, or a query as one text."""
    if isinstance(value, str) and QUERY.match(value):
        return value.strip()
    return tuple(text_of(item, "an accession") for item in as_list(value) or ())


class SectionSchema(Record):
    """A part of a talk."""

    title: TextOrLanguages | None = None
    seconds: Count | None = None
    trees: Annotated[tuple[str, ...] | str, PlainValidator(_trees)] | None = None
    text: TextOrLanguages | None = None
    show: Texts | None = None

    def section(self, where: Where) -> TalkSection:
        """The section as the model has it."""
        asked = self.trees if isinstance(self.trees, str) else None
        named = self.trees if isinstance(self.trees, tuple) else ()
        return TalkSection(self.title, self.seconds, named, asked, self.text, self.show or (), where)


class TalkSchema(Record):
    """The keys of a talk."""

    title: TextOrLanguages
    when: When | None = Field(None, alias="date")
    minutes: Count | None = None
    language: Text | None = None
    audience: Audience | None = None
    speaker: Text | None = None
    sections: Annotated[tuple[SectionSchema, ...], BeforeValidator(as_list)] | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None

    def talk(self, name: str, where: Where) -> Talk:
        """The talk as the model has it."""
        values = self.written()
        values["sections"] = tuple(
            section.section(where_item(where, "sections", number)) for number, section in enumerate(self.sections or ())
        )
        return Talk(id=name, where=where, **values)
