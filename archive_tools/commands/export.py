"""The collection in open models, for other people's programs. One command a format; to add one, write it here."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

import click

from archive_tools import pipeline
from archive_tools.cli_options import as_of_option, collection_option, edition_option, refusals
from archive_tools.model.grades import Edition
from archive_tools.model.view import EditionView
from archive_tools.publish.exports_linked_art import linked_art_document
from archive_tools.publish.exports_provo import prov_document
from archive_tools.publish.open_models import words_in

_MODELS: Mapping[str, Callable[[EditionView], dict[str, object]]] = {
    "prov": prov_document,
    "linked-art": linked_art_document,
}


@click.group()
def export() -> None:
    """The collection in open models, on standard output."""


@export.command()
@click.option(
    "--model",
    type=click.Choice(list(_MODELS)),
    default="prov",
    show_default=True,
    help="W3C PROV-O, or Linked Art (CIDOC CRM).",
)
@collection_option
@edition_option(Edition.PUBLIC)
@as_of_option
def jsonld(model: str, folder: Path, edition: Edition, as_of: date) -> None:
    """Holders, hands, kin and plantings as linked data in JSON-LD, which carries its own context."""

    def write(view: EditionView) -> str:
        return json.dumps(_MODELS[model](view), ensure_ascii=False, indent=1)

    with refusals():
        click.echo(
            pipeline.export(folder, edition=edition, as_of=as_of, today=date.today(), write=write, read=words_in)
        )
