"""Whoever asked for silence stands in a lineage by the public name alone, in the machine form and in words."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from archive_tools.cli import cli
from tests.read.folder_of import made

PUBLIC = (
    "defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public, "
    "objects: public}\n"
)
HOUSE = f"name: The House\ncustodian: the-house\nhemisphere: north\n{PUBLIC}"
TREE = """\
accession: T1
taxon: Ulmus parvifolia
events:
  - {id: sown, kind: sown, date: 1950, by: ottoline-vance, source: book}
  - {id: passed, kind: gift, date: 1960, from: ottoline-vance, to: perrin-dace, source: book}
  - {id: lent, kind: loan, date: 1965, until: 1966, from: perrin-dace, to: ilka-thorn, source: book}
  - {id: styled, kind: styled, date: 1967, by: ilka-thorn, with: [perrin-dace, ottoline-vance], source: book}
  - {id: given, kind: gift, date: 1970-05-01, from: perrin-dace, to: the-house, source: book}
"""
FILES = {
    "stewards/the-house.yml": "name: The House\nkind: institution\n",
    "stewards/ottoline-vance.yml": (
        "name: Ottoline Vance\nkind: person\ndied: 1980\npublic_name: a private donor\nmembers: []\n"
    ),
    "stewards/perrin-dace.yml": (
        "name: Perrin Dace\nkind: person\nborn: 1920\nvisibility: restricted\npublic_name: a private donor\n"
        "taught_by: [ottoline-vance]\n"
    ),
    "stewards/ilka-thorn.yml": "name: Ilka Thorn\nkind: person\ntaught_by: [{who: perrin-dace, from: 1960}]\n",
    "sources/book.yml": "title: Bench book\nkind: diary\n",
    "trees/T1-elm/tree.yml": TREE,
}
SECRET = ("vance", "dace", "ottoline", "perrin", "1920", "withheld-")


@pytest.fixture
def house(tmp_path: Path) -> Path:
    return made(tmp_path, FILES, HOUSE)


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli, [str(argument) for argument in arguments])


def test_the_public_machine_form_knows_no_id_of_an_anonymous_donor(house: Path) -> None:
    result = run("lineage", "T1", "--collection", house, "--edition", "public", "--json")
    told = json.loads(result.stdout)
    assert [(h["steward"], h["name"], h["role"]) for h in told["holders"]] == [
        (None, "a private donor", "owner"),
        (None, "a private donor", "owner"),
        ("ilka-thorn", "Ilka Thorn", "holder"),
        ("the-house", "The House", "owner"),
    ]
    assert [(h["steward"], h["name"]) for h in told["hands"] if h["role"] == "present"] == [
        (None, "a private donor")
    ] * 2
    assert told["text"] == (
        "A private donor, who sowed it in 1950; given in 1960 to a private donor, "
        "lent to Ilka Thorn from 1965 to 1966; "
        "given in 1970 to The House."
    )
    assert [word for word in SECRET if word in result.stdout.casefold()] == []


def test_nor_do_the_words_on_the_terminal(house: Path) -> None:
    for arguments in (("lineage", "T1"), ("steward", "ilka-thorn"), ("show", "T1")):
        result = run(*arguments, "--collection", house, "--edition", "public")
        assert result.exit_code == 0
        assert [word for word in SECRET[:-1] if word in result.stdout.casefold()] == []


def test_an_anonymous_donor_cannot_be_asked_for(house: Path) -> None:
    for name in ("ottoline-vance", "perrin-dace", "withheld-1", "withheld-2"):
        result = run("steward", name, "--collection", house, "--edition", "public")
        assert result.exit_code == 2
        assert "a private donor" not in result.output
        assert not [word for word in ("Ottoline", "Perrin") if word in result.output]


def test_a_pupil_of_somebody_anonymous_has_no_teacher_in_public(house: Path) -> None:
    told = json.loads(run("steward", "ilka-thorn", "--collection", house, "--edition", "public", "--json").stdout)
    assert (told["teachers"], told["line_of_teachers"]) == ([], [])
    inside = json.loads(run("steward", "ilka-thorn", "--collection", house, "--json").stdout)
    # Restricted stewards are in neither edition; one with a public name is named inside.
    assert inside["teachers"] == []


def test_inside_the_house_one_with_a_public_name_is_named(house: Path) -> None:
    told = json.loads(run("lineage", "T1", "--collection", house, "--json").stdout)
    assert [h["steward"] for h in told["holders"]] == ["ottoline-vance", None, "ilka-thorn", "the-house"]


def test_the_death_of_somebody_anonymous_does_not_show_in_the_line(tmp_path: Path) -> None:
    """The last who is known died in 1980: told inside the house, and not where the death could be looked up."""
    tree = (
        TREE[: TREE.index("  - {id: passed")] + "  - {id: here, kind: found in collection, date: 1990, to: the-house}\n"
    )
    folder = made(tmp_path, {**FILES, "trees/T1-elm/tree.yml": tree}, HOUSE)
    inside = json.loads(run("lineage", "T1", "--collection", folder, "--json").stdout)
    assert inside["gaps"][0]["from"]["latest"] == "1980-12-31"
    public = json.loads(run("lineage", "T1", "--collection", folder, "--edition", "public", "--json").stdout)
    assert public["gaps"][0]["from"]["latest"] == "1950-12-31"
    assert "1980" not in json.dumps(public)
