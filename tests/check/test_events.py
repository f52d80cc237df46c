"""Circles, spans, work in parts, changes of hands, plans."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from archive_tools.check import without
from archive_tools.check.circles import circles
from archive_tools.model.problems import Severity
from archive_tools.model.tree import NotShown, OtherNumber
from tests.check.builders import (
    collection,
    event,
    member,
    ref,
    spot,
    steward,
    taught,
    the_one,
    thing,
    timing,
    told,
    tree,
    when,
)


def test_things_that_name_themselves() -> None:
    made = collection(
        tree(
            "T1",
            event("exchange", to="the-house", trees=(ref("T1"),)),
            event("struck", from_tree=ref("T1")),
            event("repotted", does="repotted", planned=True, timing=(timing("after", "repotted"),)),
        )
    )
    assert [place.partition(" ")[2] for rule, place in told(made) if rule == "names-itself"] == [
        "events/0/trees/0",
        "events/1/from_tree",
        "events/2/does",
        "events/2/timing/0",
    ]


def descent(*pairs: tuple[str, str]) -> Any:
    names = dict.fromkeys(name for pair in pairs for name in pair)
    return collection(
        *(
            tree(name, *(event("layer severed", id=f"from-{m}", from_tree=ref(m)) for d, m in pairs if d == name))
            for name in names
        )
    )


def test_circles_of_descent() -> None:
    made = descent(("S1", "S2"), ("S2", "S3"), ("S3", "S1"))
    problem = the_one(made)
    assert problem.rule == "circle-of-descent"
    assert "S1, S2 and S3" in problem.what
    assert spot(problem.mark) == "trees/S1/tree.yml events/0/from_tree"
    assert told(without(made, [problem])) == []
    assert told(descent(("S1", "S2"), ("S2", "S3"), ("S4", "S3"), ("S1", "S3"))) == []


def test_a_long_line_of_descent_is_no_danger() -> None:
    graph = {str(n): [str(n + 1)] for n in range(50_000)}
    assert circles(graph) == []
    assert len(circles({**graph, "50000": ["0"]})) == 1


@pytest.mark.parametrize(
    ("graph", "expected"),
    [
        ({"a": ["a"]}, [("a",)]),
        ({"a": ["b"], "b": ["a"]}, [("a", "b")]),
        ({"c": ["a"], "a": ["b"], "b": ["c", "a"]}, [("a", "b"), ("a", "b", "c")]),
        ({"a": ["b", "c"], "b": ["d"], "c": ["d"]}, []),
        ({}, []),
    ],
)
def test_circles(graph: dict[str, list[str]], expected: list[tuple[str, ...]]) -> None:
    assert sorted(circles(graph)) == expected


def test_circles_of_teaching() -> None:
    made = collection(steward("a", taught_by=(taught("b"),)), steward("b", taught_by=(taught("a"),)))
    problem = the_one(made)
    assert (problem.rule, spot(problem.mark)) == ("circle-of-teaching", "stewards/a.yml taught_by/0/who")
    assert told(without(made, [problem])) == []
    alone = the_one(collection(steward("a", taught_by=(taught("a"),))))
    assert "their own teacher" in alone.what
    line = collection(
        steward("a", taught_by=(taught("b"), taught("c"))), steward("b", taught_by=(taught("c"),)), steward("c")
    )
    assert told(line) == []


def test_two_who_taught_each_other_in_turn() -> None:
    in_turn = (taught("b", "1950", "1955"), taught("a", "1970", "1975"))
    made = collection(steward("a", taught_by=in_turn[:1]), steward("b", taught_by=in_turn[1:]))
    assert told(made) == []
    at_once = (taught("b", "1950", "1972"), taught("a", "1970", "1975"))
    made = collection(steward("a", taught_by=at_once[:1]), steward("b", taught_by=at_once[1:]))
    assert the_one(made).rule == "circle-of-teaching"


def test_circles_of_membership() -> None:
    made = collection(steward("a", members=("b",)), steward("b", members=("a",)))
    assert the_one(made).rule == "circle-of-members"
    mixed = collection(steward("a", members=("b",), member_of=("b",)), steward("b"))
    assert the_one(mixed).rule == "circle-of-members"
    both_ways = collection(steward("a", members=("b",)), steward("b", member_of=("a",)))
    assert told(both_ways) == []


@pytest.mark.parametrize(
    ("on", "until", "wrong"),
    [
        ("1990", "1989", True),
        ("1990-05-02", "1990-05-01", True),
        ("1990", "1990", False),
        ("1990", "1990-01-01", False),
        ("1990~", "1989", False),
        ("1990", None, False),
        (None, "1989", False),
        ("../1990", "1989", False),
    ],
)
def test_until_before_date(on: str | None, until: str | None, wrong: bool) -> None:
    made = collection(tree("T1", event("wintered", on, until=until)))
    assert told(made) == ([("until-before-date", "trees/T1/tree.yml events/0/until")] if wrong else [])


def test_records_that_end_too_soon() -> None:
    made = collection(
        steward("a", taught_by=(taught("b", "1990", "1989"),)),
        steward("b"),
        tree(
            "T1",
            members=(member("m", from_="1990", until="1980"),),
            other_numbers=(OtherNumber("1", None, when("1990"), when("1980")),),
            not_shown=(NotShown(when("1990"), when("1980"), None),),
        ),
    )
    assert told(made) == [
        ("until-before-date", "stewards/a.yml taught_by/0/until"),
        ("until-before-date", "trees/T1/tree.yml members/m/until"),
        ("until-before-date", "trees/T1/tree.yml not_shown/0/until"),
        ("until-before-date", "trees/T1/tree.yml other_numbers/0/until"),
    ]


def quarters(*years: str, share: tuple[int, int] = (1, 4), **last: Any) -> Any:
    events = [event("repotted", year, id=f"r{year}", share=share, cycle="roots", sector=("12", "3")) for year in years]
    if last:
        events[-1] = replace(events[-1], **last)
    return collection(tree("T1", *events))


def test_a_quarter_each_spring() -> None:
    """Common practice, no source: a quarter of the root mass each spring for four years, years left out or not."""
    assert told(quarters("2011", "2012", "2013", "2015")) == []
    problem = the_one(quarters("2011", "2012", "2013", "2014", "2015"))
    assert (problem.rule, spot(problem.mark)) == ("cycle-beyond-whole", "trees/T1/tree.yml events/4/share")
    assert "5/4" in problem.what


def test_the_latest_part_is_the_one_too_many() -> None:
    problem = the_one(quarters("2015", "2011", "2012", "2013", "2014"))
    assert problem.subject == ("T1", "event", "r2015")


def test_a_planned_part_counts_until_it_is_done() -> None:
    five = ("2022", "2023", "2024", "2025", "2027")
    assert the_one(quarters(*five, planned=True)).rule == "cycle-beyond-whole"
    done = [event("repotted", year, id=f"r{year}", share=(1, 4), cycle="roots") for year in five[:4]]
    plan = event("repotted", "2025-03", id="plan", share=(1, 4), cycle="roots", planned=True)
    made = collection(tree("T1", plan, *done[:3], replace(done[3], does="plan")))
    assert told(made) == []


@pytest.mark.parametrize("kind", ["gift", "bequest", "purchase", "exchange", "transfer"])
def test_changes_without_hands(kind: str) -> None:
    problem = the_one(collection(tree("T1", event(kind))))
    assert (problem.rule, spot(problem.mark)) == ("nobodys-hands", "trees/T1/tree.yml events/0/kind")
    assert told(collection(tree("T1", event(kind, to="the-house")))) == []
    assert told(collection(tree("T1", event(kind, from_=["the-house"])))) == []


def test_other_changes_need_no_hands() -> None:
    made = collection(tree("T1", event("found in collection"), event("collected"), event("given away"), event("sold")))
    assert told(made) == []


def test_from_and_to_the_same() -> None:
    assert the_one(collection(tree("T1", event("gift", from_=["the-house"], to="the-house")))).rule == "same-hands"


def test_loans() -> None:
    assert the_one(collection(tree("T1", event("loan", until="1990")))).rule == "nobodys-hands"
    problem = the_one(collection(tree("T1", event("loan", "1980", to="the-house"))))
    assert (problem.rule, problem.severity) == ("loan-without-end", Severity.WARNING)
    assert told(collection(tree("T1", event("loan", "1980", to="the-house", until="1990")))) == []
    kept = event("gift", "1990", to="the-house")
    assert told(collection(tree("T1", event("loan", "1980", to="the-house"), kept))) == []


def test_bequests() -> None:
    def bequeathed(**keys: Any) -> Any:
        return collection(steward("quist", **keys), tree("T1", event("bequest", from_=["quist"], to="the-house")))

    problem = the_one(bequeathed(kind="person"))
    assert (problem.rule, problem.severity) == ("bequest-without-death", Severity.WARNING)
    assert spot(problem.mark) == "trees/T1/tree.yml events/0/from/0"
    assert told(bequeathed(kind="person", died="1978")) == []
    assert told(bequeathed(kind="estate")) == []


def test_tags_exchanged() -> None:
    assert the_one(collection(tree("T1", event("tags exchanged")))).rule == "tags-of-one-tree"
    assert told(collection(tree("T1", event("tags exchanged", trees=(ref("T2"),))), tree("T2"))) == []


def test_plans() -> None:
    problem = the_one(collection(tree("T1", event("repotted", "2026-03", planned=True))))
    assert (problem.rule, problem.severity, spot(problem.mark)) == (
        "plan-not-ahead",
        Severity.WARNING,
        "trees/T1/tree.yml events/0/date",
    )
    undated = the_one(collection(tree("T1", event("repotted", planned=True))))
    assert spot(undated.mark) == "trees/T1/tree.yml events/0/planned"
    for ahead in ("2026-11-25", "2026", "2027-03", "2027/.."):
        assert told(collection(tree("T1", event("repotted", ahead, planned=True)))) == []
    done = event("repotted", "2026-04-02", id="r", does="plan")
    plan = event("repotted", "2026-03", id="plan", planned=True)
    assert told(collection(tree("T1", plan, done))) == []


def test_does_names_a_plan() -> None:
    made = collection(tree("T1", event("repotted", "2020", id="a"), event("repotted", "2021", id="b", does="a")))
    problem = the_one(made)
    assert (problem.rule, problem.subject) == ("does-no-plan", ("T1", "event", "b"))


def test_events_still_to_come() -> None:
    problem = the_one(collection(tree("T1", event("repotted", "2027-03"))))
    assert (problem.rule, problem.severity) == ("not-yet", Severity.WARNING)
    for past in ("2026-11-25", "2026", "2026-12~", None):
        assert told(collection(tree("T1", event("repotted", past)))) == []


def test_rules_reach_objects_too() -> None:
    made = collection(thing("pot", event("observed", "2027", until="2026"), event("damaged", planned=True)))
    assert sorted(rule for rule, _ in told(made)) == ["not-yet", "plan-not-ahead", "until-before-date"]


def test_members_called_the_same() -> None:
    problem = the_one(collection(tree("T1", members=(member("a"), replace(member("a"), where=member("b").where)))))
    assert (problem.rule, spot(problem.mark)) == ("duplicate-id", "trees/T1/tree.yml members/b/id")
    assert told(collection(tree("T1", members=(member("a"), member("b"))))) == []
