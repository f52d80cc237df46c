"""A photograph: the original file, never changed, and what is known of it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Citation, Timing
from archive_tools.model.grades import Grade, Visibility
from archive_tools.model.places_in_files import Where
from archive_tools.model.stamps import Stamp
from archive_tools.model.words import Words

LARGEST_PIXELS = 250_000_000
"""More pixels than this are taken for a trap or a fault, not for a photograph: decoded, they would fill a gigabyte."""


@dataclass(frozen=True, slots=True)
class PictureScale:
    """A known length between two marks of the picture, in centimetres (`plus_minus`: standard uncertainty)."""

    from_mark: str
    to_mark: str
    cm: Decimal
    plus_minus: Decimal | None


@dataclass(frozen=True, slots=True)
class Photo:
    """One photograph.

    `path` is the original, relative to the collection; `file` its name. `of` are the trees it shows. `marks` are
    pixels of the upright image, (x, y) from the top left corner. `width`, `height` are of the upright image.
    `dated_by` is the written reason, or "file name" / "camera" where the program found the date itself.
    """

    file: str
    path: str
    where: Where
    of: tuple[str, ...]
    sure: str = "yes"
    when: WhenWritten | None = None
    dated_by: str | None = None
    why: Words | None = None
    timing: tuple[Timing, ...] = ()
    view: str | None = None
    caption: Words | None = None
    alt: Words | None = None
    photographer: str | None = None
    rights_holder: str | None = None
    held_by: str | None = None
    credit: Words | None = None
    rights: str | None = None
    permission: Words | None = None
    people: tuple[str, ...] = ()
    children: bool | None = None
    consent: str | None = None
    shows: tuple[str, ...] = ()
    marks: tuple[tuple[str, tuple[float, float]], ...] = ()
    scale: PictureScale | None = None
    sources: tuple[Citation, ...] = ()
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    width: int = 0
    height: int = 0
    fingerprint: str = ""
    """SHA-256 of the original's bytes."""
    named: WhenWritten | None = None
    """The date with which the file's name begins."""
    stamps: tuple[Stamp, ...] = ()
    """Every date in the file, believed or not. No page shows them: they are there to be compared."""
    made_by: str = ""
    """"camera", "scanner", or "" where the file does not give it away."""
    look: str = ""
    """What the picture looks like, 256 bits as hex: those of pictures that look the same differ in few."""
    effective: Visibility = Visibility.INTERNAL
    standing: Grade = Grade.UNSOURCED

    @property
    def id(self) -> str:
        """The file name without its ending: how proofs and pages name the photograph."""
        return self.file.rsplit(".", 1)[0]


@dataclass(frozen=True, slots=True)
class MeasureWanted:
    """What a comparison is asked to measure: a length between two marks, or how far one mark moved."""

    name: Words
    from_mark: str | None
    to_mark: str | None
    mark: str | None


@dataclass(frozen=True, slots=True)
class ComparisonWanted:
    """Two photographs of one tree to be laid over each other."""

    id: str
    before: str
    after: str
    where: Where
    title: Words | None = None
    align_on: tuple[str, ...] = ()
    measure: tuple[MeasureWanted, ...] = ()
    text: Words | None = None
    visibility: Visibility | None = None
    public_from: WhenWritten | None = None
    effective: Visibility = Visibility.INTERNAL
