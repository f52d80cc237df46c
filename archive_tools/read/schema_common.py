"""What several records share: citations of sources, and references to events and trees."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, PlainValidator, ValidatorFunctionWrapHandler, WrapValidator, model_validator

from archive_tools.model.event import Citation, EventRef
from archive_tools.read.fields import Id, Record, Text, as_list, shown, text_of, wrong


class CitationSchema(Record):
    """A source and the spot in it."""

    id: Id
    at: Text | None = None
    quote: Text | None = None

    @model_validator(mode="before")
    @classmethod
    def _from_id(cls, value: Any) -> Any:
        return {"id": value} if isinstance(value, str) else value


def _cited(value: Any, handler: ValidatorFunctionWrapHandler) -> tuple[Citation, ...]:
    return tuple(Citation(one.id, one.at, one.quote) for one in handler(as_list(value)))


Citations = Annotated[tuple[CitationSchema, ...], WrapValidator(_cited)]


def tree_or_event(value: Any) -> EventRef:
    """`value` as `accession` or `accession#event`."""
    text = text_of(value, "an accession")
    accession, sign, event = (part.strip() for part in text.partition("#"))
    if not accession or (sign and not event) or "#" in event:
        raise wrong("bad-reference", f"“{shown(text)}” names no tree", "an accession, or accession#event")
    return EventRef(accession, event or None)


def _event(value: Any) -> EventRef:
    text = text_of(value, "an event")
    before, sign, after = (part.strip() for part in text.partition("#"))
    if not sign:
        return EventRef(None, text)
    if not before or not after or "#" in after:
        raise wrong("bad-reference", f"“{shown(text)}” names no event", "the id of an event, or accession#event")
    return EventRef(before, after)


TreeOrEvent = Annotated[EventRef, PlainValidator(tree_or_event)]
TreesOrEvents = Annotated[tuple[TreeOrEvent, ...], BeforeValidator(as_list)]
AnEvent = Annotated[EventRef, PlainValidator(_event)]
