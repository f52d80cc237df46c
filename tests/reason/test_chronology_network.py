"""The network of days against networkx' Bellman-Ford, scipy's linear programmes and trying every day."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import product

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from archive_tools.model.calendar import add
from archive_tools.model.dates import Duration
from archive_tools.model.event import Event
from archive_tools.model.grades import Milestone
from archive_tools.model.places_in_files import Where
from archive_tools.reason.chronology.beginnings import EarliestOf, cases, hull
from archive_tools.reason.chronology.lapses import EARLY, LATE, fewest_days, most_days
from archive_tools.reason.chronology.network import Conflict, Network, tightest
from archive_tools.reason.chronology.system import Beginning

BASE = date(1950, 1, 1).toordinal()
DAY = 7  # an ordinary number of days that no rule treats apart


def lapse(days: int = 0, months: int = 0) -> Duration:
    return Duration(0, months, days, "test")


Plain = tuple[int, list[tuple[int, int, int]], list[tuple[int, int | None, int | None]]]
"""Points; (a, b, days): b - a >= days, or <= -days for negative days; (point, first, last)."""


@st.composite
def plain_systems(draw: st.DrawFn) -> Plain:
    size = draw(st.integers(2, 6))
    points = st.integers(0, size - 1)
    apart = st.tuples(points, points, st.integers(-40, 40)).filter(lambda arc: arc[0] != arc[1])
    days = st.none() | st.integers(0, 60)
    return size, draw(st.lists(apart, max_size=9)), draw(st.lists(st.tuples(points, days, days), max_size=6))


def network_of(system: Plain) -> Network:
    size, apart, dates = system
    network = Network()
    for _ in range(size):
        network.point()
    for a, b, days in apart:
        if days >= 0:
            network.at_least(a, b, lapse(days), 0)
        else:
            network.at_most(b, a, lapse(-days), 0)
    for point, first, last in dates:
        network.between(point, EARLY if first is None else BASE + first, LATE if last is None else BASE + last, 0)
    return network


def by_bellman_ford(system: Plain) -> list[tuple[int | None, int | None]] | None:
    """Earliest and latest of each point (None: no bound) as shortest paths; None where a negative cycle forbids all."""
    size, apart, dates = system
    graph = nx.MultiDiGraph()
    graph.add_nodes_from([*range(size), "start"])
    for a, b, days in apart:  # b - a >= days  <=>  a - b <= -days
        graph.add_edge(b, a, weight=-days)
    for point, first, last in dates:
        if first is not None:
            graph.add_edge(point, "start", weight=-first)
        if last is not None:
            graph.add_edge("start", point, weight=last)
    if nx.negative_edge_cycle(graph):
        return None
    latest = nx.single_source_bellman_ford_path_length(graph, "start")
    earliest = nx.single_source_bellman_ford_path_length(graph.reverse(), "start")
    return [(None if point not in earliest else -earliest[point], latest.get(point)) for point in range(size)]


def found_in(network: Network) -> list[tuple[int | None, int | None]] | None:
    try:
        case = tightest(network, bytearray([1]))
    except Conflict:
        return None
    return [
        (None if first == EARLY else first - BASE, None if last == LATE else last - BASE)
        for first, last in zip(case.earliest, case.latest, strict=True)
    ]


@given(plain_systems())
@settings(max_examples=400, deadline=None)
def test_whole_days_agree_with_bellman_ford_of_networkx(system: Plain) -> None:
    assert found_in(network_of(system)) == by_bellman_ford(system)


@given(plain_systems())
@settings(max_examples=60, deadline=None)
def test_whole_days_agree_with_linear_programmes_of_scipy(system: Plain) -> None:
    size, apart, dates = system
    rows, limits = [], []
    for a, b, days in apart:
        row = [0] * size
        row[a], row[b] = 1, -1
        rows.append(row)
        limits.append(-days)
    bounds = [[-1e5, 1e5] for _ in range(size)]
    for point, first, last in dates:
        bounds[point][0] = max(bounds[point][0], -1e5 if first is None else first)
        bounds[point][1] = min(bounds[point][1], 1e5 if last is None else last)
    found = found_in(network_of(system))
    crossed = any(low > high for low, high in bounds)
    for point in range(size):
        for sign, end in ((1, 0), (-1, 1)):
            cost = [0] * size
            cost[point] = sign
            answer = None if crossed else linprog(cost, rows or None, limits or None, bounds=bounds, method="highs")
            if answer is None or answer.status != 0:
                assert found is None
            else:
                assert found is not None
                bound = found[point][end]
                if bound is not None:
                    assert sign * answer.fun == pytest.approx(bound)
                else:
                    assert abs(answer.fun) > 9e4


@given(plain_systems(), st.data())
@settings(max_examples=300, deadline=None)
def test_the_earliest_of_is_the_hull_of_its_cases(system: Plain, data: st.DataObject) -> None:
    size, apart, dates = system
    among = data.draw(st.lists(st.integers(1, size - 1), min_size=1, max_size=4, unique=True))
    apart = apart + [(0, other, 0) for other in among]
    answers = [by_bellman_ford((size, [*apart, (other, 0, 0)], dates)) for other in among]
    consistent = [answer for answer in answers if answer is not None]
    network, on, assumed = _with_choice(network_of((size, apart, dates)), among)
    try:
        found = cases(network, on, [assumed])
    except Conflict:
        assert not consistent
        return
    for point in range(size):
        first, last = hull(found, point)
        firsts = [answer[point][0] for answer in consistent]
        lasts = [answer[point][1] for answer in consistent]
        assert first == (EARLY if None in firsts else BASE + min(f for f in firsts if f is not None))
        assert last == (LATE if None in lasts else BASE + max(f for f in lasts if f is not None))


def _with_choice(network: Network, among: list[int]) -> tuple[Network, bytearray, EarliestOf]:
    nothing = Event("e", "potted", Where("tree.yml"))
    beginnings = []
    for number, other in enumerate(among):
        network.order(other, 0, 1 + number)
        beginnings.append(Beginning(other, nothing, True, 1 + number, -1))
    on = bytearray([1] + [0] * len(among))
    return network, on, EarliestOf("T1", Milestone.CARE, 0, tuple(beginnings))


WINDOW = 75
some_days = st.integers(0, WINDOW - 1)
some_lapses = st.builds(lapse, st.integers(0, 35), st.integers(0, 2))
calendar_arcs = st.lists(
    st.tuples(st.sampled_from([(0, 1), (1, 2), (0, 2), (2, 0), (1, 0)]), some_lapses, st.booleans()), max_size=5
)


@given(
    st.dates(date(1898, 1, 1), date(2010, 1, 1)), calendar_arcs, st.lists(st.tuples(some_days, some_days), max_size=3)
)
@settings(max_examples=150, deadline=None)
def test_calendar_lapses_agree_with_trying_every_day(
    start: date, arcs: list[tuple[tuple[int, int], Duration, bool]], narrowed: list[tuple[int, int]]
) -> None:
    """Three points in a window of days; every combination of days is tried."""
    network = Network()
    base = start.toordinal()
    fits = np.ones((WINDOW, WINDOW, WINDOW), dtype=bool)
    days = [start + timedelta(n) for n in range(WINDOW)]
    for point in range(3):
        network.point()
        first, last = narrowed[point] if point < len(narrowed) else (0, WINDOW - 1)
        network.between(point, base + first, base + last, 0)
        shape = [1, 1, 1]
        shape[point] = WINDOW
        fits &= np.array([first <= n <= last for n in range(WINDOW)]).reshape(shape)
    for (a, b), length, at_least in arcs:
        (network.at_least if at_least else network.at_most)(a, b, length, 0)
        ends = [add(day, length) for day in days]
        held = np.array([[(end <= d) if at_least else (d <= end) for d in days] for end in ends if end])
        fits &= _along(held, a, b)
    found = found_in(network)
    if not fits.any():
        assert found is None
        return
    assert found is not None
    for point in range(3):
        possible = np.flatnonzero(fits.any(axis=tuple(other for other in range(3) if other != point)))
        offset = base - BASE
        assert found[point] == (possible[0] + offset, possible[-1] + offset)


def _along(held: np.ndarray, a: int, b: int) -> np.ndarray:
    """`held[day of a][day of b]`, laid out over all three points."""
    laid = held if a < b else held.T
    shape = [1, 1, 1]
    shape[a] = shape[b] = WINDOW
    return laid.reshape(shape)


@pytest.mark.parametrize("months", [*range(1, 30), 48, 120, 1200, 4800, 4812])
def test_fewest_and_most_days_of_months_by_trying_every_day_of_400_years(months: int) -> None:
    length = lapse(0, months)
    days = [date(2000, 1, 1) + timedelta(n) for n in range(146_097 + 1)]
    apart = [(end - day).days for day in days[:: 1 if months in (1, 2, 11, 12) else DAY] if (end := add(day, length))]
    if months in (1, 2, 11, 12):
        assert (min(apart), max(apart)) == (fewest_days(length), most_days(length))
    else:
        assert fewest_days(length) <= min(apart)
        assert most_days(length) >= max(apart)
        assert most_days(length) - fewest_days(length) <= 8


def test_a_circle_without_any_date_is_found() -> None:
    """A after B, B after C, C after A by a day each: no day needs to be known."""
    network = Network()
    a, b, c = (network.point() for _ in range(3))
    for owner, (first, second) in enumerate(((a, b), (b, c), (c, a))):
        network.at_least(first, second, lapse(1), owner)
    with pytest.raises(Conflict) as conflict:
        tightest(network, bytearray([1, 1, 1]))
    assert conflict.value.owners == {0, 1, 2}
    assert tightest(network, bytearray([1, 1, 0])).latest == [LATE] * 3


def test_a_month_and_at_most_thirty_days_fit_although_many_months_are_longer() -> None:
    """From 31 January 2001 the first month of at most 28 days begins on 1 February."""
    network = Network()
    a, b = network.point(), network.point()
    network.between(a, date(2001, 1, 2).toordinal(), LATE, 0)
    network.at_least(a, b, lapse(0, 1), 0)
    network.at_most(a, b, lapse(28), 0)
    case = tightest(network, bytearray([1]))
    assert date.fromordinal(case.earliest[a]) == date(2001, 2, 1)
    assert date.fromordinal(case.earliest[b]) == date(2001, 3, 1)


def test_a_consistent_circle_of_months_may_take_many_rounds() -> None:
    """Eight years pass without 29 February around 1900: a year and a day of at most 366 days must wait until 1903."""
    network = Network()
    a, b = network.point(), network.point()
    network.between(a, date(1896, 3, 1).toordinal(), LATE, 0)
    network.at_least(a, b, Duration(1, 0, 0, "P1Y"), 0)
    network.at_least(a, b, lapse(366), 0)
    network.at_most(a, b, Duration(1, 0, 0, "P1Y"), 0)
    case = tightest(network, bytearray([1]))
    assert date.fromordinal(case.earliest[a]) == date(1903, 3, 1)


@pytest.mark.parametrize(("days", "months"), list(product((0, 3), (1, 12, 37))))
def test_what_passes_the_horizon_is_a_contradiction_above_and_no_bound_below(days: int, months: int) -> None:
    network = Network()
    a, b = network.point(), network.point()
    network.between(a, date(9999, 12, 20).toordinal(), LATE, 0)
    network.at_least(a, b, lapse(days, months), 0)
    with pytest.raises(Conflict):
        tightest(network, bytearray([1]))
    early = Network()
    a, b = early.point(), early.point()
    early.between(b, date(1, 1, 10).toordinal(), date(1, 1, 20).toordinal(), 0)
    early.at_most(a, b, lapse(days, months), 0)
    assert tightest(early, bytearray([1])).earliest[a] == EARLY
