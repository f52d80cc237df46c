"""The register of printed labels, and which of them are no longer true."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from archive_tools.cli import cli
from archive_tools.read.label_register import read_register
from tests.publish.print.house import ELM, PINE, TEXT, house, labels

REGISTER = "labels/printed.yml"


@pytest.fixture
def printed(tmp_path: Path) -> Path:
    """A house whose two labels were printed and recorded."""
    folder = house(tmp_path / "c")
    result = labels(folder, "--record", "--out", tmp_path / "labels.pdf", "--quiet")
    assert result.exit_code == 0, result.output
    return folder


def change(folder: Path, accession: str, old: str, new: str) -> None:
    (path,) = folder.glob(f"trees/{accession}-*/tree.yml")
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def stale(folder: Path, as_of: str = "2026-11-25") -> list[dict[str, Any]]:
    result = labels(folder, "--stale", "--json", as_of=as_of)
    said = json.loads(result.stdout)
    assert result.exit_code == (1 if said["stale"] else 0)
    assert said["problems"] == []
    return list(said["stale"])


def test_what_was_just_printed_is_true(printed: Path) -> None:
    assert len(read_register(printed)[0]) == 2
    assert stale(printed) == []


def test_a_changed_record_is_told_with_what_it_was_and_is(printed: Path) -> None:
    change(printed, "T1", "name: The Old Elm", "name: The Leaning Elm")
    (one,) = stale(printed)
    assert one["accession"] == "T1"
    assert one["changes"] == [{"what": "name", "was": "The Old Elm", "now": "The Leaning Elm"}]


def test_new_evidence_makes_an_age_stale(printed: Path) -> None:
    change(printed, "T1", "date: 1953", "date: 1951")
    (one,) = stale(printed)
    assert {"what": "since", "was": "In training since 1953", "now": "In training since 1951"} in one["changes"]


def test_a_label_whose_tree_has_died_is_to_be_taken_away(printed: Path) -> None:
    change(printed, "T2", "events:", "events:\n  - {id: died, kind: died, date: 2026-10-01}")
    (one,) = stale(printed)
    assert one["changes"] == [{"what": "tree", "was": "Low Water", "now": "died"}]


def test_a_label_of_a_tree_that_is_shown_no_more_is_told(printed: Path) -> None:
    change(printed, "T2", "name: Low Water", "name: Low Water\nvisibility: internal")
    (one,) = stale(printed)
    assert one["changes"][0]["now"] == "not shown"


def test_a_moved_tree_leaves_its_label_behind(tmp_path: Path) -> None:
    place = "places:\n  tide: {name: Tide Court, at: [0, 0], open_to: public, visibility: public}\n" \
            "  wall: {name: Wall Court, at: [9, 0], open_to: public, visibility: public}\n"  # fmt: skip
    moved = "events:\n  - {id: set, kind: moved, date: 2020, at: tide}"
    folder = house(tmp_path / "c", T2=PINE.replace("events:", moved))
    (folder / "places.yml").write_text(place, "utf-8")
    assert labels(folder, "--record", "--out", tmp_path / "a.pdf").exit_code == 0
    assert stale(folder) == []
    change(folder, "T2", "events:", "events:\n  - {id: again, kind: moved, date: 2026-11-01, at: wall}")
    (one,) = stale(folder)
    assert one["changes"] == [{"what": "place", "was": "Tide Court", "now": "Wall Court"}]


def test_an_age_that_was_right_grows_wrong_with_the_years(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", T1=ELM.replace(TEXT, "This elm has been in training for 73 years."))
    assert labels(folder, "--record", "--out", tmp_path / "a.pdf").exit_code == 0
    assert stale(folder) == []
    (one,) = stale(folder, as_of="2029-01-01")
    assert one["accession"] == "T1"
    assert one["changes"][0]["what"] == "text"
    assert "73 years" in one["changes"][0]["was"]


def test_an_age_filled_in_by_the_program_is_stale_a_year_later(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", T1=ELM.replace(TEXT, "In training for {{ years.care }}."))
    assert labels(folder, "--record", "--out", tmp_path / "a.pdf").exit_code == 0
    assert stale(folder) == []
    assert [one["accession"] for one in stale(folder, as_of="2027-11-25")] == ["T1"]


def test_printing_again_settles_it(printed: Path, tmp_path: Path) -> None:
    change(printed, "T1", "name: The Old Elm", "name: The Leaning Elm")
    assert len(stale(printed)) == 1
    assert labels(printed, "--record", "--out", tmp_path / "again.pdf").exit_code == 0
    assert stale(printed) == []


def test_the_register_keeps_its_comments_and_order(printed: Path, tmp_path: Path) -> None:
    path = printed / REGISTER
    mine = path.read_text("utf-8").replace('- tree: "T2"', "# on the bench by the gate\n- tree: T2  # the pine")
    path.write_text(mine, "utf-8")
    assert labels(printed, "--record", "--out", tmp_path / "again.pdf", "T2").exit_code == 0
    after = path.read_text("utf-8")
    assert after.startswith(mine)
    assert [one.accession for one in read_register(printed)[0]] == ["T1", "T2", "T2"]


def test_nothing_is_recorded_when_nothing_was_printed(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", T1=ELM.replace(TEXT, "Stone. " * 300))
    assert labels(folder, "--record", "--out", tmp_path / "a.pdf").exit_code == 1
    assert not (folder / REGISTER).exists()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("- tree: T1\n  printd: 2026-11-25\n", "printd"),
        ("- tree: T1\n  printed: lately\n  says: {name: A}\n", "days"),
        ("- tree: T1\n  printed: 2026-11-25\n", "says"),
        ("tree: T1\n", "list"),
        ("- [\n", ""),
    ],
)
def test_a_register_that_cannot_be_read_is_told_and_never_written_to(printed: Path, text: str, says: str) -> None:
    path = printed / REGISTER
    path.write_text(text, "utf-8")
    result = labels(printed, "--stale")
    assert result.exit_code == 1
    assert f"{REGISTER}:1" in result.stderr
    assert says in result.stderr
    assert labels(printed, "--record", "--out", printed.parent / "a.pdf").exit_code == 1
    assert path.read_text("utf-8") == text


def test_check_does_not_mind_the_register(printed: Path) -> None:
    result = CliRunner().invoke(cli, ["check", str(printed), "--json", "--as-of", "2026-11-25"])
    assert not [one for one in json.loads(result.stdout)["problems"] if one["file"].startswith("labels/")]
