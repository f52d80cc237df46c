"""Who taught whom: single ties, and the lines they make across generations of stewards."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from archive_tools.model.dates import WhenWritten
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade
from archive_tools.model.lineage import TeachingTie
from archive_tools.model.people import Steward


def ties_of(stewards: Mapping[str, Steward]) -> tuple[TeachingTie, ...]:
    """Every tie of teacher and pupil, in order of time; takes stewards whose ties are graded."""
    ties = [
        TeachingTie(
            taught.who,
            steward.id,
            _bounds(taught.from_),
            _bounds(taught.until),
            taught.grade or Grade.UNSOURCED,
            taught.sources,
            taught.from_,
            taught.until,
        )
        for steward in stewards.values()
        for taught in steward.taught_by
    ]
    return tuple(sorted(ties, key=_order))


def _bounds(when: WhenWritten | None) -> Bounds | None:
    return Bounds(when.earliest, when.latest) if when is not None else None


def _order(tie: TeachingTie) -> tuple[str, str, str]:
    first = tie.start.earliest if tie.start else None
    return (first.isoformat() if first else "9999", tie.teacher, tie.pupil)


def line_up(steward: str, ties: Iterable[TeachingTie]) -> list[list[str]]:
    """The teachers of a steward, their teachers, and so on: one list a generation. A circle is walked once."""
    return _generations(steward, [(tie.pupil, tie.teacher) for tie in ties])


def line_down(steward: str, ties: Iterable[TeachingTie]) -> list[list[str]]:
    """The pupils of a steward, their pupils, and so on: one list a generation."""
    return _generations(steward, [(tie.teacher, tie.pupil) for tie in ties])


def _generations(start: str, pairs: Sequence[tuple[str, str]]) -> list[list[str]]:
    following: dict[str, list[str]] = {}
    for one, other in pairs:
        following.setdefault(one, []).append(other)
    met, generation, found = {start}, [start], list[list[str]]()
    while generation:
        ahead = dict.fromkeys(other for one in generation for other in following.get(one, ()) if other not in met)
        generation = list(ahead)
        met |= set(generation)
        if generation:
            found.append(generation)
    return found
