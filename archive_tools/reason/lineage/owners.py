"""The owners of one thing in order of time, with gaps kept as gaps.

A holder is known from a custody event that names them, or from their own work on the thing before the first such event.
Between two holders nothing is filled in: where no statement joins them, the line has a gap.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from archive_tools.model.findings import Bounds, CustodyPeriod
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS, Group
from archive_tools.reason.lineage.ends import Holders, People
from archive_tools.reason.lineage.happened import Dated, order_of

Seen = Mapping[str, Sequence[Dated]]
"""By steward: the events that name them as acting, giving or receiving, in order of time."""
_SOLD_ON = ("purchase", "sold", "exchange")


@dataclass(slots=True)
class Line:
    """The owners' line while it is being drawn: the holder now, and the periods that are closed."""

    custodian: str
    people: People
    seen: Seen
    borrowing: set[str] = field(default_factory=set)
    closed: list[CustodyPeriod] = field(default_factory=list)
    now: CustodyPeriod | None = None
    dead: bool = False

    def begin(self, holders: Holders, start: Bounds, how: str, by: Dated | None, grade: Grade | None = None) -> None:
        """A period of these holders begins."""
        self.now = CustodyPeriod(
            holders,
            start,
            None,
            how,
            event=by.told_as if by else None,
            grade=grade or (by.event.standing if by else Grade.UNSOURCED),
            joint=len(holders) > 1,
            through=_agents(by) if by and how == by.event.kind else (),
            sources=by.event.sources if by else (),
        )

    def end(self, at: Bounds, left_by: str | None = None) -> None:
        """The present period ends."""
        if self.now is not None:
            self.closed.append(replace(self.now, end=at, left_by=left_by))
            self.now = None

    def gap(self, start: Bounds, end: Bounds) -> None:
        """Nobody is known between these days."""
        self.closed.append(CustodyPeriod((), start, end, "gap", gap_grade="unknown"))


def owners(turns: Iterable[Dated], line: Line, as_of: date) -> list[CustodyPeriod]:
    """The owners that these turns make, gaps included; `line` holds what is known of the people and their evidence."""
    for d in turns:
        if line.dead:
            break
        _turn(line, d)
    if line.now is not None and line.now.holders:
        _after_a_death(line, as_of)
    return line.closed + ([line.now] if line.now else [])


def _turn(line: Line, d: Dated) -> None:
    event, kind = d.event, KINDS[d.event.kind]
    if d.passes:
        giver, receiver, how = d.passes
        _pass_on(line, d, giver, receiver, how)
    elif kind.custody == "collected":
        _pass_on(line, d, event.from_, event.to or event.by, event.kind)
    elif kind.custody == "acquired":
        _pass_on(line, d, event.from_, event.to, event.kind)
    elif kind.custody == "presence":
        _found_here(line, d, event.to or (line.custodian,))
    elif kind.custody == "ends":
        held = line.now.holders if line.now and line.now.holders else (line.custodian,)
        _pass_on(line, d, event.from_ or held, event.to, event.kind)
    elif kind.custody == "loan":
        _lender_owns(line, d)
    elif event.kind == "died":
        line.end(d.bounds)
        line.dead = True
    elif line.now is None and not line.closed and event.by and kind.group in (Group.BEGINNING, Group.PLANTING):
        line.begin(event.by, d.bounds, "first hands", d)


def _pass_on(line: Line, d: Dated, giver: Holders, receiver: Holders, how: str) -> None:
    """The thing passes from `giver` to `receiver`; either may be unknown (empty)."""
    if not giver and not receiver:
        return
    if how == "planting" and line.now is not None and set(line.now.holders) & set(receiver):
        return
    _reach_giver(line, d, giver)
    line.end(d.bounds, None if receiver else d.told_as)
    if receiver:
        if not giver and line.closed and line.closed[-1].is_gap:
            line.closed[-1] = replace(line.closed[-1], end=d.bounds)
        line.begin(receiver, d.bounds, how, d)
    else:
        # It left a known hand for an unknown one: nobody is known until the next statement.
        line.now = CustodyPeriod((), d.bounds, None, "gap", event=d.told_as, gap_grade="unknown")


def _reach_giver(line: Line, d: Dated, giver: Holders) -> None:
    """Bring the line to whoever gives at `d`, with a gap where nothing joins them to the holder so far."""
    if giver and line.now is not None and _only_lent_a_hand(line.now, d, giver):
        line.begin(giver, line.now.start, "first hands", d)
    if line.now is None and giver and not (line.closed and line.closed[-1].is_gap):
        _giver_first(line, d, giver)
    elif line.now is None:
        return
    elif line.now.is_gap and giver:
        _out_of_the_gap(line, d, giver)
    elif line.now.holders and not set(giver) & set(line.now.holders):
        if giver and _follows(line, d, giver):
            return
        _gap_before(line, d, giver)


def _only_lent_a_hand(now: CustodyPeriod, d: Dated, giver: Holders) -> bool:
    """Whether who began the plant did it for the giver: it passed on the day on which it was begun."""
    if now.how != "first hands" or set(giver) & set(now.holders):
        return False
    return not (now.start.latest and d.bounds.earliest and now.start.latest < d.bounds.earliest)


def _giver_first(line: Line, d: Dated, giver: Holders) -> None:
    """The first holder known is the giver: since their first work on the thing, if there is any."""
    worked = [known for known in _evidence(line.seen, giver) if known.key <= d.key]
    first = worked[0] if worked else d
    if first is d or first.told_as == d.told_as:
        line.begin(giver, Bounds(None, d.bounds.latest), "not known how", d)
    else:
        line.begin(giver, first.bounds, "first hands", first)


def _follows(line: Line, d: Dated, giver: Holders) -> bool:
    """Whether the giver follows the holder so far without a gap: an estate its dead, a couple one of its own."""
    assert line.now is not None
    holders, grade = line.now.holders, max(d.event.standing, Grade.INFERRED)
    died = line.people.ended(holders)
    after = _last_known(line, d)
    if line.people.estate_of(giver, holders):
        if died is None or died.latest is None or after.key > order_of(died):
            return False
        line.end(died)
        line.begin(giver, died, "estate", d, grade)
        return True
    if line.people.one_household(holders, giver):
        since = Bounds(after.bounds.earliest, d.bounds.latest)
        line.end(since)
        line.begin(giver, since, "family", d, grade)
        return True
    return False


def _gap_before(line: Line, d: Dated, giver: Holders) -> None:
    """Nothing joins the holder so far with this event's giver: their time ends somewhere after their last evidence."""
    assert line.now is not None
    after = _last_known(line, d)
    met = next((known for known in _evidence(line.seen, giver) if after.key < known.key <= d.key), d)
    last = after.until or after.bounds
    died = line.people.ended(line.now.holders)
    if died is not None and died.latest is not None and order_of(last) <= order_of(died) <= met.key:
        # Whoever received it had it until they died, unless something says otherwise.
        last = ends = Bounds(died.earliest, min(died.latest, met.bounds.latest or died.latest))
    else:
        ends = Bounds(last.earliest, met.bounds.latest)
    line.end(ends)
    line.gap(last, met.bounds)
    if giver:
        line.begin(giver, Bounds(last.earliest, met.bounds.latest), "not known how", met)


def _out_of_the_gap(line: Line, d: Dated, giver: Holders) -> None:
    """Nobody was known, and now a giver is: they had it since some day in the gap."""
    assert line.now is not None
    since = order_of(line.now.start)
    met = next((known for known in _evidence(line.seen, giver) if since < known.key <= d.key), d)
    start = line.now.start
    line.end(met.bounds)
    line.begin(giver, Bounds(start.earliest, met.bounds.latest), "not known how", met)


def _found_here(line: Line, d: Dated, finder: Holders) -> None:
    """Found among somebody's things: it came some time before, nobody knows how."""
    if line.now is not None and set(finder) & set(line.now.holders):
        return
    earliest = None
    if line.now is not None:
        if line.now.holders:
            _gap_before(line, d, ())
        else:
            line.end(d.bounds)
        earliest = line.closed[-1].start.earliest
    line.begin(finder, Bounds(earliest, d.bounds.latest), "found in collection", d)


def _lender_owns(line: Line, d: Dated) -> None:
    """Whoever lends is the owner, unless they have it on loan themselves."""
    lender = d.event.from_
    if lender and not set(lender) & line.borrowing:
        _reach_giver(line, d, lender)
    line.borrowing |= set(d.event.to)


def _last_known(line: Line, d: Dated) -> Dated:
    """The last evidence before `d` of the present holders as such: at the least the event by which they came."""
    assert line.now is not None
    since = order_of(line.now.start)
    known = [one for one in _evidence(line.seen, line.now.holders) if since <= one.key <= d.key and one is not d]
    came = next((one for one in known if one.told_as == line.now.event), None)
    later = [one for one in known if one.told_as != d.told_as]
    if later:
        return later[-1]
    return came or replace(d, bounds=line.now.start, until=None)


def _evidence(seen: Seen, holders: Holders) -> list[Dated]:
    if len(holders) == 1:
        return list(seen.get(holders[0], ()))
    return sorted((known for one in holders for known in seen.get(one, ())), key=lambda known: known.key)


def _after_a_death(line: Line, as_of: date) -> None:
    """The last holder known has died, and nothing tells what became of it."""
    assert line.now is not None
    died = line.people.ended(line.now.holders)
    if died is None or died.latest is None or died.latest > as_of or line.custodian in line.now.holders:
        return
    start = line.now.start.latest or line.now.start.earliest
    if start is not None and died.latest < start:
        return
    line.end(died)
    line.now = CustodyPeriod((), died, None, "gap", gap_grade="unknown")


def _agents(d: Dated) -> Holders:
    """Who arranged a sale for others: they act in it, and neither give nor receive."""
    event = d.event
    if event.kind not in _SOLD_ON:
        return ()
    return tuple(one for one in event.by if one not in event.from_ and one not in event.to)
