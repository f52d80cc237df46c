"""What the cache of a collection holds that no build would use again: told first, removed when asked.

The cache only saves work: whatever is removed can be made again. Pictures and alignments are needed when either
edition, as it is on a day, would look for them; results of builds only on the day on which they were made. What was
written within the last hour may belong to a build that is at work, and stays; so does what the program did not write.
"""

from __future__ import annotations

import contextlib
import os
import re
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from archive_tools.illustrate.cuts import FOLDER as PICTURES
from archive_tools.illustrate.derivatives import ASIDE, LEFT_OVER
from archive_tools.illustrate.found_alignments import FOLDER as ALIGNMENTS
from archive_tools.illustrate.needed import needed
from archive_tools.illustrate.sharpness import FILE as SHARPNESS
from archive_tools.made_before import MADE, PHOTOGRAPHS
from archive_tools.model.view import EditionView

_UNFINISHED = r"tmp[a-z0-9_]{8}\.part"
"""What Python's tempfile calls a file that is written aside: another program's downloads end in .part as well."""
_OURS = {
    PICTURES: re.compile(r"[0-9a-f]{32}\.jpg"),
    ALIGNMENTS: re.compile(rf"[0-9a-f]{{32}}\.json|{_UNFINISHED}"),
    ASIDE: re.compile(_UNFINISHED),
    MADE: re.compile(r"\.?[0-9a-f]{40}(?:\.[0-9]+)?"),
}
_KNOWN = frozenset({PHOTOGRAPHS, "pictures-looked-at.json"})
_SHARPNESS = re.compile(r"sharpness [0-9]+\.json")
_LEFT = re.compile(rf"{_UNFINISHED}|\.?(?:photographs|pictures-looked-at)\.json\.[0-9]+\.part")
_WHY = {
    PICTURES: "of a photograph, comparison or strip that is no longer shown so, or made by another version",
    ALIGNMENTS: "of two pictures that are no longer laid over each other, or found by another version",
    ASIDE: "left unfinished by a run that was cut short",
    MADE: "the result of a build on another day",
}


@dataclass(frozen=True, slots=True)
class Going:
    """A file of the cache that nothing needs: its path in the cache with `/`, its size in bytes, and why it goes."""

    file: str
    size: int
    why: str


@dataclass(frozen=True, slots=True)
class Pruning:
    """What goes, and how many files, of how many bytes, stay. foreign: files that the program did not write."""

    going: tuple[Going, ...]
    kept: int
    kept_bytes: int
    foreign: tuple[str, ...]

    @property
    def size(self) -> int:
        """Bytes that are saved."""
        return sum(one.size for one in self.going)


def pruning(views: Iterable[EditionView], root: Path, cache: Path, today: date, now: float | None = None) -> Pruning:
    """What could go from `cache`, where `views` are the editions to be built from it; nothing is removed.

    root: the collection's folder. now: seconds since 1970, the present if unsaid. Raises OSError where the cache
    cannot be read.
    """
    wanted = [needed(view, root, cache) for view in views]
    files = frozenset().union(*(one.files for one in wanted))
    moment = time.time() if now is None else now
    going: list[Going] = []
    foreign: list[str] = []
    kept = kept_bytes = 0
    for file, status in _files(cache):
        folder = file.partition("/")[0] if "/" in file else ""
        if not _is_ours(folder, file):
            foreign.append(file)
        elif why := _why(folder, file, status, files, today, moment):
            going.append(Going(file, status.st_size, why))
        else:
            kept, kept_bytes = kept + 1, kept_bytes + status.st_size
    return Pruning(tuple(going), kept, kept_bytes, tuple(foreign))


def remove(plan: Pruning, cache: Path) -> None:
    """Remove what goes. A file that is gone already does not matter. Raises OSError where one cannot be removed."""
    for one in plan.going:
        with contextlib.suppress(FileNotFoundError):
            (cache / one.file).unlink()


def _why(folder: str, file: str, status: os.stat_result, files: frozenset[str], today: date, now: float) -> str | None:
    if file in files or now - status.st_mtime < LEFT_OVER:
        return None
    if folder == MADE:
        return None if datetime.fromtimestamp(status.st_mtime).date() == today else _WHY[MADE]
    if folder:
        return _WHY[ASIDE] if _LEFT.fullmatch(Path(file).name) else _WHY[folder]
    if _LEFT.fullmatch(file):
        return _WHY[ASIDE]
    return "measured by another version" if _SHARPNESS.fullmatch(file) and file != SHARPNESS else None


def _files(cache: Path) -> Iterator[tuple[str, os.stat_result]]:
    """Every file of the cache, by its path in it, in an order that does not depend on the disk."""
    for folder, below, names in os.walk(cache):
        below.sort()
        for name in sorted(names):
            path = Path(folder, name)
            with contextlib.suppress(FileNotFoundError):
                yield path.relative_to(cache).as_posix(), path.lstat()


def _is_ours(folder: str, file: str) -> bool:
    name = file[len(folder) + 1 :] if folder else file
    if folder:
        return folder in _OURS and _OURS[folder].fullmatch(name) is not None
    return name in _KNOWN or _SHARPNESS.fullmatch(name) is not None or _LEFT.fullmatch(name) is not None
