"""A tree's dates and ages, with their proofs."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import (
    as_of_option,
    collection_option,
    edition_option,
    json_option,
    print_json,
    view_with,
)
from archive_tools.model.grades import Edition
from archive_tools.publish.terminal_pages import chronology_page
from archive_tools.reason.chronology_json import as_json as chronology_as_json


@click.command()
@click.argument("accession")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
@json_option
def chronology(accession: str, folder: Path, edition: Edition, as_of: date, as_json: bool) -> None:
    """A tree's dates and ages in every grade, with the statements that prove each end.

    With --as-of in the past the answer is for that day by today's evidence, not by what was known then.
    """
    view = view_with(folder, edition, as_of, accession)
    if as_json:
        print_json(chronology_as_json(view.findings.chronologies[accession]))
    else:
        click.echo(chronology_page(view, accession))
