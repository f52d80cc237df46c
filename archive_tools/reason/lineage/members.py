"""Plantings: which plants stood in them from when to when, and the successive versions of one planting."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from archive_tools.model.dates import WhenWritten
from archive_tools.model.findings import Bounds
from archive_tools.model.lineage import MemberSpell, Version
from archive_tools.model.tree import Member, Tree
from archive_tools.reason.lineage.happened import Dated, in_order

COME = frozenset({"assembled", "member added", "merged"})
GO = frozenset({"member removed", "taken apart", "split off"})


@dataclass(frozen=True, slots=True)
class Planting:
    """The spells of the members of one planting, in order of time, and its versions."""

    spells: tuple[MemberSpell, ...]
    versions: tuple[Version, ...]


def planting_of(tree: Tree, past: Sequence[Dated], known: Mapping[str, object]) -> Planting:
    """Members and versions of a planting, from its list of members and from the events that name them.

    `known`: the accessions of the edition. An event wins over the list; the list fills in what events leave open.
    """
    events = in_order([d for d in past if d.event.kind in COME or d.event.kind in GO or d.event.kind == "died"])
    names = _Names(tree, known)
    spells: list[MemberSpell] = []
    standing: dict[str, MemberSpell] = {}
    versions: list[Version] = []
    for d in events:
        named = [names.id_of(str(reference.accession or reference.event)) for reference in d.event.trees]
        if d.event.kind == "died":
            break
        if d.event.kind in GO:
            gone = named or (list(standing) if d.event.kind == "taken apart" else [])
            # Taken apart and split off on one day: the plant leaves once.
            for member in [m for m in gone if m in standing or not any(s.member == m for s in spells)]:
                spells.append(_left(standing.pop(member) if member in standing else names.spell(member, Bounds()), d))
            if d.event.kind == "taken apart" and versions:
                versions[-1] = replace(versions[-1], end=d.bounds, taken_apart=d.bounds)
            continue
        if d.event.kind == "assembled":
            whole = named or names.there_at(d)
            # What was in it and is not named again at its remaking has gone, unless it is named nowhere.
            for member in [m for m in standing if named and m not in whole]:
                spells.append(_left(standing.pop(member), d))
            versions.append(_version(d, versions, whole))
            if len(versions) > 1 and versions[-2].end is None:
                versions[-2] = replace(versions[-2], end=d.bounds)
            named = whole
        for member in named:
            if member not in standing:
                standing[member] = replace(names.spell(member, d.bounds), joined=d.told_as, grade=d.event.standing)
    spells += standing.values()
    spells = [names.filled_in(spell) for spell in spells]
    met = {spell.member for spell in spells}
    spells += [names.as_listed(member) for member in tree.members if member.id not in met]
    return Planting(tuple(sorted(spells, key=names.order)), tuple(versions))


def _left(spell: MemberSpell, d: Dated) -> MemberSpell:
    return replace(spell, end=d.bounds, left=d.told_as, grade=max(spell.grade, d.event.standing))


def _version(d: Dated, before: Sequence[Version], members: Iterable[str]) -> Version:
    now = tuple(members)
    was = before[-1].members if before else ()
    return Version(
        number=len(before) + 1,
        start=d.bounds,
        end=None,
        by=d.event.by,
        event=d.told_as,
        members=now,
        new=tuple(m for m in now if m not in was) if before else (),
        gone=tuple(m for m in was if m not in now),
        grade=d.event.standing,
        when=d.event.when,
    )


class _Names:
    """The members of one planting by id and by accession."""

    def __init__(self, tree: Tree, known: Mapping[str, object]) -> None:
        self.tree = tree
        self.known = known
        self.members = {member.id: member for member in tree.members}
        self.by_accession = {member.accession: member.id for member in tree.members if member.accession}
        self.listed = {member.id: at for at, member in enumerate(tree.members)}

    def id_of(self, name: str) -> str:
        """The id of the member that an event names by its id or accession."""
        return name if name in self.members else self.by_accession.get(name, name)

    def there_at(self, d: Dated) -> list[str]:
        """The members that an assembling means that names none: those not listed as coming later or gone before."""
        there = []
        for member in self.tree.members:
            came, went = _bounds(member.from_), _bounds(member.until)
            late = came is not None and came.earliest and d.bounds.latest and came.earliest > d.bounds.latest
            early = went is not None and went.latest and d.bounds.earliest and went.latest <= d.bounds.earliest
            if not late and not early:
                there.append(member.id)
        return there

    def spell(self, member_id: str, start: Bounds) -> MemberSpell:
        """A spell that begins now."""
        member = self.members.get(member_id)
        if member is None:
            tree = member_id if member_id in self.known else None
            return MemberSpell(self.tree.accession, member_id, tree, start, None)
        return MemberSpell(
            self.tree.accession, member.id, _accession(member, self.known), start, None, member.place_in_planting,
            member.count, member.taxon,
        )  # fmt: skip

    def filled_in(self, spell: MemberSpell) -> MemberSpell:
        """What events leave open, from the list."""
        member = self.members.get(spell.member)
        if member is None:
            return spell
        if not spell.start.known and member.from_ is not None:
            spell = replace(spell, start=_bounds(member.from_) or Bounds())
        if spell.end is None and member.until is not None:
            spell = replace(spell, end=_bounds(member.until))
        return spell

    def as_listed(self, member: Member) -> MemberSpell:
        """A member that no event names."""
        return replace(self.spell(member.id, _bounds(member.from_) or Bounds()), end=_bounds(member.until))

    def order(self, spell: MemberSpell) -> tuple[int, str, tuple[object, ...]]:
        """In the order of the list, each member's spells one after the other."""
        first = spell.start.earliest or spell.start.latest
        return self.listed.get(spell.member, len(self.listed)), spell.member, (first.toordinal() if first else 0,)


def _accession(member: Member, known: Mapping[str, object]) -> str | None:
    if member.accession:
        return member.accession if member.accession in known else None
    return None


def _bounds(when: WhenWritten | None) -> Bounds | None:
    return Bounds(when.earliest, when.latest) if when is not None else None
