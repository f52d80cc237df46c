"""From when to when the records tell of a steward, with both ends as vague as the evidence is."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.model.findings import Bounds
from archive_tools.model.lineage import StewardLine
from archive_tools.model.people import Steward


def active_ends(line: StewardLine, steward: Steward | None = None) -> tuple[Bounds, Bounds | None]:
    """Between which days the evidence of a steward begins, and between which it ends (None: they hold a tree still,
    or the record of `steward` says that they are active and names no end).

    It had begun by the first day by which something certainly had happened, and not before the first day on which
    anything can have; for the end the same, the other way round. Both ends are unknown where nothing is dated.
    """
    begun, ended = [], []
    for start, end in _evidence(line):
        begun.append(start)
        ended.append(end)
    first = Bounds(
        min((day.earliest for day in begun if day.earliest is not None), default=None),
        min((day.latest for day in begun if day.latest is not None), default=None),
    )
    if any(held.period.end is None for held in line.held) or (first.known and _goes_on(steward)):
        return first, None
    return first, Bounds(
        max((day.earliest for day in ended if day.earliest is not None), default=None),
        max((day.latest for day in ended if day.latest is not None), default=None),
    )


def _goes_on(steward: Steward | None) -> bool:
    return steward is not None and steward.active is not None and steward.active.open_end and steward.died is None


def _evidence(line: StewardLine) -> Iterator[tuple[Bounds, Bounds]]:
    for held in line.held:
        yield held.period.start, held.period.end or held.period.start
    for work in (*line.made, *line.styled, *line.worked):
        yield work.hand.bounds, work.hand.until or work.hand.bounds
    for seen in line.present:
        yield seen.presence.bounds, seen.presence.until or seen.presence.bounds
    for tie in (*line.teachers, *line.pupils):
        known = [bounds for bounds in (tie.start, tie.end) if bounds is not None]
        if known:
            yield known[0], known[-1]
