"""Through whose hands a thing went: holders in order of time, gaps kept as gaps, and the hands that worked on it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from archive_tools.model.findings import Custody, CustodyPeriod, Hand, Presence, TreeChronology
from archive_tools.model.kinds import KINDS
from archive_tools.model.tree import Tree
from archive_tools.reason.lineage.ends import NOBODY, People
from archive_tools.reason.lineage.gaps import graded_gaps
from archive_tools.reason.lineage.happened import Dated, happened, in_order, is_turn
from archive_tools.reason.lineage.loans import loans, survivors, with_loans
from archive_tools.reason.lineage.owners import Line, owners
from archive_tools.reason.state import state_of


def custody_of(
    tree: Tree,
    chronology: TreeChronology,
    custodian: str,
    as_of: date,
    people: People = NOBODY,
) -> Custody:
    """The line of holders of one tree up to `as_of`, its gaps, the hands that worked on it, and its present state.

    Takes graded records of one edition and the chronology solved from them. What other records tell of the tree is not
    in it: see `reason.lineage.trees`.
    """
    return custody_from(tree, happened(tree.events, chronology, as_of), (), custodian, as_of, people)


def custody_from(
    tree: Tree, past: Sequence[Dated], told: Sequence[Dated], custodian: str, as_of: date, people: People
) -> Custody:
    """The same from events whose bounds are worked out. told: what other records tell of the tree's custody."""
    periods = line_of([*past, *told], custodian, as_of, people)
    in_time = sorted(past, key=lambda d: d.key)
    return Custody(
        accession=tree.accession,
        periods=tuple(periods),
        hands=tuple(hands_of(in_time)),
        state=state_of(tree, [(d.event, d.bounds, d.until) for d in in_time], periods, custodian, as_of),
        present=tuple(_present(in_time)),
    )


def line_of(past: Sequence[Dated], custodian: str, as_of: date, people: People = NOBODY) -> list[CustodyPeriod]:
    """The holders that these events of one thing make, in order of time: owners, gaps, loans and quarantine."""
    turns = in_order([d for d in past if is_turn(d)])
    owned = owners(turns, Line(custodian, people, _seen(past)), as_of)
    owned = survivors(owned, people, turns)
    owned = _with_returns(owned, turns)
    owned = graded_gaps(owned, past, people)
    lent = [loan for loan in loans(turns, as_of) if not _owns_it(loan, owned)]
    return with_loans(owned, lent)


def _seen(past: Sequence[Dated]) -> Mapping[str, Sequence[Dated]]:
    """By steward: the events that name them as acting, giving or receiving, in order of time."""
    seen: dict[str, list[Dated]] = {}
    for d in sorted(past, key=lambda d: d.key):
        event = d.event
        if d.passes:
            named: tuple[str, ...] = (*d.passes[0], *d.passes[1])
        else:
            named = (*event.by, *event.from_, *event.to) if KINDS[event.kind].custody else event.by
        for steward in dict.fromkeys(named):
            seen.setdefault(steward, []).append(d)
    return seen


def _with_returns(owned: Sequence[CustodyPeriod], turns: Sequence[Dated]) -> list[CustodyPeriod]:
    """Exchanges with what was given in return."""
    given = {}
    for d in turns:
        if d.event.kind == "exchange":
            trees = tuple(one.accession for one in d.event.trees if one.accession)
            given[d.told_as] = (d.told_as.split("#")[0],) if d.passes and "#" in d.told_as else trees
    return [
        replace(period, given_in_return=given.get(period.event or "", ())) if period.how == "exchange" else period
        for period in owned
    ]


def _owns_it(loan: CustodyPeriod, owned: Sequence[CustodyPeriod]) -> bool:
    """Whether somebody who keeps it in quarantine owns it at that time."""
    if loan.how != "quarantine":
        return False
    begins = loan.start.earliest or date.min
    return any(
        period.owner
        and set(loan.holders) <= set(period.holders)
        and (period.start.earliest or date.min) <= begins
        and (period.end is None or (period.end.latest or date.max) > begins)
        for period in owned
    )


def hands_of(past: Iterable[Dated]) -> Iterable[Hand]:
    """Who worked on it, in order of time."""
    for d in past:
        if d.event.by and KINDS[d.event.kind].hand:
            event = d.event
            yield Hand(event.by, event.kind, d.bounds, event.id, event.standing, d.until, event.sources)


def _present(past: Iterable[Dated]) -> Iterable[Presence]:
    for d in past:
        if d.event.with_:
            event = d.event
            yield Presence(event.with_, event.kind, d.bounds, event.id, event.standing, d.until, event.sources)
