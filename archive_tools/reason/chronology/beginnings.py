"""A milestone with recorded beginnings is the earliest of them.

"The earliest of" is no bound of a simple temporal problem. One half of it, that the milestone is not before all of
them, raises the earliest day exactly (see `network.tightest`). The other half, that one of them is not after the
milestone, is only at stake where something else pulls the milestone before the latest possible day of every beginning,
or where some beginning has no earliest day at all: there one case is solved for each beginning that can be the
earliest, and the answer is the hull of those that fit.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from archive_tools.model.grades import Milestone
from archive_tools.reason.chronology.lapses import EARLY, LATE
from archive_tools.reason.chronology.network import Case, Conflict, Network, chain, tightest
from archive_tools.reason.chronology.system import Beginning


@dataclass(frozen=True, slots=True)
class EarliestOf:
    """`point` is the earliest of `beginnings`."""

    accession: str
    milestone: Milestone
    point: int
    beginnings: tuple[Beginning, ...]


def cases(network: Network, on: Sequence[int], assumed: Iterable[EarliestOf]) -> list[Case]:
    """The consistent cases, at least one. Raises Conflict where there is none."""
    switched = bytearray(on)
    several = []
    for earliest_of in assumed:
        if len(earliest_of.beginnings) == 1:
            switched[earliest_of.beginnings[0].closing] = 1
        else:
            several.append(earliest_of)
    return _cases(network, switched, several)


def _cases(network: Network, on: bytearray, several: list[EarliestOf]) -> list[Case]:
    choices = [(one.point, tuple(b.point for b in one.beginnings), one.beginnings[0].closing) for one in several]
    case = tightest(network, on, choices)
    for at, one in enumerate(several):
        if _is_open(case, one):
            return _split(network, on, case, one, several[:at] + several[at + 1 :])
    return [case]


def _is_open(case: Case, one: EarliestOf) -> bool:
    """Whether the ends alone do not show that one of the beginnings can be the milestone.

    At the latest days, because something else pulls the milestone before all of them; at the earliest, because one of
    them could be as early as you like, but not for certain while the milestone is.
    """
    latest = case.latest[one.point]
    if latest == LATE or latest < min(case.latest[b.point] for b in one.beginnings):
        return True
    unbounded = [case.earliest[b.point] == EARLY for b in one.beginnings]
    return any(unbounded) and not all(unbounded)


def _split(network: Network, on: bytearray, case: Case, one: EarliestOf, rest: list[EarliestOf]) -> list[Case]:
    found: list[Case] = []
    owners: set[int] = set(chain(case.why_latest, one.point))
    for beginning in one.beginnings:
        if case.earliest[beginning.point] > case.latest[one.point]:
            owners.update(chain(case.why_earliest, beginning.point))
            continue
        branch = bytearray(on)
        branch[beginning.closing] = 1
        try:
            found += _cases(network, branch, rest)
        except Conflict as conflict:
            owners |= conflict.owners
    if not found:
        raise Conflict(frozenset(owners))
    return found


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
