"""The commands that make a site and show it."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import (
    FINE,
    as_of_option,
    edition_option,
    folder_argument,
    pages_option,
    quiet_option,
    refusals,
    say,
    tell,
)
from archive_tools.model.grades import Edition
from archive_tools.model.problems import Severity
from archive_tools.publish.problem_lines import counted


@click.command()
@folder_argument
@click.option("--out", type=click.Path(path_type=Path), default=Path("site"), show_default=True, help="Where it goes.")
@edition_option(Edition.PUBLIC)
@as_of_option
@pages_option
@click.option("--site-url", help="The address under which it will be published, instead of the collection's own.")
@quiet_option
def build(
    *, folder: Path, out: Path, edition: Edition, as_of: date, pages: Path | None, site_url: str | None, quiet: bool
) -> None:
    """Make the site of one edition.

    A single bad statement is left out and named. A record that cannot be trusted, or anything private about to get
    out, stops the build; the former site then stays as it was.
    """
    from archive_tools.site_plugin import build_site

    with refusals():
        built = build_site(folder, out, edition=edition, as_of=as_of, pages=pages, site_url=site_url, quiet=quiet)
    tell(problem for problem in built.problems if problem.severity is Severity.ERROR)
    if not quiet:
        warnings = counted(built.problems)[1]
        if warnings:
            say(f"{warnings} warnings; archive-tools check tells them")
        for line in built.summary_lines:
            say(line)
    sys.exit(FINE)


@click.command()
@folder_argument
@edition_option(Edition.PUBLIC)
@as_of_option
@pages_option
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True)
@click.option("--out", type=click.Path(path_type=Path), help="Also keep the built site here.")
@quiet_option
def serve(
    *, folder: Path, edition: Edition, as_of: date, pages: Path | None, port: int, out: Path | None, quiet: bool
) -> None:
    """Build the site, show it on this machine only, and build it again when something changes."""
    from archive_tools.site_plugin import serve_site

    with refusals():
        serve_site(folder, edition=edition, as_of=as_of, pages=pages, port=port, out=out, quiet=quiet)
