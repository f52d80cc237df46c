from __future__ import annotations

from datetime import date
from typing import Any

from archive_tools.check import check_findings
from archive_tools.model.findings import Bounds, Contradiction, EventFinding, Findings, Statement, TreeChronology
from archive_tools.model.grades import Grade
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Reach, Severity
from tests.check.builders import TODAY, collection, event, spot, timing, tree

GIFT = Statement(Mark("trees/T1/tree.yml", 12, 5), "the gift was on 1985-06-02", Grade.DOCUMENTED, "gift")
DEATH = Statement(Mark("stewards/quist.yml", 4, 7), "Quist died in 1984", Grade.DOCUMENTED)
SAID = Statement(Mark("trees/T1/tree.yml", 30, 5), "somebody said 1950", Grade.REPORTED, "said")


def chronology(made: Any, *contradictions: Contradiction, accession: str = "T1") -> Findings:
    events = tuple(
        EventFinding(e.id, e.kind, Bounds(e.when.earliest, e.when.latest) if e.when else Bounds(), None, e.standing)
        for e in made.trees[accession].events
    )
    found = TreeChronology(accession, TODAY, False, {}, events, contradictions=contradictions)
    return Findings(TODAY, {accession: found})


def test_documents_that_contradict_each_other() -> None:
    """A gift documented after the giver's death: both lines are named."""
    made = collection(tree("T1"))
    (problem,) = check_findings(made, chronology(made, Contradiction((DEATH, GIFT), None)))
    assert (problem.rule, problem.severity, problem.reach) == ("contradiction", Severity.ERROR, Reach.TOLD)
    assert problem.mark == GIFT.mark
    for words in (GIFT.says, DEATH.says, "trees/T1/tree.yml:12:5", "stewards/quist.yml:4:7", "under review"):
        assert words in problem.what


def test_a_statement_left_out() -> None:
    made = collection(tree("T1"))
    (problem,) = check_findings(made, chronology(made, Contradiction((GIFT, DEATH, SAID), SAID)))
    assert problem.mark == SAID.mark
    assert "Left out of the reckoning: somebody said 1950 (reported; trees/T1/tree.yml:30:5)" in problem.what
    assert "under review" not in problem.what
    assert problem.severity is Severity.WARNING


def test_a_contradiction_that_ties_two_trees_is_told_once() -> None:
    made = collection(tree("T1"), tree("T2"))
    one = Contradiction((GIFT, DEATH), None)
    both = {a: TreeChronology(a, TODAY, True, {}, (), contradictions=(one,)) for a in ("T1", "T2")}
    assert len(check_findings(made, Findings(TODAY, both))) == 1


def test_no_contradiction() -> None:
    made = collection(tree("T1"))
    assert check_findings(made, chronology(made)) == []


def orders(*events: Any) -> list[str]:
    made = collection(tree("T1", *events))
    return [f"{p.rule} {spot(p.mark).partition(' ')[2]}" for p in check_findings(made, chronology(made))]


def test_order_left_open() -> None:
    made = collection(
        tree(
            "T1",
            event("purchase", "1985", id="bought", to="the-house"),
            event("gift", "1985-06", id="given", from_=["the-house"]),
        )
    )
    (problem,) = check_findings(made, chronology(made))
    assert (problem.rule, problem.severity) == ("order-open", Severity.WARNING)
    assert "“bought” or “given”" in problem.what
    assert spot(problem.mark) == "trees/T1/tree.yml events/1/date"
    assert problem.instead == "timing: [{after: bought}]"


def test_order_given_by_dates() -> None:
    assert orders(event("purchase", "1985", to="the-house"), event("gift", "1986", from_=["the-house"])) == []


def test_order_given_by_timing() -> None:
    first = event("purchase", "1985", id="bought", to="the-house")
    for relation, one, other in (("after", "given", "bought"), ("before", "bought", "given")):
        tied = {one: (timing(relation, other),)}
        assert (
            orders(
                event("purchase", "1985", id="bought", to="the-house", timing=tied.get("bought", ())),
                event("gift", "1985", id="given", from_=["the-house"], timing=tied.get("given", ())),
            )
            == []
        )
    through = event("wired", "1985", id="wired", timing=(timing("after", "bought"),))
    given = event("gift", "1985", id="given", from_=["the-house"], timing=(timing("after", "wired"),))
    assert orders(first, through, given) == []


def test_order_of_the_undated() -> None:
    undated = event("gift", id="given", from_=["the-house"])
    assert orders(event("purchase", "1985", to="the-house"), undated) == ["order-open events/1/date"]


def test_only_changes_of_hands_have_an_order() -> None:
    assert orders(event("wired", "1985"), event("repotted", "1985"), event("gift", "1985", to="the-house")) == []
    planned = event("sold", "1985", planned=True)
    assert orders(planned, event("gift", "1985", to="the-house")) == []
    present = event("found in collection", "1985")
    assert orders(present, event("gift", "1985", to="the-house")) == []


def test_bounds_that_were_worked_out_decide() -> None:
    """What statements together say may order what the dates alone leave open."""
    made = collection(tree("T1", event("purchase", "1985", id="a", to="x"), event("gift", "1985", id="b", to="y")))
    found = TreeChronology(
        "T1",
        TODAY,
        False,
        {},
        (
            EventFinding("a", "purchase", Bounds(date(1985, 1, 1), date(1985, 3, 1)), None, Grade.REPORTED),
            EventFinding("b", "gift", Bounds(date(1985, 4, 1), date(1985, 12, 31)), None, Grade.REPORTED),
        ),
    )
    assert check_findings(made, Findings(TODAY, {"T1": found})) == []
