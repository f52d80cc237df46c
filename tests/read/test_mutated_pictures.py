"""Two thousand spoilt pictures of every format: each is read or refused in words; none crashes or hangs."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = Path(__file__).with_name("mutated_pictures.py")
MOST_SECONDS = 540
"""Far more than it takes (a quarter of a minute): a hang shows before, since each picture has ten of the processor."""


def started(folder: Path, first: int, count: int) -> subprocess.Popen[str]:
    folder.mkdir()
    command = [sys.executable, str(PROGRAM), str(folder), str(first), str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


@pytest.mark.slow
def test_spoilt_pictures(tmp_path: Path) -> None:
    runs = [started(tmp_path / "one", 0, 1000), started(tmp_path / "two", 1000, 1000)]
    met: dict[str, int] = {}
    for run in runs:
        try:
            out, err = run.communicate(timeout=MOST_SECONDS)
        except subprocess.TimeoutExpired:
            run.kill()
            raise
        assert run.returncode == 0, err[-3000:]
        for became, times in json.loads(out).items():
            met[became] = met.get(became, 0) + times
    assert set(met) == {"read", "refused", "shown", "not shown"}
    assert met["read"] + met["refused"] == met["shown"] + met["not shown"] == 2000
    # Spoilt enough to be refused, and whole enough to be read: both are tried in earnest.
    assert min(met["read"], met["refused"]) > 400
