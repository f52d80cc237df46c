"""A walk of 32 minutes with 24 stops, reckoned by hand and then by the program, to the second.

Four courts in a round, six trees in each. At 0.8 m/s (walking pace of a group: common practice, no source):

    gate - tide 32 m, 40 s    tide - lantern 24 m, 30 s    lantern - wall 40 m, 50 s (over steps; without, 64 m, 80 s)
    wall - pond 28 m, 35 s    pond - gate 20 m, 25 s       the whole round: 180 s

At a stop: 10 s to gather, the words at 130 a minute, 20 s to look (common practice, no source). Words: 65 in the Tide
Court, 30 s of speech, 60 s in all; 91 in the Lantern Court, 42 s, 72 s; 104 in the other two, 48 s, 78 s.

    six stops each: 360 + 432 + 468 + 468 = 1728 s; with the round 1908 s, 31:48 of 32:00.
"""

from __future__ import annotations

import json
import shutil
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from archive_tools.commands.tour import tour
from archive_tools.model.grades import Edition
from archive_tools.pipeline import view
from archive_tools.walks import with_tours
from tests.read.folder_of import made

COURTS = {"tide": 65, "lantern": 91, "wall": 104, "pond": 104}
FREE_OF_STEPS = (("gate", "tide", 32), ("tide", "lantern", 24), ("wall", "pond", 28), ("pond", "gate", 20))
STEPS = "  - {between: [lantern, wall], metres: 40}\n  - {between: [lantern, wall], metres: 64, step_free: true}\n"


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    files: dict[str, str | bytes] = {
        "collection.yml": "name: The Slope\ncustodian: house\nhemisphere: north\n"
        "defaults: {trees: public, events: public, places: public, stewards: public, tours: public}\n",
        "stewards/house.yml": "name: The House\nkind: institution\n",
        "places.yml": "places:\n"
        + "".join(f"  {name}: {{name: {name.title()}, open_to: public}}\n" for name in ("gate", *COURTS))
        + "paths:\n"
        + "".join(
            f"  - {{between: [{a}, {b}], metres: {metres}, step_free: true}}\n"
            for a, b, metres in FREE_OF_STEPS
        )
        + STEPS,
        "tours/round.yml": "title: The whole round\ndate: 2027-05-08\nstart_time: '14:00'\nminutes: 32\n"
        "start: gate\nend: gate\nstops:\n" + "".join(f"  - tree: T{n}\n" for n in range(1, 25)),
    }  # fmt: skip
    for number in range(1, 25):
        court, words = list(COURTS.items())[(number - 1) // 6]
        files[f"trees/T{number}-x/tree.yml"] = (
            f"accession: T{number}\nname: Tree {number}\ntaxon: Acer palmatum\n"
            f"talking_points: {' '.join(['word'] * words)}\n"
            "events:\n  - {kind: gift, date: 1990-05-01, from: someone, to: house}\n"
            f"  - {{kind: on display, date: 2020-03-01, at: {court}}}\n"
        )
    return made(tmp_path_factory.mktemp("garden"), files, None)


def asked(garden: Path, *switches: str) -> Any:
    run = CliRunner().invoke(tour, ["round", "--collection", str(garden), "--json", *switches])
    assert run.exit_code == 0, run.output
    return json.loads(run.stdout)


def lines(garden: Path, *switches: str) -> list[str]:
    run = CliRunner().invoke(tour, ["round", "--collection", str(garden), *switches])
    assert run.exit_code == 0, run.output
    return run.stdout.splitlines()


def test_every_arrival_is_what_was_reckoned_by_hand(garden: Path) -> None:
    said = asked(garden)
    arrivals = [stop["arrive"] for stop in said["stops"]]
    assert arrivals[:6] == [40, 100, 160, 220, 280, 340]
    assert arrivals[6:12] == [430, 502, 574, 646, 718, 790]
    assert arrivals[12:18] == [912, 990, 1068, 1146, 1224, 1302]
    assert arrivals[18:] == [1415, 1493, 1571, 1649, 1727, 1805]
    assert [stop["speech"] for stop in said["stops"]] == [30] * 6 + [42] * 6 + [48] * 12
    assert (said["last_walk"], said["seconds"], said["proved_best"]) == (25, 1908, True)
    assert said["left_out"] == said["with_five_minutes_more"] == []


def test_what_lies_between_adds_up_to_the_second(garden: Path) -> None:
    said = asked(garden)
    parts = sum(stop["walk"] + stop["wait"] + stop["leave"] - stop["arrive"] for stop in said["stops"])
    assert parts + said["last_walk"] == said["seconds"] == 31 * 60 + 48


def test_the_run_sheet_says_where_to_be_at_each_minute(garden: Path) -> None:
    minutes = [line.split(maxsplit=1) for line in lines(garden, "--run-sheet")]
    assert [at for at, _ in minutes] == [f"14:{minute:02d}" for minute in range(32)] + ["14:31:48"]
    where = [said for _, said in minutes]
    # Minute 1 (60 s) is at the first tree, 40 to 100 s; minute 7 (420 s) between the courts, 400 to 430 s; minute 15
    # (900 s) on the way to the wall, 862 to 912 s; minute 23 (1380 s) sets off for the pond; minute 31 (1860 s) is at
    # the last, 1805 to 1883 s.
    assert "Tree 1" in where[0] and where[0] != where[1]
    assert where[1] == "1 Tree 1"
    assert "Tree 7" in where[7] and not where[7].startswith("7")
    assert "Tree 13" in where[15] and not where[15].startswith("13")
    assert "Tree 19" in where[23] and not where[23].startswith("19")
    assert where[31] == "24 Tree 24"


def test_the_plan_for_people_has_every_time_of_the_clock(garden: Path) -> None:
    told = "\n".join(lines(garden))
    for at in ("14:00", "14:00:40", "14:07:10", "14:15:12", "14:23:35", "14:30:05", "14:31:48"):
        assert at in told


def test_without_steps_one_stop_has_to_go(garden: Path) -> None:
    """30 s more on foot make 1938 s: one stop too many for 1920 s, and any one of them is enough."""
    said = asked(garden, "--step-free")
    assert len(said["stops"]) == 23 and said["proved_best"]
    assert [one["why"] for one in said["left_out"]] == ["no time"]
    assert [one["id"] for one in said["with_five_minutes_more"]] == [said["left_out"][0]["id"]]


def test_what_twenty_five_minutes_hold_and_five_more_would_add(garden: Path) -> None:
    """1500 s less the round leave 1320 s: twelve short stops (792 s) and six of 78 s (468 s) fit, a seventh does not.

    In thirty minutes 1620 s: the twelve, and ten of 78 s (780 s).
    """
    said = asked(garden, "--minutes", "25")
    assert len(said["stops"]) == 18 and said["proved_best"]
    assert len(said["left_out"]) == 6
    assert len(asked(garden, "--minutes", "30")["stops"]) == 22
    assert len(said["with_five_minutes_more"]) >= 4


def test_the_machine_form_keeps_its_keys(garden: Path) -> None:
    said = asked(garden)
    assert set(said) == {
        "tour", "title", "minutes", "seconds", "step_free", "start", "end", "stops", "last_walk", "left_out",
        "with_five_minutes_more", "interest", "best_possible", "proved_best", "as_of", "language", "drafts", "heard",
        "files",
    }  # fmt: skip
    assert set(said["stops"][0]) == {
        "kind", "id", "name", "place", "at", "walk", "wait", "arrive", "leave", "speech",
    }  # fmt: skip


def test_a_walk_for_staff_is_no_page_of_the_public_edition(garden: Path, tmp_path: Path) -> None:
    """Even where its plan says visibility: public."""
    copy = tmp_path / "garden"
    shutil.copytree(garden, copy)
    plan = copy / "tours" / "round.yml"
    for audience, shown in (("public", {"round"}), ("staff", set())):
        plan.write_text((garden / "tours" / "round.yml").read_text("utf-8") + f"audience: {audience}\n", "utf-8")
        seen = view(copy, edition=Edition.PUBLIC, as_of=date(2026, 11, 25), today=date(2026, 11, 25))
        assert set(seen.records.tours) == {"round"}
        assert set(with_tours(seen, date(2026, 11, 25))[0].findings.tours) == shown
