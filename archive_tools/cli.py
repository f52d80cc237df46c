"""The commands. Each turns its arguments into one call of the pipeline, prints, and leaves with a code.

Results go to standard output, messages to standard error. Codes: 0 fine, 1 problems in the collection or a refused
publication, 2 wrong use, 3 a fault of the machine.
"""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from archive_tools import __version__, pipeline, starters
from archive_tools.cli_options import (
    FINE,
    MACHINE_FAULT,
    PROBLEMS,
    WRONG_USE,
    as_of_option,
    collection_option,
    edition_option,
    folder_argument,
    json_option,
    pages_option,
    print_json,
    quiet_option,
    refusals,
    say,
    stop,
    tell,
)
from archive_tools.model.grades import Edition
from archive_tools.model.problems import Severity
from archive_tools.model.view import EditionView
from archive_tools.publish.problem_lines import counted, problem_line, problems_as_json
from archive_tools.publish.terminal_pages import (
    chronology_page,
    lineage_page,
    research_as_json,
    research_page,
    tree_page,
)
from archive_tools.reason.chronology_json import as_json as chronology_as_json
from archive_tools.reason.lineage_json import lineage_as_json


def main() -> None:
    """The entry point: runs a command and turns a fault of the machine into code 3 instead of a traceback."""
    try:
        cli(standalone_mode=True)
    except OSError as fault:
        where = f" ({fault.filename})" if fault.filename else ""
        say(f"The machine would not: {fault.strerror or fault}{where}")
        sys.exit(MACHINE_FAULT)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="archive-tools")
def cli() -> None:
    """The living archive of a collection of trained trees.

    Turns per-tree folders of dated photographs and notes into an honest public record: a site in two editions, with
    every age a range and every end of it proved.
    """


@cli.command()
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
            say(f"{errors} errors, {warnings} warnings in {folder}")
    sys.exit(PROBLEMS if errors else FINE)


@cli.command()
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


@cli.command()
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


@cli.command()
@click.argument("accession")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
def show(accession: str, folder: Path, edition: Edition, as_of: date) -> None:
    """A tree's life on one page of the terminal."""
    view = _view(folder, edition, as_of, accession)
    click.echo(tree_page(view, accession))


@cli.command()
@click.argument("accession")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
@json_option
def chronology(accession: str, folder: Path, edition: Edition, as_of: date, as_json: bool) -> None:
    """A tree's dates and ages in every grade, with the statements that prove each end.

    With --as-of in the past the answer is for that day by today's evidence, not by what was known then.
    """
    view = _view(folder, edition, as_of, accession)
    if as_json:
        print_json(chronology_as_json(view.findings.chronologies[accession]))
    else:
        click.echo(chronology_page(view, accession))


@cli.command()
@click.argument("accession")
@collection_option
@edition_option(Edition.INTERNAL)
@as_of_option
@json_option
def lineage(accession: str, folder: Path, edition: Edition, as_of: date, as_json: bool) -> None:
    """Through whose hands a tree went, with its gaps, and who worked on it."""
    view = _view(folder, edition, as_of, accession)
    if as_json:
        print_json(lineage_as_json(view.findings.custodies[accession]))
    else:
        click.echo(lineage_page(view, accession))


@cli.command()
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


@cli.group()
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


def _view(folder: Path, edition: Edition, as_of: date, accession: str) -> EditionView:
    with refusals():
        view = pipeline.view(folder, edition=edition, as_of=as_of, today=date.today())
    if accession not in view.records.trees:
        near = pipeline.nearest(accession, view.records.trees)
        hint = f"; did you mean {near}?" if near else ""
        stop(WRONG_USE, f"no tree {accession} in the {edition.value} edition of {folder}{hint}")
    return view
