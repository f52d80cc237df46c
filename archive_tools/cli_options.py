"""What the commands share: their switches, the collection folder they are about, and how they speak.

Results go to standard output, messages to standard error. Codes: 0 fine, 1 problems in the collection or a refused
publication, 2 wrong use, 3 a fault of the machine.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import date, datetime
from functools import wraps
from pathlib import Path
from typing import Any, NoReturn

import click

from archive_tools import pipeline
from archive_tools.model.grades import Edition
from archive_tools.model.problems import Problem
from archive_tools.model.view import EditionView
from archive_tools.publish.problem_lines import problem_line
from archive_tools.read import find_collection

FINE, PROBLEMS, WRONG_USE, MACHINE_FAULT = 0, 1, 2, 3

Command = Callable[..., Any]


class Day(click.ParamType[date]):
    """A day on the command line, written like 2026-11-25."""

    name = "DATE"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """The day, or a usage error that says how to write one."""
        if isinstance(value, date):
            return value
        try:
            return datetime.strptime(value, "%Y-%m-%d").date()
        except ValueError:
            self.fail(f"“{value}” is not a day; write it like 2026-11-25", param, ctx)


def as_of_option(command: Command) -> Command:
    """`--as-of`, by default today."""
    return click.option(
        "--as-of",
        type=Day(),
        default=date.today,
        show_default="today",
        help="The day for which ages, embargoes and what is due are worked out, by today's evidence.",
    )(command)


def edition_option(default: Edition) -> Callable[[Command], Command]:
    """`--edition`, with the default that suits the command."""
    return click.option(
        "--edition",
        type=click.Choice([edition.value for edition in Edition]),
        default=default.value,
        show_default=True,
        callback=lambda _ctx, _param, value: Edition(value),
        help="Which things may be shown.",
    )


def collection_option(command: Command) -> Command:
    """`--collection`: the command is given the folder it names, or the nearest one upwards, as `folder`."""
    option = click.option(
        "--collection",
        type=click.Path(file_okay=False, path_type=Path),
        help="The collection folder; by default the nearest folder upwards that holds collection.yml.",
    )

    @wraps(command)
    def with_folder(*args: Any, collection: Path | None, **kwargs: Any) -> Any:
        return command(*args, folder=collection_folder(collection), **kwargs)

    return option(with_folder)


def folder_argument(command: Command) -> Command:
    """The collection folder as an argument (or `--collection`), given to the command as `folder`."""
    argument = click.argument("directory", required=False, type=click.Path(file_okay=False, path_type=Path))

    @wraps(command)
    def with_folder(*args: Any, directory: Path | None, collection: Path | None, **kwargs: Any) -> Any:
        if directory and collection and directory.resolve() != collection.resolve():
            raise click.UsageError("the folder is given twice, as an argument and with --collection")
        return command(*args, folder=collection_folder(directory or collection), **kwargs)

    option = click.option("--collection", type=click.Path(file_okay=False, path_type=Path), hidden=True)
    return argument(option(with_folder))


pages_option = click.option(
    "--pages",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="A folder of hand-written pages in Markdown, instead of the collection's own pages/.",
)
json_option = click.option(
    "--json", "as_json", is_flag=True, help="The machine form on standard output, nothing else there."
)
quiet_option = click.option("--quiet", is_flag=True, help="No messages but problems.")


def collection_folder(given: Path | None) -> Path:
    """The folder meant; a usage error where there is no collection in it."""
    if given is not None:
        if not given.is_dir():
            raise click.UsageError(f"there is no folder {given}")
        if not (given / "collection.yml").is_file():
            raise click.UsageError(f"{given} holds no collection.yml, so it is not a collection folder")
        return given
    found = find_collection(Path.cwd())
    if found is None:
        raise click.UsageError("no collection.yml here or in any folder above; name the folder with --collection DIR")
    return found


@contextmanager
def refusals() -> Iterator[None]:
    """Turns a refusal of the pipeline into its problems on standard error and code 1."""
    try:
        yield
    except pipeline.RefusedError as refused:
        tell(refused.problems)
        stop(PROBLEMS, f"Stopped: {refused}. Nothing was published.")


def tell(problems: Iterable[Problem]) -> None:
    """Problems, each in a line or two, on standard error."""
    for problem in problems:
        say(problem_line(problem))


def print_json(value: dict[str, object]) -> None:
    """The machine form, on standard output."""
    click.echo(json.dumps(value, ensure_ascii=False, indent=2))


def say(message: str) -> None:
    """A message for a person, on standard error."""
    click.echo(message, err=True)


def stop(code: int, message: str) -> NoReturn:
    """Say why, and leave with a code."""
    say(message)
    sys.exit(code)


def view_with(folder: Path, edition: Edition, as_of: date, accession: str) -> EditionView:
    """The view of one edition that holds a tree; leaves with a message where it cannot be read or has no such tree."""
    return gathered_with(folder, edition, as_of, accession)[1]


def gathered_with(folder: Path, edition: Edition, as_of: date, accession: str) -> tuple[pipeline.Gathered, EditionView]:
    """The collection as it was gathered, and the view of one edition that holds a tree; leaves as `view_with`."""
    today = date.today()
    with refusals():
        gathered = pipeline.gather(folder, today=today)
        view = pipeline.view_in(gathered, edition=edition, as_of=as_of, today=today)
    if accession not in view.records.trees:
        near = pipeline.nearest(accession, view.records.trees)
        hint = f"; did you mean {near}?" if near else ""
        stop(WRONG_USE, f"no tree {accession} in the {edition.value} edition of {folder}{hint}")
    return gathered, view
