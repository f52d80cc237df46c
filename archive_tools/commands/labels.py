"""Labels, tree tags and session cards for the printer; and which printed labels are no longer true."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import (
    MACHINE_FAULT,
    PROBLEMS,
    WRONG_USE,
    as_of_option,
    collection_option,
    edition_option,
    json_option,
    pages_option,
    print_json,
    quiet_option,
    refusals,
    say,
    stop,
    tell,
)
from archive_tools.commands.planned import put
from archive_tools.label_register import RegisterError, record_printed
from archive_tools.labelling import (
    Asked,
    LabelsMade,
    NoAddressError,
    PiecesMade,
    find_stale,
    make_labels,
    make_session_cards,
    make_tags,
)
from archive_tools.model.grades import Edition
from archive_tools.model.problems import Problem, Severity
from archive_tools.model.tree_query import QueryProblem
from archive_tools.publish.print.label_type import points_for_distance
from archive_tools.publish.print.labels import LabelFormat
from archive_tools.publish.print.qr import SMALLEST_MODULE, USUAL_MODULE
from archive_tools.publish.print.sheets import SizeError, read_size
from archive_tools.publish.print.tags import CARD_SIZE, TAG_SIZE
from archive_tools.publish.problem_lines import problem_as_json
from archive_tools.typesetter import TypesettingError

_LABEL, _LARGE = (148.0, 105.0), (210.0, 148.0)
_HINT = (
    "Outdoors: laser or pigment ink on matt waterproof polyester (200 micrometres or more), not laminated. "
    "Print at 100 %, not fitted to the page; then measure one label and try its code with a telephone."
)


@click.command()
@click.argument("query", required=False)
@click.option("--size", help="Width x height of one piece in millimetres, like 148x105 (large print: 210x148).")
@click.option(
    "--per-page",
    default="A4",
    show_default=True,
    help="The sheet: A3, A4, A5, A6, Letter, a size, or “label” for a page of each.",
)
@click.option("--bleed", type=click.FloatRange(0, 20), default=0.0, show_default=True, help="Millimetres.")
@click.option("--large-print", is_flag=True, help="Sans-serif, at least 16 point.")
@click.option("--high-contrast", is_flag=True, help="Black on white alone, without greys or the house's colour.")
@click.option("--language", help="The language of the labels (BCP 47); by default the collection's first.")
@click.option("--second-language", help="A second language beside it, as far as the records have one.")
@click.option(
    "--viewing-distance",
    type=click.FloatRange(10, 20000),
    help="Of the reader's eye, in millimetres; sets the least type.",
)
@click.option(
    "--module",
    type=click.FloatRange(SMALLEST_MODULE, 10),
    help=f"Side of one module of the QR code, in millimetres; by default {USUAL_MODULE}, more on larger labels.",
)
@click.option("--tags", is_flag=True, help="Tree tags instead: the QR code large enough for a camera, number and name.")
@click.option("--session-cards", is_flag=True, help="Cards to photograph before each tree instead.")
@click.option("--stale", is_flag=True, help="Print nothing; tell which recorded labels are no longer true.")
@click.option("--record", is_flag=True, help="Add what was printed to the register, labels/printed.yml.")
@click.option(
    "--out", type=click.Path(dir_okay=False, path_type=Path), help="The PDF file; by default labels.pdf here."
)
@pages_option
@collection_option
@edition_option(Edition.PUBLIC)
@as_of_option
@json_option
@quiet_option
def labels(
    query: str | None,
    size: str | None,
    per_page: str,
    bleed: float,
    large_print: bool,
    high_contrast: bool,
    language: str | None,
    second_language: str | None,
    viewing_distance: float | None,
    module: float | None,
    tags: bool,
    session_cards: bool,
    stale: bool,
    record: bool,
    out: Path | None,
    pages: Path | None,
    folder: Path,
    edition: Edition,
    as_of: date,
    as_json: bool,
    quiet: bool,
) -> None:
    """Labels as a PDF, checked before they are printed.

    QUERY is a query (“taxon = Acer*”) or accessions with commas between them; without one, every tree that is here.
    """
    if tags + session_cards + stale > 1 or (record and (tags or session_cards or stale)):
        raise click.UsageError("--tags, --session-cards and --stale each stand alone, and --record goes with labels")
    try:
        piece = read_size(size) if size else TAG_SIZE if tags else CARD_SIZE if session_cards else None
        width, height = piece or (_LARGE if large_print else _LABEL)
        form = LabelFormat(width, height, bleed, large_print, high_contrast, viewing_distance, module)
        asked = Asked(folder, edition, as_of, date.today(), query, pages, language, second_language, form, per_page)
        with refusals():
            if stale:
                _tell_stale(asked, as_json, quiet)
            elif tags or session_cards:
                made = make_tags(asked, (width, height)) if tags else make_session_cards(asked, (width, height))
                _hand_over_pieces(made, out or Path("tags.pdf" if tags else "session-cards.pdf"), as_json, quiet)
            else:
                _hand_over(asked, make_labels(asked), out or Path("labels.pdf"), record, as_json, quiet)
    except SizeError as fault:
        raise click.UsageError(str(fault)) from None
    except QueryProblem as fault:
        hint = f"; write {fault.instead}" if fault.instead else ""
        raise click.UsageError(f"{fault.what}{hint}") from None
    except NoAddressError as fault:
        stop(PROBLEMS, f"{fault}.")
    except TypesettingError as fault:
        stop(MACHINE_FAULT, str(fault))


def _hand_over(asked: Asked, made: LabelsMade, out: Path, record: bool, as_json: bool, quiet: bool) -> None:
    if not made.words:
        stop(WRONG_USE, "No tree of this edition is asked for and here, so there is no label to print.")
    if made.pdf is not None:
        put([(out, made.pdf)])
    recorded = _record(asked, made) if record and made.pdf is not None else 0
    if as_json:
        print_json({
            "file": str(out) if made.pdf is not None else None, "points": made.size, "per_sheet": made.sheet.count,
            "recorded": recorded, "labels": _labels_as_json(made), **_shared_json(made.problems, made.left_out),
        })  # fmt: skip
    else:
        _tell_problems(made.problems, made.left_out, quiet)
        if made.pdf is not None:
            sheets = -(-len(made.words) // made.sheet.count)
            if not quiet:
                say(f"{len(made.words)} labels of {asked.form.width:g} x {asked.form.height:g} mm on {sheets} sheets, "
                    f"text {made.size:g} point. {_type_note(asked, made)}")  # fmt: skip
                say(_HINT)
                if record:
                    say(f"{recorded} labels recorded in labels/printed.yml.")
            click.echo(out)
    if made.pdf is None:
        stop(PROBLEMS, "Nothing was printed: mend the errors above.")


def _type_note(asked: Asked, made: LabelsMade) -> str:
    kind = asked.form.type
    note = f"At least {kind.smallest:g} point is asked by {kind.guidance}."
    near = points_for_distance(75)
    if asked.form.distance is None and made.size < near:
        note += (
            f" For readers with low vision the Smithsonian guidelines ask {near:g} point at 75 mm: "
            "offer --large-print too, or set --viewing-distance."
        )
    return note


def _record(asked: Asked, made: LabelsMade) -> int:
    form = asked.form
    kind = " large print" if form.large_print else ""
    size = f"{form.width:g}x{form.height:g}{kind}{' high contrast' if form.high_contrast else ''}"
    try:
        return record_printed(
            asked.folder, made.words, printed=asked.today, as_of=asked.as_of, size=size, edition=asked.edition.value
        )
    except RegisterError as fault:
        stop(PROBLEMS, str(fault))


def _labels_as_json(made: LabelsMade) -> list[dict[str, object]]:
    told: list[dict[str, object]] = []
    for words, fit in zip(made.words, made.fits, strict=True):
        level = made.levels.get(words.accession)
        told.append({
            "accession": words.accession, "says": words.said, "fits_at": fit.size,
            "characters_a_line": round(fit.line, 1),
            "words": level.words if level else None, "grade": round(level.grade, 2) if level else None,
            "costs_most": level.costly if level else None,
        })  # fmt: skip
    return told


def _hand_over_pieces(made: PiecesMade, out: Path, as_json: bool, quiet: bool) -> None:
    if made.pdf is not None:
        put([(out, made.pdf)])
    if as_json:
        file = str(out) if made.pdf is not None else None
        print_json({"file": file, "count": made.count, "per_sheet": made.sheet.count,
                    **_shared_json(made.problems, made.left_out)})  # fmt: skip
    else:
        _tell_problems(made.problems, made.left_out, quiet)
        if made.pdf is not None:
            if not quiet:
                say(f"{made.count} pieces, {made.sheet.count} a sheet. {_HINT}")
            click.echo(out)
    if made.pdf is None:
        stop(PROBLEMS, "Nothing was printed: mend the errors above.")


def _tell_stale(asked: Asked, as_json: bool, quiet: bool) -> None:
    found, count, problems = find_stale(replace(asked, query=None))
    if as_json:
        print_json({
            "recorded": count,
            "stale": [
                {
                    "accession": one.label.accession, "printed": one.label.printed.isoformat(), "size": one.label.size,
                    "languages": list(one.label.languages), "line": one.label.mark.line,
                    "changes": [{"what": c.what, "was": c.was, "now": c.now or None} for c in one.changes],
                }
                for one in found
            ],
            **_shared_json(problems, ()),
        })  # fmt: skip
    else:
        tell(problems)
        for one in found:
            label = one.label
            languages = f", {' and '.join(label.languages)}" if label.languages else ""
            click.echo(
                f"{label.accession}  {label.says.get('name', '')} (printed {label.printed}, {label.size}{languages})"
            )
            for change in one.changes:
                now = f"now: {change.now}" if change.now else "now: nothing of the kind"
                click.echo(f"    {change.what} was: {change.was}\n    {' ' * len(change.what)} {now}")
        if not quiet:
            say(f"{len(found)} of {count} recorded labels are no longer true as of {asked.as_of}.")
    if found or problems:
        raise SystemExit(PROBLEMS)


def _tell_problems(problems: tuple[Problem, ...], left_out: tuple[tuple[str, str], ...], quiet: bool) -> None:
    shown = [one for one in problems if not quiet or one.severity is Severity.ERROR]
    tell(sorted(shown, key=lambda problem: problem.sort_key))
    if left_out and not quiet:
        say("No label for " + ", ".join(f"{accession} ({why})" for accession, why in left_out) + ".")


def _shared_json(problems: tuple[Problem, ...], left_out: tuple[tuple[str, str], ...]) -> dict[str, object]:
    return {
        "left_out": [{"accession": accession, "why": why} for accession, why in left_out],
        "problems": [problem_as_json(one) for one in problems],
    }
