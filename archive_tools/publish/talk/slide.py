"""What is on a slide, as values. Lengths in millimetres, shares between 0 and 1."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256

OPENING, SECTION, TREE, PICTURE, PAIR, YEARS, LINE, MAP, CREDITS = (
    "opening",
    "section",
    "tree",
    "picture",
    "pair",
    "years",
    "line",
    "map",
    "credits",
)


@dataclass(frozen=True, slots=True)
class Plate:
    """A picture: its cut's address in the site, its words for who cannot see it, and what stands beneath."""

    url: str
    alt: str
    ratio: float
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Bar:
    """One holder's time on the line of stewards, as shares of the width.

    Between `start` and `firm` it may have begun, between `firm_end` and `end` it may have ended. sort: "owned", "lent"
    or "gap".
    """

    words: str
    start: float
    firm: float
    firm_end: float
    end: float
    sort: str


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on the plan, in shares of its box; `marked` where a tree of the talk stands."""

    name: str
    across: float
    down: float
    marked: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing that is made of shapes the speaker can edit, and what it says in words."""

    says: str
    bars: tuple[Bar, ...] = ()
    years: tuple[tuple[str, float], ...] = ()
    spots: tuple[Spot, ...] = ()
    ways: tuple[tuple[int, int], ...] = ()
    ratio: float = 1.6


@dataclass(frozen=True, slots=True)
class Slide:
    """One slide. `key` names it for good, so that a later deck finds it again. `notes` is what the speaker reads."""

    key: str
    layout: str
    title: str
    lines: tuple[str, ...] = ()
    plates: tuple[Plate, ...] = ()
    figure: Figure | None = None
    notes: str = ""
    botanical: str = ""
    """A botanical name that stands beneath the title, in italics."""

    @property
    def made_from(self) -> str:
        """A short digest of everything on the slide: it changes when what it is made from does."""
        return sha256(repr(self).encode()).hexdigest()[:16]
