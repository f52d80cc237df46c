"""From records to claims and bounds between points: what each kind of event, date and photograph says."""

from __future__ import annotations

from collections.abc import Iterable, Set

from archive_tools.model.collection import Collection
from archive_tools.model.event import Event, Timing
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.kinds import KINDS
from archive_tools.model.photo import Photo
from archive_tools.model.tree import Tree
from archive_tools.reason.chronology.lapses import LATE
from archive_tools.reason.chronology.spans_of_life import add_ages, add_deaths, add_lives, add_rings
from archive_tools.reason.chronology.system import (
    Beginning,
    EventPoints,
    Evidence,
    HandOver,
    System,
    TreePoints,
    structure,
)
from archive_tools.reason.chronology.ties import add_members, add_mother

ORIGIN, CARE, CONTAINER, ARRIVAL = Milestone
_SHOWN = {"trained": (CARE,), "container": (CARE, CONTAINER)}
_ONLY_NOT_AFTER = frozenset({"lab stamp", "publication", "postmark", "scan"})
"""What dates a photograph only from above: it was taken some time before."""


def system_of(group: Iterable[str], collection: Collection) -> System:
    """All that the graded records of a connected group of trees say, as one network."""
    system = System()
    trees = [collection.trees[accession] for accession in sorted(group)]
    for tree in trees:
        system.trees[tree.accession] = _add_tree(system, tree, collection)
    for tree in trees:
        points = system.trees[tree.accession]
        for event in sorted(tree.events, key=_fixed_order):
            if not event.planned:
                for timing in sorted(event.timing, key=_timing_order):
                    _add_timing(system, points, event, timing, event.standing)
                add_mother(system, event, points.events[event.id].begin)
                add_rings(system, points, event)
        for photo in tree.photos:
            if photo.id in points.photos:
                for timing in photo.timing:
                    _add_timing(system, points, photo, timing, _photo_grade(photo))
        add_members(system, points)
    return system


def _fixed_order(event: Event) -> tuple[object, ...]:
    """Firmest first, then the narrowest date, then by name: of two dates that say the same, one decides whatever the
    order in which they are written.
    """
    when = event.when
    width = (when.latest - when.earliest).days if when and when.earliest and when.latest else LATE
    return (event.standing, width, event.id)


def _timing_order(timing: Timing) -> tuple[str, ...]:
    lapses = (timing.at_least, timing.at_most)
    return (str(timing.other), timing.relation, *(lapse.text if lapse else "" for lapse in lapses))


def _add_tree(system: System, tree: Tree, collection: Collection) -> TreePoints:
    network = system.network
    points = TreePoints(tree, {milestone: network.point() for milestone in Milestone})
    always = structure(Grade.DOCUMENTED)
    origin, care, container, arrival = points.milestones.values()
    network.order(care, container, always)
    if not tree.is_planting:
        network.order(origin, care, always)
        network.order(origin, arrival, always)
    for event in sorted(tree.events, key=_fixed_order):
        if not event.planned:
            _add_event(system, points, event, collection)
    # Only changes of hands go by the order in which they are written, where their dates leave it open.
    written = {event.id: place for place, event in enumerate(tree.events)}
    points.hand_overs.sort(key=lambda hand_over: written[hand_over.event.id])
    for photo in tree.photos:
        if photo.sure != "no" and (photo.when is not None or photo.timing):
            _add_photo(system, points, photo)
    add_deaths(system, points)
    return points


def _add_event(system: System, points: TreePoints, event: Event, collection: Collection) -> None:
    network, tree, grade = system.network, points.tree, event.standing
    kind, here = KINDS[event.kind], structure(grade)
    begin, end = network.point(), None
    dated = -1
    if event.when is not None and (event.when.earliest or event.when.latest):
        dated = system.claim(tree.accession, "date", event, grade, event.where.at("date"), event.when)
        system.dated(begin, event.when, dated)
    if event.until is not None:
        end = network.point()
        network.order(begin, end, here)
        firm = max(grade, Grade.REPORTED) if event.until.uncertain else grade
        owner = system.claim(tree.accession, "until", event, firm, event.where.at("until"), event.until)
        system.dated(end, event.until, owner)
    points.events[event.id] = EventPoints(begin, end, dated)
    points.grades[event.id] = grade
    attested = kind.begins | kind.attests
    shown = frozenset(milestone for word in event.shows for milestone in _SHOWN[word])
    _is_there(system, points, begin, grade)
    _attest(system, points, begin, attested, grade, here)
    if shown and ORIGIN in kind.begins:
        # Sown, and trained on the same day, says more than an event of either kind: it can be wrong for itself.
        here = system.claim(tree.accession, "shows", event, grade, event.where.at("shows"))
    _attest(system, points, begin, shown, grade, here)
    for milestone in (ORIGIN, CARE, CONTAINER):
        if milestone in kind.begins and not (milestone is ORIGIN and tree.is_planting):
            closing = system.switch()
            network.order(begin, points.milestones[milestone], closing)
            beginning = Beginning(begin, event, kind.claims_beginning, closing, dated)
            points.beginnings.setdefault(milestone, []).append(beginning)
    if kind.attests_life and CARE in attested | shown:
        points.evidence.append(Evidence(begin, end, grade))
    if kind.custody:
        _add_hand_over(system, points, event, collection.settings.custodian)
    add_lives(system, points, event, collection.stewards)
    if event.states_age:
        add_ages(system, points, event, begin, collection)


def _is_there(system: System, points: TreePoints, point: int, grade: Grade) -> None:
    """The plant had begun by this point; a planting has no such beginning."""
    if not points.tree.is_planting:
        system.network.order(points.milestones[ORIGIN], point, structure(grade))
        points.touch(ORIGIN, grade)


def _attest(system: System, points: TreePoints, point: int, attested: Set[Milestone], grade: Grade, owner: int) -> None:
    """Care, or the container, had begun by this point."""
    for milestone in (CARE, CONTAINER):
        if milestone in attested:
            system.network.order(points.milestones[milestone], point, owner)
            points.touch(milestone, grade)


def _add_photo(system: System, points: TreePoints, photo: Photo) -> None:
    if photo.id in points.photos:
        return
    grade = _photo_grade(photo)
    point = points.photos[photo.id] = system.network.point()
    points.grades.setdefault(photo.id, grade)
    only_not_after = photo.dated_by in _ONLY_NOT_AFTER
    if photo.when is not None:
        mark = photo.where.at("date")
        owner = system.claim(points.tree.accession, "date", photo, grade, mark, photo.when)
        system.dated(point, photo.when, owner, not_before=not only_not_after)
    attested = {milestone for shown in photo.shows for milestone in _SHOWN[shown]}
    _is_there(system, points, point, grade)
    _attest(system, points, point, attested, grade, structure(grade))
    if attested and not only_not_after:
        points.evidence.append(Evidence(point, None, grade))


def _photo_grade(photo: Photo) -> Grade:
    """A photograph that is only probably of the tree says no more than an inference."""
    return photo.standing if photo.sure == "yes" else max(photo.standing, Grade.INFERRED)


def _add_timing(system: System, points: TreePoints, item: Event | Photo, timing: Timing, grade: Grade) -> None:
    home = points.tree.accession
    other_tree = system.trees.get(timing.other.accession or home)
    other = other_tree.find(timing.other.event) if other_tree and timing.other.event else None
    own = points.find(item.id)
    if other is None or own is None or other == own or other_tree is None:
        return
    # A lapse holds no firmer than the event it is counted from: where only hearsay knows of that, so it does of this.
    grade = max(grade, other_tree.standing(timing.other.event or ""))
    owner = system.claim(home, "timing", item, grade, timing.where.at(), part=timing)
    first, second = (other, own) if timing.relation == "after" else (own, other)
    if timing.at_least is None:
        system.network.order(first, second, owner)
    else:
        system.network.at_least(first, second, timing.at_least, owner)
    if timing.at_most is not None:
        system.network.at_most(first, second, timing.at_most, owner)


def _add_hand_over(system: System, points: TreePoints, event: Event, custodian: str) -> None:
    """What a custody event says of the present stay. Which of these bounds hold is decided layer by layer."""
    network, grade = system.network, event.standing
    arrival, custody = points.milestones[ARRIVAL], KINDS[event.kind].custody
    at = points.events[event.id]
    comes = custodian in event.to and custody in ("acquired", "loan")
    goes = (custody == "ends" and (not event.from_ or custodian in event.from_)) or (
        custody == "acquired" and custodian in event.from_ and not comes
    )
    if comes or custody == "presence":
        bound, closing = system.switch(), -1
        network.order(arrival, at.begin, bound)
        if comes:
            closing = system.switch()
            network.order(at.begin, arrival, closing)
        sort = "arrival" if comes else "found"
        points.hand_overs.append(HandOver(sort, at.begin, event, grade, bound, closing, at.dated))
    if comes and custody == "loan" and at.end is not None:
        bound = system.switch()
        network.order(at.end, arrival, bound)
        points.hand_overs.append(HandOver("return", at.end, event, grade, bound))
    if goes:
        bound = system.switch()
        network.order(at.begin, arrival, bound)
        points.hand_overs.append(HandOver("departure", at.begin, event, grade, bound))
