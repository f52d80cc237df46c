"""What was concluded: bounds, ages, wording, proofs, custody. Values only; the reasoning is elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.places_in_files import Mark


@dataclass(frozen=True, slots=True)
class Bounds:
    """The earliest and latest possible day; None where nothing bounds it."""

    earliest: date | None = None
    latest: date | None = None

    @property
    def known(self) -> bool:
        """True when at least one end is known."""
        return self.earliest is not None or self.latest is not None


@dataclass(frozen=True, slots=True)
class AgeRange:
    """Completed years at the as-of day: at least `min`, at most `max` (None = not bounded)."""

    min: int | None = None
    max: int | None = None


@dataclass(frozen=True, slots=True)
class Statement:
    """One claim that bears on a date, as a reader may be shown it, with the place where it is written."""

    mark: Mark
    says: str
    grade: Grade
    event: str | None = None
    """The id of the event or photograph it stands in."""


@dataclass(frozen=True, slots=True)
class MilestoneFinding:
    """One milestone: its bounds and ages in each layer (each layer contains the grades above it).

    `because_earliest`, `because_latest`: the statements that decide the ends, in the order of the argument.
    `wording`: the sentence that may be printed, or None when nothing may be said.
    """

    milestone: Milestone
    layers: Mapping[Grade, Bounds]
    ages: Mapping[Grade, AgeRange]
    wording: str | None = None
    because_earliest: tuple[Statement, ...] = ()
    because_latest: tuple[Statement, ...] = ()


@dataclass(frozen=True, slots=True)
class EventFinding:
    """An event's bounds with every statement kept."""

    id: str
    kind: str
    bounds: Bounds
    until: Bounds | None
    grade: Grade


@dataclass(frozen=True, slots=True)
class QuietPeriod:
    """Years without any evidence."""

    start: date
    end: date
    years: int


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Statements that cannot all be true, none of which can be left out of the list; the one that was left out."""

    statements: tuple[Statement, ...]
    left_out: Statement | None


@dataclass(frozen=True, slots=True)
class Sharpening:
    """What evidence would gain most: which end of which milestone, by how many years."""

    milestone: Milestone
    end: str
    what: str
    years: int


@dataclass(frozen=True, slots=True)
class TreeChronology:
    """All that may be said about one tree's dates at `as_of`."""

    accession: str
    as_of: date
    under_review: bool
    milestones: Mapping[Milestone, MilestoneFinding]
    events: tuple[EventFinding, ...]
    unbroken_since: Bounds = Bounds()
    quiet: tuple[QuietPeriod, ...] = ()
    evidence_share: float | None = None
    contradictions: tuple[Contradiction, ...] = ()
    sharpen: tuple[Sharpening, ...] = ()

    def event(self, event_id: str) -> EventFinding | None:
        """What was found about one event."""
        return next((found for found in self.events if found.id == event_id), None)


class Verdict(StrEnum):
    """What the evidence says of a claim of years that a text makes."""

    SUPPORTED = "supported"
    STRONGER = "stronger"
    CONTRADICTED = "contradicted"
    STALE = "stale"


@dataclass(frozen=True, slots=True)
class ProseClaim:
    """A claim of years in a text of the collection: where it stands, its words, of which milestone, and the verdict.

    `could_say` is a sentence that the evidence bears, or None where nothing may be said.
    """

    mark: Mark
    words: str
    about: Milestone
    verdict: Verdict
    could_say: str | None = None


@dataclass(frozen=True, slots=True)
class CustodyPeriod:
    """Who held the tree, from when to when. `start` and `end` are vague as the evidence is.

    holders: steward ids (several when joint; empty when nobody is known). how: the kind of event by which the tree
    came ("gift", …, "first hands"). owner: False while it is only lent to the holder. A gap is a period
    with no holders; `gap_grade` then says "bridged" (a statement tells that nothing changed), "presumed" or "unknown".
    """

    holders: tuple[str, ...]
    start: Bounds
    end: Bounds | None
    how: str
    owner: bool = True
    event: str | None = None
    grade: Grade = Grade.UNSOURCED
    gap_grade: str | None = None
    lent_by: tuple[str, ...] = ()

    @property
    def is_gap(self) -> bool:
        """True when nobody is known to have held the tree."""
        return not self.holders


@dataclass(frozen=True, slots=True)
class Hand:
    """Somebody worked on the tree."""

    stewards: tuple[str, ...]
    kind: str
    bounds: Bounds
    event: str
    grade: Grade


@dataclass(frozen=True, slots=True)
class TreeState:
    """Where the tree stands on the as-of day, worked out from its events."""

    in_collection: bool
    word: str
    """"in collection", "on loan here", "on loan elsewhere", "given away", "sold", "died", "missing" or "stolen"."""
    on_display: bool
    place: str | None
    """A place id, as far as this edition knows it."""


@dataclass(frozen=True, slots=True)
class Custody:
    """One tree's line of holders in order of time, gaps included, with the hands that worked on it."""

    accession: str
    periods: tuple[CustodyPeriod, ...]
    hands: tuple[Hand, ...]
    state: TreeState

    @property
    def gaps(self) -> tuple[CustodyPeriod, ...]:
        """The periods in which nobody is known."""
        return tuple(period for period in self.periods if period.is_gap)


@dataclass(frozen=True, slots=True)
class Findings:
    """All that was concluded from one set of records, by accession."""

    as_of: date
    chronologies: Mapping[str, TreeChronology] = field(default_factory=dict)
    custodies: Mapping[str, Custody] = field(default_factory=dict)
    prose: tuple[ProseClaim, ...] = ()
    """Claims of years in the curator's texts that are not borne out, or no longer; the supported ones are not kept."""
