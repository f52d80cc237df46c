"""From a solved group of trees to what may be said of each."""

from __future__ import annotations

from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.event import Event
from archive_tools.model.findings import (
    AgeRange,
    Bounds,
    Contradiction,
    EventFinding,
    MilestoneFinding,
    TreeChronology,
)
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.chronology.ages import age_at, bounds_of
from archive_tools.reason.chronology.layers import Ladder, Layer
from archive_tools.reason.chronology.proof import Speaker, Translate, deciding
from archive_tools.reason.chronology.sentences import Sentences
from archive_tools.reason.chronology.system import System, TreePoints
from archive_tools.reason.chronology.unbroken import Shown, unbroken_care
from archive_tools.reason.chronology.wording import UNDER_REVIEW

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
        self.speaker = Speaker(collection.sources, translate)

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
            self.as_of,
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
        )

    def _under_review(self, points: TreePoints, contradictions: tuple[Contradiction, ...]) -> TreeChronology:
        """No milestone and no age is said; events keep the days they were written with."""
        said = self.speaker.translate(UNDER_REVIEW)
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
        bounds = self._clipped(bounds_of(layer.days(at.begin)), event)
        until = None if at.end is None else bounds_of(layer.days(at.end))
        return EventFinding(event.id, event.kind, bounds, until, event.standing)

    def _clipped(self, bounds: Bounds, event: Event) -> Bounds:
        """As-of clips an open end of what is written to have begun; it gives no end to what has no date at all."""
        when = event.when
        if when is None or when.latest is not None or when.earliest is None:
            return bounds
        if bounds.earliest is None or bounds.earliest > self.as_of:
            return bounds
        return Bounds(bounds.earliest, min(bounds.latest or self.as_of, self.as_of))

    def _shown(self, layer: Layer, begin: int, end: int | None) -> Shown:
        first = bounds_of(layer.days(begin))
        return Shown(first, first if end is None else bounds_of(layer.days(end)))

    def _milestone(self, points: TreePoints, milestone: Milestone) -> MilestoneFinding:
        point = points.milestones[milestone]
        layers = {layer.grade: self._bounds(points, milestone, layer) for layer in self.ladder.layers}
        proofs = {}
        for end in ("earliest", "latest"):
            firmest = next((layer for layer in self.ladder.layers if getattr(layers[layer.grade], end)), None)
            claims = [] if firmest is None else deciding(self.system, firmest, point, end)
            proofs[end] = self.speaker.statements(claims)
        return MilestoneFinding(
            milestone,
            layers,
            {grade: age_at(bounds, self.as_of) for grade, bounds in layers.items()},
            self.sentences.of(points, milestone, layers),
            proofs["earliest"],
            proofs["latest"],
        )

    def _bounds(self, points: TreePoints, milestone: Milestone, layer: Layer) -> Bounds:
        """The bounds in one layer; none where nothing in it begins, attests or bounds the milestone itself."""
        touched = points.touched.get(milestone)
        stay = layer.stays.get(points.tree.accession) if milestone is Milestone.ARRIVAL else None
        if (touched is None or touched > layer.grade) and not (stay and stay.within):
            return Bounds()
        return bounds_of(layer.days(points.milestones[milestone]))


def _written(event: Event) -> Bounds:
    return Bounds(event.when.earliest, event.when.latest) if event.when else Bounds()


def _written_until(event: Event) -> Bounds | None:
    return Bounds(event.until.earliest, event.until.latest) if event.until else None
