"""How fast the chronology is, beside the barest thing that could be called one.

Run: `python -m tests.benchmarks.chronology [trees]`. Makes collections of trees with 60 statements each, solves them
with proofs, and prints the ratio to a bare Bellman-Ford pass in whole days (two shortest-path trees, no calendar, no
layers, no proofs) over the same graphs, and how time grows with the number of trees.
"""

from __future__ import annotations

import math
import random
import sys
import time
from collections.abc import Callable
from datetime import date
from typing import Any

from archive_tools.model.collection import Collection
from archive_tools.model.dates import Duration
from archive_tools.model.event import EventRef, Rings, Timing
from archive_tools.model.grades import Grade
from archive_tools.model.places_in_files import Where
from archive_tools.reason.chronology import solve
from archive_tools.reason.chronology.lapses import LATE
from archive_tools.reason.chronology.statements import system_of
from archive_tools.reason.chronology.system import System
from archive_tools.reason.chronology.ties import connected_groups
from tests.making import HOUSE, collection, event, source, tree

AS_OF = date(2026, 11, 25)
GOAL_RATIO, GOAL_EXPONENT = 15.0, 1.1
_WORK = ("repotted", "pruned", "wired", "fed", "condition checked", "styled", "exhibited")


def made_collection(trees: int, seed: int = 7, tied: float = 0.1, statements: int = 60) -> Collection:
    """Trees with so many statements each, a tenth of them raised from another; dates and grades drawn from `seed`."""
    chance = random.Random(seed)
    ledger = source("ledger", "The ledger", kind="ledger")
    made = []
    begins: list[int] = []
    for number in range(trees):
        began = chance.randrange(1900, 1980)
        raised = chance.randrange(number) if number and chance.random() < tied else None
        if raised is not None:
            # No plant is raised from one that is younger.
            began = max(began, begins[raised] + 1)
        mother = None if raised is None else EventRef(f"T{raised}", None)
        begins.append(began)
        after = Timing("after", EventRef(None, "begun"), Duration(2, 0, 0, "P2Y"), Duration(9, 0, 0, "P9Y"), Where("t"))
        events: list[Any] = [
            event("layer severed" if mother else "sown", f"{began}", id="begun", from_tree=mother),
            event("potted", f"{began + 2}~", id="potted", timing=(after,)),
            event("gift", f"{began + 30}-04", id="gift", to=HOUSE),
            event("observed", f"{began + 40}", id="rings", rings=Rings(20, (0, None), 0, None, None, Where("t"))),
        ]
        for at in range(statements - 6):
            year = min(began + 3 + chance.randrange(120), 2026)
            standing = Grade(chance.choices([1, 2, 3, 4], [70, 20, 5, 5])[0])
            kind = chance.choice(_WORK)
            events.append(event(kind, f"{year}-04", id=f"e{at}", standing=standing, sources="ledger"))
        made.append(tree(*events, accession=f"T{number}"))
    return collection(*made, sources=(ledger,))


def bare_pass(system: System) -> int:
    """Bellman-Ford from and to the beginning of time over the same points and lapses, in whole days."""
    size = len(system.network.raises)
    root = size
    ahead = enumerate(system.network.ahead)
    arcs = [(a, b, days) for a, arcs in ahead for b, days, owner in arcs if _held(system, owner)]
    arcs += [(root, point, first) for point, first, _, _ in system.network.dates if first > 0]
    arcs += [(point, root, -last) for point, _, last, _ in system.network.dates if last < LATE]
    found = 0
    for forward in (True, False):
        far = [-math.inf] * (size + 1)
        far[root] = 0
        moved = True
        passes = 0
        while moved and passes <= size:
            moved = False
            passes += 1
            for a, b, days in arcs:
                start, end = (a, b) if forward else (b, a)
                if far[start] + days > far[end]:
                    far[end] = far[start] + days
                    moved = True
        found += passes
    return found


def _held(system: System, owner: int) -> bool:
    return owner < len(Grade) or system.claims[owner] is not None


def seconds(work: Callable[[], object], times: int = 3) -> float:
    """The least of some runs, in seconds of this process alone (the machine may be shared)."""
    best = math.inf
    for _ in range(times):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return best


def main(trees: int) -> None:
    """Print the ratio, and the exponent of time against the number of trees."""
    times: list[tuple[int, float]] = []
    for count in (trees // 8, trees // 4, trees // 2, trees):
        records = made_collection(count)
        systems = [system_of(group, records) for group in connected_groups(records)]
        bare = seconds(lambda systems=systems: [bare_pass(system) for system in systems])  # type: ignore[misc]
        whole = seconds(lambda records=records: solve(records, AS_OF, today=AS_OF), 2)  # type: ignore[misc]
        times.append((count, whole))
        print(f"{count:6} trees: {whole:7.2f} s, {whole / count * 1000:5.2f} ms a tree, {whole / bare:5.1f} × bare")
    tied = made_collection(300, tied=1.0, statements=67)
    groups = [system_of(group, tied) for group in connected_groups(tied)]
    bare = seconds(lambda: [bare_pass(system) for system in groups])
    whole = seconds(lambda: solve(tied, AS_OF, today=AS_OF), 2)
    print(f"{len(groups)} group of 300 tied trees, 20,000 statements: {whole:.2f} s, {whole / bare:5.1f} × bare")
    (few, first), (many, last) = times[0], times[-1]
    exponent = math.log(last / first) / math.log(many / few)
    print(f"time grows as trees ^ {exponent:.2f} (goal {GOAL_EXPONENT}); goal {GOAL_RATIO} × bare")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5000)
