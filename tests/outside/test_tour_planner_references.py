"""The tour planner beside other people's libraries.

Shortest ways: networkx. Walks among 60 stops: OR-Tools' routing library (guided local search, five seconds a walk),
whose values are stored with its version; `python -m tests.benchmarks.tours --store` makes them anew.
"""

from __future__ import annotations

import json
import math
import random
from pathlib import Path as FilePath

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.model.grounds import Path
from archive_tools.model.places_in_files import Where
from archive_tools.reason.tours.plan import plan_walk
from archive_tools.reason.tours.walking import metres_from, walking_seconds, ways
from tests.reason.tours.walks import asked

STORED = FilePath(__file__).parents[1] / "reason" / "tours" / "ortools_60_stops.json"
NOWHERE = Where("places.yml", {})


@given(st.integers(0, 10**6))
def test_walking_distances_equal_the_shortest_paths_of_networkx(seed: int) -> None:
    chance = random.Random(seed)
    names = [f"p{n}" for n in range(chance.randint(2, 9))]
    paths = [
        Path((a, b), chance.choice([chance.randint(1, 90), chance.uniform(1, 90)]), chance.random() < 0.6, NOWHERE)
        for a, b in (chance.sample(names, 2) for _ in range(chance.randint(1, 20)))
    ]
    step_free, shut = chance.random() < 0.5, set(names[1:]) if chance.random() < 0.5 else set(names)
    graph = networkx.MultiGraph()
    graph.add_nodes_from(names)
    for path in paths:
        if (path.step_free or not step_free) and set(path.between) <= shut:
            graph.add_edge(*path.between, weight=path.metres)
    known = ways(paths, step_free=step_free, open_places=shut)
    for start in names:
        theirs = networkx.single_source_dijkstra_path_length(graph, start)
        ours = metres_from(start, known)
        assert ours.keys() == theirs.keys()
        assert all(math.isclose(ours[end], theirs[end]) for end in theirs)


def test_seconds_are_whole_and_rounded_up() -> None:
    known = ways([Path(("gate", "court"), 48, True, NOWHERE), Path(("court", "wall"), 30.1, True, NOWHERE)])
    seconds = walking_seconds(["gate", "court", "wall"], known, 0.8)
    assert seconds["gate", "court"] == 60
    assert seconds["court", "wall"] == 38
    assert seconds["gate", "wall"] == 98
    assert seconds["wall", "wall"] == 0


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(50))
def test_never_a_hundredth_below_a_routing_library(seed: int) -> None:
    theirs = json.loads(STORED.read_text("utf-8"))["worth"][seed]
    assert plan_walk(asked(random.Random(seed), 60, 60, 1500)).interest >= 0.99 * theirs


@pytest.mark.slow
def test_four_hundred_candidates_are_planned_and_the_gap_is_told() -> None:
    plan = plan_walk(asked(random.Random(1), 400, 60, 3600))
    assert plan.interest < plan.best_possible <= 1.2 * plan.interest
