"""A disk on which something happens at a step, and a collection with a card to be taken in."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path
from typing import Any

from archive_tools.sort_in.disk import Disk
from tests.sort_in.scenes import card, collection, scene, shot

_STEPS = ("make_folder", "copy", "write", "put", "remove", "remove_folder")


SHEET = b"# The curator's own words.\r\n- file: 1962_front_1.jpg\r\n  date: 1962  # from the print"


class KilledError(BaseException):
    """The end of the process: no `except` of the program may hold it up."""


class Counting(Disk):
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


def killed() -> None:
    raise KilledError


def full() -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def a_card_for(tmp: Path) -> tuple[Path, Path]:
    """A collection with a photos.yml without a last line end, and a card with pictures of two trees and of both."""
    root = collection(tmp / "house", sheets={"S1979.2": SHEET})
    shot(root / "trees/S1979.2-a-tree/photos/1962_front_1.jpg", scene(90))
    source = tmp / "memory card"
    card(source / "IMG_1.JPG", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "IMG_2.JPG", scene(1), "2026-05-03 10:01:00")
    shot(source / "IMG_3.JPG", scene(2), "2026-05-03 10:02:00")
    card(source / "IMG_4.JPG", "S1986.1", "2026-05-03 10:10:00")
    shot(source / "IMG_5.JPG", scene(3), "2026-05-03 10:11:00")
    shot(source / "S1979.2 and S1986.1.png", scene(4), camera=("", "", ""))
    return root, source
