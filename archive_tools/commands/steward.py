"""One steward's trees."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from archive_tools import pipeline
from archive_tools.cli_options import (
    WRONG_USE,
    as_of_option,
    collection_option,
    edition_option,
    json_option,
    print_json,
    refusals,
    stop,
)
from archive_tools.model.grades import Edition
from archive_tools.publish.terminal_stewards import steward_page
from archive_tools.reason.steward_json import steward_as_json


@click.command()
@click.argument("steward_id", metavar="ID")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
@json_option
def steward(steward_id: str, folder: Path, edition: Edition, as_of: date, as_json: bool) -> None:
    """All trees a steward held, made or styled; pupils and teachers; the years of which the records tell."""
    with refusals():
        view = pipeline.view(folder, edition=edition, as_of=as_of, today=date.today())
    found = view.records.stewards.get(steward_id)
    # Whoever the edition may not name cannot be asked for, not even by the word that stands for them.
    if found is None or found.masked:
        named = [key for key, one in view.records.stewards.items() if not one.masked]
        near = pipeline.nearest(steward_id, named)
        hint = f"; did you mean {near}?" if near else ""
        stop(WRONG_USE, f"no steward {steward_id} in the {edition.value} edition of {folder}{hint}")
    if as_json:
        language = view.records.settings.languages[0]
        print_json(steward_as_json(found, view.findings, view.records.stewards, language))
    else:
        click.echo(steward_page(view, steward_id))
