"""The command as it is typed: the plan first, then the doing, the receipt, and the way back."""

from __future__ import annotations

import errno
import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from archive_tools.cli import cli
from archive_tools.sort_in.disk import Disk
from tests.sort_in.scenes import bytes_below, card, collection, scene, shot


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return collection(tmp_path / "house")


@pytest.fixture
def source(tmp_path: Path) -> Path:
    source = tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(1), "2026-05-03 10:01:00")
    shot(source / "3.jpg", scene(2), camera=("", "", ""))
    return source


def _run(root: Path, *words: object) -> Result:
    return CliRunner().invoke(
        cli, ["sort-in", *map(str, words), "--collection", str(root), "--today", "2026-11-25"], catch_exceptions=False
    )


def test_the_plan_says_what_goes_where_and_why_and_writes_nothing(root: Path, source: Path) -> None:
    before = bytes_below(root), bytes_below(source)
    run = _run(root, source)
    assert run.exit_code == 0
    assert run.stdout.splitlines()[:-3] == [
        "S1979.2: 1 picture to trees/S1979.2-a-tree/photos/",
        "  follows the card of S1979.2 (1.jpg); dated by the camera",
        "    2.jpg → 2026-05-03_1.jpg",
        "Doubtful, and left where they are; a table given with --mapping decides. Its",
        "  first row is file,accession and the next may be 3.jpg,ACCESSION",
        "  nothing says which tree it shows: no code before it, no number in its path, no",
        "    mapping",
        "  its camera wrote no time of day, so the codes of this folder say nothing of it",
        "    3.jpg",
        "Cards and labels, which are not filed:",
        "  begins the pictures of S1979.2",
        "    1.jpg",
    ]
    assert run.stdout.splitlines()[-3:] == [
        "1 picture of 1 tree (0.0 MB) would be taken in.",
        "Not taken in: 1 doubtful and 1 card or label.",
        "Nothing is written yet: repeat with --apply.",
    ]
    assert (bytes_below(root), bytes_below(source)) == before


def test_apply_does_it_and_undo_takes_it_back(root: Path, source: Path) -> None:
    before = bytes_below(root)
    run = _run(root, source, "--apply")
    assert run.exit_code == 0
    receipt = run.stderr.strip().rpartition(": ")[2]
    assert Path(receipt).is_file()
    assert (root / "trees/S1979.2-a-tree/photos/2026-05-03_1.jpg").is_file()
    back = _run(root, "--undo", receipt)
    assert (back.exit_code, back.stderr) == (0, "1 of 1 pictures were taken back.\n")
    assert bytes_below(root) == before


def test_json_is_alone_on_standard_output(root: Path, source: Path) -> None:
    told = json.loads(_run(root, source, "--json").stdout)
    assert (told["applied"], told["receipt"]) == (False, None)
    assert told["counts"]["filed"] == 1
    (filed,) = [one for one in told["pictures"] if one["state"] == "filed"]
    assert filed["goes_to"] == "trees/S1979.2-a-tree/photos/2026-05-03_1.jpg"
    assert filed["entry"] == {"file": "2026-05-03_1.jpg", "date": "2026-05-03", "dated_by": "camera"}
    done = json.loads(_run(root, source, "--json", "--apply").stdout)
    assert done["applied"] is True
    back = json.loads(_run(root, "--undo", root / done["receipt"], "--json").stdout)
    assert (back["taken_back"], back["left"]) == (1, [])


def test_a_faulty_table_is_answered_like_any_record_and_leaves_with_1(root: Path, source: Path, tmp_path: Path) -> None:
    table = tmp_path / "map.csv"
    table.write_text("file,accession\n3.jpg,S1979.3\n")
    run = _run(root, source, "--apply", "--mapping", table)
    assert run.exit_code == 1
    assert "map.csv:2:7: error: no tree of the collection bears the accession `S1979.3`\n    → S1979.2" in run.stderr
    assert not (root / "documents").exists()


def test_a_photos_yml_that_cannot_be_added_to_is_told_with_its_place(root: Path, source: Path) -> None:
    photos = root / "trees/S1979.2-a-tree/photos"
    photos.mkdir()
    (photos / "photos.yml").write_text("file: a.jpg\n")
    run = _run(root, source, "--apply")
    assert run.exit_code == 1
    assert "trees/S1979.2-a-tree/photos/photos.yml:1:1: error: one entry stands here alone" in run.stderr
    assert (photos / "photos.yml").read_text() == "file: a.jpg\n"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([], "name one thing"),
        (["--card", "S1979.3"], "did you mean S1979.2?"),
        (["--undo", "collection.yml"], "no receipt"),
        (["trees"], "lies inside the collection"),
        (["nowhere"], "there is no folder"),
        (["collection.yml"], "is a file; name the folder in which it lies"),
    ],
)
def test_wrong_use_leaves_with_2_and_says_what_is_wrong(root: Path, words: list[str], says: str) -> None:
    run = _run(root, *(word if word.startswith("-") or word.startswith("S") else root / word for word in words))
    assert run.exit_code == 2
    assert says in run.stderr


def test_a_session_of_an_unknown_tree_is_wrong_use(root: Path, source: Path) -> None:
    run = _run(root, source, "--session", "S1999.9")
    assert run.exit_code == 2
    assert "no tree S1999.9" in run.stderr


def test_a_card_to_print(root: Path) -> None:
    run = _run(root, "--card", "S1979.2")
    assert run.exit_code == 0
    assert run.stdout.startswith("<svg ")
    assert "archive card S1979.2 " in run.stdout
    assert "archive card end" in _run(root, "--card", "end").stdout
    assert "S1979.2 + S1986.1" in _run(root, "--card", "S1979.2", "--card", "S1986.1").stdout


def test_quiet_says_how_many_alone(root: Path, source: Path) -> None:
    assert _run(root, source, "--quiet").stdout.count("\n") == 3
    _run(root, source, "--quiet", "--apply")
    again = _run(root, source, "--quiet", "--apply").stdout.splitlines()
    assert again[0] == "There is nothing to take in."
    assert again[1] == "Not taken in: 1 doubtful, 1 there already and 1 card or label."


def test_a_long_plan_tells_each_reason_once_and_fits_a_terminal(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    for number in range(12):
        shot(source / "S1979.2 in spring" / f"IMG_{number:04}.JPG", scene(number), f"2026-05-03 10:{number:02}:00")
        shot(source / f"nobody's {number}.jpg", scene(100 + number), camera=("", "", ""))
    lines = _run(root, source).stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert sum("holds S1979.2" in one for one in lines) == 1
    assert sum("nothing says which tree" in one for one in lines) == 1
    assert len(lines) < 24 + 12


def test_a_plan_that_will_not_be_carried_out_says_so(root: Path, source: Path, tmp_path: Path) -> None:
    table = tmp_path / "map.csv"
    table.write_text("file,accession,veiw\n3.jpg,S1979.3,front\n9.jpg,S1979.2,front\n")
    run = _run(root, source, "--apply", "--mapping", table)
    assert run.exit_code == 1
    # Faults of the rows are told together with those of the first row.
    assert [f"map.csv:{spot}: error" in run.stderr for spot in ("1:16", "2:7", "3:1")] == [True, True, True]
    assert "None" not in run.stdout
    assert "--apply" not in run.stdout
    assert "Nothing is taken in: what is said of the files above is to be mended first." in run.stdout


def test_what_looks_nearly_like_another_is_told_beside_it_and_counted(root: Path, tmp_path: Path) -> None:
    shot(tmp_path / "box" / "S1979.2 a.jpg", scene(1, (1200, 900)), "2026-05-03 10:00:00")
    shot(tmp_path / "box" / "S1979.2 sent.jpg", scene(1, (1200, 900)).resize((400, 300)), camera=("", "", ""))
    lines = _run(root, tmp_path / "box").stdout.splitlines()
    assert lines[lines.index("    S1979.2 sent.jpg → undated_1.jpg") + 1] == "      looks nearly like S1979.2 a.jpg"
    assert "1 of them looks nearly like another, as said above." in lines


def test_what_was_changed_by_hand_stays_when_a_run_is_taken_back_and_it_is_said_what_is_left_to_do(
    root: Path, source: Path
) -> None:
    receipt = json.loads(_run(root, source, "--apply", "--json").stdout)["receipt"]
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"
    sheet.write_text(sheet.read_text().replace("dated_by: camera", "dated_by: estimate"))
    back = _run(root, "--undo", root / receipt)
    assert back.exit_code == 1
    assert "2026-05-03_1.jpg stays: its entry in" in back.stderr
    assert "left to be taken away by hand: the file, and its entry in photos.yml" in back.stderr


def test_a_disk_without_room_is_told_before_anything_is_written(
    root: Path, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = bytes_below(root)
    monkeypatch.setattr(shutil, "disk_usage", lambda _: shutil._ntuple_diskusage(10, 9, 1))
    run = _run(root, source, "--apply")
    assert run.exit_code == 3
    assert "has no room for these pictures: 0.0 MB are wanted" in run.stderr
    assert bytes_below(root) == before


def test_a_disk_that_refuses_is_answered_in_plain_words(
    root: Path, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> str:
        raise OSError(errno.ENOSPC, "No space left on device", "somewhere")

    monkeypatch.setattr(Disk, "copy", full)
    run = _run(root, source, "--apply")
    assert run.exit_code == 3
    assert "No space left on device (somewhere). The collection is as it was before." in run.stderr
    assert not (root / "documents").exists()
