"""A talk made ready: slides, handout, sheet of facts."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import WRONG_USE, Day, collection_option, json_option, print_json, refusals, stop, tell
from archive_tools.commands.planned import (
    cache_beside,
    collection_of,
    day_of,
    edition_by_audience,
    edition_for,
    known_language,
    plan_named,
    put,
    typeset,
)
from archive_tools.publish.talk.minutes import SectionTime, clock
from archive_tools.talking import TalkMade, make_talk


@click.command()
@click.argument("plan")
@collection_option
@edition_by_audience
@click.option("--as-of", type=Day(), help="The day of the talk, by today's evidence; unsaid, the day in its plan.")
@click.option(
    "--out", type=click.Path(file_okay=False, path_type=Path), help="Where to; unsaid, a folder named like it."
)
@click.option("--language", help="In which language it is given (BCP 47); unsaid, that of its plan.")
@click.option("--bring-back", is_flag=True, help="Slides that were taken out of the earlier deck come back.")
@click.option("--afresh", is_flag=True, help="Make the deck anew, and keep nothing of an earlier one.")
@json_option
def talk(
    plan: str,
    folder: Path,
    edition: str | None,
    as_of: date | None,
    out: Path | None,
    language: str | None,
    bring_back: bool,
    afresh: bool,
    as_json: bool,
) -> None:
    """Slides, handout and fact sheet of the talk PLAN, the name of a file in talks/.

    Made again, the deck keeps the speaker's own slides and those that were edited since, and tells what has changed.
    It knows its own slides by tags of the presentation format, which not every program keeps when it saves.
    Minutes: each section's are given in the plan; its words are reckoned at the house's speaking rate.
    """
    collection = collection_of(folder)
    wanted = plan_named(plan, collection.talks, folder, "talk")
    target, day = out or Path(wanted.id), day_of(wanted, as_of)
    deck_path = target / f"{wanted.id}.pptx"
    earlier = deck_path.read_bytes() if deck_path.exists() and not afresh else None
    try:
        with refusals():
            made = make_talk(
                folder, wanted, edition=edition_for(wanted, edition), as_of=day, today=date.today(),
                cache=cache_beside(folder, target), language=known_language(collection, language),
                earlier=earlier, bring_back=bring_back,
            )  # fmt: skip
    except ValueError as fault:
        stop(WRONG_USE, f"{deck_path}: {fault}; move it away, or use --afresh")
    tell(made.problems)
    printed = typeset(
        {target / f"{wanted.id}-handout.pdf": made.handout, target / f"{wanted.id}-facts.pdf": made.facts}
    )
    files = put([(deck_path, made.deck), *printed.items()])
    if as_json:
        print_json(_machine(made, day, files))
    else:
        click.echo("\n".join(_human(made, day, files)))


def _human(made: TalkMade, day: date, files: Iterable[Path]) -> Iterable[str]:
    yield f"{made.title}, as of {day.isoformat()}"
    yield ""
    wide = max((len(time.title) for time in made.times), default=0)
    for time in made.times:
        yield f"{clock(time.begin):>6}  {time.title:<{wide}}  {clock(time.given):>6} given, {_said(time)}"
    given, planned = sum(time.given for time in made.times), 60 * (made.talk.minutes or 0)
    yield f"{clock(given):>6}  in all" + _against(given, planned)
    yield ""
    yield from _changes(made)
    if made.unproved:
        yield f"{made.unproved} sentences name a year, number or person that no record does: see the fact sheet."
    yield from (str(path) for path in files)


def _said(time: SectionTime) -> str:
    said = f"{clock(time.said)} of words and pictures"
    return f"{said}, {clock(time.over)} too long" if time.over > 0 else said


def _against(given: int, planned: int) -> str:
    if not planned or given == planned:
        return f" of {clock(planned)}" if planned else ""
    over = given - planned
    return f" of {clock(planned)}: {clock(abs(over))} {'too long' if over > 0 else 'to spare'}"


def _changes(made: TalkMade) -> Iterable[str]:
    changes = made.changes
    yield f"{len(made.slides)} slides" + (f" and {changes.own} of the speaker's own" if changes.own else "")
    if changes.is_first:
        return
    lists = {
        "New since last time": changes.new,
        "Changed since last time": changes.changed,
        "No longer in the plan": changes.gone,
        "Kept as edited": changes.kept,
        "Kept as edited, though the records now say otherwise": changes.outdated,
        "Left out, as in the earlier deck (--bring-back)": changes.left_out,
    }
    told = [f"{name}: {'; '.join(titles)}" for name, titles in lists.items() if titles]
    yield from told or ["Nothing has changed since last time."]


def _machine(made: TalkMade, day: date, files: Iterable[Path]) -> dict[str, object]:
    changes = made.changes
    return {
        "talk": made.talk.id,
        "as_of": day.isoformat(),
        "minutes": made.talk.minutes,
        "sections": [
            {"title": t.title, "begin": t.begin, "given": t.given, "said": t.said} for t in made.times
        ],
        "slides": [{"key": slide.key, "title": slide.title} for slide in made.slides],
        "own_slides": changes.own,
        "new": list(changes.new),
        "changed": list(changes.changed),
        "gone": list(changes.gone),
        "kept": list(changes.kept),
        "outdated": list(changes.outdated),
        "left_out": list(changes.left_out),
        "unproved": made.unproved,
        "files": [str(path) for path in files],
    }  # fmt: skip
