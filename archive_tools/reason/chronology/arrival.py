"""The present stay: which of the custody events begin it, bound it from above, or came before it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from archive_tools.model.grades import Grade
from archive_tools.reason.chronology.network import EARLY
from archive_tools.reason.chronology.system import Beginning, HandOver, TreePoints

Days = Callable[[int], tuple[int, int]]
"""The earliest and latest day of a point."""


@dataclass(frozen=True, slots=True)
class Stay:
    """The present stay: the arrivals within it, and the owners of the bounds that hold for it."""

    arrivals: tuple[HandOver, ...] = ()
    bounds: tuple[int, ...] = ()

    @property
    def beginnings(self) -> tuple[Beginning, ...]:
        """The arrivals as candidates for the beginning of the stay."""
        return tuple(
            Beginning(a.point, a.event, False, a.closing, a.date) for a in self.arrivals if a.sort == "arrival"
        )


def stay_of(tree: TreePoints, grade: Grade, days: Days, as_of: int) -> Stay:
    """The stay at `as_of` by the custody events up to this grade.

    Their order follows their days; where these leave it open, the order written decides. What certainly lies after
    `as_of` does not count. A loan that ends is a departure unless the tree was acquired before it ended.
    """
    known = [h for h in tree.hand_overs if h.grade <= grade and days(h.point)[0] <= as_of]
    known = _in_order(known, days)
    stay: list[HandOver] = []
    gone: list[HandOver] = []
    for hand_over in known:
        if hand_over.sort == "departure" or (hand_over.sort == "return" and _ends_it(stay, hand_over)):
            gone, stay = [*gone, hand_over], []
        elif hand_over.sort != "return":
            stay.append(hand_over)
    if not stay:
        return Stay()
    return Stay(tuple(stay), tuple(h.bound for h in (*stay, *gone)))


def _ends_it(stay: list[HandOver], returned: HandOver) -> bool:
    """The end of a loan ends the stay unless something else than this loan holds the tree here."""
    return all(h.event.id == returned.event.id or h.event.kind == "loan" for h in stay)


def _in_order(hand_overs: list[HandOver], days: Days) -> list[HandOver]:
    """Put each before those that it certainly precedes, otherwise as written."""
    ordered: list[HandOver] = []
    for hand_over in hand_overs:
        first, last = days(hand_over.point)
        at = len(ordered)
        while at and first != EARLY and last < days(ordered[at - 1].point)[0]:
            at -= 1
        ordered.insert(at, hand_over)
    return ordered
