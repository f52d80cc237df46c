from __future__ import annotations

from dataclasses import replace

from archive_tools.check import check_findings
from archive_tools.check.lineage import (
    circles_of_plantings,
    givers_who_did_not_hold,
    owners_who_differ,
    owners_without_joint,
    things_held_by_the_dead,
)
from archive_tools.model.collection import Collection
from archive_tools.model.grades import Grade
from archive_tools.model.problems import Problem, Severity
from archive_tools.reason import find
from tests.check.builders import (
    HOUSE,
    TODAY,
    collection,
    event,
    member,
    ref,
    spot,
    steward,
    taught,
    the_one,
    thing,
    told,
    tree,
    where,
)


def found(made: Collection) -> list[Problem]:
    return check_findings(made, find(made, TODAY, TODAY))


def documented(*events):
    return [replace(one, standing=Grade.DOCUMENTED) for one in events]


ANNA, BO, CLEO = steward("anna"), steward("bo"), steward("cleo")


def test_two_owners_at_once_without_joint() -> None:
    made = collection(ANNA, BO, tree("T1", event("gift", "1970", from_=HOUSE, to=["anna", "bo"])))
    problem = the_one(made)
    assert (problem.rule, spot(problem.mark)) == ("owners-without-joint", "trees/T1/tree.yml events/0/to")
    assert "anna and bo" in problem.what
    assert problem.severity is Severity.WARNING
    joint = collection(ANNA, BO, tree("T1", event("gift", "1970", from_=HOUSE, to=["anna", "bo"], joint=True)))
    assert told(joint, owners_without_joint) == []
    lent = collection(ANNA, BO, tree("T1", event("loan", "1970", until="1971", from_=HOUSE, to=["anna", "bo"])))
    assert told(lent, owners_without_joint) == []


def test_a_giver_who_gave_it_away_before() -> None:
    gifts = documented(
        event("gift", "1950", id="first", from_="anna", to="bo"),
        event("gift", "1970", id="second", from_="anna", to="cleo"),
    )
    made = collection(ANNA, BO, CLEO, tree("T1", *gifts))
    (problem,) = (p for p in found(made) if p.rule == "giver-did-not-hold")
    assert spot(problem.mark) == "trees/T1/tree.yml events/1/from"
    had = made.trees["T1"].events[0].where.at("to")
    assert problem.what == f"anna gives it here, and the last who is known to have had it is bo ({had})"
    assert problem.instead == "the event by which it came to anna, or who really gave it"


def test_a_giver_after_an_honest_gap_is_no_problem() -> None:
    worked = documented(event("potted", "1950", by="anna"), event("gift", "1970", from_="cleo", to=HOUSE))
    left = documented(
        event("gift", "1950", id="a", from_="anna", to="bo"),
        event("sold", "1960", from_="bo"),
        event("gift", "1970", id="b", from_="cleo", to=HOUSE),
    )
    for events in (worked, left):
        made = collection(ANNA, BO, CLEO, tree("T1", *events))
        assert told(made, lambda records: givers_who_did_not_hold(records, find(records, TODAY, TODAY))) == []


def test_a_holder_after_death_names_both_statements() -> None:
    gift = documented(event("gift", "1985-06-02", from_="anna", to="bo"))
    made = collection(ANNA, steward("bo", died="1984"), tree("T1", *gift))
    (problem,) = (p for p in found(made) if p.rule == "contradiction")
    died = made.stewards["bo"].where.at("died")
    given = made.trees["T1"].events[0].where.at("date")
    assert str(died) in problem.what
    assert str(given) in problem.what


def test_a_holder_before_birth_names_both_statements() -> None:
    gift = documented(event("gift", "1911", from_="anna", to="bo"))
    made = collection(ANNA, steward("bo", born="1924"), tree("T1", *gift))
    (problem,) = (p for p in found(made) if p.rule == "contradiction")
    assert str(made.stewards["bo"].where.at("born")) in problem.what


def test_a_pot_given_by_the_dead() -> None:
    dead = steward("bo", died="1984", born="1920")
    made = collection(dead, thing("pot-1", event("gift", "1990", from_="bo", to=HOUSE), owner=HOUSE))
    (problem,) = things_held_by_the_dead(made)
    assert (problem.rule, spot(problem.mark)) == ("holder-not-alive", "objects/pot-1.yml events/0/from/0")
    assert str(dead.where.at("died")) in problem.what
    unborn = collection(dead, thing("pot-1", event("gift", "1910", from_=HOUSE, to="bo")))
    assert told(unborn, things_held_by_the_dead) == [("holder-not-alive", "objects/pot-1.yml events/0/to/0")]
    left = collection(dead, thing("pot-1", event("bequest", "1985", from_="bo", to=HOUSE)))
    assert told(left, things_held_by_the_dead) == []


def test_the_owner_of_a_pot_is_whom_its_events_make_it() -> None:
    def problems(owner: str) -> list[tuple[str, str]]:
        made = collection(ANNA, BO, thing("pot-1", event("gift", "1990", from_="anna", to="bo"), owner=owner))
        return told(made, lambda records: owners_who_differ(records, find(records, TODAY, TODAY)))

    assert problems("anna") == [("owner-differs", "objects/pot-1.yml owner")]
    assert problems("bo") == []


def test_plantings_in_each_other() -> None:
    one = tree("T1", kind="planting", members=(member("a", accession="T2"),))
    other = tree(
        "T2", kind="planting", members=(replace(member("b", accession="T1"), where=where("trees/T2/tree.yml", "m")),)
    )
    made = collection(one, other)
    (problem,) = circles_of_plantings(made)
    assert (problem.rule, spot(problem.mark)) == ("circle-of-plantings", "trees/T1/tree.yml members/a/accession")
    assert "T1 and T2" in problem.what
    assert "trees/T2/tree.yml" in problem.what
    plain = collection(one, tree("T2"))
    assert told(plain, circles_of_plantings) == []


def test_a_circle_of_descent_names_every_statement() -> None:
    made = collection(
        tree("T1", event("struck", "1950", from_tree=ref("T2"))),
        tree("T2", event("struck", "1951", from_tree=ref("T1"))),
    )
    problem = next(p for p in (the_one(made),) if p.rule == "circle-of-descent")
    for accession in ("T1", "T2"):
        assert str(made.trees[accession].events[0].where.at("from_tree")) in problem.what


def test_a_circle_of_teaching_names_every_statement() -> None:
    made = collection(
        steward("anna", taught_by=(taught("bo"),)),
        steward("bo", taught_by=(taught("cleo"),)),
        steward("cleo", taught_by=(taught("anna"),)),
    )
    problem = the_one(made)
    assert problem.rule == "circle-of-teaching"
    for one in ("anna", "bo", "cleo"):
        assert str(made.stewards[one].where.at("taught_by", 0, "who")) in problem.what


def test_lines_that_go_in_a_circle_still_come_to_an_end() -> None:
    one = tree("T1", kind="planting", members=(member("a", accession="T2"),))
    other = tree(
        "T2", event("gift", "1990", from_="anna", to=HOUSE), kind="planting", members=(member("b", accession="T1"),)
    )
    assert set(find(collection(ANNA, one, other), TODAY, TODAY).custodies) == {"T1", "T2"}
