"""Things that name themselves, and circles: of descent, of teaching, of membership."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from archive_tools.check.telling import in_event, in_value, listed
from archive_tools.check.walk import all_events
from archive_tools.model.collection import Collection
from archive_tools.model.event import Event
from archive_tools.model.people import Taught
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem


def names_itself(collection: Collection) -> Iterator[Problem]:
    """An event whose `trees`, `from_tree`, `does` or `timing` is its own tree or itself."""
    rule = "names-itself"
    for tree in collection.trees.values():
        for event in tree.events:
            for index, other in enumerate(event.trees):
                if other.accession == tree.accession:
                    what = f"`trees` names the other trees, and {tree.accession} is this one"
                    yield in_event(tree.accession, event, ("trees", index), rule, what, "the other trees alone")
            if event.from_tree and event.from_tree.accession == tree.accession:
                what = f"{tree.accession} cannot come from itself"
                yield in_event(tree.accession, event, ("from_tree",), rule, what, "the mother plant, or nothing")
    for owner, event in all_events(collection):
        if event.does == event.id:
            what = "an event cannot do what it plans itself"
            yield in_event(owner, event, ("does",), rule, what, "the id of the planned event")
        for index, timing in enumerate(event.timing):
            if timing.other.accession in (None, owner) and timing.other.event == event.id:
                what = f"“{event.id}” is timed by itself"
                yield in_event(owner, event, ("timing", index), rule, what, "the id of another event")


def circles_of_descent(collection: Collection) -> Iterator[Problem]:
    """Trees that descend from each other by `from_tree`."""
    begun: dict[tuple[str, str], Event] = {}
    for tree in collection.trees.values():
        for event in tree.events:
            mother = event.from_tree.accession if event.from_tree else None
            if mother is not None and mother != tree.accession:
                begun.setdefault((tree.accession, mother), event)
    for circle in circles(_graph(begun)):
        event = begun[(circle[0], circle[1 % len(circle)])]
        marks = [begun[link].where.at("from_tree") for link in _links(circle)]
        what = f"these trees would each come from the next and the last from the first: {listed(circle)}"
        what += written_at(marks)
        yield in_event(circle[0], event, ("from_tree",), "circle-of-descent", what, "the real mother plant")


def circles_of_teaching(collection: Collection) -> Iterator[Problem]:
    """Stewards who taught each other in a circle, unless dates say that they did so in turn."""
    links = {(s.id, taught.who): taught for s in collection.stewards.values() for taught in s.taught_by}
    for circle in circles(_graph(links)):
        if _in_turn([links[link] for link in _links(circle)]):
            continue
        steward = collection.stewards[circle[0]]
        index = [taught.who for taught in steward.taught_by].index(circle[1 % len(circle)])
        what = (
            f"{circle[0]} is written as their own teacher"
            if len(circle) == 1
            else f"these would each be taught by the next and the last by the first: {listed(circle)}"
        )
        marks = [_lesson_at(collection, link) for link in _links(circle)]
        what += written_at(marks)
        mark = steward.where.at("taught_by", index, "who")
        instead = "who really taught whom, or `from` and `until` where they taught each other in turn"
        yield in_value(mark, ("steward", steward.id), f"taught_by/{index}", "circle-of-teaching", what, instead)


def _lesson_at(collection: Collection, link: tuple[str, str]) -> Mark:
    steward = collection.stewards[link[0]]
    index = [taught.who for taught in steward.taught_by].index(link[1])
    return steward.where.at("taught_by", index, "who")


def written_at(marks: Sequence[Mark]) -> str:
    """Where the statements of a circle are written, for the end of a message; "" for a single one."""
    return f" (written in {listed(map(str, marks))})" if len(marks) > 1 else ""


def _links(circle: Sequence[str]) -> list[tuple[str, str]]:
    return [(name, circle[(index + 1) % len(circle)]) for index, name in enumerate(circle)]


def _in_turn(lessons: Sequence[Taught]) -> bool:
    """Whether the lessons are dated at both ends and no two of them overlap."""
    spans = [
        (lesson.from_.earliest, lesson.until.latest)
        for lesson in lessons
        if lesson.from_ and lesson.until and lesson.from_.earliest and lesson.until.latest
    ]
    known = sorted((first, last) for first, last in spans if first is not None and last is not None)
    return len(lessons) == len(known) > 1 and all(a[1] < b[0] for a, b in pairwise(known))


def circles_of_membership(collection: Collection) -> Iterator[Problem]:
    """Clubs, couples and houses that are members of each other, by `members` or `member_of`."""
    places: dict[tuple[str, str], tuple[str, str, int]] = {}
    for steward in collection.stewards.values():
        for index, member in enumerate(steward.members):
            places.setdefault((steward.id, member), (steward.id, "members", index))
        for index, house in enumerate(steward.member_of):
            places.setdefault((house, steward.id), (steward.id, "member_of", index))
    for circle in circles(_graph(places)):
        owner, key, index = places[(circle[0], circle[1 % len(circle)])]
        what = (
            f"{circle[0]} is written as a member of itself"
            if len(circle) == 1
            else f"these would each have the next as a member and the last the first: {listed(circle)}"
        )
        mark = collection.stewards[owner].where.at(key, index)
        yield in_value(mark, ("steward", owner), f"{key}/{index}", "circle-of-members", what, "the real members alone")


def _graph(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    graph: dict[str, list[str]] = {}
    for start, end in pairs:
        graph.setdefault(start, []).append(end)
    return graph


def circles(graph: Mapping[str, Sequence[str]]) -> list[tuple[str, ...]]:
    """One circle for each closed way found in the graph, each beginning with its alphabetically first name.

    Walked without recursion, so that a long line of descent is no danger. Every edge that closes a way is told once.
    """
    found: dict[tuple[str, ...], None] = {}
    done: set[str] = set()
    for start in sorted(graph):
        if start in done:
            continue
        way, on_way = [start], {start}
        ahead = [iter(sorted(graph.get(start, ())))]
        while ahead:
            following = next(ahead[-1], None)
            if following is None:
                left = way.pop()
                done.add(left)
                on_way.discard(left)
                ahead.pop()
            elif following in on_way:
                found[_from_its_first(way[way.index(following) :])] = None
            elif following not in done:
                way.append(following)
                on_way.add(following)
                ahead.append(iter(sorted(graph.get(following, ()))))
    return list(found)


def _from_its_first(way: Sequence[str]) -> tuple[str, ...]:
    first = way.index(min(way))
    return (*way[first:], *way[:first])
