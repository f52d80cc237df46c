"""Pots, trays, stands, stones, scrolls and accents: their own line of holders, and which trees stood in them when."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.findings import Bounds, CustodyPeriod, Hand
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS
from archive_tools.model.lineage import ObjectLine, TreeInObject
from archive_tools.model.people import CollectionObject
from archive_tools.reason.custody import line_of
from archive_tools.reason.lineage.ends import People
from archive_tools.reason.lineage.happened import Dated, happened, order_of

_OUT = frozenset({"planted out", "died", "taken apart"})
"""After these nothing stands in the pot any more; `repotted` without `into` says nothing of the pot."""


def object_lines(
    collection: Collection, past: Mapping[str, Sequence[Dated]], as_of: date, people: People
) -> dict[str, ObjectLine]:
    """The line of every object of the edition, by id."""
    stood: dict[str, list[TreeInObject]] = {}
    for accession, events in past.items():
        for spell in _pots_of(accession, events):
            stood.setdefault(spell.object, []).append(spell)
    for thing in collection.objects.values():
        for spell in _told_by_object(thing, past, as_of):
            if not any(s.tree == spell.tree and _overlap(s, spell) for s in stood.get(thing.id, ())):
                stood.setdefault(thing.id, []).append(spell)
    return {
        thing.id: _line(thing, stood.get(thing.id, []), collection.settings.custodian, as_of, people)
        for thing in collection.objects.values()
    }


def _line(
    thing: CollectionObject, stood: Sequence[TreeInObject], custodian: str, as_of: date, people: People
) -> ObjectLine:
    past = happened(thing.events, None, as_of)
    periods = line_of(past, custodian, as_of, people)
    if thing.owner and not any(period.owner for period in periods):
        periods = [CustodyPeriod((thing.owner,), Bounds(), None, "not known how")]
    in_time = sorted(past, key=lambda d: d.key)
    hands = (Hand(d.event.by, d.event.kind, d.bounds, d.event.id, d.event.standing, d.until, d.event.sources)
             for d in in_time if d.event.by and not KINDS[d.event.kind].custody)  # fmt: skip
    return ObjectLine(thing.id, tuple(periods), tuple(hands), tuple(_one_after_another(stood)))


def _pots_of(accession: str, events: Iterable[Dated]) -> list[TreeInObject]:
    """The pots of one tree in order of time, and what it was shown with."""
    spells: list[TreeInObject] = []
    now: TreeInObject | None = None
    apart: TreeInObject | None = None
    for d in sorted(events, key=lambda d: d.key):
        event = d.event
        for other in event.objects:
            if other == event.into or (now is not None and other == now.object):
                continue
            spells.append(
                TreeInObject(other, accession, "with", d.bounds, d.until or d.bounds, d.told_as, event.standing)
            )
        if event.into and now is not None and now.object == event.into:
            continue
        if now is not None and (event.into or event.kind in _OUT):
            spells.append(replace(now, end=d.bounds, until_event=d.told_as))
            apart, now = spells[-1] if event.kind == "taken apart" else None, None
        if event.into:
            if apart is not None and (apart.object, apart.end) == (event.into, d.bounds):
                # Taken apart and set back into the same tray in one work: it stands there as before.
                spells.remove(apart)
                now = replace(apart, end=None, until_event=None)
            else:
                now = TreeInObject(event.into, accession, "in", d.bounds, None, d.told_as, event.standing)
            apart = None
    return [*spells, now] if now is not None else spells


def _told_by_object(
    thing: CollectionObject, past: Mapping[str, Sequence[Dated]], as_of: date
) -> Iterable[TreeInObject]:
    """Trees that the object's own events name."""
    for d in happened(thing.events, None, as_of):
        for reference in d.event.trees:
            if reference.accession in past and reference.accession is not None:
                yield TreeInObject(
                    thing.id, reference.accession, "with", d.bounds, d.until or d.bounds, d.told_as, d.event.standing
                )


def _overlap(one: TreeInObject, other: TreeInObject) -> bool:
    end = one.end or Bounds(None, date.max)
    return order_of(one.start) <= order_of(other.start) <= order_of(end)


def _one_after_another(stood: Sequence[TreeInObject]) -> list[TreeInObject]:
    """In order of time; where another tree was set in before one is recorded as leaving, it had left by then."""
    line = sorted(stood, key=lambda spell: (order_of(spell.start), spell.tree))
    for at, spell in enumerate(line):
        if spell.sort != "in":
            continue
        after = next((s for s in line[at + 1 :] if s.sort == "in" and s.tree != spell.tree), None)
        ends = spell.end.latest if spell.end else None
        if after is None or after.start.latest is None or (ends is not None and ends <= after.start.latest):
            continue
        line[at] = replace(
            spell, end=Bounds(spell.start.earliest, after.start.latest), presumed_end=True, until_event=None,
            grade=max(spell.grade, Grade.INFERRED),
        )  # fmt: skip
    return line


def pots_by_tree(lines: Mapping[str, ObjectLine]) -> dict[str, list[TreeInObject]]:
    """By accession: what the tree stood in or was shown with, in order of time."""
    by_tree: dict[str, list[TreeInObject]] = {}
    for line in lines.values():
        for spell in line.trees:
            by_tree.setdefault(spell.tree, []).append(spell)
    for spells in by_tree.values():
        spells.sort(key=lambda spell: (order_of(spell.start), spell.object))
    return by_tree
