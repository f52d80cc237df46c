"""The machine form, key by key, as the commands promise it."""

from __future__ import annotations

import json
from datetime import date

from archive_tools.reason.chronology_json import as_json
from tests.making import HOUSE, event, source
from tests.reason.chronology_asking import REPORTED, shown, solved

GRADES = {"documented", "reported", "inferred", "unsourced"}
MILESTONES = {"origin", "care", "container", "arrival"}


def test_every_key_is_there_and_what_is_not_known_is_null() -> None:
    found = as_json(solved(event("pruned", "1971", id="p")))
    assert list(found) == [
        "accession", "as_of", "state", "milestones", "ages", "wording", "events", "because", "unbroken_since", "quiet",
        "evidence_share", "contradictions", "sharpen",
    ]  # fmt: skip
    for key in ("milestones", "ages", "wording", "because"):
        assert set(found[key]) == MILESTONES  # type: ignore[call-overload]
    assert all(set(layers) == GRADES for layers in found["milestones"].values())  # type: ignore[attr-defined]
    assert found["milestones"]["arrival"]["documented"] == {"earliest": None, "latest": None}  # type: ignore[index]
    assert found["ages"]["care"]["documented"] == {"min": 54, "max": None}  # type: ignore[index]
    assert found["wording"]["arrival"] is None  # type: ignore[index]
    json.dumps(found)


def test_the_first_worked_example_as_a_machine_reads_it() -> None:
    ledger = source("ledger", "Ledger B", kind="ledger")
    found = as_json(
        solved(
            event("struck", "1951", id="struck", sources="ledger"),
            event("potted", "1953", id="potted"),
            as_of=date(2019, 2, 27),
            sources=(ledger,),
        )
    )
    assert (found["accession"], found["as_of"], found["state"]) == ("T1", "2019-02-27", "ok")
    assert found["milestones"]["origin"]["documented"] == {"earliest": "1951-01-01", "latest": "1951-12-31"}  # type: ignore[index]
    assert found["ages"]["care"]["reported"] == {"min": 65, "max": 66}  # type: ignore[index]
    assert found["events"] == [
        {"id": "struck", "kind": "struck", "earliest": "1951-01-01", "latest": "1951-12-31", "grade": "documented"},
        {"id": "potted", "kind": "potted", "earliest": "1953-01-01", "latest": "1953-12-31", "grade": "documented"},
    ]
    says = [{"file": "tree.yml", "line": None, "says": "struck 1951 (Ledger B)"}]
    assert found["because"]["origin"] == {"latest": says, "earliest": says}  # type: ignore[index]
    assert found["unbroken_since"] == {"earliest": None, "latest": None}
    assert found["quiet"] == [{"from": "1953-12-31", "to": "2019-02-27", "years": 65}]
    assert found["evidence_share"] == 0.01


def test_a_contradiction_gives_its_statements_with_grades_and_the_one_left_out() -> None:
    found = as_json(solved(event("training begun", "1953", standing=REPORTED), photos=(shown("1950-05"),)))
    (clash,) = found["contradictions"]  # type: ignore[misc]
    left_out = {"file": "tree.yml", "line": None, "says": "training begun 1953", "grade": "reported"}
    assert clash["left_out"] == left_out
    assert left_out in clash["statements"]
    assert {s["grade"] for s in clash["statements"]} == {"documented", "reported"}


def test_under_review_nothing_is_said_of_any_milestone() -> None:
    found = as_json(solved(event("died", "1990"), event("pruned", "1995"), event("gift", "1980", to=HOUSE)))
    assert found["state"] == "under review"
    nothing = {grade: {"earliest": None, "latest": None} for grade in GRADES}
    assert found["milestones"] == dict.fromkeys(MILESTONES, nothing)
    assert found["because"] == {milestone: {"latest": [], "earliest": []} for milestone in MILESTONES}
    assert set(found["wording"].values()) == {"Dates under review"}  # type: ignore[attr-defined]
    assert found["contradictions"][0]["left_out"] is None  # type: ignore[index]
    assert found["evidence_share"] is None
