"""Lines of holders that cannot be: who gives what they did not have, owns beside another, or holds when not alive."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from archive_tools.check.circles import circles, written_at
from archive_tools.check.telling import error, in_event, in_value, listed, warning
from archive_tools.model.collection import Collection
from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Event
from archive_tools.model.findings import CustodyPeriod, Findings
from archive_tools.model.kinds import KINDS
from archive_tools.model.people import Steward
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem
from archive_tools.model.tree import Tree

_BY_A_STATEMENT = ("acquired", "collected", "ends", "presence")
_INDEFINITE = {"exchange": "an exchange"}


def owners_without_joint(collection: Collection) -> Iterator[Problem]:
    """A change of owners to several at once that does not say that they own it jointly."""
    for tree in collection.trees.values():
        for event in tree.events:
            kind = KINDS.get(event.kind)
            if kind is None or kind.custody not in ("acquired", "ends") or len(event.to) < 2 or event.joint:
                continue
            called = _INDEFINITE.get(event.kind, f"a {event.kind}")
            what = f"{called} to {listed(event.to)} makes two owners at once, and `joint` is not written"
            instead = "`joint: true`, or the one who owned it, and the others in an event of their own"
            yield warning(event.where.at("to"), "owners-without-joint", what, instead)


def circles_of_plantings(collection: Collection) -> Iterator[Problem]:
    """Plantings that would stand in each other."""
    links: dict[tuple[str, str], tuple[str, int]] = {}
    for tree in collection.trees.values():
        for index, member in enumerate(tree.members):
            if member.accession:
                links.setdefault((tree.accession, member.accession), (tree.accession, index))
    graph: dict[str, list[str]] = {}
    for planting, member_accession in links:
        graph.setdefault(planting, []).append(member_accession)
    for circle in circles(graph):
        pairs = [(one, circle[(at + 1) % len(circle)]) for at, one in enumerate(circle)]
        marks = [collection.trees[links[pair][0]].members[links[pair][1]].where.at("accession") for pair in pairs]
        what = (
            f"{circle[0]} is written as a member of itself"
            if len(circle) == 1
            else f"these plantings would each hold the next and the last the first: {listed(circle)}"
        )
        index = links[pairs[0]][1]
        record = ("tree", circle[0])
        what += written_at(marks)
        yield in_value(marks[0], record, f"members/{index}", "circle-of-plantings", what, "the real members alone")


def things_held_by_the_dead(collection: Collection) -> Iterator[Problem]:
    """Whoever gives or receives a pot, tray or stone is alive then. (Of trees, their chronologies tell.)"""
    for thing in collection.objects.values():
        for event in thing.events:
            for key, hands in (("from", event.from_), ("to", event.to), ("by", event.by)):
                for index, one in enumerate(hands):
                    steward = collection.stewards.get(one)
                    fault = _not_alive(event, key, steward) if steward else None
                    if fault is not None and steward is not None:
                        about, when = fault
                        what = f"{one} {about} {when.text} ({steward.where.at('died' if about == 'died' else 'born')})"
                        what += f", and this was {event.when.text if event.when else ''}"
                        instead = "the right date, or whose hands it really was"
                        yield in_event(thing.id, event, (key, index), "holder-not-alive", what, instead)


def _not_alive(event: Event, key: str, steward: Steward) -> tuple[str, WhenWritten] | None:
    if event.when is None or event.planned:
        return None
    born, died = steward.born, steward.died
    if born and born.earliest and event.when.latest and event.when.latest < born.earliest:
        return "was born", born
    may_follow = key == "from" and (event.kind == "bequest" or steward.kind == "estate")
    if died and died.latest and event.when.earliest and died.latest < event.when.earliest and not may_follow:
        return "died", died
    return None


def givers_who_did_not_hold(collection: Collection, findings: Findings) -> Iterator[Problem]:
    """A change of hands from somebody, while another is the last who is known to have had it."""
    for accession, custody in findings.custodies.items():
        tree = collection.trees.get(accession)
        if tree is None:
            continue
        owned = [period for period in custody.periods if period.owner]
        for at, gap in enumerate(owned):
            if gap.is_gap and 0 < at < len(owned) - 1:
                yield from _gave_without(tree, owned[at - 1], owned[at + 1], owned[at + 2 : at + 3])


def _gave_without(
    tree: Tree, before: CustodyPeriod, giver: CustodyPeriod, following: Sequence[CustodyPeriod]
) -> Iterator[Problem]:
    had = tree.event(before.event or "")
    if had is None or KINDS[had.kind].custody not in _BY_A_STATEMENT or before.left_by or giver.how != "not known how":
        return
    gives = tree.event((following[0].event if following else giver.left_by) or "")
    if gives is None or not set(gives.from_) & set(giver.holders):
        return
    what = (
        f"{listed(gives.from_)} gives it here, and the last who is known to have had it is {listed(before.holders)} "
        f"({had.where.at('to' if had.to else 'kind')})"
    )
    instead = f"the event by which it came to {listed(gives.from_)}, or who really gave it"
    yield warning(gives.where.at("from"), "giver-did-not-hold", what, instead)


def owners_who_differ(collection: Collection, findings: Findings) -> Iterator[Problem]:
    """An object whose `owner` is not the one whom its events make its owner."""
    for thing in collection.objects.values():
        line = findings.objects.get(thing.id)
        last = [period for period in line.periods if period.owner] if line else []
        if thing.owner is None or not last or last[-1].is_gap or last[-1].event is None:
            continue
        if last[-1].end is None and thing.owner not in last[-1].holders:
            event = next((e for e in thing.events if e.id == last[-1].event), None)
            mark: Mark = event.where.at("to") if event else thing.where.at("events")
            what = f"`owner` is {thing.owner}, and by its events {listed(last[-1].holders)} owns it ({mark})"
            yield error(thing.where.at("owner"), "owner-differs", what, listed(last[-1].holders))
