"""Through whose hands a tree went: holders in order of time, with gaps kept as gaps.

A holder is known from a custody event that names them, or from their own work on the tree before the first such event.
Between two holders nothing is filled in: where no statement joins them, the line has a gap.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from archive_tools.model.event import Event
from archive_tools.model.findings import Bounds, Custody, CustodyPeriod, Hand, TreeChronology
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.tree import Tree
from archive_tools.reason.state import state_of

Holders = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Dated:
    """An event with the bounds that were worked out for it."""

    event: Event
    bounds: Bounds
    until: Bounds | None

    @property
    def order(self) -> tuple[date, date]:
        # What has no date at all stands last: the order written decides among equals (sorting is stable).
        return (self.bounds.earliest or date.max, self.bounds.latest or date.max)


def custody_of(tree: Tree, chronology: TreeChronology, custodian: str, as_of: date) -> Custody:
    """The line of holders of one tree up to `as_of`, its gaps, the hands that worked on it, and its present state.

    Takes graded records of one edition and the chronology solved from them.
    """
    dated = sorted((_dated(event, chronology) for event in tree.events if not event.planned), key=lambda d: d.order)
    past = [d for d in dated if d.bounds.earliest is None or d.bounds.earliest <= as_of]
    periods = _with_loans(_owners(past, custodian), _loans(past, as_of))
    return Custody(
        accession=tree.accession,
        periods=tuple(periods),
        hands=tuple(_hands(past)),
        state=state_of(tree, [(d.event, d.bounds, d.until) for d in past], periods, custodian, as_of),
    )


def _dated(event: Event, chronology: TreeChronology) -> _Dated:
    found = chronology.event(event.id)
    if found is not None:
        return _Dated(event, found.bounds, found.until)
    when = Bounds(event.when.earliest, event.when.latest) if event.when else Bounds()
    return _Dated(event, when, Bounds(event.until.earliest, event.until.latest) if event.until else None)


def _hands(past: Iterable[_Dated]) -> Iterable[Hand]:
    for d in past:
        if d.event.by and KINDS[d.event.kind].hand:
            yield Hand(d.event.by, d.event.kind, d.bounds, d.event.id, d.event.standing)


class _Line:
    """The owners' line while it is being drawn: the holder now, and the periods that are closed."""

    def __init__(self) -> None:
        self.closed: list[CustodyPeriod] = []
        self.now: CustodyPeriod | None = None

    def begin(self, holders: Holders, start: Bounds, how: str, by: _Dated | None) -> None:
        event, grade = (by.event.id, by.event.standing) if by else (None, Grade.UNSOURCED)
        self.now = CustodyPeriod(holders, start, None, how, event=event, grade=grade)

    def end(self, at: Bounds) -> None:
        if self.now is not None:
            self.closed.append(replace(self.now, end=at))
            self.now = None

    def gap(self, start: Bounds, end: Bounds, grade: str) -> None:
        self.closed.append(CustodyPeriod((), start, end, "gap", gap_grade=grade))


def _owners(past: list[_Dated], custodian: str) -> list[CustodyPeriod]:
    line = _Line()
    seen: dict[str, list[_Dated]] = {}
    for d in past:
        kind = KINDS[d.event.kind]
        if kind.custody == "collected":
            _pass_on(line, seen, d, (), d.event.to or d.event.by)
        elif kind.custody == "acquired":
            _pass_on(line, seen, d, d.event.from_, d.event.to)
        elif kind.custody == "presence":
            _found_here(line, seen, d, custodian)
        elif kind.custody == "ends":
            _pass_on(line, seen, d, d.event.from_ or (custodian,), d.event.to)
        elif d.event.kind == "died":
            line.end(d.bounds)
            break
        elif line.now is None and not line.closed and d.event.by and kind.group in (Group.BEGINNING, Group.PLANTING):
            line.begin(d.event.by, d.bounds, "first hands", d)
        for steward in (*d.event.by, *(d.event.from_ if kind.custody else ()), *(d.event.to if kind.custody else ())):
            seen.setdefault(steward, []).append(d)
    return line.closed + ([line.now] if line.now else [])


def _pass_on(line: _Line, seen: dict[str, list[_Dated]], d: _Dated, giver: Holders, receiver: Holders) -> None:
    """The tree passes from `giver` to `receiver`; either may be unknown (empty)."""
    if giver and line.now is not None and _only_lent_a_hand(line.now, d, giver):
        line.begin(giver, line.now.start, "first hands", d)
    if line.now is None and giver:
        _giver_first(line, seen, d, giver)
    elif line.now is not None and line.now.is_gap and giver:
        _out_of_the_gap(line, seen, d, giver)
    elif line.now is not None and line.now.holders and _differ(giver, line.now.holders):
        _gap_before(line, seen, d, giver)
    line.end(d.bounds)
    if receiver:
        if not giver and line.closed and line.closed[-1].is_gap:
            line.closed[-1] = replace(line.closed[-1], end=d.bounds)
        line.begin(receiver, d.bounds, d.event.kind, d)
    else:
        # It left a known hand for an unknown one: nobody is known until the next statement.
        line.now = CustodyPeriod((), d.bounds, None, "gap", event=d.event.id, gap_grade="unknown")


def _only_lent_a_hand(now: CustodyPeriod, d: _Dated, giver: Holders) -> bool:
    """Whether who began the plant did it for the giver: it passed on the day on which it was begun."""
    if now.how != "first hands" or not _differ(giver, now.holders):
        return False
    return not _before(now.start.latest, d.bounds.earliest)


def _before(day: date | None, other: date | None) -> bool:
    return day is not None and other is not None and day < other


def _differ(giver: Holders, holders: Holders) -> bool:
    return not giver or not set(giver) & set(holders)


def _giver_first(line: _Line, seen: dict[str, list[_Dated]], d: _Dated, giver: Holders) -> None:
    """The first holder known is the giver: since their first work on the tree, if there is any."""
    worked = [known for steward in giver for known in seen.get(steward, [])]
    start = worked[0].bounds if worked else Bounds(None, d.bounds.latest)
    line.begin(giver, start, "first hands", worked[0] if worked else d)


def _gap_before(line: _Line, seen: dict[str, list[_Dated]], d: _Dated, giver: Holders) -> None:
    """Nothing joins the holder so far with this event's giver: their time ends somewhere after their last evidence."""
    assert line.now is not None
    last = [known for steward in line.now.holders for known in seen.get(steward, [])]
    after = last[-1].until or last[-1].bounds if last else line.now.start
    met = [known for steward in giver for known in seen.get(steward, [])]
    until = met[0].bounds if met else d.bounds
    line.end(Bounds(after.earliest, until.latest))
    line.gap(after, until, "unknown" if giver else "presumed")
    if giver:
        line.begin(giver, Bounds(after.earliest, until.latest), "not known how", met[0] if met else d)


def _out_of_the_gap(line: _Line, seen: dict[str, list[_Dated]], d: _Dated, giver: Holders) -> None:
    """Nobody was known, and now a giver is: they had it since some day in the gap."""
    assert line.now is not None
    met = [known for steward in giver for known in seen.get(steward, []) if known.bounds.latest is not None]
    since = Bounds(line.now.start.earliest, (met[0] if met else d).bounds.latest)
    line.end(since)
    line.begin(giver, since, "not known how", met[0] if met else d)


def _found_here(line: _Line, seen: dict[str, list[_Dated]], d: _Dated, custodian: str) -> None:
    """Found among the house's trees: it came some time before, nobody knows how."""
    if line.now is not None and custodian in line.now.holders:
        return
    if line.now is not None:
        _gap_before(line, seen, d, ())
    line.begin((custodian,), Bounds(None, d.bounds.latest), "found in collection", d)


def _with_loans(owners: list[CustodyPeriod], loans: list[CustodyPeriod]) -> list[CustodyPeriod]:
    """Loans put in where they begin; the owners keep the order in which the tree went from one to the next."""
    line = list(owners)
    for loan in loans:
        begins = loan.start.earliest or date.min
        later = (i for i, p in enumerate(line) if p.start.earliest is not None and p.start.earliest > begins)
        line.insert(next(later, len(line)), loan)
    return line


def _loans(past: list[_Dated], as_of: date) -> list[CustodyPeriod]:
    loans = []
    for d in past:
        if d.event.kind != "loan" or not d.event.to:
            continue
        end = d.until or _kept_after_all(d, past)
        if end is not None and end.earliest is not None and end.earliest > as_of:
            end = None
        loans.append(
            CustodyPeriod(d.event.to, d.bounds, end, "loan", False, d.event.id, d.event.standing, lent_by=d.event.from_)
        )
    return loans


def _kept_after_all(loan: _Dated, past: list[_Dated]) -> Bounds | None:
    """A loan without an end is over when the borrower becomes the owner."""
    later = past[past.index(loan) + 1 :]
    acquired = (d for d in later if KINDS[d.event.kind].custody == "acquired" and set(d.event.to) & set(loan.event.to))
    found = next(acquired, None)
    return found.bounds if found else None
