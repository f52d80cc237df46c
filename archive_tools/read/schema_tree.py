"""tree.yml as written."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, model_validator

from archive_tools.model.photo import ComparisonWanted, MeasureWanted
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Due, Kin, Member, NotShown, OriginLocality, OtherNumber
from archive_tools.model.vocabulary import SENSITIVITIES, TRADITIONS, TREE_KINDS
from archive_tools.read.fields import (
    EventKind,
    Hazards,
    Id,
    Link,
    PenjingClass,
    Record,
    Styles,
    Text,
    TextOrLanguages,
    Texts,
    WhoMaySee,
    as_list,
    one_of,
    shown,
    text_of,
    wrong,
)
from archive_tools.read.fields_of_time import Count, Latitude, LengthRange, Longitude, Months, When
from archive_tools.read.schema_event import EventSchema

_NOT_IN_ACCESSION = re.compile(r"[#/\\\[\]<>:\"|?*\x00-\x1f]")


def _accession(value: Any) -> str:
    text = text_of(value, "an accession")
    found = _NOT_IN_ACCESSION.search(text)
    if found:
        what = f"an accession cannot hold {found[0]}, because the name of its folder begins with it"
        raise wrong("bad-accession", f"“{shown(text)}”: {what}", _NOT_IN_ACCESSION.sub("-", text))
    return text


Accession = Annotated[str, PlainValidator(_accession)]


class OtherNumberSchema(Record):
    """A number borne elsewhere."""

    number: Text
    given_by: Text | None = None
    from_: When | None = Field(None, alias="from")
    until: When | None = None


class MemberSchema(Record):
    """A plant of a planting."""

    id: Id | None = None
    accession: Accession | None = None
    taxon: Text | None = None
    count: Count | None = None
    from_: When | None = Field(None, alias="from")
    until: When | None = None
    place_in_planting: TextOrLanguages | None = None
    began: TextOrLanguages | None = None


class PlaceSchema(Record):
    """The usual place, with a visibility of its own."""

    id: Id
    visibility: WhoMaySee | None = None

    @model_validator(mode="before")
    @classmethod
    def _from_id(cls, value: Any) -> Any:
        return {"id": value} if isinstance(value, str) else value


class LocalitySchema(Record):
    """Where the plant was dug or gathered."""

    text: TextOrLanguages | None = None
    public_text: TextOrLanguages | None = None
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    sensitivity: Annotated[str, one_of(SENSITIVITIES, "a sensitivity")] | None = None

    def locality(self) -> OriginLocality:
        """The locality; one whose sensitivity is not written is kept as close as any."""
        sensitivity = self.sensitivity or "extreme"
        return OriginLocality(self.text, self.public_text, self.latitude, self.longitude, sensitivity)


class KinSchema(Record):
    """A relative kept elsewhere."""

    text: TextOrLanguages
    holder: Text | None = None
    url: Link | None = None

    @model_validator(mode="before")
    @classmethod
    def _from_text(cls, value: Any) -> Any:
        return {"text": value} if isinstance(value, str) else value


class DueSchema(Record):
    """Work that comes round, in a tree's own record."""

    kind: EventKind
    every: LengthRange | None = None
    months: Months | None = None
    cycle: Text | None = None
    text: TextOrLanguages | None = None

    def due(self, where: Where) -> Due:
        """The rule as the model has it."""
        return Due(where=where, **{"every": None, "months": (), "cycle": None, "text": None, **self.written()})


class HouseDueSchema(DueSchema):
    """Work that comes round, as a rule of the house."""

    taxon: Text | None = None
    trees: Text | None = None


class NotShownSchema(Record):
    """Why and when a tree is not shown."""

    when: When | None = Field(None, alias="date")
    until: When | None = None
    why: TextOrLanguages | None = None


class MeasureSchema(Record):
    """A length between two marks, or how far one mark moved."""

    name: TextOrLanguages
    from_: Text | None = Field(None, alias="from")
    to: Text | None = None
    mark: Text | None = None

    @model_validator(mode="after")
    def _length_or_movement(self) -> MeasureSchema:
        ends = (self.from_ is not None, self.to is not None)
        if ends not in ((True, True), (False, False)) or ends[0] == (self.mark is not None):
            what = "a measure has either `from` and `to` (a length) or `mark` (how far it moved)"
            raise wrong("bad-value", what, "{name: height, from: rim, to: apex}")
        return self


class ComparisonSchema(Record):
    """Two photographs to be laid over each other."""

    id: Id | None = None
    before: Text
    after: Text
    title: TextOrLanguages | None = None
    align_on: Texts | None = None
    measure: Annotated[tuple[MeasureSchema, ...], BeforeValidator(as_list)] | None = None
    text: TextOrLanguages | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None

    def comparison(self, name: str, where: Where) -> ComparisonWanted:
        """The comparison as the model has it."""
        values = self.written()
        values["measure"] = tuple(MeasureWanted(one.name, one.from_, one.to, one.mark) for one in self.measure or ())
        return ComparisonWanted(where=where, **{**values, "id": name})


class TreeSchema(Record):
    """The keys of a tree."""

    accession: Accession
    taxon: Texts
    other_numbers: Annotated[tuple[OtherNumberSchema | None, ...], BeforeValidator(as_list)] | None = None
    name: TextOrLanguages | None = None
    rootstock: Text | None = None
    common_name: TextOrLanguages | None = None
    native_to: TextOrLanguages | None = None
    tradition: Annotated[str, one_of(TRADITIONS, "a tradition")] | None = None
    form: Styles | None = None
    penjing_class: PenjingClass | None = None
    kind: Annotated[str, one_of(TREE_KINDS, "a kind of tree")] | None = None
    members: Annotated[tuple[MemberSchema | None, ...], BeforeValidator(as_list)] | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None
    place: PlaceSchema | None = None
    label: TextOrLanguages | None = None
    credit_line: TextOrLanguages | None = None
    talking_points: TextOrLanguages | None = None
    label_written: When | None = None
    portrait: Text | None = None
    origin_locality: LocalitySchema | None = None
    hazards: Hazards | None = None
    events: Annotated[tuple[EventSchema | None, ...], BeforeValidator(as_list)] | None = None
    comparisons: Annotated[tuple[ComparisonSchema | None, ...], BeforeValidator(as_list)] | None = None
    kin: Annotated[tuple[KinSchema | None, ...], BeforeValidator(as_list)] | None = None
    due: Annotated[tuple[DueSchema | None, ...], BeforeValidator(as_list)] | None = None
    not_shown: Annotated[tuple[NotShownSchema | None, ...], BeforeValidator(as_list)] | None = None


OWN_KEYS = (
    "name",
    "rootstock",
    "common_name",
    "native_to",
    "tradition",
    "form",
    "penjing_class",
    "kind",
    "visibility",
    "public_from",
    "label",
    "credit_line",
    "talking_points",
    "label_written",
    "portrait",
    "hazards",
)
"""Keys whose values the model takes as they are."""


def other_number_of(schema: OtherNumberSchema) -> OtherNumber:
    """The number as the model has it."""
    return OtherNumber(schema.number, schema.given_by, schema.from_, schema.until)


def member_of(schema: MemberSchema, number: int, where: Where) -> Member:
    """The member as the model has it; one without an id is called by its accession or its number in the list."""
    return Member(where=where, **{"id": schema.accession or f"member-{number}", **schema.written()})


def kin_of(schema: KinSchema) -> Kin:
    """The relative as the model has it."""
    return Kin(schema.text, schema.holder, schema.url)


def not_shown_of(schema: NotShownSchema) -> NotShown:
    """The reason as the model has it."""
    return NotShown(schema.when, schema.until, schema.why)
