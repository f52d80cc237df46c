"""The travel example of Dechter, Meiri and Pearl, "Temporal constraint networks".

Artificial Intelligence 49 (1991) 61-95. John goes to work by car (30-40 minutes), Fred in a carpool (40-50). Today John
left home between 7:10 and 7:20, Fred arrived between 8:00 and 8:10, and John arrived 10-20 minutes after Fred left
home. Minutes stand for days here. The constraints and the distance matrix are from memory; the matrix was recomputed.
"""

from __future__ import annotations

from datetime import date

import pytest

from archive_tools.model.dates import Duration
from archive_tools.reason.chronology.network import Conflict, Network, tightest

SEVEN = date(1991, 1, 1).toordinal()
X0, X1, X2, X3, X4 = range(5)
CONSTRAINTS = [
    # (from, to, at least, at most): 7:00, John leaves, John arrives, Fred leaves, Fred arrives
    (X0, X1, 10, 20),
    (X1, X2, 30, 40),
    (X3, X2, 10, 20),
    (X3, X4, 40, 50),
    (X0, X4, 60, 70),
]
DISTANCES = [
    [0, 20, 50, 30, 70],
    [-10, 0, 40, 20, 60],
    [-40, -30, 0, -10, 30],
    [-20, -10, 20, 0, 50],
    [-60, -50, -20, -40, 0],
]
"""The most by which column comes after row, in the minimal network."""


def travel(fixed: int, extra: tuple[tuple[int, int, int, int], ...] = ()) -> Network:
    """The network with one point fixed at 7:00."""
    network = Network()
    for _ in range(5):
        network.point()
    for a, b, least, most in (*CONSTRAINTS, *extra):
        network.at_least(a, b, Duration(0, 0, least, f"P{least}D"), 0)
        network.at_most(a, b, Duration(0, 0, most, f"P{most}D"), 0)
    network.between(fixed, SEVEN, SEVEN, 0)
    return network


@pytest.mark.parametrize("row", range(5))
def test_the_minimal_network_is_the_published_one(row: int) -> None:
    case = tightest(travel(row), [True])
    assert [day - SEVEN for day in case.latest] == DISTANCES[row]
    assert [SEVEN - day for day in case.earliest] == [DISTANCES[column][row] for column in range(5)]


def test_when_each_left_and_arrived() -> None:
    """x1 [10,20], x2 [40,50], x3 [20,30], x4 [60,70], as published."""
    case = tightest(travel(X0), [True])
    found = [(first - SEVEN, last - SEVEN) for first, last in zip(case.earliest, case.latest, strict=True)]
    assert found == [(0, 0), (10, 20), (40, 50), (20, 30), (60, 70)]


def test_that_fred_came_before_john_left_is_no_reading_of_it() -> None:
    """A constraint outside the minimal network makes it inconsistent; one inside does not."""
    with pytest.raises(Conflict):
        tightest(travel(X0, ((X4, X1, 0, 60),)), [True])
    tightest(travel(X0, ((X1, X4, 50, 60),)), [True])
