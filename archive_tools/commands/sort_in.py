"""Taking in photographs from a folder elsewhere."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import (
    FINE,
    MACHINE_FAULT,
    PROBLEMS,
    WRONG_USE,
    Day,
    collection_option,
    json_option,
    print_json,
    quiet_option,
    say,
    stop,
    tell,
)
from archive_tools.model.vocabulary import nearest
from archive_tools.sort_in.card import card_svg
from archive_tools.sort_in.carry_out import CannotFinishError, ChangedError, take_back
from archive_tools.sort_in.disk import BusyError, Disk
from archive_tools.sort_in.look import Progress, WrongSourceError
from archive_tools.sort_in.payload import card_text, end_card_text
from archive_tools.sort_in.receipt import UNFINISHED, BadReceiptError
from archive_tools.sort_in.telling import as_json, lines_of, summary, taken_back_as_json
from archive_tools.sort_in.work import NoCollectionError, NoRoomError, collection_in, take_in

_END = "end"
_OFTEN = 100
"""Pictures looked at between two words of how far it has come."""


@click.command("sort-in")
@click.argument("source", required=False, type=click.Path(path_type=Path), metavar="FOLDER")
@click.option("--apply", "does", is_flag=True, help="Do it; without this only the plan is shown.")
@click.option(
    "--mapping",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="A table in CSV (a first row file,accession, and as needed view, date, dated_by, caption …) that decides "
    "where other ways differ; several accessions with semicolons between them; a dash leaves a picture out.",
)
@click.option(
    "--session", multiple=True, metavar="ACCESSION", help="Whose is what nothing else claims; may be repeated."
)
@click.option(
    "--undo", type=click.Path(exists=True, dir_okay=False, path_type=Path), metavar="RECEIPT", help="Take a run back."
)
@click.option("--card", multiple=True, metavar="ACCESSION", help="Print a session card as SVG; “end” closes a session.")
@click.option("--today", "day", type=Day(), default=date.today, hidden=True)
@collection_option
@json_option
@quiet_option
def sort_in(
    *,
    source: Path | None,
    does: bool,
    mapping: Path | None,
    session: tuple[str, ...],
    undo: Path | None,
    card: tuple[str, ...],
    day: date,
    folder: Path,
    as_json: bool,
    quiet: bool,
) -> None:
    r"""Take the photographs in FOLDER into the trees' folders: a plan first, done with --apply.

    Whose a picture is, it knows by the code of a session card or of the tree's label photographed before it (all that
    the camera takes until the next code), by an accession or former number in its path, or by a mapping file. Where
    these differ the picture is doubtful and stays out. A card photographed with two cameras sets their clocks: from
    then on the codes of each count for both.

    Pictures are copied as they are, named by date and view, and listed in photos.yml. JPEG, PNG, TIFF, WebP, AVIF, and
    with an extra HEIC and DNG. Nothing in FOLDER is ever changed; what was taken in can be taken back with --undo and
    the receipt, and a run that was cut short goes on when it is repeated.

    \b
    archive-tools sort-in --card S1979.2 > card.svg      a card to print
    archive-tools sort-in ~/pictures/june                the plan
    archive-tools sort-in ~/pictures/june --apply        does it
    archive-tools sort-in --undo documents/receipts/…    takes it back
    """
    if sum(map(bool, (source, undo, card))) != 1:
        raise click.UsageError("name one thing: a FOLDER, a receipt with --undo, or a tree with --card")
    with _faults(folder):
        if card:
            _print_card(folder, card, day)
        elif undo:
            _undo(folder, undo, as_json)
        elif source:
            _take_in(folder, source, does, mapping, session, day, as_json, quiet)


def _take_in(
    root: Path,
    source: Path,
    does: bool,
    mapping: Path | None,
    session: tuple[str, ...],
    day: date,
    in_json: bool,
    quiet: bool,
) -> None:
    done = take_in(root, source, day=day, apply=does, mapping=mapping, session=session, progress=_told_of(quiet))
    receipt = done.receipt.file if done.receipt else None
    if done.finished and not quiet:
        say(f"A run that was cut short is finished; its receipt: {root / done.finished.file}")
    if not does and (root / UNFINISHED).exists():
        say("A former run was cut short; the next --apply finishes it first.")
    tell(done.plan.problems)
    if in_json:
        print_json(as_json(done.plan, receipt))
    elif quiet:
        for line in summary(done.plan, receipt is not None):
            click.echo(line)
    else:
        for line in lines_of(done.plan, receipt is not None):
            click.echo(line)
    if receipt and not quiet:
        say(f"The receipt, with which it can be taken back: {root / receipt}")
    sys.exit(PROBLEMS if done.plan.problems else FINE)


def _undo(root: Path, file: Path, in_json: bool) -> None:
    gone, stay = take_back(root, file, Disk())
    if in_json:
        print_json(taken_back_as_json(str(file), len(gone.pictures), stay))
    for path, why in stay.items():
        say(f"{path} stays: {why}")
    if stay:
        say("What was changed by hand is left to be taken away by hand: the file, and its entry in photos.yml.")
    say(f"{len(gone.pictures)} of {len(gone.pictures) + len(stay)} pictures were taken back.")
    sys.exit(PROBLEMS if stay else FINE)


def _print_card(root: Path, accessions: tuple[str, ...], day: date) -> None:
    trees = collection_in(root).trees
    if accessions == (_END,) and _END not in trees:
        click.echo(card_svg(end_card_text(), "End", "What follows is nobody's."), nl=False)
        return
    for accession in accessions:
        if accession not in trees:
            near = nearest(accession, trees)
            stop(WRONG_USE, f"no tree {accession} in {root}{f'; did you mean {near}?' if near else ''}")
    called = trees[accessions[0]].called() if len(accessions) == 1 else "Pictures of these trees together"
    click.echo(card_svg(card_text(accessions, day), " + ".join(accessions), called), nl=False)


def _after_a_fault(root: Path) -> str:
    if (root / UNFINISHED).exists():
        return f"What was begun could not be taken back; repeat it, or take it back with --undo {root / UNFINISHED}."
    return "The collection is as it was before."


@contextmanager
def _faults(root: Path) -> Iterator[None]:
    """Turns what cannot be done into a message and its code."""
    try:
        yield
    except (WrongSourceError, BadReceiptError) as fault:
        stop(WRONG_USE, f"{fault}.")
    except NoCollectionError as fault:
        tell(fault.problems)
        stop(PROBLEMS, "Stopped: the collection cannot be read. Nothing was written.")
    except (CannotFinishError, BusyError, ChangedError) as fault:
        stop(PROBLEMS, f"Stopped: {fault}. Nothing was written.")
    except NoRoomError as fault:
        stop(MACHINE_FAULT, f"Stopped: {fault}. Nothing was written.")
    except OSError as fault:
        where = f" ({fault.filename})" if fault.filename else ""
        stop(MACHINE_FAULT, f"Stopped: {fault.strerror or fault}{where}. {_after_a_fault(root)}")


def _told_of(quiet: bool) -> Progress | None:
    """Says now and then how far a long look has come."""
    if quiet:
        return None

    def progress(what: str, done: int, of: int) -> None:
        if done % _OFTEN == 0 and done < of:
            say(f"{what}: {done} of {of}")

    return progress
