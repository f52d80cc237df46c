"""Who held a thing without owning it: loans and quarantine; and joint owners of whom one died."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from archive_tools.model.findings import Bounds, CustodyPeriod
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS
from archive_tools.reason.lineage.ends import People
from archive_tools.reason.lineage.happened import Dated, order_of

Holders = tuple[str, ...]


def with_loans(owners: list[CustodyPeriod], loans: list[CustodyPeriod]) -> list[CustodyPeriod]:
    """Loans put in where they begin; the owners keep the order in which the thing went from one to the next."""
    line = list(owners)
    for loan in loans:
        begins = loan.start.earliest or date.min
        later = (i for i, p in enumerate(line) if p.start.earliest is not None and p.start.earliest > begins)
        line.insert(next(later, len(line)), loan)
    return line


def loans(turns: Sequence[Dated], as_of: date) -> list[CustodyPeriod]:
    """The times in which somebody had it who did not own it."""
    found = []
    for at, d in enumerate(turns):
        keeper = _keeper(d)
        if not keeper:
            continue
        end = d.until or _over(keeper, d, turns[at + 1 :])
        if end is not None and end.earliest is not None and end.earliest > as_of:
            end = None
        found.append(
            CustodyPeriod(
                keeper, d.bounds, end, d.event.kind, False, d.told_as, d.event.standing, lent_by=d.event.from_,
                joint=len(keeper) > 1, sources=d.event.sources,
            )
        )  # fmt: skip
    return found


def _keeper(d: Dated) -> Holders:
    if d.event.kind == "loan":
        return d.event.to
    # A station that kept it in quarantine is named as receiving it, or as acting.
    return (d.event.to or d.event.by) if d.event.kind == "quarantine" else ()


def _over(keeper: Holders, loan: Dated, later: Sequence[Dated]) -> Bounds | None:
    """A loan without an end is over when the borrower becomes the owner, when it passes to others, or when it dies."""
    for d in later:
        receiver = d.passes[1] if d.passes else d.event.to
        if KINDS[d.event.kind].custody == "acquired" and set(receiver) & set(keeper):
            return d.bounds
        if d.event.kind == "died":
            return d.bounds
        if d.event.kind == loan.event.kind and _keeper(d):
            return Bounds(loan.bounds.earliest, d.bounds.latest)
        if KINDS[d.event.kind].custody in ("acquired", "ends"):
            return Bounds(loan.bounds.earliest, d.bounds.latest)
    return None


def survivors(owners: Sequence[CustodyPeriod], people: People, turns: Sequence[Dated]) -> list[CustodyPeriod]:
    """Joint owners of whom one died in the meantime: from then on the others alone, unless an event says otherwise."""
    gives = {d.told_as: d for d in turns}
    line: list[CustodyPeriod] = []
    for at, period in enumerate(owners):
        following = owners[at + 1] if at + 1 < len(owners) else None
        giver = gives[following.event].event.from_ if following and following.event in gives else ()
        line += _split(period, people, giver)
    return line


def _split(period: CustodyPeriod, people: People, giver: Holders) -> list[CustodyPeriod]:
    parts = [period]
    if not period.owner or len(period.holders) < 2:
        return parts
    deaths = [(order_of(died), one, died) for one in period.holders if (died := people.end_of(one)) is not None]
    for _, one, died in sorted(deaths, key=lambda death: death[0]):
        last = parts[-1]
        left = tuple(other for other in last.holders if other != one)
        if not left or one in giver or not _within(died, last):
            continue
        grade = max(period.grade, Grade.INFERRED)
        parts[-1] = replace(last, end=died)
        parts.append(
            replace(last, holders=left, start=died, how="survivor", grade=grade, joint=len(left) > 1, event=None,
                    through=(), sources=())
        )  # fmt: skip
    return parts


def _within(died: Bounds, period: CustodyPeriod) -> bool:
    """Whether the death certainly lies within the period."""
    if died.earliest is None or died.latest is None or period.start.latest is None:
        return False
    if died.earliest < period.start.latest:
        return False
    return period.end is None or (period.end.earliest is not None and died.latest <= period.end.earliest)
