"""The plan: facts of pictures in, what is to be done with each out. Nothing is read or written here."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from pathlib import PurePosixPath

from archive_tools.model.problems import Problem
from archive_tools.read.photos import LIST
from archive_tools.sort_in.cameras import told_apart
from archive_tools.sort_in.clocks import natural, shots_of
from archive_tools.sort_in.dating import Dated, dated, days_of
from archive_tools.sort_in.decide import Coded, Verdict, codes_meant, verdict_of
from archive_tools.sort_in.duplicates import Near, PixelsHash, Same, compared
from archive_tools.sort_in.facts import House, MappingFile, MappingRow, Passed, Picture, Source
from archive_tools.sort_in.mapping import KEYS
from archive_tools.sort_in.names import numbers_of, view_in_name
from archive_tools.sort_in.naming import Names
from archive_tools.sort_in.sessions import Belongs, sessions_of
from archive_tools.sort_in.sheet import Entry, SheetError, add_entries, files_named


class State(StrEnum):
    """What becomes of one file of the source folder."""

    FILED = "filed"
    DOUBTFUL = "doubtful"
    SAME = "same"
    CARD = "card"
    LEFT_OUT = "left out"
    UNREADABLE = "unreadable"


@dataclass(frozen=True, slots=True)
class Line:
    """What becomes of one file, and why.

    of: the trees it goes to. target: its path in the collection. because: what says so; told: what the curator should
    know besides; doubt: why it stays out. entry: what photos.yml will say. same: what it is the same as; near: what it
    looks nearly like.
    """

    source: str
    state: State
    because: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
    doubt: str | None = None
    of: tuple[str, ...] = ()
    target: str | None = None
    entry: Entry = ()
    sha256: str = ""
    size: int = 0
    same: Same | None = None
    near: tuple[Near, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """One photos.yml to be added to: SHA-256 of what it is now (None: there is none), and what it will be.

    blocks: for each target file name, its entry's text; joined: what is put before the first of them.
    """

    file: str
    before: str | None
    data: bytes
    joined: str
    blocks: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything that is to be done, and everything that the curator should see before it is."""

    source: str
    lines: tuple[Line, ...]
    sheets: tuple[SheetPlan, ...] = ()
    clocks: tuple[str, ...] = ()
    empty: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()
    others: tuple[tuple[str, int], ...] = ()
    """Files that are no pictures: how many of each ending, in small letters, the most first."""
    cameras: tuple[tuple[str, int], ...] = ()

    def filed(self) -> tuple[Line, ...]:
        """The lines of the pictures that go in."""
        return tuple(line for line in self.lines if line.state is State.FILED)


def plan_of(source: Source, house: House, mapping: MappingFile, session: tuple[str, ...], pixels: PixelsHash) -> Plan:
    """What is to be done with what lies in a source folder.

    session: accessions to which everything belongs that nothing else claims. A mapping file with faults is not used:
    the plan then holds its problems and files nothing.
    """
    settings = house.collection.settings
    pictures = sorted(told_apart(source.pictures), key=lambda one: natural(one.file))
    coded = codes_meant(pictures, house.collection.trees, settings.site_url)
    same, near = compared(pictures, house.kept, pixels)
    copies = {file for file, one in same.items() if one.kind == "bytes" and not one.in_collection}
    sessions = sessions_of(shots_of((one for one in pictures if one.file not in copies), coded.meant, coded.small))
    numbers = numbers_of(house.collection.trees, settings.accession_pattern)
    lines = []
    for picture in pictures:
        row = mapping.rows.get(picture.file)
        stem = picture.file.rpartition("/")[2].rpartition(".")[0]
        date = dated(picture, row, numbers.written_in(stem), settings.dates, settings.timezone)
        belongs = sessions.belongs.get(picture.file, Belongs())
        verdict = verdict_of(picture, belongs, row, session, numbers, days_of(date, settings.dates))
        alike = same.get(picture.file), near.get(picture.file, ())
        lines.append(_line(picture, verdict, date, row, coded, *alike, picture.file in sessions.belongs))
    lines = _quiet_bursts(lines, pictures)
    told = [Line(one.file, State.UNREADABLE, doubt=one.why) for one in source.passed if one.is_picture]
    plan = Plan(
        source.name, (), (), sessions.clocks, sessions.empty, mapping.problems, _others(source.passed),
        _cameras(pictures),
    )  # fmt: skip
    if mapping.problems:
        return replace(plan, lines=tuple(sorted([*lines, *told], key=lambda line: natural(line.source))))
    lines, sheets, problems = _filed(lines, {one.file: one for one in pictures}, house)
    everything = tuple(sorted([*lines, *told], key=lambda line: natural(line.source)))
    return replace(plan, lines=everything, sheets=sheets, problems=problems)


def _line(
    picture: Picture,
    verdict: Verdict,
    date: Dated,
    row: MappingRow | None,
    coded: Coded,
    same: Same | None,
    near: tuple[Near, ...],
    timed: bool,
) -> Line:
    told = list(verdict.told)
    if (verdict.doubt or picture.file in coded.cards) and same is None and coded.meant:
        if picture.clock is None:
            told.append("its camera wrote no time of day, so the codes of this folder say nothing of it")
        elif picture.clock_doubted and not timed:
            told.append(
                "its camera's clock was not set, and the names of its files hold no running numbers that tell their "
                "order, so the codes of this folder say nothing of it"
            )
    told += [f"a code in it is none of this collection's: {text}" for text in coded.strange.get(picture.file, ())]
    made = Line(
        picture.file, State.FILED, verdict.because, tuple(told), verdict.doubt, verdict.trees, sha256=picture.sha256,
        size=picture.size, near=near,
    )  # fmt: skip
    mapped = row is not None and bool(row.trees)
    if verdict.left_out:
        return replace(made, state=State.LEFT_OUT)
    if picture.file in coded.cards and not mapped:
        meant = coded.meant[picture.file]
        says = meant.doubt or (
            "ends a session" if meant.is_end else f"begins the pictures of {' and '.join(meant.trees)}"
        )
        return replace(made, state=State.CARD, because=(says,), doubt=None, of=meant.trees, near=())
    if same is not None:
        return replace(made, state=State.SAME, doubt=None, same=same, near=())
    if verdict.doubt is not None:
        return replace(made, state=State.DOUBTFUL, of=())
    if picture.not_shown:
        told.append(f"kept as it is, but the site cannot show it: {picture.not_shown}")
    if picture.pages > 1:
        told.append(f"the file holds {picture.pages} pictures, of which the site shows the first")
    told += date.told
    return replace(made, told=tuple(told), entry=_entry(picture, verdict, date, row))


def _entry(picture: Picture, verdict: Verdict, date: Dated, row: MappingRow | None) -> Entry:
    """The entry without its file name, which is given later."""
    said: dict[str, str | list[str]] = dict(row.entry) if row is not None else {}
    if len(verdict.trees) > 1:
        said["of"] = list(verdict.trees)
    if date.text is not None:
        said["date"] = date.text
        if date.by is not None:
            said["dated_by"] = date.by
    view = view_in_name(picture.file.rpartition("/")[2].rpartition(".")[0])
    if view is not None:
        said.setdefault("view", view)
    return tuple((key, said[key]) for key in ("of", *KEYS) if key in said)


def _filed(
    lines: Sequence[Line], pictures: Mapping[str, Picture], house: House
) -> tuple[list[Line], tuple[SheetPlan, ...], tuple[Problem, ...]]:
    """Every picture that goes in with its place and name, and every photos.yml with its new entries."""
    names = _names_taken(house)
    by_folder: dict[str, list[Line]] = {}
    made: dict[str, Line] = {line.source: line for line in lines}
    going = [line for line in lines if line.state is State.FILED]
    for line in sorted(going, key=lambda one: _in_order(pictures[one.source])):
        owner = line.of[0] if len(line.of) == 1 else ""
        said = dict(line.entry)
        date, view = said.get("date"), said.get("view")
        name = names[owner].give(
            date if isinstance(date, str) else None,
            view if isinstance(view, str) else None,
            pictures[line.source].ending,
            house.collection.settings.dates,
            [names[one] for one in line.of if one != owner],
        )
        path = house.folders[owner].path
        placed = replace(line, target=f"{path}/{name}", entry=(("file", name), *line.entry))
        made[line.source] = placed
        by_folder.setdefault(owner, []).append(placed)
    sheets: list[SheetPlan] = []
    problems: list[Problem] = []
    for owner, placed_here in sorted(by_folder.items()):
        folder = house.folders[owner]
        file = f"{folder.path}/{LIST}"
        try:
            written = add_entries(folder.sheet, [line.entry for line in placed_here], file)
        except SheetError as fault:
            problems.append(fault.problem)
            for line in placed_here:
                doubt = f"{fault.problem.mark}: {fault.problem.what}"
                made[line.source] = replace(line, state=State.DOUBTFUL, target=None, doubt=doubt)
            continue
        named = tuple((str(line.entry[0][1]), block) for line, block in zip(placed_here, written.blocks, strict=True))
        sheets.append(SheetPlan(file, _hash(folder.sheet), written.data, written.joined, named))
    return list(made.values()), tuple(sheets), tuple(problems)


def _names_taken(house: House) -> dict[str, Names]:
    """The names given already, by accession: in the folder, in its photos.yml, and to pictures kept elsewhere."""
    taken: dict[str, list[str]] = {
        accession: [*folder.names, *files_named(folder.sheet, f"{folder.path}/{LIST}")]
        for accession, folder in house.folders.items()
    }
    for kept in house.kept:
        for accession in kept.of:
            if accession in taken:
                taken[accession].append(kept.path.rpartition("/")[2])
    return {accession: Names(names) for accession, names in taken.items()}


def _in_order(picture: Picture) -> tuple[str, tuple[tuple[int, str], ...]]:
    return (
        picture.clock.replace(tzinfo=None).isoformat() if picture.clock else picture.taken or "undated",
        natural(picture.file),
    )


def _quiet_bursts(lines: Iterable[Line], pictures: Iterable[Picture]) -> list[Line]:
    """Pictures taken after one another of one tree look alike as a matter of course: of those nothing is said.

    Copies of one picture show the same moment, or none any more: those are told.
    """
    lines = list(lines)
    whose = {line.source: line.of for line in lines}
    clock = {one.file: one.clock for one in pictures}

    def told(line: Line, near: Near) -> bool:
        burst = None not in (clock[line.source], clock.get(near.other)) and clock[line.source] != clock[near.other]
        return near.in_collection or not burst or not line.of or whose[near.other] != line.of

    return [replace(line, near=tuple(one for one in line.near if told(line, one))) for line in lines]


def _cameras(pictures: Iterable[Picture]) -> tuple[tuple[str, int], ...]:
    counted: dict[str, int] = {}
    for picture in pictures:
        counted[picture.camera.called] = counted.get(picture.camera.called, 0) + 1
    return tuple(sorted(counted.items()))


def _others(passed: Iterable[Passed]) -> tuple[tuple[str, int], ...]:
    counted = Counter(PurePosixPath(one.file).suffix.lower() for one in passed if not one.is_picture)
    return tuple(sorted(counted.items(), key=lambda one: (-one[1], one[0])))


def _hash(data: bytes | None) -> str | None:
    return None if data is None else hashlib.sha256(data).hexdigest()
