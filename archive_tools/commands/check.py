"""The command that tells every problem."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from archive_tools import pipeline
from archive_tools.cli_options import (
    FINE,
    PROBLEMS,
    as_of_option,
    folder_argument,
    json_option,
    print_json,
    quiet_option,
    say,
)
from archive_tools.publish.problem_lines import counted, number_of, problem_line, problems_as_json


@click.command()
@folder_argument
@as_of_option
@json_option
@quiet_option
def check(folder: Path, as_of: date, as_json: bool, quiet: bool) -> None:
    """Read everything and report every problem, with file, line and column.

    Leaves with code 1 on errors and on dates that contradict each other; warnings alone leave with 0.
    """
    problems = pipeline.check(folder, as_of=as_of, today=date.today())
    errors, warnings = counted(problems)
    if as_json:
        print_json(problems_as_json(problems))
    else:
        for problem in problems:
            click.echo(problem_line(problem))
        if not quiet:
            say(f"{number_of(errors, 'error')}, {number_of(warnings, 'warning')} in {folder}")
    sys.exit(PROBLEMS if errors else FINE)
