"""What the years rest on in which nobody is known: a statement from within them, a presumption, or nothing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from archive_tools.model.findings import Bounds, CustodyPeriod
from archive_tools.model.grades import Grade
from archive_tools.model.kinds import KINDS
from archive_tools.reason.lineage.ends import People
from archive_tools.reason.lineage.happened import Dated, certainly_before

BRIDGED, PRESUMED, UNKNOWN = "bridged", "presumed", "unknown"


def graded_gaps(periods: Sequence[CustodyPeriod], past: Iterable[Dated], people: People) -> list[CustodyPeriod]:
    """The line with each gap graded.

    bridged: a statement, of its own date, certainly falls within the gap and tells of the tree. presumed: those on both
    sides belong together, or it came back to somebody who had held it before. unknown: neither.
    """
    if not any(period.is_gap for period in periods):
        return list(periods)
    told = [d for d in sorted(past, key=lambda d: d.key) if _tells(d)]
    line = []
    for at, period in enumerate(periods):
        if not period.is_gap:
            line.append(period)
            continue
        within = tuple(d.told_as for d in told if _within(d.bounds, period))
        state = BRIDGED if within else PRESUMED if _presumed(periods, at, people) else UNKNOWN
        line.append(replace(period, gap_grade=state, bridged_by=within))
    return line


def _tells(d: Dated) -> bool:
    kind = KINDS[d.event.kind]
    return kind.attests_life and not kind.custody and d.event.standing < Grade.UNSOURCED


def _within(bounds: Bounds, gap: CustodyPeriod) -> bool:
    return certainly_before(gap.start, bounds) and gap.end is not None and certainly_before(bounds, gap.end)


def _presumed(periods: Sequence[CustodyPeriod], at: int, people: People) -> bool:
    before = [period.holders for period in periods[:at] if period.owner and not period.is_gap]
    after = next((period.holders for period in periods[at + 1 :] if period.owner and not period.is_gap), ())
    if not before or not after:
        return False
    came_back = any(set(after) & set(holders) for holders in before)
    return came_back or people.belong_together(before[-1], after)
