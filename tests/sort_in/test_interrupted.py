"""A run cut short at any moment, and repeated, ends as one that was not; a disk that refuses leaves no trace."""

from __future__ import annotations

import errno
import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from textwrap import dedent
from typing import Any

import pytest

from archive_tools.sort_in.carry_out import CannotFinishError, ChangedError, take_back
from archive_tools.sort_in.disk import BusyError, Disk, alone_in
from archive_tools.sort_in.receipt import UNFINISHED
from tests.sort_in.scenes import DAY, bytes_below, card, collection, scene, shot, taken_in

_STEPS = ("make_folder", "copy", "write", "put", "remove", "remove_folder")
_SHEET = b"# The curator's own words.\r\n- file: 1962_front_1.jpg\r\n  date: 1962  # from the print"


class KilledError(BaseException):
    """The end of the process: no `except` of the program may hold it up."""


class _Counting(Disk):
    """Every step is counted; at number `at` something happens, before, half-way through, or after the step."""

    def __init__(self, at: int, moment: str, happens: Callable[[], None]) -> None:
        self.done, self.at, self.moment, self.happens = 0, at, moment, happens

    def __getattribute__(self, name: str) -> Any:
        if name not in _STEPS:
            return object.__getattribute__(self, name)
        step = object.__getattribute__(self, name)

        def counted(*args: Any) -> Any:
            self.done += 1
            if self.done == self.at and self.moment == "before":
                self.happens()
            if self.done == self.at and self.moment == "half-way" and name in ("copy", "write"):
                half_done = args[1] if name == "copy" else args[0]
                whole = args[0].read_bytes() if name == "copy" else args[1]
                half_done.write_bytes(whole[: len(whole) // 2])
                self.happens()
            result = step(*args)
            if self.done == self.at and self.moment == "after":
                self.happens()
            return result

        return counted


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is cut short here is the program, not the power: hundreds of waits for the disk would tell nothing."""
    monkeypatch.setattr(os, "fsync", lambda _: None)


def _killed() -> None:
    raise KilledError


def _full() -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def _scene(tmp: Path) -> tuple[Path, Path]:
    """A collection with a photos.yml without a last line end, and a card with pictures of two trees and of both."""
    root = collection(tmp / "house", sheets={"S1979.2": _SHEET})
    shot(root / "trees/S1979.2-a-tree/photos/1962_front_1.jpg", scene(90))
    source = tmp / "memory card"
    card(source / "IMG_1.JPG", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "IMG_2.JPG", scene(1), "2026-05-03 10:01:00")
    shot(source / "IMG_3.JPG", scene(2), "2026-05-03 10:02:00")
    card(source / "IMG_4.JPG", "S1986.1", "2026-05-03 10:10:00")
    shot(source / "IMG_5.JPG", scene(3), "2026-05-03 10:11:00")
    shot(source / "S1979.2 and S1986.1.png", scene(4), camera=("", "", ""))
    return root, source


def _steps_of_a_whole_run(tmp: Path) -> int:
    root, source = _scene(tmp)
    disk = _Counting(0, "before", _killed)
    taken_in(root, source, apply=True, disk=disk)
    return disk.done


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, str], dict[str, str], int]:
    """The collection before and after a run that nothing disturbed, and the number of its steps."""
    tmp = tmp_path_factory.mktemp("whole")
    root, source = _scene(tmp)
    before = bytes_below(root)
    taken_in(root, source, apply=True)
    steps = _steps_of_a_whole_run(tmp_path_factory.mktemp("counted"))
    assert steps > 20
    return before, bytes_below(root), steps


@pytest.mark.slow
@pytest.mark.parametrize("moment", ["before", "half-way", "after"])
def test_a_run_killed_at_any_step_and_repeated_ends_byte_for_byte_as_one_that_was_not(
    tmp_path: Path, whole: tuple[dict[str, str], dict[str, str], int], moment: str
) -> None:
    _, after, steps = whole
    kills = 0
    for at in range(1, steps + 1):
        root, source = _scene(tmp_path / str(at))
        lying = bytes_below(source)
        try:
            taken_in(root, source, apply=True, disk=_Counting(at, moment, _killed))
        except KilledError:
            kills += 1
        assert bytes_below(source) == lying
        taken_in(root, source, apply=True)
        assert bytes_below(root) == after, f"killed {moment} step {at}"
        assert bytes_below(source) == lying
    assert kills > steps // 3


def test_a_run_killed_again_and_again_still_comes_to_its_end(
    tmp_path: Path, whole: tuple[dict[str, str], dict[str, str], int]
) -> None:
    _, after, _ = whole
    root, source = _scene(tmp_path)
    for at in range(1, 40):
        try:
            taken_in(root, source, apply=True, disk=_Counting(at % 5 + 1, "half-way" if at % 2 else "after", _killed))
        except KilledError:
            continue
        break
    taken_in(root, source, apply=True)
    assert bytes_below(root) == after


@pytest.mark.slow
@pytest.mark.parametrize("moment", ["before", "half-way"])
def test_a_disk_that_is_full_at_any_step_leaves_the_collection_as_it_was(
    tmp_path: Path, whole: tuple[dict[str, str], dict[str, str], int], moment: str
) -> None:
    before, after, steps = whole
    for at in range(1, steps):
        root, source = _scene(tmp_path / str(at))
        lying = bytes_below(source)
        disk = _Counting(at, moment, _full)
        try:
            taken_in(root, source, apply=True, disk=disk)
        except OSError as fault:
            assert fault.errno == errno.ENOSPC
            assert bytes_below(root) == before, f"full {moment} step {at}"
        else:
            assert moment == "half-way"
            assert bytes_below(root) == after
        assert bytes_below(source) == lying


def test_a_disk_that_stays_full_is_cleared_as_far_as_removing_goes(tmp_path: Path) -> None:
    root, source = _scene(tmp_path)
    before = bytes_below(root)

    class _Full(Disk):
        copies = 0

        def copy(self, source: Path, half_done: Path) -> str:
            self.copies += 1
            if self.copies > 2:
                half_done.write_bytes(b"half")
                _full()
            return super().copy(source, half_done)

        def write(self, half_done: Path, data: bytes) -> None:
            if self.copies > 2:
                _full()
            super().write(half_done, data)

    with pytest.raises(OSError, match="No space"):
        taken_in(root, source, apply=True, disk=_Full())
    assert bytes_below(root) == before


def test_a_killed_run_can_be_taken_back_instead(tmp_path: Path) -> None:
    for at in range(2, 20):
        root, source = _scene(tmp_path / str(at))
        before = bytes_below(root)
        with pytest.raises(KilledError):
            taken_in(root, source, apply=True, disk=_Counting(at, "before", _killed))
        if (root / UNFINISHED).exists():
            take_back(root, root / UNFINISHED, Disk())
            assert bytes_below(root) == before


@pytest.mark.slow
@pytest.mark.parametrize("moment", ["before", "half-way", "after"])
def test_taking_back_killed_at_any_step_and_repeated_ends_as_if_it_had_not_been(tmp_path: Path, moment: str) -> None:
    at, finished = 0, False
    while not finished:
        at += 1
        root, source = _scene(tmp_path / str(at))
        before = bytes_below(root)
        done = taken_in(root, source, apply=True)
        assert done.receipt is not None
        receipt = root / done.receipt.file
        try:
            take_back(root, receipt, _Counting(at, moment, _killed))
            finished = at > 8
        except KilledError:
            if receipt.exists() or (root / UNFINISHED).exists():
                take_back(root, receipt, Disk())
        assert bytes_below(root) == before, f"killed {moment} step {at}"


def test_the_curator_adds_to_photos_yml_after_a_kill_and_loses_nothing(tmp_path: Path) -> None:
    root, source = _scene(tmp_path)
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"
    with pytest.raises(KilledError):
        taken_in(root, source, apply=True, disk=_Counting(12, "before", _killed))
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
    root, source = _scene(tmp_path)
    with pytest.raises(KilledError):
        taken_in(root, source, apply=True, disk=_Counting(8, "before", _killed))
    other = tmp_path / "another card"
    shot(other / "S1986.1.jpg", scene(50))
    as_it_stands = bytes_below(root)
    with pytest.raises(CannotFinishError, match="memory card"):
        taken_in(root, other, apply=True)
    assert bytes_below(root) == as_it_stands


def test_photos_yml_changed_between_plan_and_doing_is_planned_for_anew(tmp_path: Path) -> None:
    root, source = _scene(tmp_path)
    sheet = root / "trees/S1979.2-a-tree/photos/photos.yml"

    from archive_tools.sort_in import work

    planned = work.plan_for
    calls = []

    def slow(*args: Any, **how: Any) -> Any:
        plan = planned(*args, **how)
        calls.append(plan)
        if len(calls) == 1:
            sheet.write_bytes(_SHEET + b"\r\n# saved while the plan was being looked at\r\n")
        return plan

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(work, "plan_for", slow)
        taken_in(root, source, apply=True)
    assert len(calls) == 2
    assert b"# saved while the plan was being looked at\r\n- file: 2026-05-03_1.jpg\r\n" in sheet.read_bytes()


def test_a_source_that_changes_under_the_copy_is_noticed_and_leaves_nothing_behind(tmp_path: Path) -> None:
    root, source = _scene(tmp_path)
    before = bytes_below(root)

    class _Changing(Disk):
        def copy(self, source: Path, half_done: Path) -> str:
            super().copy(source, half_done)
            return "0" * 64

    with pytest.raises(ChangedError, match="has been changed"):
        taken_in(root, source, apply=True, disk=_Changing())
    assert bytes_below(root) == before


def test_two_runs_at_once_do_not_meet(tmp_path: Path) -> None:
    root, source = _scene(tmp_path)
    before = bytes_below(root)
    with alone_in(root), pytest.raises(BusyError):
        taken_in(root, source, apply=True)
    assert bytes_below(root) == before


_ENDED = """
    import os, signal, sys
    from datetime import date
    from pathlib import Path
    from archive_tools.sort_in.disk import Disk
    from archive_tools.sort_in import take_in

    class Ending(Disk):
        left = int(sys.argv[3])

        def step(self):
            self.left -= 1
            if self.left == 0:
                os.kill(os.getpid(), signal.SIGKILL)

        def copy(self, source, half_done):
            self.step()
            half_done.write_bytes(source.read_bytes()[:100])
            self.step()
            return super().copy(source, half_done)

        def write(self, half_done, data):
            self.step()
            super().write(half_done, data)

        def put(self, half_done, path):
            self.step()
            super().put(half_done, path)
            self.step()

    take_in(Path(sys.argv[1]), Path(sys.argv[2]), day=date(2026, 11, 25), apply=True, disk=Ending())
"""


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="no SIGKILL here")
def test_a_process_killed_outright_and_repeated_ends_the_same(
    tmp_path: Path, whole: tuple[dict[str, str], dict[str, str], int]
) -> None:
    _, after, _ = whole
    script = tmp_path / "ended.py"
    script.write_text(dedent(_ENDED))
    for at in range(1, 30, 4):
        root, source = _scene(tmp_path / str(at))
        run = subprocess.run([sys.executable, str(script), str(root), str(source), str(at)], check=False)
        assert run.returncode == -signal.SIGKILL
        taken_in(root, source, apply=True)
        assert bytes_below(root) == after, f"killed at {at}"


def test_what_was_cut_short_is_written_in_plain_sight_of_the_program_alone(tmp_path: Path) -> None:
    """The note of a run at work is hidden from readers and names no path of the machine."""
    root, source = _scene(tmp_path)
    with pytest.raises(KilledError):
        taken_in(root, source, apply=True, disk=_Counting(8, "before", _killed))
    kept = json.loads((root / UNFINISHED).read_text())
    assert UNFINISHED.startswith(".")
    assert str(tmp_path) not in (root / UNFINISHED).read_text()
    assert kept["receipt"]["source"] == "memory card"
    assert kept["receipt"]["day"] == DAY.isoformat()


def test_what_was_remembered_of_a_picture_is_not_trusted_against_the_picture(tmp_path: Path) -> None:
    """A file changed without a trace in its size and times: the copy tells, and the plan is made afresh."""
    root, source = _scene(tmp_path)
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
    root, source = _scene(tmp_path)
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
    root, source = _scene(tmp_path)
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
