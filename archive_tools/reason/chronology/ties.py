"""What ties trees together: mother plants, the members of plantings, and lapses between events of different trees."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.model.collection import Collection
from archive_tools.model.event import Event, EventRef
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.tree import Tree
from archive_tools.reason.chronology.system import System, TreePoints

_OF_MEMBERS = frozenset({"assembled", "taken apart", "member added", "member removed", "merged", "split off"})
_ALIVE = _OF_MEMBERS - {"taken apart", "member removed"}
"""A member that is taken out may have died before."""


def connected_groups(collection: Collection) -> list[list[str]]:
    """The accessions, in groups whose dates bear on each other; groups and members in the order of the collection."""
    parent = {accession: accession for accession in collection.trees}

    def root(accession: str) -> str:
        while parent[accession] != accession:
            parent[accession] = parent[parent[accession]]
            accession = parent[accession]
        return accession

    for accession, tree in collection.trees.items():
        for other in _others(tree):
            if other in parent and other != accession:
                parent[root(other)] = root(accession)
    groups: dict[str, list[str]] = {}
    for accession in collection.trees:
        groups.setdefault(root(accession), []).append(accession)
    return list(groups.values())


def _others(tree: Tree) -> Iterator[str]:
    for event in tree.events:
        if event.planned:
            continue
        for timing in event.timing:
            if timing.other.accession:
                yield timing.other.accession
        if event.from_tree and event.from_tree.accession:
            yield event.from_tree.accession
        if event.rings and event.rings.up_to and event.rings.up_to.accession:
            yield event.rings.up_to.accession
        if event.kind in _OF_MEMBERS:
            yield from _named_members(tree, event)
    for photo in tree.photos:
        for timing in photo.timing:
            if timing.other.accession:
                yield timing.other.accession
    for member in tree.members:
        if member.accession:
            yield member.accession


def _named_members(tree: Tree, event: Event) -> Iterator[str]:
    own = {member.id: member.accession for member in tree.members}
    for reference in event.trees:
        name = str(reference.accession or reference.event)
        accession = own.get(name) or name
        if accession != tree.accession:
            yield accession


def add_mother(system: System, event: Event, at: int) -> None:
    """With `from_tree` the mother is alive that day."""
    mother = system.trees.get(event.from_tree.accession or "") if event.from_tree else None
    if mother is None or mother.tree.accession == event.tree:
        return
    mark = event.where.at("from_tree")
    if not mother.tree.is_planting:
        owner = system.claim(event.tree, "mother", event, event.standing, mark)
        system.network.order(mother.milestones[Milestone.ORIGIN], at, owner)
        mother.touch(Milestone.ORIGIN, event.standing)
    for died, known in mother.deaths:
        # A claim holds no firmer than all that it speaks of: where only hearsay knows of the death, so it does here.
        system.network.order(at, died, system.claim(event.tree, "mother", event, max(event.standing, known), mark))


def add_members(system: System, planting: TreePoints) -> None:
    """The members of a planting are alive when it is assembled or they are added to it."""
    tree = planting.tree
    for event in tree.events:
        if event.kind not in _OF_MEMBERS or event.planned:
            continue
        at = planting.events[event.id].begin
        for accession in _named_members(tree, event):
            member = system.trees.get(accession)
            if member is not None:
                _add_member(system, event, at, member)
    for written in tree.members:
        own = system.trees.get(written.accession or "")
        if own is None or written.from_ is None or written.from_.latest is None or own.tree.is_planting:
            continue
        mark = written.where.at("from")
        owner = system.claim(tree.accession, "member", written, Grade.UNSOURCED, mark, written.from_)
        own.touch(Milestone.ORIGIN, Grade.UNSOURCED)
        system.dated(own.milestones[Milestone.ORIGIN], written.from_, owner, not_before=False)


def _add_member(system: System, event: Event, at: int, member: TreePoints) -> None:
    """The member had begun by then, and was not dead unless it is taken out."""
    mark, part = event.where.at("trees"), EventRef(member.tree.accession, None)
    if not member.tree.is_planting:
        member.touch(Milestone.ORIGIN, event.standing)
        owner = system.claim(event.tree, "members", event, event.standing, mark, part=part)
        system.network.order(member.milestones[Milestone.ORIGIN], at, owner)
    for died, known in member.deaths if event.kind in _ALIVE else ():
        owner = system.claim(event.tree, "members", event, max(event.standing, known), mark, part=part)
        system.network.order(at, died, owner)
