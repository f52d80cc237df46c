"""Bounds from lives and counted years: stewards' births and deaths, the tree's own death, stated ages, annual rings."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from archive_tools.model.calendar import FIRST_DAY, LAST_DAY, add, earliest_after, latest_before
from archive_tools.model.collection import Collection
from archive_tools.model.dates import Duration
from archive_tools.model.event import Event, StatedAge
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.kinds import KINDS
from archive_tools.model.people import Steward
from archive_tools.reason.chronology.lapses import EARLY, LATE
from archive_tools.reason.chronology.system import System, TreePoints, structure

_VEGETATIVE = frozenset({"struck", "layer severed", "raised from graft", "raised from division"})
"""How a plant may begin as a part of another: its wood is older than itself."""


def years(count: int) -> Duration:
    """A length of whole years."""
    return Duration(count, 0, 0, f"P{count}Y")


def add_lives(system: System, points: TreePoints, event: Event, stewards: Mapping[str, Steward]) -> None:
    """Whoever acts, gives, receives or is present is alive that day."""
    begin = points.events[event.id].begin
    for steward_id in dict.fromkeys((*event.by, *event.to, *event.with_, *event.from_)):
        steward = stewards.get(steward_id)
        if steward is None or (steward.born is None and steward.died is None):
            continue
        gives = steward_id in event.from_
        if steward.born is not None and steward.born.earliest is not None:
            owner = _life(system, points, steward, "born", event.standing)
            system.network.between(begin, steward.born.earliest.toordinal(), LATE, owner)
        if steward.died is None:
            continue
        if gives and event.kind == "bequest":
            if steward.died.earliest is not None:
                owner = _life(system, points, steward, "died", event.standing)
                system.network.between(begin, steward.died.earliest.toordinal(), LATE, owner)
        elif not (gives and steward.kind == "estate") and steward.died.latest is not None:
            owner = _life(system, points, steward, "died", event.standing)
            system.network.between(begin, EARLY, steward.died.latest.toordinal(), owner)


def _life(system: System, points: TreePoints, steward: Steward, about: str, grade: Grade) -> int:
    """The claim of a birth or death, one for each tree: it does not tie trees together.

    It holds no firmer than the events it is said to bound: that somebody acted who was not born yet is a contradiction
    between the two only from the grade on in which both are said.
    """
    when = steward.born if about == "born" else steward.died
    assert when is not None
    grade = max(grade, steward.grade or Grade.DOCUMENTED, Grade.REPORTED if when.uncertain else Grade.DOCUMENTED)
    key = (steward.id, about, grade)
    if key not in points.lives:
        mark = steward.where.at(about)
        points.lives[key] = system.claim(points.tree.accession, about, steward, grade, mark, when)
    return points.lives[key]


def add_deaths(system: System, points: TreePoints) -> None:
    """Nothing that attests life or care comes after a death; what is counted of the remains may."""
    events = [event for event in points.tree.events if not event.planned]
    for death in events:
        if death.kind != "died":
            continue
        died = points.events[death.id].begin
        points.deaths.append((died, death.standing))
        for milestone in (Milestone.CARE, Milestone.CONTAINER):
            system.network.order(points.milestones[milestone], died, structure(death.standing))
        for event in events:
            kind = KINDS[event.kind]
            of_remains = event.rings is not None and not (kind.begins or kind.attests)
            if kind.attests_life and not of_remains:
                at, here = points.events[event.id], structure(max(event.standing, death.standing))
                system.network.order(at.begin, died, here)
                if at.end is not None and kind.attests:
                    system.network.order(at.end, died, here)


def add_rings(system: System, points: TreePoints, event: Event) -> None:
    """Annual rings: so many whole years, less the first, and at most all that were counted or may be missed."""
    rings, tree = event.rings, points.tree
    if rings is None or tree.is_planting:
        return
    if any(e.kind in _VEGETATIVE and not e.planned and e.standing <= event.standing for e in tree.events):
        return
    at: int | None = points.events[event.id].begin
    grade = event.standing
    if rings.up_to is not None:
        other = system.trees.get(rings.up_to.accession or tree.accession)
        at = other.find(rings.up_to.event) if other and rings.up_to.event else None
        grade = max(grade, other.standing(rings.up_to.event or "")) if other else grade
    if at is None:
        return
    origin = points.milestones[Milestone.ORIGIN]
    fewest, most = rings.missed
    counted = rings.count - rings.false_rings
    owner = system.claim(tree.accession, "rings", event, grade, rings.where.at())
    system.network.at_least(origin, at, years(max(counted + fewest - 1, 0)), owner)
    if most is not None:
        system.network.at_most(origin, at, years(counted + most), owner)
    points.touch(Milestone.ORIGIN, grade)


def add_ages(system: System, points: TreePoints, event: Event, at: int, collection: Collection) -> None:
    """Somebody's statements of an age: at most reported, and inferred where a survey concludes it."""
    kinds = {collection.sources[c.source].kind for c in event.sources if c.source in collection.sources}
    grade = max(event.standing, Grade.INFERRED if kinds == {"survey"} else Grade.REPORTED)
    margin = collection.settings.dates.margin("year")
    for stated in event.states_age:
        if points.tree.is_planting and stated.of is Milestone.ORIGIN:
            continue
        owner = system.claim(points.tree.accession, "states_age", event, grade, stated.where.at(), part=stated)
        points.touch(stated.of, grade)
        milestone = points.milestones[stated.of]
        if stated.as_of is not None:
            first, last = _stated_days(stated, margin)
            system.network.between(milestone, first, last, owner)
        else:
            # Said on the day of the event itself.
            least, most = _stated_lapses(stated, margin)
            system.network.at_least(milestone, at, least, owner)
            if most is not None:
                system.network.at_most(milestone, at, most, owner)


def _stated_days(stated: StatedAge, margin: Duration) -> tuple[int, int]:
    """The days on which the milestone can lie, seen from both ends of the day the age was said for."""
    said = stated.as_of
    assert said is not None
    first, last = EARLY, LATE
    if stated.least is not None and said.latest is not None:
        day = latest_before(said.latest, years(stated.least))
        if day is not None and stated.approximate:
            day = add(day, margin) or LAST_DAY
        last = EARLY if day is None else day.toordinal()
    if stated.most is not None and said.earliest is not None:
        # So many years are completed and the next one is not: one day short of it.
        lowest: date | None = earliest_after(said.earliest, _almost(stated.most + 1))
        if lowest is not None and stated.approximate:
            lowest = latest_before(lowest, margin)
        first = EARLY if lowest is None or lowest == FIRST_DAY else lowest.toordinal()
    return first, last


def _stated_lapses(stated: StatedAge, margin: Duration) -> tuple[Duration, Duration | None]:
    more = margin if stated.approximate else years(0)
    least = years(stated.least or 0)
    shortest = Duration(0, max(least.whole_months - more.whole_months, 0), -more.days, "")
    if stated.most is None:
        return shortest, None
    longest = _almost(stated.most + 1)
    return shortest, Duration(0, longest.whole_months + more.whole_months, longest.days + more.days, "")


def _almost(count: int) -> Duration:
    """A day short of so many years."""
    return Duration(count, 0, -1, "")
