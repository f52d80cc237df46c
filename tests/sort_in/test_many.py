"""A thousand trees, ten thousand photographs in the house, two thousand on the card: planned without waiting."""

from __future__ import annotations

import random
import time
from datetime import datetime, timedelta

import pytest

from archive_tools.model.tree import OtherNumber
from archive_tools.sort_in.facts import NO_MAPPING, Camera, CodeSeen, House, Kept, PhotoFolder, Picture, Source
from archive_tools.sort_in.payload import card_text
from archive_tools.sort_in.plan import plan_of
from tests.making import collection, tree
from tests.sort_in.scenes import DAY


@pytest.mark.slow
def test_a_thousand_trees_and_two_thousand_pictures_are_planned_in_seconds() -> None:
    """Time is counted in plain work of the same machine, so that a slow or busy one is no fault."""
    chance = random.Random(1)
    trees = [
        tree(
            accession=f"S{1950 + n % 70}.{n}",
            other_numbers=(OtherNumber(f"Q-{n}", None, None, None), OtherNumber(str(n), None, None, None)),
        )
        for n in range(1000)
    ]
    cameras = (Camera("Ormond", "Tern", "1"), Camera("Lisk", "Pocket", ""))
    at = datetime(2026, 5, 3, 8)
    pictures = []
    for n in range(2000):
        codes = (CodeSeen(card_text(trees[n // 20].accession, DAY), 0.5),) if n % 20 < 2 else ()
        file, look = f"10{n // 500}CANON/IMG_{n:04}.JPG", chance.getrandbits(256)
        taken = at.isoformat()
        pictures.append(Picture(file, 1, f"{n:064}", ".jpg", 4000, 3000, taken, at, cameras[n % 2], codes, look))
        at += timedelta(seconds=15)
    kept = tuple(Kept(f"x/photos/{n}.jpg", ("x",), f"k{n}", 4000, 3000, chance.getrandbits(256)) for n in range(10_000))
    folders = {"": PhotoFolder("photos"), **{one.accession: PhotoFolder(f"{one.folder}/photos") for one in trees}}
    house = House(collection(*trees), folders, kept)
    began = time.process_time()
    plan = plan_of(Source("card", tuple(pictures)), house, NO_MAPPING, (), lambda *_: None)
    took = time.process_time() - began
    assert len(plan.filed()) == 1800
    began = time.process_time()
    for n in range(2_000_000):
        hash(str(n))
    assert took < 40 * (time.process_time() - began)
