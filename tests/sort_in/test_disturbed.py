"""What others do between, beside and after a run that was cut short loses nothing of theirs."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any

import pytest

from archive_tools.sort_in.carry_out import CannotFinishError, ChangedError, take_back
from archive_tools.sort_in.disk import BusyError, Disk, alone_in
from archive_tools.sort_in.receipt import UNFINISHED
from tests.sort_in.interruptions import SHEET, Counting, KilledError, a_card_for, killed
from tests.sort_in.scenes import DAY, bytes_below, scene, shot, taken_in


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is cut short here is the program, not the power: hundreds of waits for the disk would tell nothing."""
    monkeypatch.setattr(os, "fsync", lambda _: None)


def test_the_curator_adds_to_photos_yml_after_a_kill_and_loses_nothing(tmp_path: Path) -> None:
    root, source = a_card_for(tmp_path)
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"
    with pytest.raises(KilledError):
        taken_in(root, source, apply=True, disk=Counting(12, "before", killed))
    assert (root / UNFINISHED).exists()
    theirs = sheet.read_bytes() + b"\r\n  caption: Added between.\r\n# and a last word\r\n"
    sheet.write_bytes(theirs)
    done = taken_in(root, source, apply=True)
    assert done.finished is not None
    assert sheet.read_bytes().startswith(theirs)
    assert sheet.read_text().count("file:") == 3
    take_back(root, root / done.finished.file, Disk())
    assert sheet.read_bytes() == theirs


def test_a_killed_run_is_not_finished_from_another_folder(tmp_path: Path) -> None:
    root, source = a_card_for(tmp_path)
    with pytest.raises(KilledError):
        taken_in(root, source, apply=True, disk=Counting(8, "before", killed))
    other = tmp_path / "another card"
    shot(other / "S1986.1.jpg", scene(50))
    as_it_stands = bytes_below(root)
    with pytest.raises(CannotFinishError, match="memory card"):
        taken_in(root, other, apply=True)
    assert bytes_below(root) == as_it_stands


def test_photos_yml_changed_between_plan_and_doing_is_planned_for_anew(tmp_path: Path) -> None:
    root, source = a_card_for(tmp_path)
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"

    from archive_tools.sort_in import work

    planned = work.plan_for
    calls = []

    def slow(*args: Any, **how: Any) -> Any:
        plan = planned(*args, **how)
        calls.append(plan)
        if len(calls) == 1:
            sheet.write_bytes(SHEET + b"\r\n# saved while the plan was being looked at\r\n")
        return plan

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(work, "plan_for", slow)
        taken_in(root, source, apply=True)
    assert len(calls) == 2
    assert b"# saved while the plan was being looked at\r\n- file: 2026-05-03_1.jpg\r\n" in sheet.read_bytes()


def test_a_source_that_changes_under_the_copy_is_noticed_and_leaves_nothing_behind(tmp_path: Path) -> None:
    root, source = a_card_for(tmp_path)
    before = bytes_below(root)

    class _Changing(Disk):
        def copy(self, source: Path, half_done: Path) -> str:
            super().copy(source, half_done)
            return "0" * 64

    with pytest.raises(ChangedError, match="has been changed"):
        taken_in(root, source, apply=True, disk=_Changing())
    assert bytes_below(root) == before


def test_two_runs_at_once_do_not_meet(tmp_path: Path) -> None:
    root, source = a_card_for(tmp_path)
    before = bytes_below(root)
    with alone_in(root), pytest.raises(BusyError):
        taken_in(root, source, apply=True)
    assert bytes_below(root) == before


def test_what_was_cut_short_is_written_in_plain_sight_of_the_program_alone(tmp_path: Path) -> None:
    """The note of a run at work is hidden from readers and names no path of the machine."""
    root, source = a_card_for(tmp_path)
    with pytest.raises(KilledError):
        taken_in(root, source, apply=True, disk=Counting(8, "before", killed))
    kept = json.loads((root / UNFINISHED).read_text())
    assert UNFINISHED.startswith(".")
    assert str(tmp_path) not in (root / UNFINISHED).read_text()
    assert kept["receipt"]["source"] == "memory card"
    assert kept["receipt"]["day"] == DAY.isoformat()


def test_what_was_remembered_of_a_picture_is_not_trusted_against_the_picture(tmp_path: Path) -> None:
    """A file changed without a trace in its size and times: the copy tells, and the plan is made afresh."""
    root, source = a_card_for(tmp_path)
    picture = source / "IMG_2.JPG"
    taken_in(root, source)
    was = picture.stat()
    data = bytearray(picture.read_bytes())
    data[-3] ^= 1
    picture.write_bytes(bytes(data))
    os.utime(picture, ns=(was.st_atime_ns, was.st_mtime_ns))
    taken_in(root, source, apply=True)
    assert (root / "trees/S1979.2-a-tree/photos/2026-05-03_1.jpg").read_bytes() == bytes(data)


def test_nothing_in_the_source_is_ever_opened_for_writing(tmp_path: Path) -> None:
    """By the interpreter's own account (audit events of Python) of every file opened, renamed, removed or touched."""
    root, source = a_card_for(tmp_path)
    touched: list[str] = []

    def account(event: str, words: tuple[Any, ...]) -> None:
        if not watching or not words or str(source) not in str(words[0]):
            return
        if event == "open":
            mode, flags = words[1], words[2]
            if (isinstance(mode, str) and set(mode) & set("wax+")) or flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
                touched.append(f"{event} {words}")
        elif event in ("os.rename", "os.remove", "os.utime", "os.chmod", "os.mkdir", "os.rmdir", "os.truncate"):
            touched.append(f"{event} {words}")

    watching = True
    sys.addaudithook(account)
    try:
        done = taken_in(root, source, apply=True)
        assert done.receipt is not None
        take_back(root, root / done.receipt.file, Disk())
        assert touched == []
        (source / "proof").write_text("the account does see what is written")
        assert touched
    finally:
        watching = False


def test_every_file_is_on_the_disk_before_it_gets_its_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root, source = a_card_for(tmp_path)
    order: list[tuple[str, str]] = []
    replace = Path.replace

    def settled(handle: int) -> None:
        order.append(("settled", str(Path(f"/proc/self/fd/{handle}").readlink())))

    def named(self: Path, target: Path) -> Path:
        order.append(("named", str(self)))
        return replace(self, target)

    if not Path("/proc/self/fd").is_dir():
        pytest.skip("no /proc here")
    monkeypatch.setattr(os, "fsync", settled)
    monkeypatch.setattr(Path, "replace", named)
    taken_in(root, source, apply=True)
    names = [(at, path) for at, (what, path) in enumerate(order) if what == "named" and not path.endswith("json.part")]
    assert len(names) >= 7
    for at, path in names:
        if ".archive-cache" not in path:
            assert ("settled", path) in order[:at]
            assert order[at + 1] == ("settled", str(Path(path).parent))
