"""Through whose hands a tree went."""

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
from archive_tools.publish.terminal_pages import lineage_page
from archive_tools.publish.terminal_stewards import lineage_in_words, present_in_figures
from archive_tools.reason.lineage_json import lineage_as_json


@click.command()
@click.argument("accession")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
@json_option
def lineage(accession: str, folder: Path, edition: Edition, as_of: date, as_json: bool) -> None:
    """Through whose hands a tree went, with its gaps, and who worked on it."""
    view = view_with(folder, edition, as_of, accession)
    if as_json:
        found, settings = view.findings, view.records.settings
        custody, line = found.custodies[accession], found.lineages[accession]
        print_json(lineage_as_json(custody, line, view.records.stewards, view.as_of, settings.languages[0]))
    else:
        present = present_in_figures(view, accession)
        words = lineage_in_words(view.findings.lineages[accession])
        click.echo("\n".join([lineage_page(view, accession), *present, "", words]).rstrip())
