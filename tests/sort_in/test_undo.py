"""Taking a run back: to the byte where nothing was touched since; and what was touched stays, with the reason."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from archive_tools.read import read_collection
from archive_tools.sort_in.carry_out import take_back
from archive_tools.sort_in.disk import Disk
from archive_tools.sort_in.receipt import BadReceiptError
from tests.sort_in.scenes import bytes_below, card, collection, scene, shot, taken_in

_SHEET = b"# mine\n- file: 1962_front_1.jpg\n  date: 1962"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    root = collection(tmp_path / "house", sheets={"S1979.2": _SHEET})
    shot(root / "trees/S1979.2-a-tree/photos/1962_front_1.jpg", scene(90))
    return root


@pytest.fixture
def source(tmp_path: Path) -> Path:
    source = tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(1), "2026-05-03 10:01:00")
    shot(source / "3.jpg", scene(2), "2026-05-03 10:02:00")
    shot(source / "S1986.1.jpg", scene(3), camera=("", "", ""))
    return source


def _receipt(root: Path, source: Path) -> Path:
    done = taken_in(root, source, apply=True)
    assert done.receipt is not None
    return root / done.receipt.file


def test_everything_is_as_it_was(root: Path, source: Path) -> None:
    before = bytes_below(root)
    receipt = _receipt(root, source)
    assert bytes_below(root) != before
    gone, stay = take_back(root, receipt, Disk())
    assert (len(gone.pictures), stay) == (3, {})
    assert bytes_below(root) == before


def test_two_runs_are_taken_back_in_either_order(root: Path, source: Path, tmp_path: Path) -> None:
    for turn in (1, -1):
        before = bytes_below(root)
        second = tmp_path / f"second {turn}"
        shot(second / "S1979.2.jpg", scene(40), "2026-06-01 10:00:00")
        receipts = [_receipt(root, source), _receipt(root, second)]
        for receipt in receipts[::turn]:
            assert take_back(root, receipt, Disk())[1] == {}
        left = bytes_below(root)
        if turn == -1:
            assert left == before
        else:
            # Out of their order, an empty folder and the line end between the two runs stay; no file and no word more.
            sheet = "trees/S1979.2-a-tree/photos/photos.yml"
            files = {name: of for name, of in left.items() if of != "folder" and name != sheet}
            assert files == {name: of for name, of in before.items() if of != "folder" and name != sheet}
            assert (root / sheet).read_bytes().rstrip(b"\n") == _SHEET


def test_what_was_edited_since_stays_and_is_named(root: Path, source: Path) -> None:
    receipt = _receipt(root, source)
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"
    sheet.write_bytes(sheet.read_bytes() + b"  caption: Added by hand.\n")
    picture = root / "trees/S1986.1-a-tree/photos/undated_1.jpg"
    picture.write_bytes(picture.read_bytes() + b"retouched")
    gone, stay = take_back(root, receipt, Disk())
    assert [one.file for one in gone.pictures] == ["trees/S1979.2-a-tree/photos/2026-05-03_1.jpg"]
    assert stay == {
        "trees/S1979.2-a-tree/photos/2026-05-03_2.jpg": (
            "its entry in trees/S1979.2-a-tree/photos/photos.yml has been changed since"
        ),
        "trees/S1986.1-a-tree/photos/undated_1.jpg": "the file has been changed since",
    }
    assert sheet.read_bytes() == _SHEET + (
        b"\n- file: 2026-05-03_2.jpg\n  date: 2026-05-03\n  dated_by: camera\n  caption: Added by hand.\n"
    )
    assert picture.exists()
    kept = json.loads(receipt.read_text())
    assert [one["file"] for one in kept["pictures"]] == list(stay)


def test_what_stayed_can_be_taken_back_once_it_is_as_it_was(root: Path, source: Path) -> None:
    before = bytes_below(root)
    receipt = _receipt(root, source)
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"
    whole = sheet.read_bytes()
    sheet.write_bytes(whole + b"  caption: Added by hand.\n")
    take_back(root, receipt, Disk())
    assert receipt.exists()
    sheet.write_bytes(sheet.read_bytes().removesuffix(b"  caption: Added by hand.\n"))
    assert take_back(root, receipt, Disk())[1] == {}
    assert bytes_below(root) == before


def test_a_picture_that_somebody_removed_is_named_and_its_entry_stays(root: Path, source: Path) -> None:
    receipt = _receipt(root, source)
    (root / "trees/S1979.2-a-tree/photos/2026-05-03_1.jpg").unlink()
    _, stay = take_back(root, receipt, Disk())
    assert stay == {"trees/S1979.2-a-tree/photos/2026-05-03_1.jpg": "the file is not there any more"}
    assert b"2026-05-03_1.jpg" in (root / "trees/S1979.2-a-tree/photos/photos.yml").read_bytes()


def test_entries_written_after_ours_stay_when_ours_go(root: Path, source: Path) -> None:
    receipt = _receipt(root, source)
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"
    sheet.write_bytes(sheet.read_bytes() + b"# later\n- file: 1962_front_2.jpg\n")
    assert take_back(root, receipt, Disk())[1] == {}
    assert sheet.read_bytes() == _SHEET + b"\n# later\n- file: 1962_front_2.jpg\n"


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda kept: kept["pictures"][0].update(file="../../etc/passwd"), "outside the collection"),
        (lambda kept: kept["lists"][0].update(file="/etc/passwd"), "outside the collection"),
        (lambda kept: kept.update(version=99), "no receipt of this program"),
        (lambda kept: kept.pop("lists"), "no receipt"),
    ],
)
def test_a_receipt_changed_by_hand_is_refused_and_nothing_is_touched(root: Path, source: Path, change, says) -> None:  # type: ignore[no-untyped-def]
    receipt = _receipt(root, source)
    kept = json.loads(receipt.read_text())
    change(kept)
    receipt.write_text(json.dumps(kept))
    before = bytes_below(root)
    with pytest.raises(BadReceiptError, match=says):
        take_back(root, receipt, Disk())
    assert bytes_below(root) == before


def test_the_readers_find_the_pictures_and_mind_neither_receipt_nor_note(root: Path, source: Path) -> None:
    _, before = read_collection(root)
    receipt = _receipt(root, source)
    found, problems = read_collection(root)
    assert found is not None
    new = [problem for problem in problems if problem not in before]
    assert [problem.rule for problem in new] == ["no-date"]
    assert [photo.file for photo in found.trees["S1979.2"].photos] == [
        "1962_front_1.jpg",
        "2026-05-03_1.jpg",
        "2026-05-03_2.jpg",
    ]
    assert found.trees["S1979.2"].photos[1].dated_by == "camera"
    assert receipt.parent == root / "documents/receipts"
    assert str(source.parent) not in receipt.read_text()
