"""Ids of events: as written, else made of kind and date, so that proofs and links can name each one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from typing import Any

from archive_tools.model.event import Event
from archive_tools.model.problems import Reach
from archive_tools.read.fields import House, as_list
from archive_tools.read.folders import Telling
from archive_tools.read.schema_event import EventSchema, event_of, where_item
from archive_tools.read.validation import Written


def ids_of_events(raw: Any, taken: Iterable[str] = ()) -> list[str]:
    """An id for each raw event of a list, those left out for their faults included.

    One without an id is called after its kind and date (`repotted-2003-03`), with a number where that
    is taken already; written ids and `taken` come first.
    """
    items = as_list(raw) or []
    given = [_given(item) for item in items]
    used = {*taken, *(one for one in given if one)}
    ids = []
    for item, own in zip(items, given, strict=True):
        name = own or _first_free(_made(item), used)
        used.add(name)
        ids.append(name)
    return ids


def events_of(
    schemas: Iterable[EventSchema | None] | None, ids: list[str], written: Written, house: House, tree: str
) -> list[Event]:
    """The events under `events` of the record `written`, each with its id."""
    return [
        event_of(schema, where_item(written.where, "events", number), house, id=ids[number], tree=tree)
        for number, schema in enumerate(schemas or ())
        if schema is not None
    ]


def each_once(events: Iterable[Event], owner: str, telling: Telling) -> tuple[Event, ...]:
    """The events with one of each id; a later one of the same id is told and left out as `id#2`."""
    kept: dict[str, Event] = {}
    times: dict[str, int] = {}
    for event in events:
        first = kept.setdefault(event.id, event)
        times[event.id] = times.get(event.id, 0) + 1
        if first is event:
            continue
        mark, other = event.where.at("id"), first.where.at("id")
        what = f"the id `{event.id}` is borne by another event of {owner} already ({other})"
        instead = _first_free(event.id, set(kept))
        subject = (owner, "event", f"{event.id}#{times[event.id]}")
        telling.error(mark, "duplicate-id", what, instead, Reach.STATEMENT, subject)
    return tuple(kept.values())


def _given(item: Any) -> str | None:
    own = item.get("id") if isinstance(item, dict) else None
    return own.strip() or None if isinstance(own, str) else None


def _made(item: Any) -> str:
    if not isinstance(item, dict):
        return "event"
    parts = [item.get("kind"), item.get("date")]
    return slug(" ".join(part for part in parts if isinstance(part, str))) or "event"


def slug(text: str) -> str:
    """Small letters and digits, joined by single dashes."""
    plain = unicodedata.normalize("NFKD", text).casefold().encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


def _first_free(name: str, used: set[str]) -> str:
    if name not in used:
        return name
    number = 2
    while f"{name}-{number}" in used:
        number += 1
    return f"{name}-{number}"
