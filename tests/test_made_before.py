"""What was made is recalled only while nothing that it depends on has changed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from archive_tools.made_before import key_of, recall, remember


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    home = tmp_path / "collection"
    (home / "trees").mkdir(parents=True)
    (home / "trees" / "tree.yml").write_text("visibility: public\n")
    (home / "trees" / "a.jpg").write_bytes(b"pixels")
    return home


def test_the_same_files_give_the_same_key(folder: Path) -> None:
    assert key_of([folder], "public", "2026-11-25") == key_of([folder], "public", "2026-11-25")


def test_the_edition_and_the_day_count(folder: Path) -> None:
    assert len({key_of([folder], *details) for details in (("public", "1"), ("internal", "1"), ("public", "2"))}) == 3


def test_a_record_changed_without_changing_its_size_or_date_is_noticed(folder: Path) -> None:
    before = key_of([folder])
    record = folder / "trees" / "tree.yml"
    status = record.stat()
    record.write_text("visibility: hidden\n")
    os.utime(record, ns=(status.st_atime_ns, status.st_mtime_ns))
    assert record.stat().st_size == status.st_size
    assert key_of([folder]) != before


def test_a_photograph_put_back_with_its_old_date_is_noticed(folder: Path) -> None:
    before = key_of([folder])
    picture = folder / "trees" / "a.jpg"
    status = picture.stat()
    picture.write_bytes(b"pixelz")
    os.utime(picture, ns=(status.st_atime_ns, status.st_mtime_ns))
    assert key_of([folder]) != before


@pytest.mark.parametrize("change", ["add", "remove", "rename"])
def test_files_that_come_go_or_change_name_are_noticed(folder: Path, change: str) -> None:
    before = key_of([folder])
    picture = folder / "trees" / "a.jpg"
    if change == "add":
        (folder / "new.md").write_text("")
    elif change == "remove":
        picture.unlink()
    else:
        picture.rename(folder / "trees" / "b.jpg")
    assert key_of([folder]) != before


def test_hidden_files_do_not_count(folder: Path) -> None:
    before = key_of([folder])
    (folder / ".editor-swap").write_text("x")
    assert key_of([folder]) == before


def test_what_is_remembered_comes_back_and_the_oldest_goes(tmp_path: Path) -> None:
    for number in range(12):
        remember(tmp_path, f"key{number}", {"number": number})
        os.utime(tmp_path / "made" / f"key{number}", (number, number))
    assert recall(tmp_path, "key11") == {"number": 11}
    assert recall(tmp_path, "key0") is None


def test_a_damaged_memory_is_no_memory(tmp_path: Path) -> None:
    remember(tmp_path, "key", "made")
    (tmp_path / "made" / "key").write_bytes(b"\x80\x05garbage")
    assert recall(tmp_path, "key") is None


def test_a_cache_that_cannot_be_written_remembers_nothing_and_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "made").write_text("no folder")
    remember(tmp_path, "a" * 40, "made")
    assert recall(tmp_path, "a" * 40) is None
    (tmp_path / "made").unlink()
    (tmp_path / "made" / ("a" * 40)).mkdir(parents=True)
    remember(tmp_path, "a" * 40, "made")
    assert recall(tmp_path, "a" * 40) is None
    assert [file.name for file in (tmp_path / "made").iterdir()] == ["a" * 40], "nothing half written is left"


def test_two_builds_may_make_room_at_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another build removes an old result between the moments when it is seen and when its age is asked for."""
    for number in range(9):
        remember(tmp_path, f"{number:040}", number)
    stat = Path.stat

    def gone(path: Path, **how: bool) -> os.stat_result:
        if path.name == f"{5:040}":
            raise FileNotFoundError(path)
        return stat(path, **how)

    monkeypatch.setattr(Path, "stat", gone)
    remember(tmp_path, "b" * 40, "made")
    assert recall(tmp_path, "b" * 40) == "made"
