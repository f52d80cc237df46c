"""Who taught whom, sorted into lines: people joined by teaching, each line in the order of its generations.

Pure sorting of ties; whoever is joined to nobody is in no line.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from archive_tools.model.lineage import TeachingTie

MOST = 20
"""A line of more people than these is told branch by branch, so that none is too large to be taken in at a glance."""


@dataclass(frozen=True, slots=True)
class Branch:
    """A teacher, and those who came of them: every teacher stands before their pupils. Who `goes_on` heads a branch
    of their own, told after this one; the head of that branch stands in both.
    """

    people: tuple[str, ...]
    ties: tuple[TeachingTie, ...]
    goes_on: tuple[str, ...] = ()

    @property
    def head(self) -> str:
        """Whose branch it is."""
        return self.people[0]


@dataclass(frozen=True, slots=True)
class LineOfTeaching:
    """People joined by teaching. generation: 1 for those of whom no teacher is known, else one more than the last of
    their teachers. ties: of the whole line.
    """

    people: tuple[str, ...]
    ties: tuple[TeachingTie, ...]
    generation: Mapping[str, int]
    branches: tuple[Branch, ...]

    @property
    def head(self) -> str:
        """The first teacher: what the line is known by."""
        return self.people[0]

    @property
    def generations(self) -> int:
        """How many there are."""
        return max(self.generation.values())


def lines_of_teaching(ties: Iterable[TeachingTie]) -> tuple[LineOfTeaching, ...]:
    """All lines, the largest first; of the same size, by the first day of which they tell."""
    known = list(ties)
    found = [_line(group) for group in _joined(known)]
    return tuple(sorted(found, key=lambda line: (-len(line.people), min(map(_begun, line.ties)), line.head)))


def taught_first(ties: Iterable[TeachingTie]) -> list[TeachingTie]:
    """Ties by the day on which the teaching began, those without one last."""
    return sorted(ties, key=lambda tie: (_begun(tie), tie.teacher, tie.pupil))


def _begun(tie: TeachingTie) -> date:
    for bounds in (tie.start, tie.end):
        if bounds is not None and bounds.known:
            return bounds.earliest or bounds.latest or date.max
    return date.max


def _joined(ties: Sequence[TeachingTie]) -> list[list[TeachingTie]]:
    """The ties in groups that have nobody in common."""
    near: dict[str, list[str]] = {}
    for tie in ties:
        near.setdefault(tie.teacher, []).append(tie.pupil)
        near.setdefault(tie.pupil, []).append(tie.teacher)
    group: dict[str, str] = {}
    for first in near:
        todo = [first] if first not in group else []
        while todo:
            one = todo.pop()
            if one not in group:
                group[one] = first
                todo += near[one]
    found: dict[str, list[TeachingTie]] = {}
    for tie in ties:
        found.setdefault(group[tie.teacher], []).append(tie)
    return list(found.values())


def _line(ties: Sequence[TeachingTie]) -> LineOfTeaching:
    generation = _generations(ties)
    own: dict[str, list[str]] = {}
    seen: set[str] = set()
    for tie in taught_first(ties):
        if tie.pupil not in seen and generation[tie.pupil] > generation[tie.teacher]:
            seen.add(tie.pupil)
            own.setdefault(tie.teacher, []).append(tie.pupil)
    roots = [one for one in generation if one not in seen]
    sizes = {root: len(_down(root, own)) for root in roots}
    roots.sort(key=lambda one: (-sizes[one], one))
    people = tuple(one for root in roots for one in _down(root, own))
    return LineOfTeaching(people, tuple(taught_first(ties)), generation, _branches(people, roots, own, ties))


def _generations(ties: Sequence[TeachingTie]) -> dict[str, int]:
    """One more than the last of their teachers; where people taught each other, the first who is left begins."""
    teachers: dict[str, set[str]] = {}
    pupils: dict[str, list[str]] = {}
    for tie in ties:
        teachers.setdefault(tie.teacher, set())
        if tie.teacher != tie.pupil:
            teachers.setdefault(tie.pupil, set()).add(tie.teacher)
            pupils.setdefault(tie.teacher, []).append(tie.pupil)
    found: dict[str, int] = {}
    waiting = {one: len(those) for one, those in teachers.items()}
    ready = [one for one, count in waiting.items() if not count]
    left = iter(teachers)
    while len(found) < len(teachers):
        if not ready:
            ready.append(next(one for one in left if one not in found))
        one = ready.pop()
        if one in found:
            continue
        found[one] = 1 + max((found.get(teacher, 0) for teacher in teachers[one]), default=0)
        for pupil in pupils.get(one, ()):
            waiting[pupil] -= 1
            if not waiting[pupil]:
                ready.append(pupil)
    return found


def _down(head: str, own: Mapping[str, Sequence[str]], stop: frozenset[str] = frozenset()) -> list[str]:
    """A teacher and all who came of them. Of two pupils the later comes first: so no tie crosses a later line."""
    found, todo = [], [head]
    while todo:
        one = todo.pop()
        found.append(one)
        if one == head or one not in stop:
            todo += own.get(one, ())
    return found


def _branches(
    people: Sequence[str], roots: Sequence[str], own: Mapping[str, Sequence[str]], ties: Sequence[TeachingTie]
) -> tuple[Branch, ...]:
    """The whole line as one branch where it is small; else cut at those of whom most came."""
    cut = _cuts(people, own) if len(people) > MOST else frozenset()
    heads = [one for one in people if one in cut or one in roots]
    parts = [_down(head, own, cut) for head in heads]
    if not cut:
        parts = [list(people)]
    found = []
    for part in parts:
        inside = frozenset(part)
        of_it = [tie for tie in ties if tie.pupil in inside and tie.teacher in inside]
        if of_it:
            goes_on = tuple(one for one in part[1:] if one in cut)
            found.append(Branch(tuple(part), tuple(taught_first(of_it)), goes_on))
    return tuple(found)


def _cuts(people: Sequence[str], own: Mapping[str, Sequence[str]]) -> frozenset[str]:
    """Those who head a branch of their own: at each teacher the largest parts below are cut off until few are left."""
    cut: set[str] = set()
    size: dict[str, int] = {}
    for one in reversed(people):
        pupils = sorted(own.get(one, ()), key=lambda pupil: size[pupil])
        size[one] = 1 + sum(size[pupil] for pupil in pupils)
        while size[one] > MOST and pupils and size[pupils[-1]] > 1:
            large = pupils.pop()
            cut.add(large)
            size[one] -= size[large] - 1
    return frozenset(cut)
