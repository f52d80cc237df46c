"""A tour planned against the clock, and all that is carried along on it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import click

from archive_tools.cli_options import (
    PROBLEMS,
    Day,
    collection_option,
    json_option,
    print_json,
    refusals,
    say,
    stop,
    tell,
)
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
from archive_tools.model.timed_text import Said
from archive_tools.publish.spoken.run_sheet import OVER, STOP, WAIT, at_each_minute, clock, lasting, start_seconds
from archive_tools.publish.tour_json import tour_as_json
from archive_tools.read.timed_text import read_timed_text
from archive_tools.reason import WhatIf
from archive_tools.touring import TourMade, make_tour

_WHY = {
    "no time": "no time for it",
    "out of reach": "cannot be reached",
    "longer than the walk": "takes longer than the whole walk",
    "not open": "stands where this audience may not go",
    "not here": "is not in the collection on that day",
}


@click.command()
@click.argument("plan")
@collection_option
@edition_by_audience
@click.option("--as-of", type=Day(), help="The day of the walk, by today's evidence; unsaid, the day in its plan.")
@click.option("--minutes", type=click.IntRange(1, 600), help="What if it had so many minutes?")
@click.option("--step-free/--with-steps", default=None, help="What if it had to be without steps (or need not)?")
@click.option("--language", help="In which language it is spoken (BCP 47); unsaid, that of its plan.")
@click.option("--run-sheet", is_flag=True, help="Where to be at each minute.")
@click.option(
    "--out", type=click.Path(file_okay=False, path_type=Path), help="Write cards, run sheet and captions there."
)
@click.option(
    "--timed",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="A timed transcript of a recording (.vtt or .srt): chapters are set where the stops were told.",
)
@json_option
def tour(
    plan: str,
    folder: Path,
    edition: str | None,
    as_of: date | None,
    minutes: int | None,
    step_free: bool | None,
    language: str | None,
    run_sheet: bool,
    out: Path | None,
    timed: Path | None,
    as_json: bool,
) -> None:
    """The walk PLAN, the name of a file in tours/: the best stops for its minutes, in the best order.

    Times: words at the house's speaking rate (130 a minute, common practice; reading aloud 183, Brysbaert 2019), 10
    seconds to gather and 20 to look at a stop, ways at the house's walking pace (0.8 m/s, common practice for groups).
    What is planned is proved the best, or told with how far from the best it can be at most.
    """
    collection = collection_of(folder)
    wanted = plan_named(plan, collection.tours, folder, "tour")
    day = day_of(wanted, as_of)
    said = _heard(timed)
    with refusals():
        made = make_tour(
            folder, wanted, edition=edition_for(wanted, edition), as_of=day, today=date.today(),
            cache=cache_beside(folder, out) if out else None, language=known_language(collection, language),
            what_if=WhatIf(minutes, step_free), said=said,
        )  # fmt: skip
    tell(made.problems)
    files = _written(made, out) if out else []
    for found in made.found:
        if found.doubt:
            say(f"{made.told[found.stop].name}: {found.doubt}")
    if as_json:
        print_json(_machine(made, day, files))
        return
    lines = _minutes(made) if run_sheet else _human(made, day)
    click.echo("\n".join([*lines, *(str(path) for path in files)]))


def _heard(timed: Path | None) -> tuple[Said, ...]:
    if timed is None:
        return ()
    said, problems = read_timed_text(timed.read_bytes(), str(timed))
    tell(problems)
    if not said:
        stop(PROBLEMS, f"Stopped: nothing timed could be read in {timed}.")
    return said


def _written(made: TourMade, out: Path) -> list[Path]:
    name = made.tour.id
    printed = typeset({out / f"{name}-{end}": document for end, document in made.printed.items()})
    texts = {out / f"{name}{'.' if end.endswith('.vtt') else '-'}{end}": words for end, words in made.texts.items()}
    return put([*printed.items(), *((path, words.encode()) for path, words in texts.items())])


def _machine(made: TourMade, day: date, files: list[Path]) -> dict[str, object]:
    return {
        **tour_as_json(made.plan, made.names, made.title, start_seconds(made.tour)),
        "as_of": day.isoformat(),
        "language": made.language,
        "drafts": [told.name for told in made.told if told.is_draft],
        "heard": [
            {"stop": found.stop + 1, "at": found.at, "by": found.by, "doubt": found.doubt} for found in made.found
        ],
        "files": [str(path) for path in files],
    }


def _human(made: TourMade, day: date) -> Iterator[str]:
    plan, start = made.plan, start_seconds(made.tour)
    yield f"{made.title}, {day.isoformat()}, {lasting(plan.seconds)} of {lasting(plan.asked)}" + (
        ", without steps" if plan.step_free else ""
    )
    yield ""
    drafts = {stop.name for stop in made.told if stop.is_draft}
    for line in made.lines:
        at = f"{clock(start, line.begin):>8}"
        if line.what == STOP:
            mark = "  (draft)" if line.name in drafts else ""
            yield f"{at}  {line.stop:>2} {line.name}, {lasting(line.seconds)}{mark}"
        else:
            yield f"{at}     {'wait for' if line.what == WAIT else 'walk to'} {line.name}, {lasting(line.seconds)}"
    yield f"{clock(start, plan.seconds):>8}     {OVER}"
    yield ""
    if plan.is_best:
        yield "No walk of this length is worth more."
    else:
        yield f"At most {100 * plan.best_possible / plan.interest - 100:.0f} in 100 short of the best there can be."
    for one in plan.left_out:
        yield f"Left out: {made.names[one.id]} ({_WHY.get(one.why, one.why)})"
    if plan.with_more:
        yield "Five minutes more would add: " + ", ".join(made.names[one.id] for one in plan.with_more)


def _minutes(made: TourMade) -> Iterator[str]:
    start = start_seconds(made.tour)
    for minute, line in at_each_minute(made.lines):
        where = f"{line.stop} {line.name}" if line.what == STOP else f"on the way to {line.name}"
        yield f"{clock(start, 60 * minute):>8}  {where}"
    yield f"{clock(start, made.plan.seconds):>8}  {OVER}"
