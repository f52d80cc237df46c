"""What happened to a tree, and the statements about dates that an event may carry."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from archive_tools.model.dates import Duration, WhenWritten
from archive_tools.model.grades import Grade, Milestone, Visibility
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class Citation:
    """A source and the spot in it: `source: ledger-b` or `{id: ledger-b, at: "p. 41", quote: "…"}`."""

    source: str
    at: str | None = None
    quote: str | None = None


@dataclass(frozen=True, slots=True)
class EventRef:
    """`event` (of the same tree) or `accession#event`; an accession alone where a tree is meant."""

    accession: str | None
    event: str | None

    def __str__(self) -> str:
        return "#".join(part for part in (self.accession, self.event) if part)


@dataclass(frozen=True, slots=True)
class Timing:
    """A lapse of time: this event is after (or before) another, by at least and at most so much."""

    relation: str  # "after" | "before"
    other: EventRef
    at_least: Duration | None
    at_most: Duration | None
    where: Where


@dataclass(frozen=True, slots=True)
class StatedAge:
    """Somebody's statement of an age: whole years, `least` to `most` (None = no upper end), approximate or not."""

    of: Milestone
    text: str
    least: int | None
    most: int | None
    approximate: bool
    as_of: WhenWritten | None
    where: Where


@dataclass(frozen=True, slots=True)
class Rings:
    """Annual rings counted. `missed` is (fewest, most); most None = no upper end. `up_to` dates the last ring."""

    count: int
    missed: tuple[int, int | None]
    false_rings: int
    of: str | None
    up_to: EventRef | None
    where: Where


@dataclass(frozen=True, slots=True)
class Measured:
    """One thing measured: centimetres unless `unit` says otherwise."""

    what: str
    value: Decimal
    unit: str
    plus_minus: Decimal | None


@dataclass(frozen=True, slots=True)
class Event:
    """One event of one tree (or object). `kind` is a name in `model.kinds.KINDS`.

    `visibility` is what is written (None: nothing); `effective` is what holds after defaults and parents, and
    `standing` the event's own grade after its sources: both are set by the stages that work them out.
    """

    id: str
    kind: str
    where: Where
    tree: str = ""
    when: WhenWritten | None = None
    until: WhenWritten | None = None
    by: tuple[str, ...] = ()
    from_: tuple[str, ...] = ()
    to: tuple[str, ...] = ()
    joint: bool = False
    with_: tuple[str, ...] = ()
    trees: tuple[EventRef, ...] = ()
    from_tree: EventRef | None = None
    from_tree_text: str | None = None
    at: str | None = None
    into: str | None = None
    objects: tuple[str, ...] = ()
    share: tuple[int, int] | None = None
    sector: tuple[str, str] | None = None
    cycle: str | None = None
    turned: Decimal | None = None
    was: Words | None = None
    becomes: Words | None = None
    cause: str | None = None
    award: Words | None = None
    awarded_by: str | None = None
    planned: bool = False
    does: str | None = None
    measured: tuple[Measured, ...] = ()
    sources: tuple[Citation, ...] = ()
    grade: Grade | None = None
    shows: tuple[str, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    title: Words | None = None
    text: Words | None = None
    timing: tuple[Timing, ...] = ()
    states_age: tuple[StatedAge, ...] = ()
    rings: Rings | None = None
    from_note: bool = False
    """True when the event is a note's front matter: the note is then its own source."""
    effective: Visibility = Visibility.INTERNAL
    standing: Grade = Grade.UNSOURCED


@dataclass(frozen=True, slots=True)
class Note:
    """A dated note: Markdown text, which may carry an event (same id) or attach to one already recorded."""

    id: str
    path: str
    where: Where
    trees: tuple[str, ...]
    when: WhenWritten | None
    body: str
    body_line: int
    """The line of the file on which the Markdown begins."""
    title: Words | None = None
    event: str | None = None
    """The id of the event it carries or attaches to."""
    by: tuple[str, ...] = ()
    sources: tuple[Citation, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    effective: Visibility = Visibility.INTERNAL
