"""What one connected group of trees becomes before it is solved: points, claims and beginnings."""

from __future__ import annotations

from dataclasses import dataclass, field

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Event, EventRef, StatedAge, Timing
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.people import Steward
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Mark
from archive_tools.model.tree import Member, Tree
from archive_tools.reason.chronology.lapses import EARLY, LATE
from archive_tools.reason.chronology.network import Network


@dataclass(frozen=True, slots=True)
class Claim:
    """One statement about dates, which can be taken out: it then loses its date and everything else stays.

    about: "date", "until", "timing", "states_age", "rings", "mother", "members", "member", "shows", "born" or
    "died". item: what it stands in; part: which of its statements, or which other tree it speaks of.
    """

    owner: int
    tree: str
    about: str
    item: Event | Photo | Steward | Member
    grade: Grade
    mark: Mark
    when: WhenWritten | None = None
    part: Timing | StatedAge | EventRef | None = None


@dataclass(frozen=True, slots=True)
class Beginning:
    """An event that may be the earliest of a milestone's beginnings.

    claims: it says that it was the beginning, so that evidence certainly before it contradicts it. closing: the owner
    of the bound "the milestone is not before it"; date: the owner of its date, or -1.
    """

    point: int
    event: Event
    claims: bool
    closing: int
    date: int


@dataclass(frozen=True, slots=True)
class HandOver:
    """A custody event as the stay in the house sees it: "arrival", "departure", "return" (of a loan) or "found".

    bound: the owner of "the start of the stay is not after it" (arrival, found) or "not before it" (departure, return).
    closing: for an arrival, the owner of "the start of the stay is not before it". date: the owner of its date, or -1.
    """

    sort: str
    point: int
    event: Event
    grade: Grade
    bound: int
    closing: int = -1
    date: int = -1


@dataclass(frozen=True, slots=True)
class EventPoints:
    """The points of an event: its begin, and its end if it has one. `dated`: the owner of its date, or -1."""

    begin: int
    end: int | None
    dated: int


@dataclass(frozen=True, slots=True)
class Evidence:
    """Something that shows care on its own day or days."""

    begin: int
    end: int | None
    grade: Grade


@dataclass(slots=True)
class TreePoints:
    """One tree in the network."""

    tree: Tree
    milestones: dict[Milestone, int]
    events: dict[str, EventPoints] = field(default_factory=dict)
    photos: dict[str, int] = field(default_factory=dict)
    beginnings: dict[Milestone, list[Beginning]] = field(default_factory=dict)
    touched: dict[Milestone, Grade] = field(default_factory=dict)
    """The firmest grade of anything that begins, attests or bounds the milestone itself."""
    hand_overs: list[HandOver] = field(default_factory=list)
    evidence: list[Evidence] = field(default_factory=list)
    deaths: list[tuple[int, Grade]] = field(default_factory=list)
    lives: dict[tuple[str, str, Grade], int] = field(default_factory=dict)
    """Owners of the births and deaths of stewards, by (steward, "born" or "died", grade)."""
    grades: dict[str, Grade] = field(default_factory=dict)
    """How firmly it is known that an event, or photograph, was at all."""

    @property
    def departs(self) -> bool:
        """Whether the tree ever left the house, so that the order of its custody events matters."""
        return any(hand_over.sort in ("departure", "return") for hand_over in self.hand_overs)

    def touch(self, milestone: Milestone, grade: Grade) -> None:
        """Something of this grade begins, attests or bounds the milestone."""
        self.touched[milestone] = min(grade, self.touched.get(milestone, grade))

    def find(self, event_id: str) -> int | None:
        """The point of an event, or of a photograph, by its id."""
        event = self.events.get(event_id)
        return event.begin if event else self.photos.get(event_id)

    def standing(self, event_id: str) -> Grade:
        """How firmly it is known that an event, or photograph, was at all."""
        return self.grades.get(event_id, Grade.DOCUMENTED)


@dataclass(slots=True)
class System:
    """A connected group of trees, ready to be solved.

    Owners 0 to 3 are the structure of each grade: that an event of that grade is there at all. The others are claims
    (`claims[owner]`) or switches that each layer sets for itself (None).
    """

    network: Network = field(default_factory=Network)
    claims: list[Claim | None] = field(default_factory=lambda: [None] * len(Grade))
    trees: dict[str, TreePoints] = field(default_factory=dict)

    def switch(self) -> int:
        """A new owner that is no statement."""
        self.claims.append(None)
        return len(self.claims) - 1

    def claim(
        self,
        tree: str,
        about: str,
        item: Event | Photo | Steward | Member,
        grade: Grade,
        mark: Mark,
        when: WhenWritten | None = None,
        part: Timing | StatedAge | EventRef | None = None,
    ) -> int:
        """A new owner that is a statement."""
        owner = len(self.claims)
        self.claims.append(Claim(owner, tree, about, item, grade, mark, when, part))
        return owner

    def dated(self, point: int, when: WhenWritten, owner: int, *, not_before: bool = True) -> None:
        """The point lies within a written date; with `not_before` false, only not after it."""
        first = when.earliest.toordinal() if when.earliest and not_before else EARLY
        last = when.latest.toordinal() if when.latest else LATE
        self.network.between(point, first, last, owner)


def structure(grade: Grade) -> int:
    """The owner of what holds as soon as an event of this grade is there."""
    return grade - 1
