"""Events with the bounds worked out for them, in the order in which they changed things."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.event import Event
from archive_tools.model.findings import Bounds, TreeChronology
from archive_tools.model.kinds import KINDS, Group

Holders = tuple[str, ...]
Key = tuple[date, date]


@dataclass(frozen=True, slots=True)
class Dated:
    """An event with its bounds. `told_as` is its id here: `accession#event` where another tree's record tells of it.

    passes: (giver, receiver, how) where these are not the event's own. key: where it stands in order of time.
    """

    event: Event
    bounds: Bounds
    until: Bounds | None
    told_as: str
    passes: tuple[Holders, Holders, str] | None = None
    key: Key = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "key", order_of(self.bounds))


def order_of(bounds: Bounds) -> Key:
    """By the earliest possible day, then by the latest; what has no date at all stands last."""
    first = bounds.earliest or bounds.latest or date.max
    return first, bounds.latest or date.max


def happened(events: Iterable[Event], chronology: TreeChronology | None, as_of: date) -> list[Dated]:
    """The events of one record that are not planned and may have happened by `as_of`, as written."""
    found = {one.id: one for one in chronology.events} if chronology is not None else {}
    dated = []
    for event in events:
        if event.planned:
            continue
        known = found.get(event.id)
        bounds = known.bounds if known else _written(event)
        until = known.until if known else _written_until(event)
        if bounds.earliest is None or bounds.earliest <= as_of:
            dated.append(Dated(event, bounds, until, event.id))
    return dated


def _written(event: Event) -> Bounds:
    return Bounds(event.when.earliest, event.when.latest) if event.when else Bounds()


def _written_until(event: Event) -> Bounds | None:
    return Bounds(event.until.earliest, event.until.latest) if event.until else None


def is_turn(dated: Dated) -> bool:
    """Whether an event may change who holds the tree: hands change, it begins in somebody's hands, or it dies."""
    kind = KINDS[dated.event.kind]
    if dated.passes or kind.custody or dated.event.kind in ("died", "quarantine"):
        return True
    return bool(dated.event.by) and kind.group in (Group.BEGINNING, Group.PLANTING)


def in_order(turns: Sequence[Dated]) -> list[Dated]:
    """As written, but each after all that certainly precede it, by their days or by a `timing`."""
    after = _timed(turns)

    def precedes(first: Dated, second: Dated) -> bool:
        if (first.told_as, second.told_as) in after:
            return True
        if (second.told_as, first.told_as) in after:
            return False
        return certainly_before(first.bounds, second.bounds)

    # Where every event already follows all that certainly precede it, which is the rule, nothing moves.
    if not any(precedes(turns[b], turns[a]) for b in range(len(turns)) for a in range(b)):
        return list(turns)
    return _moved(turns, precedes)


def _moved(turns: Sequence[Dated], precedes: Callable[[Dated, Dated], bool]) -> list[Dated]:
    waiting, ordered = list(turns), []
    while waiting:
        free = (one for one in waiting if not any(precedes(other, one) for other in waiting if other is not one))
        following = next(free, waiting[0])
        waiting.remove(following)
        ordered.append(following)
    return ordered


def certainly_before(first: Bounds, second: Bounds) -> bool:
    """Whether one is over before the other can begin."""
    return first.latest is not None and second.earliest is not None and first.latest < second.earliest


def _timed(turns: Sequence[Dated]) -> set[tuple[str, str]]:
    """Pairs (earlier, later) that the events' own timings put in order, directly or through each other."""
    if not any(one.event.timing for one in turns):
        return set()
    later: dict[str, set[str]] = {}
    for one in turns:
        for timing in one.event.timing:
            if timing.other.event is None or timing.other.accession not in (None, one.event.tree):
                continue
            first, second = timing.other.event, one.told_as
            if timing.relation == "before":
                first, second = second, first
            later.setdefault(first, set()).add(second)
    pairs = set()
    for start, following in later.items():
        ahead, reached = list(following), set[str]()
        while ahead:
            event_id = ahead.pop()
            if event_id not in reached:
                reached.add(event_id)
                ahead.extend(later.get(event_id, ()))
        pairs |= {(start, event_id) for event_id in reached}
    return pairs
