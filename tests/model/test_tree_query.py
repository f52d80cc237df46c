from __future__ import annotations

import pytest

from archive_tools.model.tree_query import QueryProblem, read_query, trees_that_fit
from tests.making import tree

MAPLE = {"accession": ("S1979.2",), "taxon": ("Acer palmatum",), "form": ("broom", "clump"), "place": ("yard",)}


@pytest.mark.parametrize(
    "text",
    [
        "taxon = Acer palmatum",
        "taxon=acer*",
        "form = clump and place = yard",
        "accession = S1979.*",
        "accession = S19??.2 AND form = broom",
        'taxon = "Acer palmatum"',
    ],
)
def test_queries_that_fit(text: str) -> None:
    assert read_query(text).fits(MAPLE)


@pytest.mark.parametrize(
    "text", ["taxon = Acer", "form = clump and place = court", "kind = other", "accession = S1979"]
)
def test_queries_that_do_not(text: str) -> None:
    assert not read_query(text).fits(MAPLE)


def test_signs_of_regular_expressions_mean_themselves() -> None:
    assert not read_query("accession = S1979.2").fits({"accession": ("S1979x2",)})


@pytest.mark.parametrize(
    ("text", "instead"),
    [("taxn = x", "taxon"), ("maples", "key = value"), ("taxon = ", "key = value"), ("taxon = b and", "key = value")],
)
def test_a_query_that_cannot_be_read_says_what_to_write(text: str, instead: str) -> None:
    with pytest.raises(QueryProblem) as told:
        read_query(text)
    assert instead in (told.value.instead or "")


def test_the_trees_of_a_query_keep_their_order() -> None:
    trees = [tree(accession="B", form=("broom",)), tree(accession="C"), tree(accession="A", form=("broom", "clump"))]
    assert [found.accession for found in trees_that_fit("form = broom and kind = single", trees)] == ["B", "A"]
