"""Work done in parts, and the cycles that tie the parts of one work together."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from archive_tools.check.telling import in_event
from archive_tools.model.collection import Collection
from archive_tools.model.event import Event
from archive_tools.model.problems import Problem
from archive_tools.model.tree import Tree


def cycles_beyond_the_whole(collection: Collection) -> Iterator[Problem]:
    """Parts of one work that add up to more than all of it; a planned part counts until another event does it."""
    for tree in collection.trees.values():
        for name in dict.fromkeys(event.cycle for event in tree.events if event.cycle):
            total = Fraction(0)
            for event in _parts(tree, name):
                assert event.share is not None
                before, total = total, total + Fraction(*event.share)
                if before <= 1 < total:
                    what = f"with this part the work “{name}” adds up to {total}, more than the whole"
                    instead = "the right share, or another `cycle` for a new round of the work"
                    yield in_event(tree.accession, event, ("share",), "cycle-beyond-whole", what, instead)


def _parts(tree: Tree, cycle: str) -> list[Event]:
    done = {event.does for event in tree.events if event.does}
    parts = [
        event
        for event in tree.events
        if event.cycle == cycle and event.share and event.share[1] and not (event.planned and event.id in done)
    ]
    return sorted(parts, key=lambda event: (event.when and event.when.earliest) or date.max)
