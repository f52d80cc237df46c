"""Lines of teaching: groups and generations held against networkx, and how a large line is cut into branches."""

from __future__ import annotations

import random
from datetime import date

import networkx
import pytest

from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade
from archive_tools.model.lineage import TeachingTie
from archive_tools.model.teaching_lines import MOST, lines_of_teaching


def tie(teacher: str, pupil: str, year: int | None = None) -> TeachingTie:
    start = Bounds(date(year, 1, 1), date(year, 12, 31)) if year else None
    return TeachingTie(teacher, pupil, start, None, Grade.REPORTED)


def at_random(seed: int, people: int, share: float) -> list[TeachingTie]:
    """Everybody may have learned from one or two of those before them."""
    chance = random.Random(seed)
    found = []
    for number in range(1, people):
        for teacher in sorted({chance.randrange(number) for _ in range(2)}):
            if chance.random() < share:
                found.append(tie(f"p{teacher}", f"p{number}", 1900 + number % 100))
    return found


@pytest.mark.parametrize("share", [0.15, 0.3, 0.6])
@pytest.mark.parametrize("seed", range(4))
def test_groups_and_generations_are_those_of_a_graph_library(seed: int, share: float) -> None:
    """Networkx 3: weakly_connected_components, topological_generations."""
    ties = at_random(seed, 160, share)
    graph = networkx.DiGraph((one.teacher, one.pupil) for one in ties)
    lines = lines_of_teaching(ties)
    assert {frozenset(line.people) for line in lines} == {
        frozenset(group) for group in networkx.weakly_connected_components(graph)
    }
    layers = list(networkx.topological_generations(graph))
    expected = {one: at + 1 for at, layer in enumerate(layers) for one in layer}
    assert {one: n for line in lines for one, n in line.generation.items()} == expected
    assert [len(line.people) for line in lines] == sorted((len(line.people) for line in lines), reverse=True)


@pytest.mark.parametrize("share", [0.3, 0.8])
def test_branches_are_small_and_hold_everybody_of_a_family_tree(share: float) -> None:
    chance = random.Random(5)
    ties = [
        tie(f"p{chance.randrange(max(0, n - 40), n)}", f"p{n}", 1900) for n in range(1, 400) if chance.random() < share
    ]
    for line in lines_of_teaching(ties):
        assert {one for branch in line.branches for one in branch.people} == set(line.people)
        drawn = [(t.teacher, t.pupil) for branch in line.branches for t in branch.ties]
        assert sorted(drawn) == sorted((t.teacher, t.pupil) for t in line.ties), "each lesson is drawn once"
        for branch in line.branches:
            direct = sum(t.teacher == branch.head for t in branch.ties)
            assert len(branch.people) <= max(MOST, direct + 1)
            assert set(branch.goes_on) <= {other.head for other in line.branches}


def test_a_line_of_many_more_than_fit_is_cut() -> None:
    ties = [tie(f"p{n // 3}", f"p{n}") for n in range(1, 200)]
    (line,) = lines_of_teaching(ties)
    assert len(line.branches) > 8
    assert max(len(branch.people) for branch in line.branches) <= MOST


def test_pupils_stand_below_their_teacher_and_no_tie_crosses_a_later_line() -> None:
    ties = [tie("a", "b", 1950), tie("a", "c", 1960), tie("b", "d", 1970), tie("c", "e", 1975), tie("x", "d", 1972)]
    (line,) = lines_of_teaching(ties)
    assert line.people == ("a", "c", "e", "b", "d", "x")
    assert line.generation == {"a": 1, "b": 2, "c": 2, "d": 3, "e": 3, "x": 1}
    assert line.generations == 3


def test_two_who_taught_each_other_are_one_line_and_nothing_runs_in_circles() -> None:
    (line,) = lines_of_teaching([tie("a", "b", 1950), tie("b", "a", 1960), tie("b", "c"), tie("c", "c")])
    assert sorted(line.people) == ["a", "b", "c"]
    assert line.generation["a"] == 1
    assert line.generation["c"] == 3


def test_nobody_taught_nobody() -> None:
    assert lines_of_teaching(()) == ()
