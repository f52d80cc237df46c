"""The machine form of a lineage as other programs rely on it: its keys, its dates, its years.

Years are worked out again with dateutil's relativedelta, which nobody here wrote.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from dateutil.relativedelta import relativedelta

from archive_tools import pipeline
from archive_tools.cli import cli
from archive_tools.model.grades import Edition
from archive_tools.model.view import EditionView
from archive_tools.reason.lineage_json import lineage_as_json
from archive_tools.reason.steward_json import steward_as_json
from tests.outside.histories import stories

DEMO = Path(__file__).parents[2] / "demo_collection"
AS_OF = date(2026, 11, 25)
Told = dict[str, Any]
GRADES = {"documented", "reported", "inferred", "unsourced"}
HOLDER = {"steward", "name", "role", "from", "to", "how", "grade", "sources"}
GAP = {"after", "before", "from", "to", "years_min", "years_max", "state"}
KIN = {"came_from", "gave_rise_to", "members", "part_of", "elsewhere"}


@pytest.fixture(scope="module", params=list(Edition))
def demo(request: pytest.FixtureRequest) -> EditionView:
    return pipeline.view(DEMO, edition=request.param, as_of=AS_OF, today=AS_OF)


def of_the_demo(view: EditionView) -> Iterator[Told]:
    for accession, lineage in view.findings.lineages.items():
        custody = view.findings.custodies[accession]
        # As it is printed and read again.
        yield json.loads(json.dumps(lineage_as_json(custody, lineage, view.records.stewards, AS_OF, "en")))


@pytest.mark.parametrize(("told", "day"), [(told, AS_OF) for _, (_, told) in list(stories().values())[:-2]])
def test_each_history_keeps_the_contract(told: Told, day: date) -> None:
    keeps(told, day)


@pytest.mark.slow
def test_every_tree_of_the_demo_keeps_the_contract(demo: EditionView) -> None:
    told = list(of_the_demo(demo))
    for one in told:
        keeps(one, AS_OF)
    assert sum(len(one["gaps"]) for one in told) >= 3
    assert {gap["state"] for one in told for gap in one["gaps"]} == {"unknown", "bridged", "presumed"}


@pytest.mark.slow
def test_no_steward_of_the_demo_has_an_id_that_the_edition_does_not_name(demo: EditionView) -> None:
    named = {one.id for one in demo.records.stewards.values() if not one.masked}
    for told in of_the_demo(demo):
        assert ids(told) - {None} <= named
    for steward_id in named:
        line = steward_as_json(demo.records.stewards[steward_id], demo.findings, demo.records.stewards, "en")
        assert ids(json.loads(json.dumps(line))) - {None} <= named
    if demo.is_public:
        unnamed = [h for told in of_the_demo(demo) for h in told["holders"] if h["steward"] is None]
        assert "a private donor" in {holder["name"] for holder in unnamed}


def ids(value: Any) -> set[str | None]:
    """Every id of a steward in the machine form."""
    if isinstance(value, list):
        return {one for item in value for one in ids(item)}
    if not isinstance(value, dict):
        return set()
    found = {one for key, item in value.items() for one in ids(item) if key != "text"}
    found |= {value[key] for key in ("steward", "after", "before", "holder") if key in value}
    return found | {one for key in ("lent_by", "through") for one in value.get(key, [])}


def keeps(told: Told, as_of: date) -> None:
    assert {"holders", "gaps", "hands", "kin", "text"} <= set(told)
    assert set(told["kin"]) >= KIN
    for holder in told["holders"]:
        assert set(holder) >= HOLDER
        assert holder["role"] in ("owner", "holder")
        assert holder["grade"] in GRADES
        assert bounds(holder["from"])[0] <= bounds(holder["from"])[1]
        assert holder["to"] is None or bounds(holder["to"])[0] <= bounds(holder["to"])[1]
        assert (holder["steward"] is None) or holder["name"]
    for member in [*told["kin"]["members"], *told["kin"]["part_of"]]:
        assert set(member) >= {"tree", "from", "to", "place"}
    for gap in told["gaps"]:
        assert set(gap) >= GAP
        assert gap["state"] in ("bridged", "presumed", "unknown")
        assert (gap["years_min"], gap["years_max"]) == years(gap, as_of)
    owners_follow_each_other(told)


def years(gap: Told, as_of: date) -> tuple[int | None, int | None]:
    """From the latest begin to the earliest end, and from the earliest begin to the latest end, in completed years."""
    end = gap["to"] or {"earliest": as_of.isoformat(), "latest": as_of.isoformat()}
    return lapse(gap["from"]["latest"], end["earliest"]), lapse(gap["from"]["earliest"], end["latest"])


def lapse(first: str | None, last: str | None) -> int | None:
    if first is None or last is None:
        return None
    # Born on 29 February: a year is complete on 1 March (relativedelta says 28 February).
    start = date.fromisoformat(first)
    start = start + relativedelta(days=1) if (start.month, start.day) == (2, 29) else start
    return max(relativedelta(date.fromisoformat(last), start).years, 0)


def owners_follow_each_other(told: Told) -> None:
    """The day on which one owner's time ends is that on which the next one's begins, unless a gap is told of."""
    owners = [holder for holder in told["holders"] if holder["role"] == "owner"]
    begins = [holder["from"] for holder in owners]
    starts = {json.dumps(gap["from"], sort_keys=True) for gap in told["gaps"]}
    for holder in owners:
        if holder["to"] is not None and holder["to"] not in begins:
            known = json.dumps(holder["to"], sort_keys=True) in starts
            last = holder is owners[-1] or holder["joint"]
            in_gap = any(gap["after_name"] == holder["name"] for gap in told["gaps"])
            assert known or last or in_gap, holder


def bounds(value: Told) -> tuple[str, str]:
    return value["earliest"] or "", value["latest"] or "9999"


def test_the_command_prints_the_contract_and_nothing_else(tmp_path: Path) -> None:
    files = {
        "collection.yml": "name: The House\ncustodian: the-house\nhemisphere: north\n",
        "stewards/the-house.yml": "name: The House\nkind: institution\n",
        "stewards/anna.yml": "name: Anna Orr\nkind: person\n",
        "trees/T1-elm/tree.yml": "accession: T1\ntaxon: Ulmus parvifolia\nevents:\n"
        "  - {id: came, kind: gift, date: 1985-06, from: anna, to: the-house, source: book}\n",
        "sources/book.yml": "title: Bench book\nkind: diary\n",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    arguments = ["--collection", str(tmp_path), "--as-of", "2026-11-25", "--json"]
    result = CliRunner().invoke(cli, ["lineage", "T1", *arguments])
    assert (result.exit_code, result.stderr) == (0, "")
    told = json.loads(result.stdout)
    keeps(told, AS_OF)
    assert {key: told["holders"][1][key] for key in HOLDER} == {
        "steward": "the-house", "name": "The House", "role": "owner",
        "from": {"earliest": "1985-06-01", "latest": "1985-06-30"}, "to": None,
        "how": "gift", "grade": "documented", "sources": ["book"],
    }  # fmt: skip
    steward = json.loads(CliRunner().invoke(cli, ["steward", "anna", *arguments]).stdout)
    assert [(held["tree"], held["role"], held["to"]["latest"]) for held in steward["held"]] == [
        ("T1", "owner", "1985-06-30")
    ]
