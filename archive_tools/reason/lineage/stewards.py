"""What each steward had to do with the trees: held, made, styled, worked on, was present at."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.findings import Bounds, Custody
from archive_tools.model.kinds import KINDS, Group
from archive_tools.model.lineage import ObjectLine, StewardLine, TeachingTie, TreeHeld, TreeSeen, TreeWorked
from archive_tools.model.people import Steward
from archive_tools.reason.lineage.happened import order_of

MADE = frozenset({Group.BEGINNING, Group.PLANTING})
STYLED = frozenset(
    {"styled", "bent", "carved", "deadwood made", "front changed", "planting angle changed", "branch removed",
     "demonstrated"}
)  # fmt: skip
"""Work that changes what a tree is."""


@dataclass(slots=True)
class _Gathered:
    held: list[TreeHeld] = field(default_factory=list)
    made: list[TreeWorked] = field(default_factory=list)
    styled: list[TreeWorked] = field(default_factory=list)
    worked: list[TreeWorked] = field(default_factory=list)
    present: list[TreeSeen] = field(default_factory=list)
    objects: list[str] = field(default_factory=list)
    teachers: list[TeachingTie] = field(default_factory=list)
    pupils: list[TeachingTie] = field(default_factory=list)


def steward_lines(
    stewards: Mapping[str, Steward],
    custodies: Mapping[str, Custody],
    objects: Mapping[str, ObjectLine],
    teaching: Iterable[TeachingTie],
    as_of: date,
) -> dict[str, StewardLine]:
    """The line of every steward whom the edition may name, by id."""
    found = {key: _Gathered() for key, steward in stewards.items() if not steward.masked}
    for accession, custody in custodies.items():
        _gather(found, accession, custody)
    for line in objects.values():
        for one in dict.fromkeys(holder for period in line.periods for holder in period.holders):
            if one in found:
                found[one].objects.append(line.object)
    for tie in teaching:
        if tie.pupil in found:
            found[tie.pupil].teachers.append(tie)
        if tie.teacher in found:
            found[tie.teacher].pupils.append(tie)
    return {key: _line(key, gathered, as_of) for key, gathered in found.items()}


def _gather(found: Mapping[str, _Gathered], accession: str, custody: Custody) -> None:
    for period in custody.periods:
        for one in period.holders:
            if one in found:
                found[one].held.append(TreeHeld(accession, period))
    for hand in custody.hands:
        for one in hand.stewards:
            if one in found:
                _sort(found[one], hand.kind).append(TreeWorked(accession, hand))
    for presence in custody.present:
        for one in presence.stewards:
            if one in found:
                found[one].present.append(TreeSeen(accession, presence))


def _sort(gathered: _Gathered, kind: str) -> list[TreeWorked]:
    if KINDS[kind].group in MADE:
        return gathered.made
    return gathered.styled if kind in STYLED else gathered.worked


def _line(steward: str, gathered: _Gathered, as_of: date) -> StewardLine:
    def in_time(works: Iterable[TreeWorked]) -> tuple[TreeWorked, ...]:
        return tuple(sorted(works, key=lambda work: (order_of(work.hand.bounds), work.tree)))

    return StewardLine(
        steward=steward,
        held=tuple(sorted(gathered.held, key=lambda held: (order_of(held.period.start), held.tree))),
        made=in_time(gathered.made),
        styled=in_time(gathered.styled),
        worked=in_time(gathered.worked),
        present=tuple(sorted(gathered.present, key=lambda seen: (order_of(seen.presence.bounds), seen.tree))),
        objects=tuple(dict.fromkeys(gathered.objects)),
        teachers=tuple(gathered.teachers),
        pupils=tuple(gathered.pupils),
        active=_active(gathered, as_of),
    )


def _active(gathered: _Gathered, as_of: date) -> Bounds:
    """From the earliest to the latest day of which a record tells; a time that lasts reaches to `as_of`."""
    works = [*gathered.made, *gathered.styled, *gathered.worked]
    days = [work.hand.bounds for work in works] + [seen.presence.bounds for seen in gathered.present]
    days += [held.period.start for held in gathered.held]
    days += [held.period.end or Bounds(as_of, as_of) for held in gathered.held]
    days += [bounds for tie in (*gathered.teachers, *gathered.pupils) for bounds in (tie.start, tie.end) if bounds]
    first = [day.earliest for day in days if day.earliest is not None]
    last = [day.latest for day in days if day.latest is not None]
    return Bounds(min(first) if first else None, min(max(last), as_of) if last else None)
