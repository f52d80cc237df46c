"""A run cut short at any moment, and repeated, ends as one that was not; a disk that refuses leaves no trace."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path
from textwrap import dedent

import pytest

from archive_tools.sort_in.carry_out import take_back
from archive_tools.sort_in.disk import Disk
from archive_tools.sort_in.receipt import UNFINISHED
from tests.sort_in.interruptions import Counting, KilledError, a_card_for, full, killed
from tests.sort_in.scenes import bytes_below, taken_in


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is cut short here is the program, not the power: hundreds of waits for the disk would tell nothing."""
    monkeypatch.setattr(os, "fsync", lambda _: None)


def _steps_of_a_whole_run(tmp: Path) -> int:
    root, source = a_card_for(tmp)
    disk = Counting(0, "before", killed)
    taken_in(root, source, apply=True, disk=disk)
    return disk.done


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, str], dict[str, str], int]:
    """The collection before and after a run that nothing disturbed, and the number of its steps."""
    tmp = tmp_path_factory.mktemp("whole")
    root, source = a_card_for(tmp)
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
        root, source = a_card_for(tmp_path / str(at))
        lying = bytes_below(source)
        try:
            taken_in(root, source, apply=True, disk=Counting(at, moment, killed))
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
    root, source = a_card_for(tmp_path)
    for at in range(1, 40):
        try:
            taken_in(root, source, apply=True, disk=Counting(at % 5 + 1, "half-way" if at % 2 else "after", killed))
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
        root, source = a_card_for(tmp_path / str(at))
        lying = bytes_below(source)
        disk = Counting(at, moment, full)
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
    root, source = a_card_for(tmp_path)
    before = bytes_below(root)

    class _Full(Disk):
        copies = 0

        def copy(self, source: Path, half_done: Path) -> str:
            self.copies += 1
            if self.copies > 2:
                half_done.write_bytes(b"half")
                full()
            return super().copy(source, half_done)

        def write(self, half_done: Path, data: bytes) -> None:
            if self.copies > 2:
                full()
            super().write(half_done, data)

    with pytest.raises(OSError, match="No space"):
        taken_in(root, source, apply=True, disk=_Full())
    assert bytes_below(root) == before


def test_a_killed_run_can_be_taken_back_instead(tmp_path: Path) -> None:
    taken_back = 0
    for at in range(2, 20):
        root, source = a_card_for(tmp_path / str(at))
        before = bytes_below(root)
        with pytest.raises(KilledError):
            taken_in(root, source, apply=True, disk=Counting(at, "before", killed))
        if (root / UNFINISHED).exists():
            take_back(root, root / UNFINISHED, Disk())
            taken_back += 1
            assert bytes_below(root) == before
        else:  # the run had not yet said that it began: no more than its own half-written note may lie there
            left = bytes_below(root)
            assert {path for path in left if left[path] != before.get(path)} <= {f".{UNFINISHED}.part"}
            assert before.items() <= left.items()
    assert taken_back > 10, "most steps come after the run has said that it began"


@pytest.mark.slow
@pytest.mark.parametrize("moment", ["before", "half-way", "after"])
def test_taking_back_killed_at_any_step_and_repeated_ends_as_if_it_had_not_been(tmp_path: Path, moment: str) -> None:
    at, finished = 0, False
    while not finished:
        at += 1
        root, source = a_card_for(tmp_path / str(at))
        before = bytes_below(root)
        done = taken_in(root, source, apply=True)
        assert done.receipt is not None
        receipt = root / done.receipt.file
        try:
            take_back(root, receipt, Counting(at, moment, killed))
            finished = at > 8
        except KilledError:
            if receipt.exists() or (root / UNFINISHED).exists():
                take_back(root, receipt, Disk())
        assert bytes_below(root) == before, f"killed {moment} step {at}"


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
        root, source = a_card_for(tmp_path / str(at))
        run = subprocess.run([sys.executable, str(script), str(root), str(source), str(at)], check=False)
        assert run.returncode == -signal.SIGKILL
        taken_in(root, source, apply=True)
        assert bytes_below(root) == after, f"killed at {at}"
