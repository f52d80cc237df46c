"""A note's front matter, and that of a hand-written page, as written."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import PlainValidator, model_validator

from archive_tools.model.event import EventRef
from archive_tools.model.grades import Edition
from archive_tools.read.fields import EventKind, Id, Record, TextOrLanguages, as_list, one_of, wrong
from archive_tools.read.schema_common import TreesOrEvents, tree_or_event
from archive_tools.read.schema_event import EventKeys
from archive_tools.read.schema_grounds import QUERY

KEYS_OF_A_TEXT = frozenset({"id", "when", "title", "by", "sources", "visibility", "public_from", "event", "trees"})
"""Fields that a note without `kind` uses; the others say something of an event."""


class AnyNoteSchema(EventKeys):
    """What notes in a tree's folder and notes about several trees share."""

    kind: EventKind | None = None
    event: Id | None = None

    @model_validator(mode="after")
    def _said_once(self) -> AnyNoteSchema:
        if self.kind is not None and self.event is not None:
            what = "`kind` makes this note an event of its own, and `event` attaches it to one already recorded"
            raise wrong("bad-value", what, "one of the two")
        return self


class NoteSchema(AnyNoteSchema):
    """The front matter of a note in a tree's folder."""

    trees: TreesOrEvents | None = None


def _trees_or_query(value: Any) -> tuple[EventRef, ...] | str:
    if isinstance(value, str) and QUERY.match(value):
        return value.strip()
    found = tuple(tree_or_event(item) for item in as_list(value) or ())
    if not found:
        raise wrong("missing-value", "nothing is written here, and accessions or a query are expected")
    return found


class SharedNoteSchema(AnyNoteSchema):
    """The front matter of a note about several trees."""

    trees: Annotated[tuple[EventRef, ...] | str, PlainValidator(_trees_or_query)]


class PageSchema(Record):
    """The front matter of a hand-written page."""

    title: TextOrLanguages | None = None
    edition: Annotated[str, one_of(tuple(Edition), "an edition")] | None = None
