"""Taking in from end to end: look, plan, and where it is asked for, do; what the command calls."""

from __future__ import annotations

import contextlib
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from archive_tools.made_before import CACHE, PHOTOGRAPHS
from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem
from archive_tools.read import FactsCache, read_collection
from archive_tools.read.photo_files import UnreadablePicture
from archive_tools.sort_in.carry_out import ChangedError, carry_out, finish
from archive_tools.sort_in.disk import Disk
from archive_tools.sort_in.look import Progress, Remembered, WrongSourceError, house_in, refuse_source, source_in
from archive_tools.sort_in.mapping import read_mapping
from archive_tools.sort_in.opening import pixels_hash
from archive_tools.sort_in.plan import Plan, plan_of
from archive_tools.sort_in.receipt import Receipt

_TRIES = 3


class NoCollectionError(Exception):
    """The collection cannot be read; `problems` says why."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("the collection cannot be read")
        self.problems = problems


class NoRoomError(Exception):
    """The disk has no room for the pictures; the message says how much is wanted. Nothing is written."""


@dataclass(frozen=True, slots=True)
class Done:
    """The plan, and the receipt of what was done. finished: a run cut short that was brought to its end first."""

    plan: Plan
    receipt: Receipt | None = None
    finished: Receipt | None = None


def take_in(
    root: Path,
    folder: Path,
    *,
    day: date,
    apply: bool,
    mapping: Path | None = None,
    session: tuple[str, ...] = (),
    disk: Disk | None = None,
    progress: Progress | None = None,
) -> Done:
    """Plan what is to be done with the pictures in `folder`, and with `apply` do it.

    A run that was cut short is finished first. Where something has changed between the plan and the doing, the plan is
    made anew. Raises WrongSourceError, NoCollectionError, CannotFinishError, BadReceiptError, BusyError, ChangedError
    (where things go on changing), NoRoomError and OSError; in each case nothing is half done.
    """
    refuse_source(folder, root)
    disk = disk or Disk()
    former = finish(root, folder, disk) if apply else None
    finished = former.receipt if former is not None and not former.takes_back else None
    tries = 0
    while True:
        tries += 1
        plan = plan_for(root, folder, day=day, mapping=mapping, session=session, progress=progress, afresh=tries > 1)
        if not apply or plan.problems or not plan.filed():
            return Done(plan, None, finished)
        _room_for(plan, root)
        try:
            return Done(plan, carry_out(root, folder, plan, day, disk), finished)
        except ChangedError:
            if tries == _TRIES:
                raise


def plan_for(
    root: Path,
    folder: Path,
    *,
    day: date,
    mapping: Path | None = None,
    session: tuple[str, ...] = (),
    progress: Progress | None = None,
    afresh: bool = False,
) -> Plan:
    """What would be done with the pictures in `folder`; see `take_in`. afresh: look at every picture again."""
    collection = collection_in(root)
    unknown = [one for one in session if one not in collection.trees]
    if unknown:
        raise WrongSourceError(f"the collection has no tree {unknown[0]}")
    remembered = Remembered(root / CACHE / "pictures-looked-at.json", use=not afresh)
    source = source_in(folder, root, day, remembered, progress)
    house = house_in(root, collection)
    remembered.save()
    said = read_mapping(mapping, [one.file for one in source.pictures], collection)
    return plan_of(source, house, said, session, _pixels(root, folder))


def _room_for(plan: Plan, root: Path) -> None:
    wanted, free = sum(line.size for line in plan.filed()), shutil.disk_usage(root).free
    if wanted > free:
        of = f"{wanted / 1_000_000:,.1f} MB are wanted, and {free / 1_000_000:,.1f} MB are free"
        raise NoRoomError(f"the disk on which {root} lies has no room for these pictures: {of}")


def collection_in(root: Path) -> Collection:
    """The collection at `root`. Raises NoCollectionError where it cannot be read at all."""
    facts = FactsCache(root / CACHE / PHOTOGRAPHS)
    collection, problems = read_collection(root, None, facts)
    with contextlib.suppress(OSError):
        facts.save()
    if collection is None:
        raise NoCollectionError(tuple(problems))
    return collection


def _pixels(root: Path, folder: Path) -> Callable[[str, bool], str | None]:
    """Hashes of pixels, each made once."""
    made: dict[tuple[str, bool], str | None] = {}

    def pixels(file: str, in_collection: bool) -> str | None:
        key = (file, in_collection)
        if key not in made:
            try:
                made[key] = pixels_hash((root if in_collection else folder) / file)
            except (UnreadablePicture, OSError):
                made[key] = None
        return made[key]

    return pixels
