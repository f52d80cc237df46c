from __future__ import annotations

import pytest

from archive_tools.model.grounds import Talk, TalkSection, Tour
from archive_tools.model.problems import Reach, Severity
from archive_tools.model.tree import Due
from archive_tools.model.words import Words
from tests.check.builders import collection, spot, the_one, told, tree, where

TITLE = Words.plain("The maples")


def walk(prefer: str) -> object:
    return collection(tree("T1"), tours={"maples": Tour("maples", TITLE, where("tours/maples.yml"), prefer=prefer)})


def evening(query: str) -> object:
    section = TalkSection(None, None, (), query, None, (), where("talks/maples.yml", "sections", 0))
    return collection(
        tree("T1"), talks={"maples": Talk("maples", TITLE, where("talks/maples.yml"), sections=(section,))}
    )


def house_rule(query: str) -> object:
    rule = Due("repotted", None, (3,), None, None, where("collection.yml", "due", 0), trees=query)
    return collection(tree("T1"), house={"due": (rule,)})


@pytest.mark.parametrize(
    ("asked", "at"),
    [
        (walk, "tours/maples.yml prefer"),
        (evening, "talks/maples.yml sections/0/trees"),
        (house_rule, "collection.yml due/0/trees"),
    ],
)
def test_queries(asked, at) -> None:
    assert told(asked("accession = T1")) == []
    problem = the_one(asked("accesion = T1"))
    assert (problem.rule, problem.instead, spot(problem.mark), problem.reach) == (
        "bad-query",
        "accession",
        at,
        Reach.STATEMENT,
    )
    problem = the_one(asked("accession = T9"))
    assert (problem.rule, spot(problem.mark), problem.severity) == ("nothing-found", at, Severity.WARNING)
