"""A tour made ready: planned, timed, put on cards and into captions. Beside the order of work, at the edge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from archive_tools import pipeline
from archive_tools.check.dates_together import prose_not_borne_out
from archive_tools.illustrate import cut_file, draw
from archive_tools.model.grades import Edition
from archive_tools.model.grounds import Tour
from archive_tools.model.pictures import Cut, Pictures
from archive_tools.model.problems import Problem
from archive_tools.model.timed_text import Said, StopFound
from archive_tools.model.tour_plan import NotSeen, TourPlan, TourStop
from archive_tools.model.view import EditionView
from archive_tools.publish.context import Context
from archive_tools.publish.print.cue_cards import cue_cards, run_sheet_page
from archive_tools.publish.print.document import Printed
from archive_tools.publish.spoken import said_at, stop_name, stop_texts
from archive_tools.publish.spoken.phone_cards import phone_cards
from archive_tools.publish.spoken.run_sheet import RunLine, run_lines
from archive_tools.publish.spoken.timing import retimed_chapters, spoken_captions, tour_captions, tour_chapters
from archive_tools.publish.spoken.webvtt import webvtt
from archive_tools.publish.translation import translations_for
from archive_tools.reason import CannotPlan, WhatIf, plan_tour
from archive_tools.reason.tours.retime import StopHeard, find_stops
from archive_tools.walks import no_walk


@dataclass(frozen=True, slots=True)
class StopTold:
    """A stop as it is told: its name, its words, whether these are a draft."""

    name: str
    text: str
    is_draft: bool


@dataclass(frozen=True, slots=True)
class TourMade:
    """Everything of one tour. `texts`: files of text, by the end of their names; `printed`: documents, likewise."""

    tour: Tour
    title: str
    language: str
    plan: TourPlan
    lines: tuple[RunLine, ...]
    told: tuple[StopTold, ...]
    names: dict[str, str]
    texts: dict[str, str]
    printed: dict[str, Printed]
    problems: tuple[Problem, ...]
    found: tuple[StopFound, ...] = ()


def make_tour(
    folder: Path,
    plan: Tour,
    *,
    edition: Edition,
    as_of: date,
    today: date,
    cache: Path | None,
    language: str | None = None,
    what_if: WhatIf | None = None,
    said: tuple[Said, ...] = (),
) -> TourMade:
    """The tour as of a day. cache: where pictures are kept; None where no cards are wanted, only the plan.

    plan: as it is written in the collection. said: what was heard in a recording. Raises RefusedError where something
    would leak or the walk cannot be made.
    """

    def made(view: EditionView) -> TourMade:
        return _made(view, folder, plan.id, today, cache, language, what_if, said)

    return pipeline.prepared(
        folder, edition=edition, as_of=as_of, today=today, make=made, texts=_texts, tour=plan.id,
        language=language or plan.language, claims=cache is not None,
    )  # fmt: skip


def _made(
    view: EditionView,
    folder: Path,
    tour_id: str,
    today: date,
    cache: Path | None,
    language: str | None,
    what_if: WhatIf | None,
    said: tuple[Said, ...],
) -> TourMade:
    tour = view.records.tours[tour_id]
    spoken = language or tour.language or view.records.settings.languages[0]
    translations = translations_for(spoken)
    pictures = draw(view, folder, cache, translate=translations.gettext) if cache else Pictures()
    context = Context(view, pictures, spoken, translations)
    texts = stop_texts(replace(context, pictures=Pictures()))
    try:
        plan = plan_tour(view, replace(tour, language=spoken), texts, today, what_if)
    except CannotPlan as reason:
        raise pipeline.RefusedError([no_walk(tour, str(reason))]) from reason
    words = [said_at(context, tour, stop) for stop in plan.stops]
    told = tuple(
        StopTold(stop_name(context, stop), text.text, text.is_draft)
        for stop, text in zip(plan.stops, words, strict=True)
    )

    def read(url: str) -> bytes:
        assert cache is not None
        return cut_file(cache, Cut(url, 0, 0)).read_bytes()

    files: dict[str, str] = {}
    printed: dict[str, Printed] = {}
    found: tuple[StopFound, ...] = ()
    title = context.say(tour.title)
    if said:
        found = find_stops(said, _heard(context, tour, plan, told))
        files["chapters.vtt"] = webvtt(retimed_chapters(told_names(told), found, said), title, spoken)
        files["captions.vtt"] = webvtt(spoken_captions(said), title, spoken)
    else:
        files["chapters.vtt"] = webvtt(tour_chapters(told_names(told), plan), title, spoken)
        files["captions.vtt"] = webvtt(tour_captions(plan, [text.text for text in words], context), title, spoken)
    if cache is not None:
        printed = {
            "cue-cards.pdf": cue_cards(context, tour, plan, read),
            "run-sheet.pdf": run_sheet_page(context, tour, plan),
        }
        files["cards.html"] = phone_cards(context, tour, plan)
    return TourMade(
        tour=tour,
        title=title,
        language=spoken,
        plan=plan,
        lines=run_lines(context, plan),
        told=told,
        names=_names(context, plan),
        texts=files,
        printed=printed,
        problems=tuple(p for p in prose_not_borne_out(view.findings) if p.mark.file == tour.where.file),
        found=found,
    )


def told_names(told: tuple[StopTold, ...]) -> tuple[str, ...]:
    """The names of the stops, in order."""
    return tuple(stop.name for stop in told)


def _heard(context: Context, tour: Tour, plan: TourPlan, told: tuple[StopTold, ...]) -> list[StopHeard]:
    """What each stop may be known by in a recording: its names in every language, its number, its words."""
    heard = []
    for stop, words in zip(plan.stops, told, strict=True):
        names = [words.name]
        number = ""
        tree = context.records.trees.get(stop.id) if stop.sort == "tree" else None
        place = context.records.places.get(stop.id) if stop.sort == "place" else None
        thing = context.records.objects.get(stop.id) if stop.sort == "object" else None
        for named in (tree.name if tree else None, place.name if place else None, thing.name if thing else None):
            names += named.all_texts if named else ()
        if tree is not None:
            number = tree.accession
        heard.append(StopHeard(tuple(dict.fromkeys(names)), number, words.text, stop.arrive * 1000))
    return heard


def _names(context: Context, plan: TourPlan) -> dict[str, str]:
    """What is called how, of all that a plan names."""
    every: tuple[TourStop | NotSeen, ...] = (*plan.stops, *plan.left_out, *plan.with_more)
    named = {one.id: stop_name(context, one) for one in every}
    places = [stop.place for stop in plan.stops] + [end for end in (plan.start, plan.end) if end]
    return {**named, **{place: context.place(place) for place in places}}


def _texts(made: TourMade) -> Iterator[tuple[str, str]]:
    """All that a visitor may hear or see, for the search for hidden names."""
    yield "tour", "\n".join((made.title, *made.names.values(), *(f"{s.name}\n{s.text}" for s in made.told)))
    yield from made.texts.items()
    for name, document in made.printed.items():
        yield name, document.source
