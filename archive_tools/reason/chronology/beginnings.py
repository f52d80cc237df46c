"""A milestone with recorded beginnings is the earliest of them.

"The earliest of" is no bound of a simple temporal problem. One half of it, that the milestone is not before all of
them, raises the earliest day exactly (see `network.tightest`), and tells whether there is any consistent reading at
all. The other half, that one of them is not after the milestone, is only at stake where something else pulls the
milestone before the latest possible day of every beginning, or where a beginning has no earliest day: there one case is
solved for each beginning that can be the earliest, and the answer is the hull of those that fit.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import prod

from archive_tools.model.grades import Milestone
from archive_tools.reason.chronology.lapses import EARLY
from archive_tools.reason.chronology.network import Case, Choice, Conflict, Network, tightest
from archive_tools.reason.chronology.reasons import chain
from archive_tools.reason.chronology.system import Beginning

MOST_CASES = 16
"""Above so many combinations (of trees tied together) each milestone is split by itself: never too tight."""


@dataclass(frozen=True, slots=True)
class EarliestOf:
    """`point` is the earliest of `beginnings`."""

    accession: str
    milestone: Milestone
    point: int
    beginnings: tuple[Beginning, ...]


def cases(network: Network, on: Sequence[int], assumed: Iterable[EarliestOf]) -> list[Case]:
    """The consistent cases, at least one. Raises Conflict where there is none."""
    switched, several = _settled(on, assumed)
    case = tightest(network, switched, _choices(several))
    doubtful = _doubtful(network, switched, case, several)
    split = [one for one in several if one in doubtful or _is_pulled(case, one)]
    if not split:
        return [case]
    if prod(len(one.beginnings) for one in split) > MOST_CASES:
        hulls = [_each(network, switched, case, one, several, deeper=False) for one in split]
        return [_within_all(case, hulls)]
    return _each(network, switched, case, split[0], several)


def consistent(network: Network, on: Sequence[int], assumed: Iterable[EarliestOf]) -> None:
    """Raise Conflict if there is no consistent case. Quicker than `cases`, because no latest day is asked for."""
    switched, several = _settled(on, assumed)
    case = tightest(network, switched, _choices(several))
    for one in _doubtful(network, switched, case, several)[:1]:
        owners: set[int] = set()
        for beginning in one.beginnings:
            try:
                consistent(network, _with(switched, beginning), [other for other in several if other is not one])
            except Conflict as conflict:
                if beginning.closing not in conflict.owners:
                    raise  # whichever of them it is, that contradiction remains
                owners |= conflict.owners
            else:
                return
        raise Conflict(frozenset(owners))


def _settled(on: Sequence[int], assumed: Iterable[EarliestOf]) -> tuple[bytearray, list[EarliestOf]]:
    """What is on where a milestone has but one beginning, and the milestones with more than one."""
    switched = bytearray(on)
    several = []
    for one in assumed:
        if len(one.beginnings) == 1:
            switched[one.beginnings[0].closing] = 1
        else:
            several.append(one)
    return switched, several


def _choices(several: Iterable[EarliestOf]) -> list[Choice]:
    return [(one.point, tuple(b.point for b in one.beginnings), one.beginnings[0].closing) for one in several]


def _with(on: bytearray, beginning: Beginning) -> bytearray:
    switched = bytearray(on)
    switched[beginning.closing] = 1
    return switched


def _is_pulled(case: Case, one: EarliestOf) -> bool:
    """Whether something else pulls the milestone before the latest possible day of every beginning."""
    return case.latest[one.point] < min(case.latest[b.point] for b in one.beginnings)


def _doubtful(network: Network, on: bytearray, case: Case, several: list[EarliestOf]) -> list[EarliestOf]:
    """The milestones with a beginning that has no earliest day but may have to be later than the milestone itself.

    Of such a beginning the earliest days do not show that the milestone can be as early: a lapse may lead from the one
    to the other, though no date is known. Without a lapse that leads to it there is no doubt.
    """
    unbounded = [one for one in several if any(case.earliest[b.point] == EARLY for b in one.beginnings)]
    if not unbounded:
        return []
    possible = bytearray(on)
    for beginning in (b for one in several for b in one.beginnings):
        possible[beginning.closing] = 1
    behind = network.behind_lapses(possible)
    return [
        one for one in unbounded if any(b.point in behind and case.earliest[b.point] == EARLY for b in one.beginnings)
    ]


def _each(
    network: Network, on: bytearray, case: Case, one: EarliestOf, several: list[EarliestOf], *, deeper: bool = True
) -> list[Case]:
    """One case (and those within it) for each beginning that can be the milestone. Raises Conflict where none can."""
    rest = [other for other in several if other is not one]
    found: list[Case] = []
    owners: set[int] = set(chain(case.why_latest, one.point))
    for beginning in one.beginnings:
        if case.earliest[beginning.point] > case.latest[one.point]:
            owners.update(chain(case.why_earliest, beginning.point))
            continue
        branch = _with(on, beginning)
        try:
            found += cases(network, branch, rest) if deeper else [tightest(network, branch, _choices(rest))]
        except Conflict as conflict:
            owners |= conflict.owners
    if not found:
        raise Conflict(frozenset(owners))
    return found


def _within_all(case: Case, hulls: Iterable[list[Case]]) -> Case:
    """The case narrowed to what every one of several hulls allows."""
    narrowed = Case([*case.earliest], [*case.latest], [*case.why_earliest], [*case.why_latest])
    for found in hulls:
        for point in range(len(narrowed.latest)):
            first, last = earliest_case(found, point), latest_case(found, point)
            if first.earliest[point] > narrowed.earliest[point]:
                narrowed.earliest[point] = first.earliest[point]
                narrowed.why_earliest[point] = first.why_earliest[point]
            if last.latest[point] < narrowed.latest[point]:
                narrowed.latest[point] = last.latest[point]
                narrowed.why_latest[point] = last.why_latest[point]
    return narrowed


def earliest_case(found: Sequence[Case], point: int) -> Case:
    """The case in which the point can be earliest."""
    return min(found, key=lambda case: case.earliest[point])


def latest_case(found: Sequence[Case], point: int) -> Case:
    """The case in which the point can be latest."""
    return max(found, key=lambda case: case.latest[point])


def hull(found: Sequence[Case], point: int) -> tuple[int, int]:
    """The earliest and latest day of the point over all cases (or no bound)."""
    if len(found) == 1:
        return found[0].earliest[point], found[0].latest[point]
    return min(c.earliest[point] for c in found), max(c.latest[point] for c in found)
