"""From when to when a plant or a planting has been one, as far as an edition knows it."""

from __future__ import annotations

from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.view import EditionView

_BORN = frozenset({"cutting", "layer", "seed", "graft", "division"})
"""Ways in which one plant comes of another."""


def life_began(view: EditionView, accession: str) -> Bounds:
    """When it began to be: a planting when it was first planted together, a tree that came of another by that, any
    other by its origin, else its care, on the firmest evidence that bounds it on both sides.

    Where the dates of the tree are under review, or nothing tells of them, both ends are None.
    """
    tree = view.records.trees.get(accession)
    lineage = view.findings.lineages.get(accession)
    if tree is not None and tree.is_planting and lineage is not None and lineage.versions:
        return lineage.versions[0].start
    came = [tie.bounds for tie in lineage.came_from if tie.relation in _BORN] if lineage is not None else []
    if came and came[0].known:
        return came[0]
    chronology = view.findings.chronologies.get(accession)
    if chronology is None or chronology.under_review:
        return Bounds()
    found: list[Bounds] = []
    for milestone in (Milestone.ORIGIN, Milestone.CARE):
        finding = chronology.milestones.get(milestone)
        layers = [finding.layers.get(grade, Bounds()) for grade in Grade] if finding is not None else []
        found += [one for one in layers if one.earliest is not None and one.latest is not None]
        found += [one for one in layers if one.known and one not in found]
    return found[0] if found else Bounds()


def life_ended(view: EditionView, accession: str) -> Bounds | None:
    """When it died; None while nothing says that it did."""
    chronology = view.findings.chronologies.get(accession)
    found = [event for event in chronology.events if event.kind == "died"] if chronology else []
    return next((event.bounds for event in found if event.bounds.known), None)
