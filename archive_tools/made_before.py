"""Remembering what was made, so that a build in which nothing changed does little more than look.

What was made is kept in the cache folder under a key drawn from everything it depends on: the bytes of every record and
note, the size and times of every photograph, the program's own files, the edition, the days. If anything differs,
everything is made anew: there is no partial reuse that could keep something that has since become private.
"""

from __future__ import annotations

import contextlib
import os
import pickle
from collections.abc import Iterable, Iterator
from hashlib import sha256
from importlib.resources import files
from pathlib import Path

CACHE = ".archive-cache"
"""In the collection's folder: where builds keep what they have made, unless they are told otherwise."""
PHOTOGRAPHS = "photographs.json"
"""In the cache: what is known of the originals."""
MADE = "made"
"""In the cache: the folder of remembered results."""
_RECORDS = frozenset({".yml", ".yaml", ".md", ".txt", ".csv"})
_KEPT = 8
"""How many former results stay: two editions on a few days."""


def key_of(folders: Iterable[Path], *details: str) -> str:
    """A key that changes when any file below `folders`, the program, or any of `details` changes.

    Records are read; other files are told by size and times (both modification and status change, so that a file put
    back with its old date is still noticed).
    """
    digest = sha256(_program().encode())
    for detail in details:
        digest.update(f"{detail}\0".encode())
    for folder in folders:
        for path, status in _walk(folder):
            digest.update(f"{path}\0{status.st_size}\0".encode("utf-8", "surrogateescape"))
            if os.path.splitext(path)[1].lower() in _RECORDS:  # noqa: PTH122 - a Path for each of 100,000 files is slow
                digest.update(sha256(Path(path).read_bytes()).digest())
            else:
                digest.update(f"{status.st_mtime_ns}\0{status.st_ctime_ns}\0".encode())
    return digest.hexdigest()[:40]


def recall(cache: Path, key: str) -> object | None:
    """What was kept under `key`, or None. A damaged or foreign file is no memory."""
    try:
        made: object = pickle.loads((cache / MADE / key).read_bytes())
    except Exception:
        # Whatever is wrong with a remembered result, making it anew is right.
        return None
    return made


def remember(cache: Path, key: str, made: object) -> None:
    """Keep `made` under `key`, written aside and moved into place; the oldest results make room.

    Where the cache cannot be written nothing is kept: what was made is whole without it.
    """
    folder = cache / MADE
    aside = folder / f".{key}.{os.getpid()}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        aside.write_bytes(pickle.dumps(made, protocol=pickle.HIGHEST_PROTOCOL))
        aside.replace(folder / key)
    except OSError:
        with contextlib.suppress(OSError):
            aside.unlink()
        return
    for old in sorted(folder.iterdir(), key=_age, reverse=True)[_KEPT:]:
        with contextlib.suppress(OSError):
            old.unlink()


def _age(path: Path) -> float:
    """When a file was written; of one that another build has just removed, never."""
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def _program() -> str:
    """The program's own files, by name, size and time: a changed template must not print an old page."""
    root = Path(str(files("archive_tools")))
    told = (
        f"{path}:{status.st_size}:{status.st_mtime_ns}" for path, status in _walk(root) if not path.endswith(".pyc")
    )
    return "\n".join(told)


def _walk(folder: Path) -> Iterator[tuple[str, os.stat_result]]:
    """Every file below a folder but those under hidden names, in an order that does not depend on the disk."""
    pending = [str(folder)]
    found: list[tuple[str, os.stat_result]] = []
    while pending:
        with os.scandir(pending.pop()) as entries:
            for entry in entries:
                if entry.name.startswith(".") or entry.name == "__pycache__":
                    continue
                if entry.is_dir(follow_symlinks=False):
                    pending.append(entry.path)
                else:
                    with contextlib.suppress(FileNotFoundError):
                        found.append((entry.path, entry.stat()))
    return iter(sorted(found, key=lambda item: item[0]))
