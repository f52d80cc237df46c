"""Putting a finished folder or file where an older one stands, so that there is always one or the other."""

from __future__ import annotations

import ctypes
import os
import sys
from pathlib import Path

_AT_FDCWD = -100  # Linux, fcntl.h
_RENAME_EXCHANGE = 2  # Linux, renameat2(2)
_RENAME_SWAP = 2  # macOS, renamex_np(2)


def put_in_place(made: Path, out: Path) -> None:
    """Put the folder `made` where `out` is; what was there is then at `made`. Both must lie on one file system.

    Where the system can exchange two folders in one step, it does. Elsewhere the former is moved aside first, for the
    moment between two renames; if the second fails it is put back. Raises OSError when the disk refuses.
    """
    if not out.exists():
        made.rename(out)
    elif not _exchange(made, out):
        aside = made.with_name(made.name + ".former")
        out.rename(aside)
        try:
            made.rename(out)
        except OSError:
            aside.rename(out)
            raise
        aside.rename(made)


def write_whole(path: Path, content: bytes) -> None:
    """Write a file beside its place and put it there in one step. Raises OSError when the disk refuses."""
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.write_bytes(content)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


def _exchange(one: Path, other: Path) -> bool:
    """Exchange two folders in one step; False where the system or the file system cannot."""
    try:
        library = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "linux":
            done = library.renameat2(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE)
        elif sys.platform == "darwin":
            done = library.renamex_np(os.fsencode(one), os.fsencode(other), _RENAME_SWAP)
        else:
            return False
    except (AttributeError, OSError, TypeError):
        return False
    return bool(done == 0)
