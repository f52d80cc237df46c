"""What was concluded: bounds, ages, wording, proofs, custody. Values only; the reasoning is elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from archive_tools.model.calendar import completed_years
from archive_tools.model.event import Citation
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.places_in_files import Mark

if TYPE_CHECKING:
    from archive_tools.model.lineage import Lineage, ObjectLine, StewardLine, TeachingTie
    from archive_tools.model.tour_plan import TourPlan


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
    tree: str | None = None
    """The accession of the tree whose record it stands in; None for a steward's."""


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
    confirms: tuple[Statement, ...] = ()
    """The statements that the evidence would confirm; none where anything before the present end would do."""


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
    came ("gift", …), or "first hands" (began it), "not known how", "survivor" (of joint holders), "estate" (by a
    death), "family" (between a person and their couple or family), "planting" (set in a planting of theirs). owner:
    False while it is only lent to the holder, or in quarantine with them. event: the event that says so,
    `accession#event` where it is another tree's.

    A gap is a period with no holders: its `start` is the last day on which the holder before is known, its `end` the
    first on which the next is. `gap_grade` is "bridged" (a statement from within it tells of the tree, `bridged_by`),
    "presumed" (those on both sides belong together, or the tree came back) or "unknown".
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
    joint: bool = False
    through: tuple[str, ...] = ()
    """Dealers, auctioneers and agents by whose hands it came."""
    sources: tuple[Citation, ...] = ()
    given_in_return: tuple[str, ...] = ()
    """In an exchange: accessions that went the other way."""
    left_by: str | None = None
    """The event by which it left, where nobody is known to have received it; else None."""
    bridged_by: tuple[str, ...] = ()

    @property
    def is_gap(self) -> bool:
        """True when nobody is known to have held the tree."""
        return not self.holders

    def years(self, as_of: date) -> AgeRange:
        """Completed years it lasted, at least and at most (None: not bounded); to `as_of` while it lasts."""
        end = self.end or Bounds(as_of, as_of)
        least = None
        if end.earliest is not None and self.start.latest is not None:
            least = completed_years(self.start.latest, end.earliest)
        most = None
        if end.latest is not None and self.start.earliest is not None:
            most = completed_years(self.start.earliest, end.latest)
        return AgeRange(least, most)


@dataclass(frozen=True, slots=True)
class Hand:
    """Somebody worked on the tree."""

    stewards: tuple[str, ...]
    kind: str
    bounds: Bounds
    event: str
    grade: Grade
    until: Bounds | None = None
    sources: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class Presence:
    """Somebody was present (`with`) when something was done."""

    stewards: tuple[str, ...]
    kind: str
    bounds: Bounds
    event: str
    grade: Grade
    until: Bounds | None = None
    sources: tuple[Citation, ...] = ()


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
    present: tuple[Presence, ...] = ()

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
    lineages: Mapping[str, Lineage] = field(default_factory=dict)
    """Kinship, plantings, things and text, by accession."""
    objects: Mapping[str, ObjectLine] = field(default_factory=dict)
    """The lines of pots, trays, stands, stones, scrolls and accents, by object id."""
    teaching: tuple[TeachingTie, ...] = ()
    stewards: Mapping[str, StewardLine] = field(default_factory=dict)
    """What each steward of the edition had to do with the trees, by id; masked stewards have none."""
    tours: Mapping[str, TourPlan] = field(default_factory=dict)
    """Walks worked out, by the id of the tour; one that cannot be walked as it is planned has none."""
