"""The ladder of grades: what the documents prove, then what else is said, grade by grade.

A lower grade never overrides a higher one. A statement that contradicts those above it is left out and the
contradiction told; among documented statements none is left out, and the trees concerned are under review.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.event import StatedAge
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.people import Source
from archive_tools.reason.chronology.arrival import Days, Stay, stay_of
from archive_tools.reason.chronology.beginnings import EarliestOf, cases, consistent, hull
from archive_tools.reason.chronology.conflicts import first_to_fail, fixed_order, smallest
from archive_tools.reason.chronology.lapses import EARLY, LATE
from archive_tools.reason.chronology.network import Case, Conflict
from archive_tools.reason.chronology.system import Claim, System, structure


@dataclass(frozen=True, slots=True)
class Layer:
    """What holds with the statements of a grade and of those above it.

    assumed: the milestones that are the earliest of their recorded beginnings; the others are merely attested.
    """

    grade: Grade
    cases: list[Case]
    assumed: Mapping[tuple[str, Milestone], EarliestOf]
    stays: Mapping[str, Stay]

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
    climbing = _Climb(system, sources, as_of.toordinal())
    for grade in Grade:
        climbing.step(grade)
    return climbing.ladder


class _Climb:
    """On the way up the ladder: the owners that are on so far, and what was found."""

    def __init__(self, system: System, sources: Mapping[str, Source], as_of: int) -> None:
        self.system = system
        self.order = fixed_order(sources)
        self.as_of = as_of
        self.ladder = Ladder()
        self.on = bytearray(len(system.claims))
        self.left_out: set[int] = set()
        self.written = system.network.written()
        self.stays: dict[str, Stay] = {}
        self.certain: list[EarliestOf] = []
        self.certain_above: list[EarliestOf] = []
        self.settled: set[str] = set()
        """The trees whose present stay is known to begin with its first arrival: no lower grade changes that."""
        self.claims: dict[Grade, list[Claim]] = {grade: [] for grade in Grade}
        for claim in system.claims:
            if claim is not None:
                self.claims[claim.grade].append(claim)
        self.present = {event.standing for tree in system.trees.values() for event in tree.tree.events}

    def step(self, grade: Grade) -> None:
        """Add what is said in this grade, and solve."""
        layers = self.ladder.layers
        claims = [claim for claim in self.claims[grade] if claim.tree not in self.ladder.under_review]
        if layers and not claims and grade not in self.present:
            layers.append(Layer(grade, layers[-1].cases, layers[-1].assumed, layers[-1].stays))
            return
        self.on[structure(grade)] = 1
        self.certain_above, self.certain = self.certain, self._earliest_of(grade, claims=True)
        former, everything = self.stays, self._and(self.on, claims)
        self.stays = self._stays_at(grade, everything)
        layer = self._solved(grade, everything)
        if layer is None:
            self.stays = former
            self._keep_what_can_begin(grade)
            self._add_what_stands(grade, claims)
            layer = self._solved(grade, self.on)
            assert layer is not None, "what was kept stands together"
        else:
            self.on = everything
        layers.append(layer)
        self.settled |= {accession for accession, milestone in layer.assumed if milestone is Milestone.ARRIVAL}

    def _keep_what_can_begin(self, grade: Grade) -> None:
        """Leave out claims to be a beginning that cannot be, whatever their date, beside what stands already.

        Such is a planting together, the beginning of care and of the container at once, where these are known apart.
        """
        if self._conflict(self.on, ()) is None:
            return
        wanted, above = self.certain, {(one.accession, one.milestone) for one in self.certain_above}
        self.certain = []
        for one in sorted(wanted, key=lambda one: (one.accession, one.milestone) not in above):
            self.certain.append(one)
            if self._conflict(self.on, ()) is None:
                continue
            for event in (b.event for b in one.beginnings if b.event.standing is grade):
                claim = Claim(-1, one.accession, "date", event, grade, event.where.at("kind"), event.when)
                clash = smallest(self._kept(), lambda some: self._conflict(self._structure_only(grade), some))
                self.ladder.clashes.append(Clash((*clash, claim), claim))
            self.certain.pop()

    def _add_what_stands(self, grade: Grade, claims: Iterable[Claim]) -> None:
        """Add the claims that contradict nothing firmer; those on the length of the stay when the stay is known."""
        ordered = sorted(claims, key=self.order)
        of_stay = [c for c in ordered if isinstance(c.part, StatedAge) and c.part.of is Milestone.ARRIVAL]
        others = [c for c in ordered if c not in of_stay]
        if grade is Grade.DOCUMENTED:
            self._review(others)
        else:
            self._add_in_order(grade, others)
        self._settle_stays(self._stays_at(grade, self.on))
        self._add_in_order(grade, of_stay)

    def _settle_stays(self, found: dict[str, Stay]) -> None:
        """Take the stays that were found, except where one cannot be beside what stands: there the former remains."""
        former, self.stays = self.stays, found
        if self._conflict(self.on, ()) is None:
            return
        self.stays = former
        for accession, stay in found.items():
            before, self.stays = self.stays, {**self.stays, accession: stay}
            if self._conflict(self.on, ()) is not None:
                self.stays = before

    def _and(self, on: bytearray, claims: Iterable[Claim]) -> bytearray:
        switched = bytearray(on)
        for claim in claims:
            switched[claim.owner] = 1
        return switched

    def _with_stays(self, on: bytearray) -> bytearray:
        switched = bytearray(on)
        for stay in self.stays.values():
            for bound in stay.bounds:
                switched[bound] = 1
        return switched

    def _stays_at(self, grade: Grade, on: bytearray) -> dict[str, Stay]:
        """The present stays, by what follows from everything but the arrivals themselves."""
        network, trees = self.system.network, self.system.trees
        days: Days = lambda point: self.written.get(point, (EARLY, LATE))  # noqa: E731
        if any(tree.departs for tree in trees.values()):
            try:
                found = cases(network, on, self.certain)
            except Conflict:
                pass  # the dates as written must do until the contradiction is settled
            else:
                days = lambda point: hull(found, point)  # noqa: E731

        def precedes(first: int, second: int) -> bool:
            return days(first)[1] < max(days(second)[0], EARLY + 1) or network.leads(first, second, on)

        return {a: stay_of(t, grade, days, precedes, self.as_of) for a, t in trees.items() if t.hand_overs}

    def _earliest_of(self, grade: Grade, *, claims: bool) -> list[EarliestOf]:
        """The milestones that claim (with `claims` false: are merely taken) to be the earliest beginning recorded.

        A beginning whose date was left out is merely passed over, unless it is needed.
        """
        found = []
        for accession, tree in self.system.trees.items():
            for milestone, beginnings in tree.beginnings.items():
                there = tuple(b for b in beginnings if b.event.standing <= grade)
                point = tree.milestones[milestone]
                claiming = any(b.claims for b in there)
                if there and claiming is claims:
                    found.append(EarliestOf(accession, milestone, point, there))
                if claims or not self.left_out:
                    continue
                dated = tuple(b for b in there if b.date not in self.left_out)
                if dated and len(dated) < len(there):
                    found.append(EarliestOf(accession, milestone, point, dated))
        return found

    def _arrivals(self, *, settled: bool) -> list[EarliestOf]:
        """The present stays that begin with the first of their arrivals."""
        return [
            EarliestOf(a, Milestone.ARRIVAL, self.system.trees[a].milestones[Milestone.ARRIVAL], stay.beginnings)
            for a, stay in self.stays.items()
            if stay.beginnings and (a in self.settled) is settled
        ]

    def _solved(self, grade: Grade, on: bytearray) -> Layer | None:
        """The layer with these owners, or None where they contradict each other.

        What is merely assumed is dropped, in a fixed order, where it cannot be: after an earlier attestation a first
        pot merely attests.
        """
        network, on = self.system.network, self._with_stays(on)
        kept = [*self.certain, *self._arrivals(settled=True)]
        assumed = [*self._earliest_of(grade, claims=False), *self._arrivals(settled=False)]

        def conflict_of(some: Sequence[EarliestOf]) -> Conflict | None:
            try:
                consistent(network, on, [*kept, *some])
            except Conflict as conflict:
                return conflict
            return None

        try:
            found = cases(network, on, [*kept, *assumed])
        except Conflict:
            if conflict_of(()) is not None:
                return None
            while (place := first_to_fail(assumed, conflict_of, _closings)) is not None:
                kept, assumed = [*kept, *assumed[:place]], assumed[place + 1 :]
            found = cases(network, on, [*kept, *assumed])
        return Layer(grade, found, {(one.accession, one.milestone): one for one in [*kept, *assumed]}, self.stays)

    def _conflict(self, base: bytearray, claims: Iterable[Claim]) -> Conflict | None:
        certain = [*self.certain, *self._arrivals(settled=True)]
        try:
            consistent(self.system.network, self._with_stays(self._and(base, claims)), certain)
        except Conflict as conflict:
            return conflict
        return None

    def _review(self, claims: list[Claim]) -> None:
        """Find the contradictions among documents. What takes part in one is taken out, for the trees beside it."""
        while self._conflict(self.on, claims) is not None:
            clash = smallest(claims, lambda some: self._conflict(self.on, some))
            self.ladder.clashes.append(Clash(tuple(clash), None))
            self.ladder.under_review |= {claim.tree for claim in clash}
            self.left_out |= {claim.owner for claim in clash}
            claims = [claim for claim in claims if claim not in clash]
        self.on = self._and(self.on, claims)

    def _add_in_order(self, grade: Grade, claims: Sequence[Claim]) -> None:
        """Add claims one after the other; the first that contradicts what stands is left out, and so on."""
        while (place := first_to_fail(claims, lambda some: self._conflict(self.on, some), _owner)) is not None:
            self.on = self._and(self.on, claims[:place])
            self._leave_out(grade, claims[place])
            claims = claims[place + 1 :]
        self.on = self._and(self.on, claims)

    def _leave_out(self, grade: Grade, claim: Claim) -> None:
        base = self._structure_only(grade)
        clash = smallest([*self._kept(), claim], lambda some: self._conflict(base, some))
        self.ladder.clashes.append(Clash(tuple(clash), claim))
        self.left_out.add(claim.owner)

    def _kept(self) -> list[Claim]:
        return sorted((c for c in self.system.claims if c is not None and self.on[c.owner]), key=self.order)

    def _structure_only(self, grade: Grade) -> bytearray:
        on = bytearray(len(self.on))
        for above in Grade:
            on[structure(above)] = above <= grade
        return on


def _owner(claim: Claim) -> tuple[int]:
    return (claim.owner,)


def _closings(one: EarliestOf) -> list[int]:
    return [beginning.closing for beginning in one.beginnings]
