"""What was concluded of a tree's lineage besides its holders: kinship, plantings, pots, teaching, and whose trees.

Values only. Dates are `Bounds`: as vague as the evidence. An event of another tree is written `accession#event`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Citation
from archive_tools.model.findings import Bounds, Custody, CustodyPeriod, Hand, Presence
from archive_tools.model.grades import Grade
from archive_tools.model.words import Words

NOT_KNOWN = Bounds()


@dataclass(frozen=True, slots=True)
class Kinship:
    """One plant came of another. Seen from the younger one in `came_from`, from the older one in `gave_rise_to`.

    relation: "cutting", "layer", "seed", "graft", "division", "merged" (a planting taken up into another) or
    "split off". tree: the accession of the other plant, or None where it is known only in words (`text`).
    ended: when the other plant died, if it did.
    """

    tree: str | None
    relation: str
    how: str
    bounds: Bounds
    event: str
    grade: Grade
    text: str | None = None
    sources: tuple[Citation, ...] = ()
    when: WhenWritten | None = None
    ended: Bounds | None = None


@dataclass(frozen=True, slots=True)
class MemberSpell:
    """A plant stood in a planting, from when to when (`end` None: it still does).

    member: its id in the planting; tree: its own accession, if it has a record. A plant that was taken out and set in
    again has several spells. joined, left: the events that say so (None: only the planting's list of members does).
    """

    planting: str
    member: str
    tree: str | None
    start: Bounds
    end: Bounds | None
    place: Words | None = None
    count: int = 1
    taxon: str | None = None
    joined: str | None = None
    left: str | None = None
    grade: Grade = Grade.UNSOURCED

    @property
    def called(self) -> str:
        """The accession of the plant, or its id in the planting where it has no record of its own."""
        return self.tree or self.member


def member_numbers(spells: Sequence[MemberSpell]) -> dict[str, int]:
    """The numbers by which plants without records of their own are called, by their ids in the planting.

    The number at the end of the ids (`m4`), where all of them have one and no two the same; else that of their turn in
    the record. An id itself is a word of the record's files, in no reader's language.
    """
    tree_of = {spell.member: spell.tree for spell in spells}
    plain = [member for member, tree in tree_of.items() if tree is None]
    written = {member: int(found[0]) for member in plain if (found := re.search(r"[0-9]{1,4}$", member))}
    turns = {member: at for at, member in enumerate(tree_of, 1)}
    return turns | written if len(set(written.values())) == len(plain) else turns


@dataclass(frozen=True, slots=True)
class Version:
    """One planting together of the same planting: the first, and each after it was remade.

    members: the ids of those that stood in it when it was made; new and gone: what differs from the version before.
    taken_apart: the day it was taken apart, if that is recorded; `end` is then that day, else the next version's.
    """

    number: int
    start: Bounds
    end: Bounds | None
    by: tuple[str, ...]
    event: str
    members: tuple[str, ...]
    new: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    taken_apart: Bounds | None = None
    grade: Grade = Grade.UNSOURCED
    when: WhenWritten | None = None


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A relative kept elsewhere; `holder` is a steward's id or plain text."""

    text: Words
    holder: str | None = None
    url: str | None = None


@dataclass(frozen=True, slots=True)
class TreeInObject:
    """A tree stood in (`sort` "in") or was shown with (`sort` "with") a pot, tray, stand, stone, scroll or accent.

    presumed_end: nothing records that it left; another tree is recorded in the same thing, so it had left by then.
    """

    object: str
    tree: str
    sort: str
    start: Bounds
    end: Bounds | None
    event: str
    grade: Grade
    until_event: str | None = None
    presumed_end: bool = False


@dataclass(frozen=True, slots=True)
class ObjectLine:
    """The line of a pot, tray, stand, stone, scroll or accent: its holders, the hands on it, the trees it held."""

    object: str
    periods: tuple[CustodyPeriod, ...]
    hands: tuple[Hand, ...]
    trees: tuple[TreeInObject, ...]


@dataclass(frozen=True, slots=True)
class TeachingTie:
    """One steward taught another, from when to when (None: not written)."""

    teacher: str
    pupil: str
    start: Bounds | None
    end: Bounds | None
    grade: Grade
    sources: tuple[Citation, ...] = ()
    from_: WhenWritten | None = None
    until: WhenWritten | None = None


@dataclass(frozen=True, slots=True)
class Lineage:
    """One tree's kin and things, and its line of holders in words.

    text: paragraphs, in the reader's language: custody first, then kinship, then planting; none where nothing is known.
    """

    accession: str
    came_from: tuple[Kinship, ...] = ()
    gave_rise_to: tuple[Kinship, ...] = ()
    members: tuple[MemberSpell, ...] = ()
    part_of: tuple[MemberSpell, ...] = ()
    versions: tuple[Version, ...] = ()
    elsewhere: tuple[Elsewhere, ...] = ()
    objects: tuple[TreeInObject, ...] = ()
    text: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TreeHeld:
    """A tree and one period in which a steward held it."""

    tree: str
    period: CustodyPeriod


@dataclass(frozen=True, slots=True)
class TreeWorked:
    """A tree and one piece of work a steward did on it."""

    tree: str
    hand: Hand


@dataclass(frozen=True, slots=True)
class TreeSeen:
    """A tree and one event at which a steward was present."""

    tree: str
    presence: Presence


@dataclass(frozen=True, slots=True)
class StewardLine:
    """What one steward had to do with the trees, in order of time, and whom they learned from and taught.

    made: began, planted together, collected, struck; styled: changed what a tree is; worked: all other work.
    active: from the earliest to the latest evidence of them in the records of this edition.
    """

    steward: str
    held: tuple[TreeHeld, ...] = ()
    made: tuple[TreeWorked, ...] = ()
    styled: tuple[TreeWorked, ...] = ()
    worked: tuple[TreeWorked, ...] = ()
    present: tuple[TreeSeen, ...] = ()
    objects: tuple[str, ...] = ()
    teachers: tuple[TeachingTie, ...] = ()
    pupils: tuple[TeachingTie, ...] = ()
    active: Bounds = NOT_KNOWN


@dataclass(frozen=True, slots=True)
class Lines:
    """All lineages that follow from one set of records: by accession, object id and steward id."""

    custodies: Mapping[str, Custody]
    trees: Mapping[str, Lineage]
    objects: Mapping[str, ObjectLine]
    teaching: tuple[TeachingTie, ...]
    stewards: Mapping[str, StewardLine]
