"""A tree's life on one page."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import as_of_option, collection_option, edition_option, view_with
from archive_tools.model.grades import Edition
from archive_tools.publish.terminal_pages import tree_page


@click.command()
@click.argument("accession")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
def show(accession: str, folder: Path, edition: Edition, as_of: date) -> None:
    """A tree's life on one page of the terminal."""
    view = view_with(folder, edition, as_of, accession)
    click.echo(tree_page(view, accession))
