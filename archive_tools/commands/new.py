"""Starter files, for records that are to be written."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from archive_tools import starters
from archive_tools.cli_options import WRONG_USE, collection_option, stop


@click.group()
def new() -> None:
    """Write a starter file with comments. Nothing that exists is written over."""


@new.command("tree")
@click.argument("accession")
@click.option("--name", required=True, help="What the tree is called.")
@click.option("--taxon", required=True, help="Its botanical name.")
@collection_option
def new_tree(accession: str, name: str, taxon: str, folder: Path) -> None:
    """A folder and record for a tree."""
    path = folder / "trees" / f"{accession}-{starters.slug_of(name)}" / "tree.yml"
    taken = sorted((folder / "trees").glob(f"{accession}-*/tree.yml"))
    if taken and taken[0] != path:
        stop(WRONG_USE, f"{taken[0]} already has the accession {accession}; nothing was written")
    _write("tree", path, {"accession": accession, "name": name, "taxon": taxon})
    (path.parent / "notes").mkdir(exist_ok=True)
    (path.parent / "photos").mkdir(exist_ok=True)


@new.command("note")
@click.argument("accession")
@click.argument("title")
@click.option("--date", "when", default=lambda: date.today().isoformat(), help="The day, or a vague date like 1951~.")
@collection_option
def new_note(accession: str, title: str, when: str, folder: Path) -> None:
    """A dated note about a tree."""
    folders = sorted((folder / "trees").glob(f"{accession}-*")) + sorted((folder / "trees").glob(accession))
    if not folders:
        stop(WRONG_USE, f"no tree {accession} in {folder / 'trees'}; write one with: archive-tools new tree")
    path = folders[0] / "notes" / f"{when}-{starters.slug_of(title)}.md"
    _write("note", path, {"title": starters.as_yaml(title)})


@new.command("steward")
@click.argument("steward_id")
@click.option("--name", required=True, help="The name as it is to be printed.")
@click.option("--kind", default="person", show_default=True)
@collection_option
def new_steward(steward_id: str, name: str, kind: str, folder: Path) -> None:
    """A person, nursery, club or institution."""
    _write("steward", folder / "stewards" / f"{steward_id}.yml", {"name": name, "kind": kind})


@new.command("source")
@click.argument("source_id")
@click.option("--title", required=True)
@click.option("--kind", default="letter", show_default=True)
@collection_option
def new_source(source_id: str, title: str, kind: str, folder: Path) -> None:
    """A ledger, letter, interview, publication …"""
    _write("source", folder / "sources" / f"{source_id}.yml", {"title_text": title, "kind": kind})


def _write(sort: str, path: Path, values: dict[str, str]) -> None:
    try:
        click.echo(starters.write_starter(sort, path, values))
    except starters.AlreadyThereError as there:
        stop(WRONG_USE, str(there))
