"""Scans of two hundred megapixels are read, and cut, within a gigabyte of memory, each in a process of its own."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import missing

WIDTH, HEIGHT = 16_384, 12_208
MEGABYTES = 1000
PROGRAM = """
import hashlib, json, resource, sys
from pathlib import Path
from archive_tools.illustrate.cuts import sizes_of
from archive_tools.illustrate.originals import Original, pixels_of
from archive_tools.read.photo_files import photo_facts
path, work = Path(sys.argv[1]), sys.argv[2]
width, height = int(sys.argv[3]), int(sys.argv[4])
if work == "read":
    facts = photo_facts(path)
    size = facts.width, facts.height
else:
    with path.open("rb") as file:
        fingerprint = hashlib.file_digest(file, "sha256").hexdigest()
    size = pixels_of(Original(path, fingerprint, width, height), sizes_of(width, height)[-1].pair).size
status = Path("/proc/self/status")
if status.exists():
    # What this program took itself: on Linux ru_maxrss also counts what the one that started it had taken before.
    megabytes = int(status.read_text().split("VmHWM:")[1].split()[0]) // 1024
else:
    megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // (1024 * 1024)
print(json.dumps([list(size), megabytes]))
"""
WAYS = {
    "jpg": {"Q": 80},
    "strips.tif": {"compression": "none"},
    "lzw.tif": {"compression": "lzw", "predictor": "horizontal"},
    "png": {"compression": 1, "filter": 0},
    "alpha.png": {"compression": 1, "filter": 0},
}


@pytest.fixture(scope="module", params=list(WAYS))
def scan(request, tmp_path_factory):
    try:
        import pyvips
    except (ImportError, OSError):
        missing("pyvips (PyPI: pyvips[binary])")
    path = tmp_path_factory.mktemp("scan") / f"scan.{request.param}"
    # Written strip by strip; a slope of colours with fine steps, so that it neither shrinks to nothing nor takes long.
    grid = pyvips.Image.xyz(WIDTH, HEIGHT)
    bands = (grid[0] / 64).bandjoin([grid[1] / 48, (grid[0] + grid[1]) / 112])
    if request.param.startswith("alpha"):
        bands = bands.bandjoin(grid[0] / 128 + 100)
    bands.cast("uchar").copy(interpretation="srgb").write_to_file(str(path), **WAYS[request.param])
    yield path
    path.unlink()


@pytest.mark.slow
@pytest.mark.parametrize("work", ["read", "cut"])
def test_memory(scan: Path, work: str) -> None:
    command = [sys.executable, "-c", PROGRAM, str(scan), work, str(WIDTH), str(HEIGHT)]
    run = subprocess.run(command, capture_output=True, text=True, check=False, timeout=300)
    assert run.returncode == 0, run.stderr[-2000:]
    size, megabytes = json.loads(run.stdout)
    assert size == ([WIDTH, HEIGHT] if work == "read" else [1920, 1431])
    assert megabytes < MEGABYTES
