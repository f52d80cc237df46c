"""A smallest conflict: a set of statements that cannot all stand, from which none can be left out.

QuickXplain: Ulrich Junker, "QuickXplain: preferred explanations and relaxations for over-constrained problems",
AAAI-04 (2004) 167-172. It needs only a test of consistency that never turns from "no" to "yes" when more is added.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

T = TypeVar("T")


def smallest_conflict(pool: Sequence[T], stands: Callable[[Sequence[T]], bool]) -> list[T]:
    """The members of a smallest conflict within `pool`, earlier ones preferred, in the order of the pool.

    `stands` tells whether a selection is consistent. Raises ValueError if the whole pool is.
    """
    if stands(pool):
        raise ValueError("there is no conflict to explain")
    found = _needed((), (), pool, stands) if stands(()) else []
    return [one for one in pool if one in found]


def _needed(base: Sequence[T], added: Sequence[T], pool: Sequence[T], stands: Callable[[Sequence[T]], bool]) -> list[T]:
    """What of `pool` is needed for a conflict together with `base`, of which `added` was the last to be added."""
    if added and not stands(base):
        return []
    if len(pool) == 1:
        return list(pool)
    first, second = pool[: len(pool) // 2], pool[len(pool) // 2 :]
    of_second = _needed((*base, *first), first, second, stands)
    of_first = _needed((*base, *of_second), of_second, first, stands)
    return of_first + of_second
