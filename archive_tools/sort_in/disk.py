"""The few things that are done to the disk: each happens whole or not at all, and is on the disk then."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_PIECE = 1 << 20


class BusyError(Exception):
    """Another run is at work in the same collection."""


class Disk:
    """Writing to the collection's folder. Every method raises OSError where the machine refuses."""

    def make_folder(self, path: Path) -> None:
        """A folder, with those above it; one that is there is left as it is."""
        path.mkdir(parents=True, exist_ok=True)
        self.settle(path.parent)

    def copy(self, source: Path, half_done: Path) -> str:
        """The bytes of `source` (opened for reading only) under the name `half_done`; their SHA-256."""
        digest = hashlib.sha256()
        with source.open("rb") as read, half_done.open("wb") as written:
            while piece := read.read(_PIECE):
                digest.update(piece)
                written.write(piece)
            written.flush()
            os.fsync(written.fileno())
        return digest.hexdigest()

    def write(self, half_done: Path, data: bytes) -> None:
        """New bytes under the name `half_done`."""
        with half_done.open("wb") as written:
            written.write(data)
            written.flush()
            os.fsync(written.fileno())

    def put(self, half_done: Path, path: Path) -> None:
        """Give what is finished its name, in place of what bears it, in one step."""
        half_done.replace(path)
        self.settle(path.parent)

    def remove(self, path: Path) -> None:
        """Take a file away; one that is not there is gone already."""
        path.unlink(missing_ok=True)
        self.settle(path.parent)

    def remove_folder(self, path: Path) -> None:
        """Take a folder away if nothing lies in it."""
        try:
            path.rmdir()
        except FileNotFoundError:
            return
        except OSError as fault:
            if fault.errno not in (errno.ENOTEMPTY, errno.EEXIST):
                raise
        self.settle(path.parent)

    def settle(self, folder: Path) -> None:
        """Have the names in a folder on the disk, where the system can be asked for it."""
        if os.name != "posix" or not folder.is_dir():
            return
        handle = os.open(folder, os.O_RDONLY)
        try:
            with contextlib.suppress(OSError):
                os.fsync(handle)
        finally:
            os.close(handle)


def half_done_beside(path: Path) -> Path:
    """The name under which a file is written before it gets its own; hidden, so that no reader minds it."""
    return path.with_name(f".{path.name}.part")


def hash_of(path: Path) -> str | None:
    """SHA-256 of a file; None where there is none."""
    try:
        with path.open("rb") as opened:
            return hashlib.file_digest(opened, "sha256").hexdigest()
    except (FileNotFoundError, NotADirectoryError):
        return None


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """While this lasts, no second run works in `folder`; ends by itself with the process. Raises BusyError."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as fault:
            raise BusyError(f"another run is taking pictures into {folder} at this moment") from fault
        except OSError:
            # A file system without locks: nothing can be known of another run.
            pass
        yield
    finally:
        os.close(handle)
