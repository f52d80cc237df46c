"""Allen's thirteen relations between intervals, and how they compose.

James F. Allen, "Maintaining knowledge about temporal intervals", Communications of the ACM 26 (1983) 832-843. Each
relation is four orders between ends, so a network of points can express it; which relations can hold between A and C
when one holds between A and B and another between B and C is asked of the network, cell by cell. The sizes of the
published table (169 cells, 409 entries, 97 single ones, 3 full ones) and the named cells are from memory.
"""

from __future__ import annotations

from functools import cache
from itertools import product

import pytest

from archive_tools.model.dates import Duration
from archive_tools.reason.chronology.network import Conflict, Network, tightest

# Each relation of A to B: how (start A, start B), (start A, end B), (end A, start B), (end A, end B) are ordered.
RELATIONS = {
    "b": "<<<<", "bi": ">>>>", "m": "<<=<", "mi": ">=>>", "o": "<<><", "oi": "><>>", "d": "><><", "di": "<<>>",
    "s": "=<><", "si": "=<>>", "f": "><>=", "fi": "<<>=", "e": "=<>=",
}  # fmt: skip
A, B, C = (0, 1), (2, 3), (4, 5)
A_DAY = Duration(0, 0, 1, "P1D")


def holds(network: Network, relation: str, one: tuple[int, int], other: tuple[int, int]) -> None:
    """Put the relation between two intervals into the network."""
    for (x, y), order in zip(product(one, other), RELATIONS[relation], strict=True):
        if order == "<":
            network.at_least(x, y, A_DAY, 0)
        elif order == ">":
            network.at_least(y, x, A_DAY, 0)
        else:
            network.order(x, y, 0)
            network.order(y, x, 0)


def is_possible(*stated: tuple[str, tuple[int, int], tuple[int, int]]) -> bool:
    network = Network()
    for _ in range(6):
        network.point()
    for begin, end in (A, B, C):
        network.at_least(begin, end, A_DAY, 0)
    for relation, one, other in stated:
        holds(network, relation, one, other)
    try:
        tightest(network, [True])
    except Conflict:
        return False
    return True


@cache
def composed(first: str, second: str) -> frozenset[str]:
    """The relations that can hold between A and C."""
    return frozenset(third for third in RELATIONS if is_possible((first, A, B), (second, B, C), (third, A, C)))


def converse(relation: str) -> str:
    if relation == "e":
        return relation
    return relation.removesuffix("i") if relation.endswith("i") else f"{relation}i"


@pytest.mark.parametrize("relation", RELATIONS)
def test_each_relation_can_hold_and_excludes_the_twelve_others(relation: str) -> None:
    assert {other for other in RELATIONS if is_possible((relation, A, B), (other, A, B))} == {relation}


@pytest.mark.parametrize("relation", RELATIONS)
def test_a_relation_is_its_converse_seen_from_the_other_side(relation: str) -> None:
    assert is_possible((relation, A, B), (converse(relation), B, A))


def test_the_table_has_the_published_size() -> None:
    table = {cell: composed(*cell) for cell in product(RELATIONS, repeat=2)}
    assert len(table) == 169
    assert sum(map(len, table.values())) == 409
    assert sum(len(cell) == 1 for cell in table.values()) == 97
    assert sum(len(cell) == 13 for cell in table.values()) == 3


@pytest.mark.parametrize(
    ("first", "second", "published"),
    [
        ("o", "o", {"b", "m", "o"}),
        ("m", "m", {"b"}),
        ("s", "d", {"d"}),
        ("d", "di", set(RELATIONS)),
        ("b", "bi", set(RELATIONS)),
        ("b", "b", {"b"}),
        ("m", "mi", {"f", "fi", "e"}),
        ("mi", "m", {"s", "si", "e"}),
    ],
)
def test_cells_of_the_published_table(first: str, second: str, published: set[str]) -> None:
    assert composed(first, second) == published


@pytest.mark.parametrize("relation", RELATIONS)
def test_equals_changes_nothing(relation: str) -> None:
    assert composed("e", relation) == composed(relation, "e") == {relation}


def test_a_composition_turned_round_is_the_composition_of_the_converses() -> None:
    for first, second in product(RELATIONS, repeat=2):
        turned = {converse(relation) for relation in composed(first, second)}
        assert composed(converse(second), converse(first)) == turned
