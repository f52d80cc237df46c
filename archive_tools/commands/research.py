"""What evidence would gain most."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from archive_tools import pipeline
from archive_tools.cli_options import (
    as_of_option,
    collection_option,
    edition_option,
    json_option,
    print_json,
    refusals,
)
from archive_tools.model.grades import Edition
from archive_tools.publish.terminal_pages import research_as_json, research_page


@click.command()
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
@json_option
def research(folder: Path, edition: Edition, as_of: date, as_json: bool) -> None:
    """What new evidence would gain most years, ranked over the collection."""
    with refusals():
        view = pipeline.view(folder, edition=edition, as_of=as_of, today=date.today())
    if as_json:
        print_json({"as_of": as_of.isoformat(), "research": research_as_json(view)})
    else:
        click.echo(research_page(view))
