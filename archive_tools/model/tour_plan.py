"""A walk worked out against the clock: what may be seen, what was asked for, and what came out. Seconds throughout."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Window = tuple[int, int]
"""From this second of the walk to that one: a stop begins and ends within it."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """Something that a walk may stop at.

    key: an accession, or another name that is unique among the candidates. place: where it stands. interest: how much
    seeing it is worth, a whole number of at least 1. dwell: seconds to stay. windows: when it can be seen (empty:
    always). rank: where the curator put it among the stops that are told in order; None where it may come anywhere.
    """

    key: str
    place: str
    interest: int
    dwell: int
    required: bool = False
    rank: int | None = None
    windows: tuple[Window, ...] = ()


@dataclass(frozen=True, slots=True)
class WalkAsked:
    """What a planner is asked: candidates, walking seconds between places (both ways), the ends, and the time there is.

    walking: by pair of places; a pair that is missing cannot be walked. start, end: places; None where it may begin or
    end anywhere. seconds: the whole time.
    """

    candidates: tuple[Candidate, ...]
    walking: Mapping[tuple[str, str], int]
    seconds: int
    start: str | None = None
    end: str | None = None


@dataclass(frozen=True, slots=True)
class Visit:
    """One stop of a plan. `walk`: seconds on the way to it; `arrive`, `leave`: seconds from the walk's beginning."""

    key: str
    place: str
    walk: int
    arrive: int
    leave: int
    wait: int = 0
    """Seconds stood before the stop could begin."""


@dataclass(frozen=True, slots=True)
class WalkPlan:
    """What came out. interest: the sum of all stops. seconds: when the walk is over at `end`.

    best_possible: no plan can be worth more than this. left_out: candidates that are not seen, with the reason.
    """

    visits: tuple[Visit, ...]
    interest: int
    seconds: int
    best_possible: int
    last_walk: int = 0
    left_out: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_best(self) -> bool:
        """Whether it is proved that no plan is worth more."""
        return self.interest >= self.best_possible


@dataclass(frozen=True, slots=True)
class StopText:
    """What is said at a stop. `is_draft`: put together from records, and not yet in anybody's own words."""

    text: str
    language: str
    is_draft: bool = False


@dataclass(frozen=True, slots=True)
class TourStop:
    """One stop of a tour on the clock. sort: "tree", "place" or "object"; id: its accession or id.

    Seconds count from the beginning of the walk. `speech`: seconds of them that the text takes to speak.
    """

    sort: str
    id: str
    place: str
    walk: int
    arrive: int
    leave: int
    wait: int
    speech: int
    text: StopText


@dataclass(frozen=True, slots=True)
class NotSeen:
    """What a tour leaves out, and why: "no time", "out of reach", "longer than the walk", "not open", "not here"."""

    sort: str
    id: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class TourPlan:
    """A tour worked out. `seconds` of `asked` are used; `start` and `end` are places, None where none is said.

    left_out: what could have been seen. with_more: what five minutes more would add.
    """

    tour: str
    asked: int
    stops: tuple[TourStop, ...]
    last_walk: int
    seconds: int
    interest: int
    best_possible: int
    start: str | None
    end: str | None
    step_free: bool
    left_out: tuple[NotSeen, ...] = ()
    with_more: tuple[NotSeen, ...] = ()

    @property
    def is_best(self) -> bool:
        """Whether it is proved that no walk of this length is worth more."""
        return self.interest >= self.best_possible
