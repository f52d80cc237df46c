"""Making cuts: in parallel, only those the cache lacks, each written aside and then moved into place.

What a cut is made from is told by its name (see `cuts`), so a file that is there is right, and a second run does
little more than ask whether each file exists. A run that is killed leaves whole files and, aside, at most one
unfinished file a process, which a later run clears away.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import tempfile
import time
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import Image

from archive_tools.illustrate.bare import check_bare
from archive_tools.illustrate.cuts import ENCODED, FOLDER, Size
from archive_tools.illustrate.pixels import CannotRead
from archive_tools.model.pictures import Cut, CutPicture

Progress = Callable[[str, int, int], None]
"""Told after each job: what was just made, how many are done, and how many there are."""

_END = b"\xff\xd9"
"""The marker at the end of every JPEG (ITU-T T.81, table B.1)."""
ASIDE = "aside"
LEFT_OVER = 3600
"""Unfinished files older than this many seconds belong to a run that was killed."""
_FEW = 2
"""Starting processes takes longer than making this many pictures."""


@dataclass(frozen=True, slots=True)
class Job:
    """Pictures to be made in one go: `render` is called in another process and gives the largest first.

    `sizes` and `pictures` go together, smallest first: the cuts of `pictures[i]` have the sizes `sizes[i]`.
    """

    what: str
    render: Callable[[], tuple[Image.Image, ...]]
    sizes: tuple[tuple[Size, ...], ...]
    pictures: tuple[CutPicture, ...]


@dataclass(frozen=True, slots=True)
class Made:
    """What became of the jobs: how many files were encoded, and why some could not be, by their place in the list."""

    encoded: int
    refused: dict[int, str]


def cut_file(cache: Path, cut: Cut) -> Path:
    """Where the file of a cut lies in the cache."""
    return cache / cut.url


def make(jobs: Sequence[Job], cache: Path, progress: Progress | None = None, processes: int | None = None) -> Made:
    """Make what the cache lacks, in at most `processes` processes (default: as many as there are processors).

    Raises OSError when the disk cannot be written or a process was ended from outside.
    """
    (cache / FOLDER).mkdir(parents=True, exist_ok=True)
    _clear_aside(cache)
    wanted = [(place, job) for place, job in enumerate(jobs) if _is_missing(job, cache)]
    encoded = 0
    refused: dict[int, str] = {}
    for done, (place, result) in enumerate(_run(wanted, cache, processes), start=1):
        if isinstance(result, str):
            refused[place] = result
        else:
            encoded += result
        if progress is not None:
            progress(jobs[place].what, done, len(wanted))
    return Made(encoded, refused)


def _is_missing(job: Job, cache: Path) -> bool:
    return any(not _is_there(cut_file(cache, cut)) for picture in job.pictures for cut in picture.cuts)


def _is_there(file: Path) -> bool:
    """Whether a cut is there to its end: a disk that filled up, or lost its power, may have kept only the beginning."""
    try:
        with file.open("rb", buffering=0) as sheet:
            sheet.seek(-len(_END), os.SEEK_END)
            return sheet.read() == _END
    except OSError:
        return False


def _run(wanted: list[tuple[int, Job]], cache: Path, processes: int | None) -> Iterable[tuple[int, int | str]]:
    workers = min(processes or os.cpu_count() or 1, len(wanted))
    if workers <= 1 or len(wanted) <= _FEW:
        yield from ((place, _do(job, cache)) for place, job in wanted)
        return
    # Started afresh, not forked: the caller may be a server with threads of its own.
    pool = ProcessPoolExecutor(workers, multiprocessing.get_context("spawn"), initializer=_leave_interrupts_to_parent)
    try:
        places = {pool.submit(_do, job, cache): place for place, job in wanted}
        for finished in as_completed(places):
            yield places[finished], finished.result()
    except BrokenProcessPool as error:
        raise OSError("a process that cuts pictures was ended from outside; the machine may lack memory") from error
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _leave_interrupts_to_parent() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _do(job: Job, cache: Path) -> int | str:
    """Do one job: the number of files encoded, or in words why it could not be done."""
    try:
        rendered = job.render()
    except CannotRead as error:
        return str(error)
    encoded = 0
    for image, sizes, picture in zip(rendered, job.sizes, job.pictures, strict=True):
        for smaller, cut in zip(_down(image, sizes), reversed(picture.cuts), strict=True):
            file = cut_file(cache, cut)
            if not _is_there(file):
                _write(encode(smaller), file, cache)
                encoded += 1
    return encoded


def _down(image: Image.Image, sizes: tuple[Size, ...]) -> Iterable[Image.Image]:
    """The picture at each of its sizes, largest first: halved where every pixel is four of the larger, else resized."""
    yield image
    current = image
    for size in reversed(sizes[:-1]):
        exactly_half = size.halved and (size.width * 2, size.height * 2) == current.size
        # A picture of odd width, halved, would be shifted by half a pixel at its far edge.
        current = current.reduce(2) if exactly_half else current.resize(size.pair, Image.Resampling.BICUBIC)
        yield current


def encode(image: Image.Image) -> bytes:
    """A JPEG of plain pixels, and proof that nothing else is in it. Raises NotBare if something is."""
    sheet = BytesIO()
    image.save(sheet, "JPEG", **ENCODED)
    data = sheet.getvalue()
    check_bare(data)
    return data


def _write(data: bytes, file: Path, cache: Path) -> None:
    aside = cache / ASIDE
    aside.mkdir(exist_ok=True)
    handle, written = tempfile.mkstemp(dir=aside, suffix=".part")
    try:
        with os.fdopen(handle, "wb") as sheet:
            sheet.write(data)
        Path(written).chmod(0o644)
        Path(written).replace(file)
    except BaseException:
        Path(written).unlink(missing_ok=True)
        raise


def _clear_aside(cache: Path) -> None:
    now = time.time()
    for left in (cache / ASIDE).glob("*.part"):
        try:
            if now - left.stat().st_mtime > LEFT_OVER:
                left.unlink()
        except OSError:
            continue  # another build has cleared it away, or the cache may only be read
