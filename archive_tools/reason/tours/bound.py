"""What no walk can exceed, where the best one is not proved."""

from __future__ import annotations

from archive_tools.model.tour_plan import WalkAsked


def most_possible(asked: WalkAsked) -> int:
    """An upper bound on the interest of any walk, by a knapsack that may cut its last stop (Dantzig 1957).

    Every stop costs at least its dwell and the shortest step that can lead to it, from the start or from any other
    stop; the walk from the last stop to the end costs at least the shortest such step.
    """
    stops = asked.candidates
    places = sorted({stop.place for stop in stops})
    shared = {place for place in places if sum(stop.place == place for stop in stops) > 1}
    nearest = {}
    for place in places:
        steps = [asked.walking[other, place] for other in places if other != place and (other, place) in asked.walking]
        if asked.start is None or place in shared:
            steps.append(0)
        elif (asked.start, place) in asked.walking:
            steps.append(asked.walking[asked.start, place])
        nearest[place] = min(steps, default=None)
    home = 0
    if asked.end is not None:
        ways = [asked.walking[place, asked.end] for place in places if (place, asked.end) in asked.walking]
        home = min(ways, default=0)
    reachable = [(stop, nearest[stop.place]) for stop in stops]
    costs = [(stop, stop.dwell + step) for stop, step in reachable if step is not None]
    left = asked.seconds - home
    value = 0.0
    for stop, cost in sorted(costs, key=lambda row: -row[0].interest / max(row[1], 1)):
        if cost > left:
            return int(value + stop.interest * max(left, 0) / cost + 1e-9)
        value, left = value + stop.interest, left - cost
    return int(value + 1e-9)
