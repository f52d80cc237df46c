"""The ladder of grades: what the documents prove, then what else is said, grade by grade.

A lower grade never overrides a higher one. A statement that contradicts those above it is left out and the
contradiction told; among documented statements none is left out, and the trees concerned are under review.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.event import Event
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.people import Source
from archive_tools.model.photo import Photo
from archive_tools.reason.chronology.arrival import Stay, stay_of
from archive_tools.reason.chronology.beginnings import EARLY, LATE, EarliestOf, cases, hull
from archive_tools.reason.chronology.network import Case, Conflict
from archive_tools.reason.chronology.smallest_conflict import smallest_conflict
from archive_tools.reason.chronology.system import Claim, System, structure


@dataclass(frozen=True, slots=True)
class Layer:
    """What holds with the statements of a grade and of those above it."""

    grade: Grade
    cases: list[Case]
    assumed: dict[tuple[str, Milestone], EarliestOf]
    """The milestones that are the earliest of their recorded beginnings."""
    stays: dict[str, Stay]

    def days(self, point: int) -> tuple[int, int]:
        """The earliest and latest day of a point."""
        return hull(self.cases, point)


@dataclass(frozen=True, slots=True)
class Clash:
    """Claims that cannot all be true, and the one that was left out (None among documents)."""

    claims: tuple[Claim, ...]
    left_out: Claim | None


@dataclass(slots=True)
class Ladder:
    """A group of trees, solved."""

    layers: list[Layer] = field(default_factory=list)
    clashes: list[Clash] = field(default_factory=list)
    under_review: set[str] = field(default_factory=set)


def climb(system: System, sources: Mapping[str, Source], as_of: date) -> Ladder:
    """Solve a group of trees grade by grade."""
    return _Climb(system, sources, as_of.toordinal()).all()


class _Climb:
    """One way up the ladder: what is on so far, and what was found."""

    def __init__(self, system: System, sources: Mapping[str, Source], as_of: int) -> None:
        self.system = system
        self.sources = sources
        self.as_of = as_of
        self.on = bytearray(len(system.claims))
        self.left_out: set[int] = set()
        self.ladder = Ladder()
        self.stays: dict[str, Stay] = {}
        self.grades = {event.standing for tree in system.trees.values() for event in tree.tree.events}

    def all(self) -> Ladder:
        by_grade: dict[Grade, list[Claim]] = {grade: [] for grade in Grade}
        for claim in self.system.claims:
            if claim is not None:
                by_grade[claim.grade].append(claim)
        for grade in Grade:
            self._step(grade, by_grade[grade])
        return self.ladder

    def _step(self, grade: Grade, claims: list[Claim]) -> None:
        layers = self.ladder.layers
        if layers and not claims and grade not in self.grades:
            last = layers[-1]
            layers.append(Layer(grade, last.cases, last.assumed, last.stays))
            return
        self.on[structure(grade)] = 1
        everything = bytearray(self.on)
        for claim in claims:
            everything[claim.owner] = 1
        self._find_stays(grade, everything)
        layer = self._solved(grade, self._with(everything))
        if layer is None:
            if grade is Grade.DOCUMENTED:
                self._review(grade, claims)
            else:
                self._add_in_order(grade, sorted(claims, key=self._order))
            layer = self._solved(grade, self._with(self.on))
            assert layer is not None, "what was kept stands together"
        else:
            self.on = everything
        layers.append(layer)

    def _find_stays(self, grade: Grade, on: bytearray) -> None:
        """The present stays, by the days that follow from everything but the arrivals themselves."""
        self.stays = {}
        if not any(tree.hand_overs for tree in self.system.trees.values()):
            return
        try:
            found = cases(self.system.network, on, self._assumptions(grade, claims=True))
        except Conflict:
            found = []
        for accession, tree in self.system.trees.items():
            if tree.hand_overs:
                self.stays[accession] = stay_of(
                    tree, grade, (lambda point: hull(found, point)) if found else self._written, self.as_of
                )

    def _written(self, point: int) -> tuple[int, int]:
        first, last = EARLY, LATE
        for at, earliest, latest, _ in self.system.network.dates:
            if at == point:
                first, last = max(first, earliest), min(last, latest)
        return first, last

    def _with(self, on: bytearray) -> bytearray:
        """The same with the bounds of the present stays."""
        switched = bytearray(on)
        for stay in self.stays.values():
            for bound in stay.bounds:
                switched[bound] = 1
        return switched

    def _assumptions(self, grade: Grade, *, claims: bool) -> list[EarliestOf]:
        """The milestones that claim (with `claims` false: are merely taken) to be the earliest beginning recorded."""
        found = []
        for accession, tree in self.system.trees.items():
            for milestone, beginnings in tree.beginnings.items():
                there = tuple(b for b in beginnings if b.event.standing <= grade)
                point = tree.milestones[milestone]
                claiming = any(b.claims for b in there)
                if there and claiming is claims:
                    found.append(EarliestOf(accession, milestone, point, there, claiming))
                dated = tuple(b for b in there if b.date not in self.left_out)
                if not claims and dated and len(dated) < len(there):
                    found.append(EarliestOf(accession, milestone, point, dated, False))
            if not claims and self.stays.get(accession, Stay()).beginnings:
                arrivals = self.stays[accession].beginnings
                point = tree.milestones[Milestone.ARRIVAL]
                found.append(EarliestOf(accession, Milestone.ARRIVAL, point, arrivals, False))
        return found

    def _solved(self, grade: Grade, on: bytearray) -> Layer | None:
        """The layer with these owners, or None where they contradict each other.

        What is merely assumed is dropped, in a fixed order, where it cannot be: after an earlier attestation a first
        pot merely attests.
        """
        network = self.system.network
        certain, assumed = self._assumptions(grade, claims=True), self._assumptions(grade, claims=False)
        try:
            found = cases(network, on, certain + assumed)
            kept = certain + assumed
        except Conflict:
            try:
                found, kept = cases(network, on, certain), certain
            except Conflict:
                return None
            for one in assumed:
                try:
                    found, kept = cases(network, on, [*kept, one]), [*kept, one]
                except Conflict:
                    continue
        return Layer(grade, found, {(one.accession, one.milestone): one for one in kept}, self.stays)

    def _stands(self, grade: Grade, owners: Iterable[int], base: bytearray) -> bool:
        on = self._with(base)
        for owner in owners:
            on[owner] = 1
        try:
            cases(self.system.network, on, self._assumptions(grade, claims=True))
        except Conflict:
            return False
        return True

    def _review(self, grade: Grade, claims: list[Claim]) -> None:
        """Find the contradictions among documents; what takes part in one is taken out, for the trees beside it."""
        rest = sorted(claims, key=self._order)
        while not self._stands(grade, [c.owner for c in rest], self.on):
            clash = self._smallest(grade, rest, self.on)
            self.ladder.clashes.append(Clash(tuple(clash), None))
            self.ladder.under_review |= {claim.tree for claim in clash}
            rest = [claim for claim in rest if claim not in clash]
            self.left_out |= {claim.owner for claim in clash}
        for claim in rest:
            self.on[claim.owner] = 1

    def _add_in_order(self, grade: Grade, block: Sequence[Claim]) -> None:
        """Add claims one after the other and leave out those that contradict what stands."""
        if self._stands(grade, [claim.owner for claim in block], self.on):
            for claim in block:
                self.on[claim.owner] = 1
        elif len(block) == 1:
            self._leave_out(grade, block[0])
        else:
            self._add_in_order(grade, block[: len(block) // 2])
            self._add_in_order(grade, block[len(block) // 2 :])

    def _leave_out(self, grade: Grade, claim: Claim) -> None:
        kept = [c for c in self.system.claims if c is not None and self.on[c.owner]]
        clash = self._smallest(grade, [*sorted(kept, key=self._order), claim], self._structure_only(grade))
        self.ladder.clashes.append(Clash(tuple(clash), claim))
        self.left_out.add(claim.owner)

    def _structure_only(self, grade: Grade) -> bytearray:
        on = bytearray(len(self.system.claims))
        for above in Grade:
            on[structure(above)] = above <= grade
        return on

    def _smallest(self, grade: Grade, pool: Sequence[Claim], base: bytearray) -> list[Claim]:
        """A smallest conflict among the claims of the pool; the explanation of the first contradiction narrows it."""

        def stands(claims: Sequence[Claim]) -> bool:
            return self._stands(grade, [claim.owner for claim in claims], base)

        on = self._with(base)
        for claim in pool:
            on[claim.owner] = 1
        try:
            cases(self.system.network, on, self._assumptions(grade, claims=True))
        except Conflict as conflict:
            narrowed = [claim for claim in pool if claim.owner in conflict.owners]
            if narrowed and not stands(narrowed):
                pool = narrowed
        return smallest_conflict(pool, stands)

    def _order(self, claim: Claim) -> tuple[object, ...]:
        """The fixed order of statements: older source, narrower date, then by name, not by file or line."""
        item = claim.item
        cited = item.sources if isinstance(item, Event | Photo) else ()
        dated = [s.when for c in cited if (s := self.sources.get(c.source)) is not None and s.when is not None]
        oldest = min((when.earliest or when.latest or date.max for when in dated), default=date.max)
        when = claim.when or (item.when if isinstance(item, Event | Photo) else None)
        width = LATE
        if when is not None and when.earliest is not None and when.latest is not None:
            width = (when.latest - when.earliest).days
        return (claim.grade, oldest.toordinal(), width, item.id, claim.tree, claim.about, claim.owner)
