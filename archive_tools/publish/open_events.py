"""The events that the lines of an edition rest on, by their addresses, and which of them told of a change of hands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from archive_tools.model.event import Event
from archive_tools.model.findings import Bounds, CustodyPeriod, TreeChronology
from archive_tools.model.grades import Milestone
from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.view import EditionView
from archive_tools.publish.open_models import Addresses, part


@dataclass(frozen=True, slots=True)
class Told:
    """An event of the edition, with the bounds worked out for it."""

    address: str
    event: Event
    bounds: Bounds
    until: Bounds | None

    @property
    def kind(self) -> str:
        """The kind of event."""
        return self.event.kind


def events_of(view: EditionView, at: Addresses) -> dict[str, Told]:
    """Every event of the edition that is not planned and may have happened by its as-of day, by address."""
    told: dict[str, Told] = {}
    for accession, tree in view.records.trees.items():
        told |= _told(at, at.tree(accession), tree.events, view.findings.chronologies.get(accession), view.as_of)
    for object_id, thing in view.records.objects.items():
        address = at.thing(object_id)
        if address:
            told |= _told(at, address, thing.events, None, view.as_of)
    return told


def _told(
    at: Addresses, home: str, events: Iterable[Event], chronology: TreeChronology | None, as_of: date
) -> dict[str, Told]:
    found = {one.id: one for one in chronology.events} if chronology else {}
    told = {}
    for event in events:
        known = found.get(event.id)
        bounds = known.bounds if known else Bounds(*_written(event)) if event.when else Bounds()
        until = known.until if known else Bounds(event.until.earliest, event.until.latest) if event.until else None
        if not event.planned and (bounds.earliest is None or bounds.earliest <= as_of):
            address = at.event(home, event.id)
            told[address] = Told(address, event, bounds, until)
    return told


def _written(event: Event) -> tuple[date | None, date | None]:
    assert event.when is not None
    return event.when.earliest, event.when.latest


def beginning_of(told: Iterable[Told]) -> Told | None:
    """The event by which a plant or planting came to be, the first if several say so; None where none is recorded."""
    begun = [one for one in told if Milestone.ORIGIN in KINDS[one.kind].begins or one.kind == "assembled"]
    return min(begun, key=_order, default=None)


def end_of(told: Iterable[Told]) -> Told | None:
    """The event by which it died."""
    return min((one for one in told if one.kind == "died"), key=_order, default=None)


def _order(told: Told) -> tuple[date, date]:
    return told.bounds.earliest or told.bounds.latest or date.max, told.bounds.latest or date.max


def passed_by(period: CustodyPeriod, told: Told | None) -> Told | None:
    """The event by which a period began; None where the one that is known only shows that it had begun.

    Whoever gives a tree had it before: that it came to them is certain, by what event is not, and none is made up.
    """
    if told is None:
        return None
    kind = KINDS[told.kind]
    if period.how in ("first hands", "planting"):
        return told if kind.group in (Group.BEGINNING, Group.PLANTING) else None
    changes_hands = kind.custody not in ("", "presence") or told.kind == "quarantine"
    return told if period.how == told.kind and changes_hands else None


@dataclass(frozen=True, slots=True)
class Holding:
    """A period in which somebody held a thing, with its address and what is known of its begin and end.

    by: the event by which it began; shown_by: one that only shows that it had begun; left_by: the one by which it
    ended; before: the holding from which it came directly, so that nobody is missing between them.
    """

    address: str
    period: CustodyPeriod
    by: Told | None
    shown_by: Told | None
    left_by: Told | None
    before: Holding | None


def holdings(
    thing: str, periods: Sequence[CustodyPeriod], events: Mapping[str, Told], at: Addresses, end: Told | None
) -> list[Holding]:
    """The holdings of one thing in order of time, without the gaps. `end`: the event by which it ceased to be."""
    owned = [period for period in periods if period.owner]
    found: dict[int, Holding] = {}
    met: dict[str, int] = {}
    for period in periods:
        if period.is_gap:
            continue
        told = events.get(at.event(thing, period.event)) if period.event else None
        by = passed_by(period, told)
        place = next((i for i, one in enumerate(owned) if one is period), None)
        before = found.get(id(owned[place - 1])) if place else None
        address = part(thing, "held", *_called(period))
        met[address] = met.get(address, 0) + 1
        address += f"/{met[address]}" if met[address] > 1 else ""
        left = _left_by(thing, owned, place, events, at, end)
        found[id(period)] = Holding(address, period, by, None if by else told, left, before)
    return list(found.values())


def _called(period: CustodyPeriod) -> list[str]:
    """What tells a holding from the others of the same thing: the event, and how it rests on it."""
    if period.event is None:
        return [period.how]
    return [period.event] if period.how not in ("estate", "family", "not known how") else [period.event, period.how]


def _left_by(
    thing: str,
    owned: Sequence[CustodyPeriod],
    place: int | None,
    events: Mapping[str, Told],
    at: Addresses,
    end: Told | None,
) -> Told | None:
    if place is None:
        return None
    if owned[place].left_by:
        return events.get(at.event(thing, owned[place].left_by or ""))
    following = owned[place + 1] if place + 1 < len(owned) else None
    if following is None:
        return end if end is not None and owned[place].end is not None else None
    return passed_by(following, events.get(at.event(thing, following.event)) if following.event else None)
