"""How much seeing a tree is worth on a walk: whole points, each for something a guide would name."""

from __future__ import annotations

from archive_tools.model.findings import TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.tree import Tree

EVERY_TREE = 10
PREFERRED = 20
"""It fits what the plan prefers."""
COMPARISON = 8
"""Before and after can be shown."""
OWN_WORDS = 6
"""The curator has written talking points."""
ON_DISPLAY = 6
IN_SEASON = 5
"""It has been photographed from the front in this month of another year, so it was thought worth a picture then."""
MOST_FOR_AGE = 10
"""A point for every ten years of documented care, up to a hundred."""


def interest_of(
    tree: Tree, chronology: TreeChronology | None, *, on_display: bool, preferred: bool, month: int | None
) -> int:
    """The points of a tree. `month`: that of the walk, 1 to 12, where its day is known."""
    points = EVERY_TREE + _age_points(chronology)
    points += PREFERRED if preferred else 0
    points += COMPARISON if tree.comparisons else 0
    points += OWN_WORDS if tree.talking_points else 0
    points += ON_DISPLAY if on_display else 0
    points += IN_SEASON if month is not None and _is_pictured_in(tree, month) else 0
    return points


def _age_points(chronology: TreeChronology | None) -> int:
    care = chronology.milestones.get(Milestone.CARE) if chronology else None
    age = care.ages.get(Grade.DOCUMENTED) if care else None
    return min((age.min or 0) // 10, MOST_FOR_AGE) if age else 0


def _is_pictured_in(tree: Tree, month: int) -> bool:
    dates = [photo.when for photo in tree.photos if photo.view in (None, "front")]
    spans = [(when.earliest, when.latest) for when in dates if when is not None]
    return any(
        first is not None
        and last is not None
        and first.month == month
        and (first.year, first.month) == (last.year, last.month)
        for first, last in spans
    )
