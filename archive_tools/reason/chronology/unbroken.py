"""Unbroken care, quiet periods, and how many years have evidence of their own."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from archive_tools.model.calendar import add, completed_years
from archive_tools.model.dates import Duration
from archive_tools.model.findings import Bounds, QuietPeriod


@dataclass(frozen=True, slots=True)
class Shown:
    """Evidence of care: the days on which it can begin and, if it lasts, on which it can end."""

    begin: Bounds
    end: Bounds

    @property
    def years(self) -> range:
        """The calendar years it is certainly evidence of."""
        begin, end = self.begin, self.end
        if begin.earliest is None or begin.latest is None or end.earliest is None or end.latest is None:
            return range(0)
        if begin.latest <= end.earliest:
            return range(begin.latest.year, end.earliest.year + 1)
        # It may begin after it could end: certain only where all its days lie in one year.
        return range(begin.earliest.year, begin.earliest.year + (begin.earliest.year == end.latest.year))


@dataclass(frozen=True, slots=True)
class Care:
    """Since when care is unbroken, where it was silent for too long, and the share of years with evidence."""

    since: Bounds
    quiet: tuple[QuietPeriod, ...]
    share: float | None


def unbroken_care(evidence: Iterable[Shown], care: Bounds, within: Duration, as_of: date) -> Care:
    """The silences longer than `within`, measured from the latest possible end to the earliest possible next start.

    Evidence with an open end is passed over: it could fill any silence. `care` are the bounds of the start of care.
    """
    closed = []
    for one in evidence:
        begin, end = one.begin, one.end
        if begin.earliest is None or begin.latest is None or end.latest is None or begin.earliest > as_of:
            continue
        closed.append((begin.earliest, min(end.latest, as_of), begin.latest, one))
    closed.sort(key=lambda each: each[:2])
    quiet: list[QuietPeriod] = []
    run: list[tuple[date, date]] = []
    reached: date | None = None
    for first, last, latest_begin, _ in closed:
        if reached is not None and _too_long(reached, first, within):
            quiet.append(QuietPeriod(reached, first, completed_years(reached, first)))
            run = []
        run.append((first, latest_begin))
        reached = last if reached is None else max(reached, last)
    if reached is not None and _too_long(reached, as_of, within):
        quiet.append(QuietPeriod(reached, as_of, completed_years(reached, as_of)))
        run = []
    since = Bounds(min(f for f, _ in run), min(last for _, last in run)) if run else Bounds()
    return Care(since, tuple(quiet), _share((each[3] for each in closed), care, as_of))


def _too_long(start: date, end: date, within: Duration) -> bool:
    limit = add(start, within)
    return limit is not None and limit < end


def _share(evidence: Iterable[Shown], care: Bounds, as_of: date) -> float | None:
    start = care.latest
    if start is None or start > as_of:
        return None
    counted = {year for one in evidence for year in one.years if start.year <= year <= as_of.year}
    return len(counted) / (as_of.year - start.year + 1)
