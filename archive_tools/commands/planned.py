"""What `tour` and `talk` share: finding the plan, its edition and day, the cache, and putting files in place."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

import click

from archive_tools import pipeline
from archive_tools.cli_options import PROBLEMS, WRONG_USE, refusals, stop, tell
from archive_tools.made_before import CACHE
from archive_tools.model.collection import Collection
from archive_tools.model.grades import Edition
from archive_tools.model.grounds import Talk, Tour
from archive_tools.publish.print.document import Printed
from archive_tools.read import read_collection
from archive_tools.swap import write_whole
from archive_tools.typesetter import TypesettingError, missing_glyphs, pdf

Plan = TypeVar("Plan", Tour, Talk)
Command = Callable[..., Any]


def edition_by_audience(command: Command) -> Command:
    """`--edition`, which the audience decides where nobody says it."""
    return click.option(
        "--edition",
        type=click.Choice([edition.value for edition in Edition]),
        help="Which things may be shown; unsaid, public things to a public audience, internal ones to staff.",
    )(command)


def collection_of(folder: Path) -> Collection:
    """The collection as it is written; leaves with its problems where it cannot be read."""
    with refusals():
        collection, problems = read_collection(folder)
        if collection is None:
            raise pipeline.RefusedError(problems)
    return collection


def plan_named(wanted: str, plans: Mapping[str, Plan], folder: Path, sort: str) -> Plan:
    """The plan of a tour or talk by its name, or by its file; leaves with a message where it is not of this collection.

    sort: "tour" or "talk"; plans lie in the folder of that name with an s.
    """
    lying = folder / f"{sort}s"
    given = Path(wanted)
    if given.parent != Path() and given.resolve().parent != lying.resolve():
        stop(WRONG_USE, f"{given} does not lie in {lying}; give the name of a file there")
    if given.stem not in plans:
        near = pipeline.nearest(given.stem, plans)
        stop(WRONG_USE, f"no {sort} {given.stem} in {lying}" + (f"; did you mean {near}?" if near else ""))
    return plans[given.stem]


def edition_for(plan: Tour | Talk, said: str | None) -> Edition:
    """The edition that was asked for, else that of the plan's audience."""
    return Edition(said) if said else Edition.INTERNAL if plan.audience == "staff" else Edition.PUBLIC


def day_of(plan: Tour | Talk, said: date | None) -> date:
    """The day that was asked for, else that of the plan, else today."""
    return said or (plan.when.latest if plan.when else None) or date.today()


def known_language(collection: Collection, said: str | None) -> str | None:
    """A language the house writes in; leaves with a message for another one."""
    languages = collection.settings.languages
    if said is not None and said not in languages:
        stop(WRONG_USE, f"this house does not write in “{said}”; its languages are {', '.join(languages)}")
    return said


def cache_beside(folder: Path, out: Path) -> Path:
    """Where pictures are kept: in the collection, or with what is written where the collection may not be written."""
    return (folder if os.access(folder, os.W_OK) else out) / CACHE


def typeset(documents: Mapping[Path, Printed]) -> dict[Path, bytes]:
    """The documents as PDF; leaves with a message where a letter cannot be drawn or a document cannot be set."""
    lacking = dict.fromkeys(problem for document in documents.values() for problem in missing_glyphs(document))
    tell(lacking)
    if lacking:
        stop(PROBLEMS, "Stopped: characters would be printed as empty boxes. Nothing was written.")
    try:
        return {path: pdf(document) for path, document in documents.items()}
    except TypesettingError as fault:
        stop(PROBLEMS, f"Stopped: {fault}")


def put(files: Iterable[tuple[Path, bytes]]) -> list[Path]:
    """Write files, each whole or not at all, and tell which."""
    written = []
    for path, content in files:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(path, content)
        written.append(path)
    return written
