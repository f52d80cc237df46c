"""What is planned, and what is dated after today."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from archive_tools.check.telling import in_event, warning
from archive_tools.check.walk import all_events
from archive_tools.model.collection import Collection
from archive_tools.model.event import Event
from archive_tools.model.problems import Problem


def plans_not_ahead(collection: Collection, today: date) -> Iterator[Problem]:
    """A planned event without a date, or whose date is over, that no event has done."""
    for _, event, siblings in _with_siblings(collection):
        if not event.planned or any(other.does == event.id for other in siblings):
            continue
        if event.when is None:
            what, at = "this is planned, and no date says for when", "planned"
        elif event.when.latest is not None and event.when.latest < today:
            what, at = f"this was planned for {event.when.text}, and no event says that it was done", "date"
        else:
            continue
        instead = "a new `date`, or `does` in the event that did it"
        yield warning(event.where.at(at), "plan-not-ahead", what, instead)


def plans_done_wrongly(collection: Collection) -> Iterator[Problem]:
    """`does` that names an event which was not planned."""
    for owner, event, siblings in _with_siblings(collection):
        planned = next((other for other in siblings if other.id == event.does), None)
        if event.does and planned is not None and planned is not event and not planned.planned:
            what = f"`does` names a planned event, and “{event.does}” is not planned"
            instead = f"`planned: true` in “{event.does}”, or another id"
            yield in_event(owner, event, ("does",), "does-no-plan", what, instead)


def not_yet(collection: Collection, today: date) -> Iterator[Problem]:
    """An event that is not planned and dated after today."""
    for _, event in all_events(collection):
        if not event.planned and event.when and event.when.earliest and event.when.earliest > today:
            what = f"{event.when.text} is still to come, and this is not planned"
            yield warning(event.where.at("date"), "not-yet", what, "the right date, or `planned: true`")


def _with_siblings(collection: Collection) -> Iterator[tuple[str, Event, tuple[Event, ...]]]:
    for tree in collection.trees.values():
        for event in tree.events:
            yield tree.accession, event, tree.events
    for thing in collection.objects.values():
        for event in thing.events:
            yield thing.id, event, thing.events
