"""The present stay: which of the custody events begin it, bound it from above, or came before it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from archive_tools.model.grades import Grade
from archive_tools.reason.chronology.system import Beginning, HandOver, TreePoints

Days = Callable[[int], tuple[int, int]]
"""The earliest and latest day of a point."""
Precedes = Callable[[int, int], bool]
"""Whether one point certainly is not after another."""


@dataclass(frozen=True, slots=True)
class Stay:
    """The present stay: what begins or bounds it, and the owners of the bounds that hold for it."""

    within: tuple[HandOver, ...] = ()
    bounds: tuple[int, ...] = ()

    @property
    def beginnings(self) -> tuple[Beginning, ...]:
        """The arrivals as candidates for the beginning of the stay."""
        arrivals = (h for h in self.within if h.sort == "arrival")
        return tuple(Beginning(h.point, h.event, False, h.closing, h.date) for h in arrivals)


NO_STAY = Stay()


def stay_of(tree: TreePoints, grade: Grade, days: Days, precedes: Precedes, as_of: int) -> Stay:
    """The stay at `as_of` by the custody events up to this grade.

    Their order follows their days and timings; where these leave it open, the order written decides. What certainly
    lies after `as_of` does not count. A loan that ends is a departure unless the tree was acquired before it ended.
    """
    known = [h for h in tree.hand_overs if h.grade <= grade and days(h.point)[0] <= as_of]
    if tree.departs:
        known = _in_order(known, precedes)
    within: list[HandOver] = []
    before: list[HandOver] = []
    for hand_over in known:
        if hand_over.sort == "departure" or (hand_over.sort == "return" and _only_lent(within)):
            before, within = [*before, hand_over], []
        elif hand_over.sort != "return":
            within.append(hand_over)
    return Stay(tuple(within), tuple(h.bound for h in (*within, *before))) if within else NO_STAY


def _only_lent(within: list[HandOver]) -> bool:
    return all(hand_over.event.kind == "loan" for hand_over in within)


def _in_order(hand_overs: list[HandOver], precedes: Precedes) -> list[HandOver]:
    """As written, but each after all that certainly precede it."""
    ordered: list[HandOver] = []

    def place(hand_over: HandOver) -> None:
        if hand_over in ordered:
            return
        for other in hand_overs:
            first, second = other.point, hand_over.point
            if other not in ordered and precedes(first, second) and not precedes(second, first):
                place(other)
        ordered.append(hand_over)

    for hand_over in hand_overs:
        place(hand_over)
    return ordered
