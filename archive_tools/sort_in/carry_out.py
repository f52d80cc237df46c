"""Carrying out a plan so that it can be cut short at any moment and repeated with the same end.

First what is to be done is written down, then it is done step by step, each step such that doing it again changes
nothing; last the receipt gets its place and the writing-down goes. Whatever was cut short is finished, or taken back,
by the next run. When the disk refuses, everything this run has done is taken back at once.
"""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

from archive_tools.sort_in.disk import Disk, alone_in, half_done_beside, hash_of
from archive_tools.sort_in.plan import Plan
from archive_tools.sort_in.receipt import (
    UNFINISHED,
    BadReceiptError,
    ListChanged,
    Receipt,
    Unfinished,
    read_receipt,
    read_unfinished,
    receipt_of,
    receipt_text,
    unfinished_text,
)
from archive_tools.sort_in.sheet import has_block, put_back, take_out


class ChangedError(Exception):
    """Something is no longer as it was when the plan was made; nothing has been done."""


class CannotFinishError(Exception):
    """A run that was cut short cannot be finished as it stands; the message says what to do."""


def carry_out(root: Path, folder: Path, plan: Plan, day: date, disk: Disk) -> Receipt:
    """Do what the plan says, from the source `folder` into the collection at `root`.

    Raises ChangedError where a file is not as it was planned with, BusyError where another run is at work, and OSError
    where the disk refuses; in each case the collection is as it was before.
    """
    with alone_in(root):
        if read_unfinished(root) is not None:
            raise CannotFinishError("a former run was cut short; it has to be finished or taken back first")
        receipt = receipt_of(plan, day, root)
        _as_planned(root, receipt)
        work = Unfinished(False, receipt, receipt.file)
        _begin(root, work, disk)
        _finish_or_take_back(root, folder, work, disk)
    return receipt


def finish(root: Path, folder: Path | None, disk: Disk) -> Unfinished | None:
    """Finish a run that was cut short, if one was; `folder` is where its pictures come from. Returns what it was.

    Raises CannotFinishError, with nothing changed, where its pictures are not in `folder` as they were.
    """
    with alone_in(root):
        work = read_unfinished(root)
        if work is None:
            if half_done_beside(root / UNFINISHED).exists():
                disk.remove(half_done_beside(root / UNFINISHED))
            return None
        if not work.takes_back:
            _can_be_finished(root, folder, work.receipt)
            work = replace(work, receipt=_with_lists_of_today(root, work, disk))
        _finish_or_take_back(root, folder, work, disk)
        return work


def take_back(root: Path, file: Path, disk: Disk) -> tuple[Receipt, Mapping[str, str]]:
    """Take back what a receipt tells, but for pictures and entries that were changed since.

    Returns what was taken back, and by path in the collection why the others stay. `file` may be the writing-down of a
    run that was cut short. Raises BadReceiptError and OSError.
    """
    with alone_in(root):
        work = read_unfinished(root)
        if work is not None:
            if not work.takes_back and file.resolve() != (root / UNFINISHED).resolve():
                raise CannotFinishError(
                    f"a run was cut short; repeat it with its folder “{work.receipt.source}”, or take it back with "
                    f"--undo {root / UNFINISHED}"
                )
            work = replace(work, takes_back=True)
            _begin(root, work, disk)
            _undo(root, work, disk)
            return work.receipt, {}
        receipt = read_receipt(file)
        if not file.resolve().is_relative_to(root.resolve()):
            raise BadReceiptError(f"{file} does not lie in the collection {root}")
        place = file.resolve().relative_to(root.resolve()).as_posix()
        stay = {one.file: why for one in receipt.pictures if (why := _changed(root, receipt, one.file, one.sha256))}
        going = receipt.only([one.file for one in receipt.pictures if one.file not in stay])
        rest = replace(receipt.only(list(stay)), folders=receipt.folders) if stay else None
        if not going.pictures:
            return going, stay
        work = Unfinished(True, going, place, rest)
        _begin(root, work, disk)
        _undo(root, work, disk)
        return going, stay


def _as_planned(root: Path, receipt: Receipt) -> None:
    for one in receipt.lists:
        if hash_of(root / one.file) != one.before:
            raise ChangedError(f"{one.file} has been changed meanwhile")
    for picture in receipt.pictures:
        if (root / picture.file).exists():
            raise ChangedError(f"{picture.file} has come into being meanwhile")


def _begin(root: Path, work: Unfinished, disk: Disk) -> None:
    path = root / UNFINISHED
    half_done = half_done_beside(path)
    try:
        disk.write(half_done, unfinished_text(work))
        disk.put(half_done, path)
    except OSError:
        with contextlib.suppress(OSError):
            disk.remove(half_done)
        raise


def _finish_or_take_back(root: Path, folder: Path | None, work: Unfinished, disk: Disk) -> None:
    if work.takes_back:
        _undo(root, work, disk)
        return
    try:
        _do(root, folder, work, disk)
    except (OSError, ChangedError):
        _undo(root, replace(work, takes_back=True), disk)
        raise


def _do(root: Path, folder: Path | None, work: Unfinished, disk: Disk) -> None:
    receipt = work.receipt
    for made in receipt.folders:
        if not (root / made).is_dir():
            disk.make_folder(root / made)
    for picture in receipt.pictures:
        path = root / picture.file
        if path.exists():
            continue
        if folder is None:
            raise ChangedError(f"{picture.source} is not at hand")
        if disk.copy(folder / picture.source, half_done_beside(path)) != picture.sha256:
            raise ChangedError(f"{picture.source} has been changed meanwhile")
        disk.put(half_done_beside(path), path)
    for one in receipt.lists:
        path = root / one.file
        data = path.read_bytes() if path.exists() else None
        if data is None or hashlib.sha256(data).hexdigest() != one.after:
            disk.write(half_done_beside(path), put_back(data, [text for _, text in one.entries], one.joined))
            disk.put(half_done_beside(path), path)
    path = root / work.file
    disk.write(half_done_beside(path), receipt_text(receipt))
    disk.put(half_done_beside(path), path)
    disk.remove(root / UNFINISHED)


def _undo(root: Path, work: Unfinished, disk: Disk) -> None:
    """Take back what is there of a run. Entries go first; where the disk is too full even for that, pictures do."""
    receipt = work.receipt
    refused: list[ListChanged] = []
    for one in receipt.lists:
        try:
            _undo_list(root, one, disk)
        except OSError:
            refused.append(one)
    for picture in receipt.pictures:
        path = root / picture.file
        if half_done_beside(path).exists():
            disk.remove(half_done_beside(path))
        if hash_of(path) == picture.sha256:
            disk.remove(path)
    for one in refused:
        _undo_list(root, one, disk)
    path = root / work.file
    if half_done_beside(path).exists():
        disk.remove(half_done_beside(path))
    if work.rest is not None:
        disk.write(half_done_beside(path), receipt_text(work.rest))
        disk.put(half_done_beside(path), path)
    elif path.exists():
        disk.remove(path)
    for made in reversed(receipt.folders):
        disk.remove_folder(root / made)
    disk.remove(root / UNFINISHED)


def _undo_list(root: Path, one: ListChanged, disk: Disk) -> None:
    path = root / one.file
    half_done = half_done_beside(path)
    if half_done.exists():
        disk.remove(half_done)
    if not path.exists():
        return
    data = path.read_bytes()
    left = take_out(data, [text for _, text in one.entries], one.joined, one.before)
    if left is None:
        disk.remove(path)
    elif left != data:
        try:
            disk.write(half_done, left)
            disk.put(half_done, path)
        except OSError:
            with contextlib.suppress(OSError):
                disk.remove(half_done)
            raise


def _changed(root: Path, receipt: Receipt, file: str, sha256: str) -> str | None:
    """Why a picture cannot be taken back, if it cannot."""
    found = hash_of(root / file)
    if found is None:
        return "the file is not there any more"
    if found != sha256:
        return "the file has been changed since"
    folder, _, name = file.rpartition("/")
    for one in receipt.lists:
        for entry, text in one.entries:
            if one.file.rpartition("/")[0] == folder and entry == name:
                path = root / one.file
                data = path.read_bytes() if path.exists() else None
                return None if has_block(data, text) else f"its entry in {one.file} has been changed since"
    return "the receipt holds no entry for it"


def _can_be_finished(root: Path, folder: Path | None, receipt: Receipt) -> None:
    for picture in receipt.pictures:
        found = hash_of(root / picture.file)
        if found is not None and found != picture.sha256:
            raise CannotFinishError(
                f"a run was cut short, and {picture.file} has come into being since; rename it, or take the run back "
                f"with --undo {root / UNFINISHED}"
            )
        if found is None and (folder is None or hash_of(folder / picture.source) != picture.sha256):
            raise CannotFinishError(
                f"a run from the folder “{receipt.source}” was cut short, and {picture.source} is not in the folder "
                f"now named as it was; name that folder again, or take the run back with --undo {root / UNFINISHED}"
            )


def _with_lists_of_today(root: Path, work: Unfinished, disk: Disk) -> Receipt:
    """The receipt with every photos.yml that somebody has changed since as it is now, written down anew."""
    lists = []
    for one in work.receipt.lists:
        path = root / one.file
        data = path.read_bytes() if path.exists() else None
        texts = [text for _, text in one.entries]
        known = {one.before, one.after}
        now = None if data is None else hashlib.sha256(data).hexdigest()
        if now in known:
            lists.append(one)
            continue
        without = data if data is None else take_out(data, texts, one.joined, one.before)
        joined = "" if not without or without.endswith((b"\n", b"\r")) else one.joined or "\n"
        after = put_back(data, texts, joined)
        before = None if without is None else hashlib.sha256(without).hexdigest()
        lists.append(replace(one, before=before, joined=joined, after=hashlib.sha256(after).hexdigest()))
    receipt = replace(work.receipt, lists=tuple(lists))
    if receipt != work.receipt:
        _begin(root, replace(work, receipt=receipt), disk)
    return receipt
