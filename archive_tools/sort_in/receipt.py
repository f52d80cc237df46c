"""What was taken in, written down: enough to take it back, and to finish a run that was cut short.

A receipt is a JSON file in `documents/receipts/`: the readers look through `documents/` for its names only, nothing in
there is ever published, and it goes with the collection wherever that goes. While a run is at work, the same stands
in a hidden file at the top of the collection.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from archive_tools.sort_in.plan import Plan

FOLDER = "documents/receipts"
UNFINISHED = ".sort-in-unfinished.json"
_VERSION = 1
_WHAT = (
    "Pictures taken in by archive-tools sort-in. To take them back: archive-tools sort-in --undo and this file's name."
)


class BadReceiptError(ValueError):
    """A file that is no receipt, or was changed by hand; the message says so."""


@dataclass(frozen=True, slots=True)
class TakenIn:
    """One picture: where it came from (below the source folder), where it went, SHA-256 of its bytes, and why."""

    source: str
    file: str
    sha256: str
    because: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ListChanged:
    """One photos.yml: SHA-256 before (None: there was none) and after, the text put before the new entries, and for
    each picture's file name the text of its entry.
    """

    file: str
    before: str | None
    after: str
    joined: str
    entries: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Receipt:
    """One run. source: the name of the folder the pictures came from. folders: made by the run, outermost first."""

    day: str
    source: str
    pictures: tuple[TakenIn, ...]
    lists: tuple[ListChanged, ...]
    folders: tuple[str, ...] = ()

    @property
    def file(self) -> str:
        """Where it lies in the collection: the day, and a mark drawn from what was taken in."""
        told = "\n".join(f"{one.sha256} {one.file}" for one in self.pictures)
        return f"{FOLDER}/{self.day}-{hashlib.sha256(told.encode()).hexdigest()[:8]}.json"

    def only(self, files: Sequence[str]) -> Receipt:
        """The same with these pictures alone, by their paths in the collection."""
        kept = set(files)
        lists = []
        for one in self.lists:
            folder = one.file.rpartition("/")[0]
            entries = tuple(entry for entry in one.entries if f"{folder}/{entry[0]}" in kept)
            if entries:
                lists.append(replace(one, entries=entries))
        return replace(self, pictures=tuple(one for one in self.pictures if one.file in kept), lists=tuple(lists))


@dataclass(frozen=True, slots=True)
class Unfinished:
    """A run at work. takes_back: it undoes. receipt: what it is about; file: that receipt's place; rest: what stays
    written there when something cannot be taken back.
    """

    takes_back: bool
    receipt: Receipt
    file: str
    rest: Receipt | None = None


def receipt_of(plan: Plan, day: date, root: Path) -> Receipt:
    """The receipt of a plan that is about to be carried out in the collection at `root`."""
    pictures = tuple(
        TakenIn(line.source, line.target, line.sha256, line.because) for line in plan.filed() if line.target
    )
    lists = tuple(
        ListChanged(one.file, one.before, hashlib.sha256(one.data).hexdigest(), one.joined, one.blocks)
        for one in plan.sheets
    )
    wanted = [FOLDER, *dict.fromkeys(one.file.rpartition("/")[0] for one in pictures)]
    folders = [part for folder in wanted for part in _with_those_above(folder) if not (root / part).is_dir()]
    return Receipt(day.isoformat(), plan.source, pictures, lists, tuple(dict.fromkeys(folders)))


def receipt_text(receipt: Receipt) -> bytes:
    """A receipt as it is written."""
    return _json({"what": _WHAT, "version": _VERSION, **asdict(receipt)})


def read_receipt(path: Path) -> Receipt:
    """The receipt at `path`. Raises BadReceiptError where it is none, and OSError where it cannot be read."""
    return _receipt(_object(path), path)


def unfinished_text(work: Unfinished) -> bytes:
    """A run at work as it is written."""
    return _json(
        {"version": _VERSION, "takes_back": work.takes_back, "file": work.file, "receipt": asdict(work.receipt),
         "rest": asdict(work.rest) if work.rest else None}
    )  # fmt: skip


def read_unfinished(root: Path) -> Unfinished | None:
    """The run that was cut short in the collection at `root`, if one was. Raises BadReceiptError and OSError."""
    path = root / UNFINISHED
    if not path.exists():
        return None
    kept = _object(path)
    try:
        rest = _receipt(kept["rest"], path) if kept["rest"] else None
        file = kept["file"]
        if not isinstance(file, str) or not _inside(file):
            raise BadReceiptError(f"{path} was changed by hand and cannot be trusted")
        return Unfinished(bool(kept["takes_back"]), _receipt(kept["receipt"], path), file, rest)
    except KeyError as fault:
        raise BadReceiptError(f"{path} does not say {fault}, so it cannot be trusted") from fault


def _json(value: dict[str, Any]) -> bytes:
    return (json.dumps(value, ensure_ascii=False, indent=1) + "\n").encode("utf-8", "surrogateescape")


def _object(path: Path) -> dict[str, Any]:
    try:
        kept = json.loads(path.read_text(encoding="utf-8"))
    except ValueError as fault:
        raise BadReceiptError(f"{path} is no receipt: it is not written in JSON") from fault
    if not isinstance(kept, dict) or kept.get("version") != _VERSION:
        raise BadReceiptError(f"{path} is no receipt of this program")
    return kept


def _receipt(kept: Any, path: Path) -> Receipt:
    try:
        pictures = tuple(
            TakenIn(str(one["source"]), str(one["file"]), str(one["sha256"]), tuple(map(str, one["because"])))
            for one in kept["pictures"]
        )
        lists = tuple(
            ListChanged(
                str(one["file"]),
                None if one["before"] is None else str(one["before"]),
                str(one["after"]),
                str(one["joined"]),
                tuple((str(name), str(text)) for name, text in one["entries"]),
            )
            for one in kept["lists"]
        )
        made = Receipt(str(kept["day"]), str(kept["source"]), pictures, lists, tuple(map(str, kept["folders"])))
    except (KeyError, TypeError, ValueError) as fault:
        raise BadReceiptError(f"{path} is no receipt, or was changed by hand") from fault
    for file in (*(one.file for one in pictures), *(one.file for one in lists), *made.folders):
        if not _inside(file):
            raise BadReceiptError(f"{path} names {file}, which lies outside the collection; it was changed by hand")
    return made


def _inside(file: str) -> bool:
    parts = file.split("/")
    return bool(file) and not any(part in ("", ".", "..") or "\\" in part or ":" in part for part in parts)


def _with_those_above(folder: str) -> list[str]:
    parts = folder.split("/")
    return ["/".join(parts[:count]) for count in range(1, len(parts) + 1)]
