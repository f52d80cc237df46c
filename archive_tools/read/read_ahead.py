"""Reading thousands of new originals in as many processes as there are processors, before records are read in order.

What a picture says of itself takes a decoding each; done one after the other it would keep one processor busy and let
the rest stand. Only what the facts kept from former runs lack is read, and only what lies where photographs lie.
"""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

from archive_tools.read.file_names import is_left_alone
from archive_tools.read.photo_files import FactsCache, PhotoFacts, UnreadablePicture, facts_anew
from archive_tools.read.photos import READ

_FEW, _LIGHT = 500, 150_000_000
"""Starting processes takes longer than reading so many pictures that weigh no more than so many bytes together."""
_AT_ONCE = 8

Status = tuple[int, int]
"""Size, and time of change in nanoseconds, of a file before it was read."""


def read_ahead(folder: Path, cache: FactsCache, processes: int | None = None) -> int:
    """Put into `cache` the facts of the originals of a collection that it lacks; how many those were.

    What cannot be read is left out, without a word: it is met again, and told with its place, when its record is read.
    """
    new = [path for path in _originals(folder) if not cache.knows(path)]
    workers = min(processes or os.cpu_count() or 1, len(new))
    if workers <= 1 or (len(new) <= _FEW and sum(map(_bytes_of, new)) <= _LIGHT):
        return 0
    read = 0
    # Started afresh, not forked: the caller may be a server with threads of its own.
    with ProcessPoolExecutor(workers, multiprocessing.get_context("spawn")) as pool:
        try:
            for path, found in zip(new, pool.map(_facts, new, chunksize=_AT_ONCE), strict=True):
                if found is not None:
                    cache.keep(path, *found)
                    read += 1
        except BrokenProcessPool:
            # A picture that ends a whole process is met again where it can be named.
            return read
    return read


def _facts(path: Path) -> tuple[Status, PhotoFacts] | None:
    try:
        status, facts = facts_anew(path)
    except (UnreadablePicture, OSError):
        return None
    return (status.st_size, status.st_mtime_ns), facts


def _bytes_of(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return 0


def _originals(folder: Path) -> Iterator[Path]:
    """The photographs of a collection as `read_collection` calls them; links, which are judged there, are left out."""
    yield from _pictures(folder / "photos")
    for tree in _inside(folder / "trees"):
        if tree.is_dir(follow_symlinks=False):
            yield from _pictures(Path(tree.path) / "photos")


def _pictures(folder: Path) -> Iterator[Path]:
    for entry in _inside(folder):
        if entry.name.lower().endswith(READ) and entry.is_file(follow_symlinks=False):
            yield Path(entry.path)


def _inside(folder: Path) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as found:
            return sorted((one for one in found if not is_left_alone(one.name)), key=lambda one: one.name)
    except OSError:
        return []
