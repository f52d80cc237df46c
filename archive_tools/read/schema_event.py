"""An event as written, in `events:` or as a note's front matter."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, model_validator

from archive_tools.model.event import Event, EventRef, Measured, Rings, StatedAge, Timing
from archive_tools.model.places_in_files import Where
from archive_tools.model.vocabulary import RINGS_OF, SHOWS
from archive_tools.read.fields import (
    EventKind,
    House,
    HowSure,
    Id,
    MilestoneName,
    Record,
    Text,
    TextOrLanguages,
    Texts,
    WhoMaySee,
    YesOrNo,
    as_list,
    one_of,
    shown,
    text_of,
    wrong,
)
from archive_tools.read.fields_of_time import (
    Count,
    CountOrNone,
    Length,
    Number,
    Sector,
    Share,
    Turn,
    Uncertainty,
    When,
    whole,
)
from archive_tools.read.schema_common import AnEvent, Citations, TreesOrEvents

STATEMENTS_IN_EVENT = ("timing", "states_age", "rings", "measured")
"""Keys of an event whose items can be left out without it."""

_AGE = re.compile(r"(>=)?([0-9]{1,4})(~)?|([0-9]{1,4})\.\.([0-9]{1,4})")


class TimingSchema(Record):
    """After or before another event, by so much."""

    after: AnEvent | None = None
    before: AnEvent | None = None
    at_least: Length | None = None
    at_most: Length | None = None

    @model_validator(mode="after")
    def _one_relation(self) -> TimingSchema:
        if (self.after is None) == (self.before is None):
            what = "a timing says either `after` or `before`" + (", not both" if self.after else "")
            raise wrong("bad-value", what, "after: and the id of an event")
        if self.at_least and self.at_most and _days(self.at_least) > _days(self.at_most):
            raise wrong("bad-duration", "`at_least` is longer than `at_most`", "the shorter one as `at_least`")
        return self


def _days(length: Length) -> float:
    return length.whole_months * 30.436875 + length.days


def _years(value: Any) -> tuple[str, int, int | None, bool]:
    text = text_of(value, "years")
    found = _AGE.fullmatch(text)
    if not found:
        forms = '60, ">=60", 60~ or 55..60'
        raise wrong("bad-value", f"“{shown(text)}” is no number of years", forms)
    at_least, years, about, first, last = found.groups()
    if first:
        if int(first) > int(last):
            raise wrong("bad-value", f"“{text}” ends before it begins", f"{last}..{first}")
        return text, int(first), int(last), False
    if at_least and about:
        raise wrong("bad-value", f"“{text}” is both a least and an about", f'">={years}" or {years}~')
    return text, int(years), None if at_least else int(years), bool(about)


class StatedAgeSchema(Record):
    """Somebody's statement of an age."""

    of: MilestoneName
    years: Annotated[tuple[str, int, int | None, bool], PlainValidator(_years)]
    as_of: When | None = None


def _missed(value: Any) -> tuple[int, int | None]:
    text = text_of(value, "a number of rings")
    first, dots, last = text.partition("..")
    fewest = whole(first, 0, 9999)
    most = whole(last, 0, 9999) if dots else fewest
    if most < fewest:
        raise wrong("bad-value", f"“{text}” ends before it begins", f"{most}..{fewest}")
    return fewest, most


class RingsSchema(Record):
    """Annual rings counted."""

    count: Count
    missed: Annotated[tuple[int, int | None], PlainValidator(_missed)] | None = None
    false: CountOrNone | None = None
    of: Annotated[str, one_of(RINGS_OF, "a part whose rings are counted")] | None = None
    up_to: AnEvent | None = None

    @model_validator(mode="after")
    def _some_left(self) -> RingsSchema:
        if self.false is not None and self.false >= self.count:
            raise wrong("bad-number", "as many rings are `false` as were counted", "fewer false rings")
        return self


class MeasuredSchema(Record):
    """One thing measured."""

    what: Text
    value: Number
    unit: Text | None = None
    plus_minus: Uncertainty | None = None


Shown = Annotated[
    tuple[Annotated[str, one_of(SHOWS, "something a source shows of the tree")], ...], BeforeValidator(as_list)
]


class EventKeys(Record):
    """The keys that an event and a note's front matter share."""

    id: Id | None = None
    when: When | None = Field(None, alias="date")
    until: When | None = None
    by: Texts | None = None
    from_: Texts | None = Field(None, alias="from")
    to: Texts | None = None
    joint: YesOrNo | None = None
    with_: Texts | None = Field(None, alias="with")
    from_tree: Text | None = None
    at: Text | None = None
    into: Text | None = None
    objects: Texts | None = None
    share: Share | None = None
    sector: Sector | None = None
    cycle: Text | None = None
    turned: Turn | None = None
    was: TextOrLanguages | None = None
    becomes: TextOrLanguages | None = None
    cause: Text | None = None
    award: TextOrLanguages | None = None
    awarded_by: Text | None = None
    planned: YesOrNo | None = None
    does: Id | None = None
    measured: Annotated[tuple[MeasuredSchema | None, ...], BeforeValidator(as_list)] | None = None
    sources: Citations | None = Field(None, alias="source")
    grade: HowSure | None = None
    shows: Shown | None = None
    visibility: WhoMaySee | None = None
    public_from: When | None = None
    title: TextOrLanguages | None = None
    text: TextOrLanguages | None = None
    timing: Annotated[tuple[TimingSchema | None, ...], BeforeValidator(as_list)] | None = None
    states_age: Annotated[tuple[StatedAgeSchema | None, ...], BeforeValidator(as_list)] | None = None
    rings: RingsSchema | None = None


class EventSchema(EventKeys):
    """The keys of an event."""

    kind: EventKind
    trees: TreesOrEvents | None = None


def event_of(schema: EventKeys, where: Where, house: House, **known: Any) -> Event:
    """The event as the model has it; `known` are the fields that its surroundings give (id, tree …)."""
    values = schema.written()
    values.update(known)
    if "measured" in values:
        values["measured"] = tuple(
            Measured(one.what, one.value, one.unit or "cm", one.plus_minus) for one in schema.measured or () if one
        )
    if "timing" in values:
        values["timing"] = timings_of(schema.timing, where)
    if "states_age" in values:
        values["states_age"] = tuple(
            StatedAge(one.of, *one.years, one.as_of, where_item(where, "states_age", number))
            for number, one in enumerate(schema.states_age or ())
            if one
        )
    if schema.rings is not None:
        values["rings"] = _rings(schema.rings, where)
    if schema.from_tree is not None:
        mother = _mother(schema.from_tree, house)
        del values["from_tree"]
        values["from_tree_text" if mother is None else "from_tree"] = mother or schema.from_tree
    return Event(where=where, **values)


def timings_of(schemas: tuple[TimingSchema | None, ...] | None, where: Where) -> tuple[Timing, ...]:
    """The lapses of time under `timing` of the record at `where`."""
    made = []
    for number, one in enumerate(schemas or ()):
        other = (one.after or one.before) if one else None
        if one and other:
            relation = "after" if one.after else "before"
            made.append(Timing(relation, other, one.at_least, one.at_most, where_item(where, "timing", number)))
    return tuple(made)


def where_item(where: Where, key: str, number: int) -> Where:
    """The places of an item of a list, or of the one value that stands alone for it."""
    alone = (*where.base, key, number) not in where.marks
    return where.inner(key) if alone else where.inner(key, number)


def _rings(schema: RingsSchema, where: Where) -> Rings:
    missed = schema.missed if schema.missed is not None else (0, None)
    return Rings(schema.count, missed, schema.false or 0, schema.of, schema.up_to, where.inner("rings"))


def _mother(text: str, house: House) -> EventRef | None:
    accession, sign, event = text.partition("#")
    if sign and event and " " not in accession.strip():
        return EventRef(accession.strip(), event.strip())
    return EventRef(text, None) if house.is_accession(text) else None
