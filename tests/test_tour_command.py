"""`archive-tools tour` on the demonstration: what it says, what it writes, what it refuses."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from archive_tools.cli import cli
from archive_tools.read.timed_text import read_timed_text
from tests.conftest import missing

# The whole demonstration is read for each question.
pytestmark = pytest.mark.slow

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_collection"
TOURS = ("gold-red-and-fruit", "mother-and-daughter", "what-is-carried-first")
PRIVATE = [line for line in (ROOT / "tests" / "demo_private_strings.txt").read_text("utf-8").splitlines() if line]


def asked(*arguments: str) -> Result:
    return CliRunner().invoke(cli, ["tour", *arguments, "--collection", str(DEMO)])


def told(*arguments: str) -> dict[str, Any]:
    run = asked(*arguments, "--json")
    assert run.exit_code == 0, run.output
    found: dict[str, Any] = json.loads(run.stdout)
    return found


@pytest.mark.parametrize("name", TOURS)
def test_a_plan_in_the_machine_form_adds_up(name: str) -> None:
    plan = told(name)
    now = 0
    for stop in plan["stops"]:
        now += stop["walk"] + stop["wait"]
        assert stop["arrive"] == now
        now = stop["leave"]
    assert plan["seconds"] == now + plan["last_walk"] <= 60 * plan["minutes"]
    assert plan["interest"] <= plan["best_possible"]
    assert plan["proved_best"] == (plan["interest"] == plan["best_possible"])


def test_fewer_minutes_leave_trees_out_and_say_so() -> None:
    whole, short = told("mother-and-daughter"), told("mother-and-daughter", "--minutes", "22")
    assert short["seconds"] <= 22 * 60 and len(short["stops"]) < len(whole["stops"])
    assert {one["id"] for one in short["left_out"]} >= {stop["id"] for stop in whole["stops"]} - {
        stop["id"] for stop in short["stops"]
    }
    assert {"S2001.5", "S1998.4", "S1979.2", "S2015.9"} <= {stop["id"] for stop in short["stops"]}
    assert "Left out:" in asked("mother-and-daughter", "--minutes", "22").stdout


def test_a_walk_that_cannot_be_made_is_refused_with_its_file() -> None:
    run = asked("mother-and-daughter", "--minutes", "5")
    assert run.exit_code == 1
    assert "tours/mother-and-daughter.yml" in run.output and "cannot be walked" in run.output


def test_the_run_sheet_has_a_line_for_every_minute() -> None:
    lines = asked("mother-and-daughter", "--run-sheet").stdout.splitlines()
    minutes = -(-told("mother-and-daughter")["seconds"] // 60)
    assert len(lines) == minutes + 1
    assert lines[0].split()[0] == "14:00" and lines[-1].endswith("over")


def test_a_misspelt_name_is_told_with_the_nearest() -> None:
    run = asked("mother-and-doughter")
    assert run.exit_code == 2 and "did you mean mother-and-daughter?" in run.output


def test_a_plan_that_lies_elsewhere_is_not_taken_for_one_of_the_collection(tmp_path: Path) -> None:
    elsewhere = tmp_path / "mother-and-daughter.yml"
    elsewhere.write_text("title: Another walk\n", "utf-8")
    run = asked(str(elsewhere))
    assert run.exit_code == 2 and "does not lie in" in run.output
    assert asked(str(DEMO / "tours" / "mother-and-daughter.yml")).exit_code == 0


def test_a_language_that_the_house_does_not_write_in_is_told() -> None:
    run = asked("mother-and-daughter", "--language", "de")
    assert run.exit_code == 2 and "its languages are en, ja" in run.output


def test_a_recording_is_timed_by_what_was_said(tmp_path: Path) -> None:
    transcript = tmp_path / "walk.srt"
    transcript.write_text(
        "1\n00:00:05,0 --> 00:00:09,0\nGood afternoon. We shall see six trees.\n\n"
        "2\n00:01:50,000 --> 00:01:55,000\nThis is the Gale Thorn, backs to the sea wall please\n"
        "3\n00:06:10.000 --> 00:06:15.000\nThe Harbour Pine came by ship\n\n"
        "4\n00:14:00,00 --> 00:14:20,00\nNumber S nineteen seventy-nine two, into a fish box in April\n",
        "utf-8",
    )
    run = asked("mother-and-daughter", "--timed", str(transcript), "--json")
    assert run.exit_code == 0, run.output
    plan = json.loads(run.stdout)
    at = {plan["stops"][one["stop"] - 1]["id"]: one["at"] for one in plan["heard"]}
    assert (at["S2001.5"], at["S1998.4"], at["S1979.2"]) == (110_000, 370_000, 840_000)
    assert at["S2015.9"] is None  # nobody spoke of it
    assert "neither its name nor its words were heard" in run.stderr


@pytest.mark.parametrize(("name", "language"), [*((name, "en") for name in TOURS), ("mother-and-daughter", "ja")])
def test_what_is_carried_along(name: str, language: str, tmp_path: Path) -> None:
    """Cards, run sheet, captions: read by other programs, and nothing private in what visitors may see."""
    plan = told(name, "--language", language, "--out", str(tmp_path))
    files = [Path(path) for path in plan["files"]]
    assert {path.suffix for path in files} == {".pdf", ".vtt", ".html"} and len(files) == 5
    words = []
    for path in files:
        if path.suffix != ".pdf":
            words.append(path.read_text("utf-8"))
        elif not shutil.which("pdftotext"):
            missing("pdftotext (Debian: poppler-utils)")
        else:
            words.append(
                subprocess.run(["pdftotext", str(path), "-"], check=True, capture_output=True, text=True).stdout
            )
            info = subprocess.run(["pdfinfo", str(path)], check=True, capture_output=True, text=True).stdout
            assert re.search(r"Tagged:\s+yes", info)
            fonts = subprocess.run(["pdffonts", str(path)], check=True, capture_output=True, text=True).stdout
            assert all(re.search(r"\byes yes yes\b", row) for row in fonts.splitlines()[2:])
            if path.name.endswith("cue-cards.pdf"):
                assert re.search(rf"Pages:\s+{len(plan['stops'])}\b", info)
                assert re.search(r"Page size:\s+297\.6\d* x 419\.5\d* pts", info)  # A6, ISO 216: 105 x 148 mm
    for path in files:
        if path.suffix == ".vtt":
            said, problems = read_timed_text(path.read_bytes(), path.name)
            assert said and problems == ()
    if name != "what-is-carried-first":  # that one is for staff
        whole = "\n".join(words).casefold()
        assert [private for private in PRIVATE if private.casefold() in whole] == []
