"""Lines that cannot be, in real files: every statement that takes part is named with its file and line."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from archive_tools.cli import cli
from tests.read.folder_of import made

HOUSE = "name: The House\ncustodian: the-house\nhemisphere: north\n"
PEOPLE = {
    "stewards/the-house.yml": "name: The House\nkind: institution\n",
    "stewards/anna.yml": "name: Anna Orr\nkind: person\nborn: 1924\ndied: 1984\nsource: book\n",
    "stewards/bo.yml": "name: Bo Lind\nkind: person\n",
    "sources/book.yml": "title: Bench book\nkind: diary\n",
}


def tree(number: str, *lines: str) -> dict[str, str]:
    events = "".join(f"  {line}\n" for line in lines)
    return {f"trees/{number}-elm/tree.yml": f"accession: {number}\ntaxon: Ulmus parvifolia\nevents:\n{events}"}


def problems(folder: Path, files: dict[str, str]) -> list[dict[str, Any]]:
    made(folder, {**PEOPLE, **files}, HOUSE)
    result = CliRunner().invoke(cli, ["check", str(folder), "--as-of", "2026-11-25", "--json"])
    found: list[dict[str, Any]] = json.loads(result.stdout)["problems"]
    return found


FROM = "- {{id: struck, kind: struck, date: {}, from_tree: {}}}"


@pytest.mark.parametrize(
    ("files", "rule", "places"),
    [
        pytest.param(
            {**tree("T1", FROM.format(1950, "T3")), **tree("T2", "- {id: x, kind: wired, date: 1980}",
                                                           FROM.format(1951, "T1")),
             **tree("T3", FROM.format(1952, "T2"))},
            "circle-of-descent",
            ["trees/T1-elm/tree.yml:4", "trees/T2-elm/tree.yml:5", "trees/T3-elm/tree.yml:4"],
            id="a tree its own ancestor, over three generations",
        ),
        pytest.param(
            tree("T1", "- {id: came, kind: gift, date: 1911, from: anna, to: bo, source: book}"),
            "contradiction",
            ["stewards/anna.yml:3", "trees/T1-elm/tree.yml:4"],
            id="somebody gives it before their birth",
        ),
        pytest.param(
            tree("T1", "- {id: came, kind: gift, date: 1990, from: bo, to: anna, source: book}"),
            "contradiction",
            ["stewards/anna.yml:4", "trees/T1-elm/tree.yml:4"],
            id="somebody receives it after their death",
        ),
        pytest.param(
            tree("T1", "- {id: had, kind: potted, date: 1950, by: bo, source: book}",
                 "- {id: came, kind: gift, date: 1970, from: bo, to: [the-house, anna], source: book}"),
            "owners-without-joint",
            ["trees/T1-elm/tree.yml:5"],
            id="two owners at once, not said to be joint",
        ),
        pytest.param(
            tree("T1", "- {id: first, kind: gift, date: 1950, from: anna, to: bo, source: book}",
                 "- {id: second, kind: gift, date: 1970, from: anna, to: the-house, source: book}"),
            "giver-did-not-hold",
            ["trees/T1-elm/tree.yml:4", "trees/T1-elm/tree.yml:5"],
            id="given away twice by one who had it once",
        ),
        pytest.param(
            {"stewards/bo.yml": "name: Bo Lind\nkind: person\ntaught_by: [cleo]\n",
             "stewards/cleo.yml": "name: Cleo Ray\nkind: person\nactive: 1960/1980\ntaught_by:\n  - {who: bo}\n"},
            "circle-of-teaching",
            ["stewards/bo.yml:3", "stewards/cleo.yml:5"],
            id="a teacher of their own teacher",
        ),
        pytest.param(
            {"trees/T1-elm/tree.yml": "accession: T1\ntaxon: Ulmus parvifolia\nkind: planting\nmembers:\n"
             "  - {id: a, accession: T2}\n",
             "trees/T2-elm/tree.yml": "accession: T2\ntaxon: Ulmus parvifolia\nname: The grove\nkind: planting\n"
             "members:\n  - {id: b, accession: T1}\n"},
            "circle-of-plantings",
            ["trees/T1-elm/tree.yml:5", "trees/T2-elm/tree.yml:6"],
            id="two plantings that stand in each other",
        ),
    ],
)  # fmt: skip
def test_every_statement_is_named(tmp_path: Path, files: dict[str, str], rule: str, places: list[str]) -> None:
    found = [one for one in problems(tmp_path, files) if one["rule"] == rule]
    assert len(found) == 1, found
    (problem,) = found
    told = f"{problem['file']}:{problem['line']} {problem['what']}"
    assert [place for place in places if place not in told] == []
    assert problem["instead"]


def test_a_tree_from_itself(tmp_path: Path) -> None:
    found = problems(tmp_path, tree("T1", FROM.format(1950, "T1")))
    (problem,) = [one for one in found if "itself" in one["what"] or one["rule"] == "circle-of-descent"]
    assert (problem["file"], problem["line"], problem["severity"]) == ("trees/T1-elm/tree.yml", 4, "error")


def test_jointly_held_is_no_problem(tmp_path: Path) -> None:
    line = "- {id: came, kind: gift, date: 1970, from: bo, to: [the-house, anna], joint: true, source: book}"
    assert "owners-without-joint" not in {one["rule"] for one in problems(tmp_path, tree("T1", line))}
