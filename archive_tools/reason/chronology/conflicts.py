"""Which statements contradict each other, and which of them has to go.

Everything here asks one question, "do these claims stand together?", and asks it seldom: where they do not, the answer
names the claims that were met on the way to the contradiction, and the search goes on among those.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from typing import TypeVar

from archive_tools.model.event import Event
from archive_tools.model.people import Source
from archive_tools.model.photo import Photo
from archive_tools.reason.chronology.lapses import LATE
from archive_tools.reason.chronology.network import Conflict
from archive_tools.reason.chronology.smallest_conflict import smallest_conflict
from archive_tools.reason.chronology.system import Claim

T = TypeVar("T")
ConflictOf = Callable[[Sequence[Claim]], Conflict | None]
"""The contradiction among some claims, None where they stand together."""


def smallest(pool: Sequence[Claim], conflict_of: ConflictOf) -> list[Claim]:
    """A smallest conflict within `pool`, which does not stand together."""
    conflict = conflict_of(pool)
    if conflict is not None:
        named = [claim for claim in pool if claim.owner in conflict.owners]
        # Of a bound that went round a circle only the last round is known: then all of the pool is searched.
        if conflict_of(named) is not None:
            pool = named
    return smallest_conflict(pool, lambda some: conflict_of(some) is None)


def first_to_fail(
    items: Sequence[T], conflict_of: Callable[[Sequence[T]], Conflict | None], owners_of: Callable[[T], Iterable[int]]
) -> int | None:
    """The place of the first item that does not stand with all before it, None where all stand together."""
    conflict = conflict_of(items)
    if conflict is None:
        return None
    place = {owner: number for number, item in enumerate(items) for owner in owners_of(item)}
    stands, fails = 0, len(items)
    while fails - stands > 1:
        # The last item that was named is the one to look at; the middle, where that was looked at already.
        named = max((place[owner] for owner in conflict.owners if owner in place), default=-1)
        trial = next((n for n in (named, named + 1) if stands < n < fails), (stands + fails) // 2)
        found = conflict_of(items[:trial])
        if found is None:
            stands = trial
        else:
            fails, conflict = trial, found
    return fails - 1


def fixed_order(sources: Mapping[str, Source]) -> Callable[[Claim], tuple[object, ...]]:
    """The order in which claims of one grade are taken: older source, narrower date, then name; not file or line."""

    def key(claim: Claim) -> tuple[object, ...]:
        item = claim.item
        cited = item.sources if isinstance(item, Event | Photo) else ()
        dated = [s.when for c in cited if (s := sources.get(c.source)) is not None and s.when is not None]
        oldest = min((when.earliest or when.latest or date.max for when in dated), default=date.max)
        when = claim.when or (item.when if isinstance(item, Event | Photo) else None)
        width = LATE
        if when is not None and when.earliest is not None and when.latest is not None:
            width = (when.latest - when.earliest).days
        return (claim.grade, oldest, width, item.id, claim.tree, claim.about, claim.owner)

    return key
