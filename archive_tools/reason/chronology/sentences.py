"""Which sentence of the wording table a tree's milestone gets, and the years that go into it."""

from __future__ import annotations

from collections.abc import Mapping

from archive_tools.model.event import Event, StatedAge
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.chronology import wording
from archive_tools.reason.chronology.layers import Ladder, Layer
from archive_tools.reason.chronology.proof import deciding
from archive_tools.reason.chronology.system import System, TreePoints
from archive_tools.reason.chronology.wording import Told, Translate

_HEDGED = (Grade.DOCUMENTED, Grade.REPORTED, Grade.INFERRED)
"""The layers that may be put into words; what no source bears out is not said."""


class Sentences:
    """Puts the milestones of one group of trees into words."""

    def __init__(self, system: System, ladder: Ladder, translate: Translate) -> None:
        self.system = system
        self.ladder = ladder
        self.translate = translate

    def of(self, points: TreePoints, milestone: Milestone, layers: Mapping[Grade, Bounds]) -> str | None:
        """The sentence for a milestone with these bounds, or None where nothing may be said."""
        told: dict[Grade, Told] = {}
        for layer in self.ladder.layers[: len(_HEDGED)]:
            before = told.get(Grade(layer.grade - 1)) if layer.grade > 1 else None
            same = before is not None and layer.cases is self.ladder.layers[layer.grade - 2].cases
            told[layer.grade] = before if same and before else self._told(points, milestone, layer, layers[layer.grade])
        telling = next((layer for layer in self.ladder.layers if layer.grade in told and told[layer.grade].says), None)
        if telling is None:
            return None
        event = told[telling.grade].event
        if milestone is Milestone.ORIGIN and event is None:
            by_rings = self._by_rings(points, telling)
            if by_rings is not None:
                return by_rings
        said = wording.sentence(told, self._saying(points, milestone, event), self.translate)
        if milestone is Milestone.CARE and event is not None and points.tree.is_planting:
            remade = [e for e in points.tree.events if e.kind == "assembled" and e is not event and not e.planned]
            said += wording.remade(remade, self.translate)
        if milestone is Milestone.ARRIVAL and event is not None and event.kind == "loan":
            acquired = [h.event for h in telling.stays[points.tree.accession].within if h.event is not event]
            said += wording.acquired(acquired, self.translate)
        return said

    def _saying(self, points: TreePoints, milestone: Milestone, event: Event | None) -> str:
        """The name of the saying: by the milestone and, where it matters, by the kind of beginning."""
        if event is None:
            return milestone.value
        if milestone is Milestone.ORIGIN or event.kind in ("collected", "loan"):
            return event.kind
        if milestone is Milestone.CARE and event.kind == "assembled" and points.tree.is_planting:
            return "planting"
        return milestone.value

    def _told(self, points: TreePoints, milestone: Milestone, layer: Layer, bounds: Bounds) -> Told:
        """What one layer tells: the beginning that decides, and whether dates marked `~` or `?` decide an end."""
        if not bounds.known:
            return Told(bounds)
        event = None
        assumed = layer.assumed.get((points.tree.accession, milestone))
        if assumed is not None:
            decides = min(assumed.beginnings, key=lambda b: (layer.days(b.point)[1], layer.days(b.point)[0]))
            event = decides.event
        about: list[bool] = []
        by_age: list[bool] = []
        own_date = uncertain = False
        for end, day in (("earliest", bounds.earliest), ("latest", bounds.latest)):
            if day is None:
                continue
            claims = deciding(self.system, layer, points.milestones[milestone], end)
            whens = [c.part.as_of if isinstance(c.part, StatedAge) else c.when for c in claims]
            ages = [c.part for c in claims if isinstance(c.part, StatedAge)]
            by_age.append(bool(ages))
            about.append(any(a.approximate for a in ages) or any(w is not None and w.approximate for w in whens))
            own_date = own_date or (about[-1] and any(c.item is event and c.about == "date" for c in claims))
            uncertain = uncertain or any(when is not None and when.uncertain for when in whens)
        stated = event is None and by_age == [True, True]
        return Told(bounds, event, stated, own_date or all(about), uncertain)

    def _by_rings(self, points: TreePoints, layer: Layer) -> str | None:
        """What annual rings say, where they decide the latest day of origin in the layer."""
        claims = deciding(self.system, layer, points.milestones[Milestone.ORIGIN], "latest")
        counted = next((claim.item for claim in claims if claim.about == "rings"), None)
        if not isinstance(counted, Event) or counted.rings is None:
            return None
        up_to = counted.rings.up_to
        at = counted if up_to is None else points.tree.event(up_to.event or "")
        return None if at is None else wording.rings_sentence(counted.rings, at, layer.grade, self.translate)
