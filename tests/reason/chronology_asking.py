"""Short ways to ask the chronology of one or several made-up trees."""

from __future__ import annotations

from datetime import date
from typing import Any

from archive_tools.model.dates import Duration
from archive_tools.model.event import EventRef, Rings, StatedAge, Timing
from archive_tools.model.findings import Bounds, TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Where
from archive_tools.reason.chronology import solve
from tests.making import AS_OF, collection, photo, tree, when

ORIGIN, CARE, CONTAINER, ARRIVAL = Milestone
DOCUMENTED, REPORTED, INFERRED, UNSOURCED = Grade
HERE = Where("tree.yml")
Ends = tuple[str | None, str | None]


def solved(*events: Any, as_of: date = AS_OF, photos: tuple[Photo, ...] = (), **parts: Any) -> TreeChronology:
    """The chronology of one tree with these events and photographs."""
    return solve(collection(tree(*events, photos=photos), **parts), as_of, today=AS_OF)["T1"]


def days(found: TreeChronology, milestone: Milestone, grade: Grade = DOCUMENTED) -> Ends:
    """Earliest and latest day of a milestone in a layer."""
    return ends(found.milestones[milestone].layers[grade])


def ends(bounds: Bounds | None) -> Ends:
    """Bounds as ISO text."""
    assert bounds is not None
    first, last = bounds.earliest, bounds.latest
    return (first.isoformat() if first else None, last.isoformat() if last else None)


def age(found: TreeChronology, milestone: Milestone, grade: Grade = DOCUMENTED) -> tuple[int | None, int | None]:
    """Least and greatest age in a layer."""
    one = found.milestones[milestone].ages[grade]
    return one.min, one.max


def said(found: TreeChronology, milestone: Milestone = CARE) -> str | None:
    """The sentence for a milestone."""
    return found.milestones[milestone].wording


def event_days(found: TreeChronology, event_id: str) -> Ends:
    """Earliest and latest day of an event with every statement kept."""
    one = found.event(event_id)
    assert one is not None
    return ends(one.bounds)


def clashes(found: TreeChronology) -> list[tuple[set[str], str | None]]:
    """Each contradiction: what its statements say, and what was left out."""
    return [({s.says for s in c.statements}, c.left_out.says if c.left_out else None) for c in found.contradictions]


def shown(on: str | None, *shows: str, file: str = "a.jpg", **keys: Any) -> Photo:
    """A photograph that shows the tree so."""
    keys.setdefault("standing", DOCUMENTED)
    return photo(file, when=when(on), shows=shows or ("trained",), **keys)


def lapse(text: str) -> Duration:
    """A length of time such as P2Y, P1M, P10D."""
    number, unit = int(text[1:-1]), text[-1]
    return Duration(number if unit == "Y" else 0, number if unit == "M" else 0, number if unit == "D" else 0, text)


def after(other: str, at_least: str | None = None, at_most: str | None = None, relation: str = "after") -> Timing:
    """A timing; `other` is an event id or accession#event."""
    accession, _, event_id = other.rpartition("#")
    least, most = (None if text is None else lapse(text) for text in (at_least, at_most))
    return Timing(relation, EventRef(accession or None, event_id), least, most, HERE)


def before(other: str, at_least: str | None = None, at_most: str | None = None) -> Timing:
    """The same the other way round."""
    return after(other, at_least, at_most, "before")


def rings(count: int, missed: tuple[int, int | None] = (0, None), false: int = 0, up_to: str | None = None) -> Rings:
    """Annual rings."""
    return Rings(count, missed, false, None, EventRef(None, up_to) if up_to else None, HERE)


def stated(
    of: Milestone, least: int, most: int | None, on: str | None = None, *, about: bool = False
) -> tuple[StatedAge]:
    """Somebody's statement of an age."""
    return (StatedAge(of, f"{least}..{most}", least, most, about, when(on), HERE),)
