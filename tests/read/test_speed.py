"""A large collection is read in seconds. The bound is ten times what a two-core machine took, so that only a change
of kind (a second pass over every value, a slow parser) breaks it.
"""

from __future__ import annotations

import random
import time
from pathlib import Path

import pytest

from archive_tools.read import read_collection

from .folder_of import made

KINDS = ("repotted", "pruned", "wired", "unwired", "fed", "moved", "exhibited", "observed", "styled", "pinched")


def record(accession: str, chance: random.Random) -> str:
    events = []
    for number in range(20):
        date = f"{1950 + chance.randrange(70)}-{1 + chance.randrange(12):02}"
        date += chance.choice(("", "~", "?", f"-{1 + chance.randrange(28):02}"))
        events.append(
            f"  - id: e{number}\n    kind: {chance.choice(KINDS)}\n    date: {date}\n    by: steward-{number}\n"
            f'    source: {{id: ledger, at: "p. {number}"}}\n    text: Something was done, and it took a while.\n'
        )
    return f"accession: {accession}\ntaxon: Acer palmatum\nlabel: Some words\nevents:\n{''.join(events)}"


@pytest.mark.slow
def test_a_thousand_trees_with_twenty_events_each(tmp_path: Path) -> None:
    chance = random.Random(1)
    files: dict[str, str | bytes] = {}
    for number in range(1000):
        files[f"trees/B{number}-a/tree.yml"] = record(f"B{number}", chance)
        files[f"trees/B{number}-a/notes/2001-03-04-a.md"] = "---\nkind: repotted\n---\nText.\n"
    folder = made(tmp_path, files)
    begun = time.process_time()
    collection, problems = read_collection(folder)
    took = time.process_time() - begun
    assert collection is not None and problems == []
    assert sum(len(tree.events) for tree in collection.trees.values()) == 21_000
    assert took < 30, f"{took:.1f} s"
