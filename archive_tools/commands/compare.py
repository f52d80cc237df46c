"""How a tree's photographs compare: alignments and measured change."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import as_of_option, collection_option, edition_option, gathered_with, json_option
from archive_tools.comparing import comparing, left_out
from archive_tools.model.grades import Edition
from archive_tools.publish.comparison_lines import comparisons_as_json, comparisons_page


@click.command()
@click.argument("accession")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
@json_option
def compare(accession: str, folder: Path, edition: Edition, as_of: date, as_json: bool) -> None:
    """A tree's before and after: how each pair is aligned, what changed and by how much, what else could be compared.

    Every ± is for 95 in 100 (k = 2). Pictures are laid over each other by their marks or, where they share too few, by
    what has not changed in them.
    """
    gathered, view = gathered_with(folder, edition, as_of, accession)
    tree = view.records.trees[accession]
    languages = view.records.settings.languages
    language = languages[0] if languages else ""
    found = comparing(view, accession, folder)
    lacking = left_out(gathered, view, accession, [made.id for made in found.comparisons])
    if as_json:
        told = comparisons_as_json(tree, found.comparisons, language, lacking)
        click.echo(json.dumps(told, ensure_ascii=False, indent=2))
    else:
        click.echo(comparisons_page(tree, found.comparisons, found.proposals, language, lacking))
