"""stewards/, sources/ and objects/ as written."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, model_validator

from archive_tools.model.people import Source, Steward, Taught
from archive_tools.model.places_in_files import Where
from archive_tools.model.vocabulary import OBJECT_KINDS, SOURCE_KINDS, STEWARD_KINDS
from archive_tools.read.fields import (
    HowSure,
    Links,
    Record,
    Text,
    TextOrLanguages,
    Texts,
    WhoMaySee,
    YesOrNo,
    as_list,
    one_of,
    text_of,
)
from archive_tools.read.fields_of_time import When
from archive_tools.read.schema_common import Citations
from archive_tools.read.schema_event import EventSchema


def _names(value: Any) -> tuple[tuple[str, str], ...]:
    """Names in other scripts: texts, or {language or kind: name}, in a list or alone."""
    found: list[tuple[str, str]] = []
    for item in as_list(value) or ():
        if isinstance(item, dict):
            found += [(kind.strip(), text_of(name, "a name")) for kind, name in item.items()]
        else:
            found.append(("", text_of(item, "a name")))
    return tuple(found)


class TaughtSchema(Record):
    """A teacher, from when to when."""

    who: Text
    from_: When | None = Field(None, alias="from")
    until: When | None = None
    sources: Citations | None = Field(None, alias="source")
    grade: HowSure | None = None

    @model_validator(mode="before")
    @classmethod
    def _from_id(cls, value: Any) -> Any:
        return {"who": value} if isinstance(value, str) else value


class StewardSchema(Record):
    """The keys of a steward."""

    name: TextOrLanguages
    names: Annotated[tuple[tuple[str, str], ...], PlainValidator(_names)] | None = None
    aliases: Texts | None = None
    sort_name: Text | None = None
    pronunciation: Text | None = None
    kind: Annotated[str, one_of(STEWARD_KINDS, "a kind of steward")] | None = None
    members: Texts | None = None
    born: When | None = None
    died: When | None = None
    active: When | None = None
    grade: HowSure | None = None
    sources: Citations | None = Field(None, alias="source")
    taught_by: Annotated[tuple[TaughtSchema | None, ...], BeforeValidator(as_list)] | None = None
    member_of: Texts | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None
    public_name: TextOrLanguages | None = None
    about: TextOrLanguages | None = None
    same_as: Links | None = None

    def steward(self, name: str, where: Where) -> Steward:
        """The steward as the model has them."""
        values = self.written()
        values["taught_by"] = tuple(Taught(**one.written()) for one in self.taught_by or () if one)
        return Steward(id=name, where=where, **values)


class SourceSchema(Record):
    """The keys of a source."""

    title: TextOrLanguages
    kind: Annotated[str, one_of(SOURCE_KINDS, "a kind of source")]
    when: When | None = Field(None, alias="date")
    at_the_time: YesOrNo | None = None
    made_by: Texts | None = None
    kept_at: TextOrLanguages | None = None
    file: Text | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None
    citation: TextOrLanguages | None = None

    def source(self, name: str, where: Where) -> Source:
        """The source as the model has it."""
        return Source(id=name, where=where, **self.written())


class ObjectSchema(Record):
    """The keys of an object."""

    name: TextOrLanguages
    kind: Annotated[str, one_of(OBJECT_KINDS, "a kind of object")] | None = None
    maker: Text | None = None
    mark: TextOrLanguages | None = None
    material: TextOrLanguages | None = None
    glaze: TextOrLanguages | None = None
    size: TextOrLanguages | None = None
    owner: Text | None = None
    events: Annotated[tuple[EventSchema | None, ...], BeforeValidator(as_list)] | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None
    public_name: TextOrLanguages | None = None
