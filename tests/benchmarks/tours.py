"""The tour planner beside OR-Tools' routing library, and how long it takes.

Run: `python -m tests.benchmarks.tours [--store]`, with `ortools` installed beside the test requirements. Plans 50 walks
among 60 stops and one among 400, prints the ratio of what each is worth to what OR-Tools' guided local search finds in
five seconds, and the seconds of the planner. `--store` writes OR-Tools' values to where the tests look them up.
"""

from __future__ import annotations

import json
import random
import sys
import time
from pathlib import Path

from archive_tools.model.tour_plan import WalkAsked
from archive_tools.reason.tours.plan import plan_walk
from tests.benchmarks.machine import machine
from tests.reason.tours.walks import asked

STORED = Path(__file__).parents[1] / "reason" / "tours" / "ortools_60_stops.json"
WALKS, STOPS, SECONDS = 50, 60, 1500
WEIGHT = 5
"""How much a point of interest weighs against a second of the walk: of 5, 20, 100 and 1000 the one it did best with."""


def walk_of(seed: int) -> WalkAsked:
    """One of the 50 walks."""
    return asked(random.Random(seed), STOPS, STOPS, SECONDS)


def by_ortools(walk: WalkAsked, limit: int = 5) -> int:
    """What the best walk is worth that the routing library finds in `limit` seconds."""
    from ortools.constraint_solver import pywrapcp, routing_enums_pb2

    places = [walk.start, *(stop.place for stop in walk.candidates), walk.end]
    dwell = [0, *(stop.dwell for stop in walk.candidates), 0]
    manager = pywrapcp.RoutingIndexManager(len(places), 1, [0], [len(places) - 1])
    routing = pywrapcp.RoutingModel(manager)

    def seconds(one: int, other: int) -> int:
        here, there = manager.IndexToNode(one), manager.IndexToNode(other)
        return walk.walking[places[here], places[there]] + dwell[here]

    transit = routing.RegisterTransitCallback(seconds)
    routing.SetArcCostEvaluatorOfAllVehicles(transit)
    routing.AddDimension(transit, 0, walk.seconds, True, "time")
    for number, stop in enumerate(walk.candidates, start=1):
        routing.AddDisjunction([manager.NodeToIndex(number)], stop.interest * WEIGHT)
    how = pywrapcp.DefaultRoutingSearchParameters()
    how.first_solution_strategy = routing_enums_pb2.FirstSolutionStrategy.PATH_CHEAPEST_ARC
    how.local_search_metaheuristic = routing_enums_pb2.LocalSearchMetaheuristic.GUIDED_LOCAL_SEARCH
    how.time_limit.seconds = limit
    found = routing.SolveWithParameters(how)
    index = [manager.NodeToIndex(number) for number in range(1, len(walk.candidates) + 1)]
    return sum(
        stop.interest for stop, at in zip(walk.candidates, index, strict=True) if found.Value(routing.NextVar(at)) != at
    )


def main() -> None:
    """Print the ratios; store what OR-Tools finds when asked to."""
    import ortools

    print(machine())
    theirs, ratios, taken = [], [], 0.0
    for seed in range(WALKS):
        walk = walk_of(seed)
        begun = time.process_time()
        ours = plan_walk(walk).interest
        taken += time.process_time() - begun
        theirs.append(by_ortools(walk))
        ratios.append(ours / theirs[-1])
    print(f"{WALKS} walks among {STOPS} stops: least {min(ratios):.3f}, mean {sum(ratios) / WALKS:.3f} of OR-Tools")
    print(f"{taken / WALKS:.2f} s of CPU each")
    begun = time.process_time()
    plan = plan_walk(asked(random.Random(1), 400, 60, 3600))
    print(f"400 candidates: {time.process_time() - begun:.2f} s, {plan.interest} of at most {plan.best_possible}")
    if "--store" in sys.argv:
        made = {"made with": f"ortools {ortools.__version__}, {5} s each", "worth": theirs}
        STORED.write_text(json.dumps(made) + "\n", "utf-8")


if __name__ == "__main__":
    main()
