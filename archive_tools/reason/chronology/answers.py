"""From a solved group of trees to what may be said of each."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.event import Event
from archive_tools.model.findings import (
    AgeRange,
    Bounds,
    Contradiction,
    EventFinding,
    MilestoneFinding,
    Sharpening,
    Statement,
    TreeChronology,
)
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.chronology.ages import age_at, bounds_of
from archive_tools.reason.chronology.layers import Ladder, Layer
from archive_tools.reason.chronology.proof import Speaker, deciding
from archive_tools.reason.chronology.sentences import Sentences
from archive_tools.reason.chronology.sharpen import sharpened
from archive_tools.reason.chronology.system import System, TreePoints
from archive_tools.reason.chronology.unbroken import Shown, unbroken_care
from archive_tools.reason.chronology.wording import UNDER_REVIEW, Translate, members_sentence

_NOTHING = {grade: Bounds() for grade in Grade}
_NO_AGES = {grade: AgeRange() for grade in Grade}


class Answers:
    """What follows for the trees of one group."""

    def __init__(
        self, system: System, ladder: Ladder, collection: Collection, as_of: date, translate: Translate
    ) -> None:
        self.system = system
        self.ladder = ladder
        self.collection = collection
        self.as_of = as_of
        self.sentences = Sentences(system, ladder, translate)
        self.known: dict[tuple[Grade, int], Bounds] = {}
        self.speaker = Speaker(collection.sources)
        self.translate = translate

    def of(self, accession: str) -> TreeChronology:
        """The chronology of one tree."""
        points = self.system.trees[accession]
        contradictions = tuple(
            Contradiction(
                self.speaker.statements(clash.claims),
                self.speaker.statement(clash.left_out) if clash.left_out else None,
            )
            for clash in self.ladder.clashes
            if any(claim.tree == accession for claim in clash.claims)
        )
        if accession in self.ladder.under_review:
            return self._under_review(points, contradictions)
        last = self.ladder.layers[-1]
        milestones = {milestone: self._milestone(points, milestone) for milestone in Milestone}
        care = unbroken_care(
            (self._shown(last, e.begin, e.end) for e in points.evidence),
            milestones[Milestone.CARE].layers[Grade.UNSOURCED],
            self.collection.settings.unbroken_within,
            self._last_day(last, points),
        )
        return TreeChronology(
            accession=accession,
            as_of=self.as_of,
            under_review=False,
            milestones=milestones,
            events=tuple(self._event(points, last, e) for e in points.tree.events if not e.planned),
            unbroken_since=care.since,
            quiet=care.quiet,
            evidence_share=care.share,
            contradictions=contradictions,
            sharpen=self._sharpen(points, milestones),
        )

    def _sharpen(self, points: TreePoints, milestones: Mapping[Milestone, MilestoneFinding]) -> tuple[Sharpening, ...]:
        """What would gain most for each milestone, the greatest gain first."""
        found = []
        for milestone, finding in milestones.items():
            point = points.milestones[milestone]

            def decides(grade: Grade, point: int = point) -> tuple[Statement, ...]:
                layer = self.ladder.layers[grade - 1]
                return self.speaker.statements(deciding(self.system, layer, point, "latest"))

            found.append(sharpened(milestone, finding.layers, finding.ages, decides, self.translate))
        return tuple(sorted(filter(None, found), key=lambda one: -one.years))

    def _members(self, planting: TreePoints) -> str | None:
        """The beginnings of the oldest and the newest member with a record of its own."""
        said = []
        for member in planting.tree.members:
            own = self.system.trees.get(member.accession or "")
            gone = member.until is not None and member.until.latest is not None and member.until.latest < self.as_of
            if own is None or gone or own.tree.is_planting or own.tree.accession in self.ladder.under_review:
                continue
            origin = self._milestone(own, Milestone.ORIGIN)
            latest = next((b.latest for b in origin.layers.values() if b.latest is not None), None)
            if origin.wording is not None and latest is not None:
                said.append((latest, own.tree.accession, origin.wording))
        return members_sentence([wording for _, _, wording in sorted(said)], self.translate)

    def _under_review(self, points: TreePoints, contradictions: tuple[Contradiction, ...]) -> TreeChronology:
        """No milestone and no age is said; events keep the days they were written with."""
        said = self.translate(UNDER_REVIEW)
        return TreeChronology(
            accession=points.tree.accession,
            as_of=self.as_of,
            under_review=True,
            milestones={m: MilestoneFinding(m, _NOTHING, _NO_AGES, said) for m in Milestone},
            events=tuple(
                EventFinding(e.id, e.kind, _written(e), _written_until(e), e.standing)
                for e in points.tree.events
                if not e.planned
            ),
            contradictions=contradictions,
        )

    def _event(self, points: TreePoints, layer: Layer, event: Event) -> EventFinding:
        at = points.events[event.id]
        bounds = self._clipped(self._days(layer, at.begin), event)
        until = None if at.end is None else self._days(layer, at.end)
        return EventFinding(event.id, event.kind, bounds, until, event.standing)

    def _clipped(self, bounds: Bounds, event: Event) -> Bounds:
        """As-of clips an open end of what is written to have begun; it gives no end to what has no date at all."""
        when = event.when
        if when is None or when.latest is not None or when.earliest is None:
            return bounds
        if bounds.earliest is None or bounds.earliest > self.as_of:
            return bounds
        return Bounds(bounds.earliest, min(bounds.latest or self.as_of, self.as_of))

    def _last_day(self, layer: Layer, points: TreePoints) -> date:
        """To which day care can have lasted: to today, or to the latest day on which the tree may have died."""
        days = (self._days(layer, died).latest for died, _grade in points.deaths)
        return min((self.as_of, *(day for day in days if day is not None)))

    def _shown(self, layer: Layer, begin: int, end: int | None) -> Shown:
        first = self._days(layer, begin)
        return Shown(first, first if end is None else self._days(layer, end))

    def _days(self, layer: Layer, point: int) -> Bounds:
        key = (layer.grade, point)
        if key not in self.known:
            self.known[key] = bounds_of(layer.days(point))
        return self.known[key]

    def _milestone(self, points: TreePoints, milestone: Milestone) -> MilestoneFinding:
        point = points.milestones[milestone]
        layers = {layer.grade: self._bounds(points, milestone, layer) for layer in self.ladder.layers}
        proofs = {}
        for end in ("earliest", "latest"):
            firmest = next((layer for layer in self.ladder.layers if getattr(layers[layer.grade], end)), None)
            claims = [] if firmest is None else deciding(self.system, firmest, point, end)
            proofs[end] = self.speaker.statements(claims)
        if milestone is Milestone.ORIGIN and points.tree.is_planting:
            wording = self._members(points)
        else:
            wording = self.sentences.of(points, milestone, layers)
        return MilestoneFinding(
            milestone,
            layers,
            {grade: age_at(bounds, self.as_of) for grade, bounds in layers.items()},
            wording,
            proofs["earliest"],
            proofs["latest"],
        )

    def _bounds(self, points: TreePoints, milestone: Milestone, layer: Layer) -> Bounds:
        """The bounds in one layer; none where nothing in it begins, attests or bounds the milestone itself."""
        touched = points.touched.get(milestone)
        stay = layer.stays.get(points.tree.accession) if milestone is Milestone.ARRIVAL else None
        if (touched is None or touched > layer.grade) and not (stay and stay.within):
            return Bounds()
        return self._days(layer, points.milestones[milestone])


def _written(event: Event) -> Bounds:
    return Bounds(event.when.earliest, event.when.latest) if event.when else Bounds()


def _written_until(event: Event) -> Bounds | None:
    return Bounds(event.until.earliest, event.until.latest) if event.until else None
