"""What stands on a cue card: when, where, what is said, and how names are spoken."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.grounds import Tour
from archive_tools.model.tour_plan import TourPlan, TourStop
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import Shot, portrait
from archive_tools.publish.spoken.run_sheet import clock, start_seconds
from archive_tools.publish.spoken.stop_text import said_at, stop_name
from archive_tools.publish.style_words import hazards_of
from archive_tools.publish.tree_age import sentence_of


@dataclass(frozen=True, slots=True)
class Card:
    """One stop. Times are of the clock where the tour has a start, else from its beginning; `seconds` to stay.

    says: (name, how it is spoken). then: where to go next, with the seconds of the way. cautions: what to tell or mind.
    """

    number: int
    name: str
    years: str
    place: str
    arrive: str
    leave: str
    seconds: int
    text: str
    is_draft: bool
    language: str
    says: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    next_name: str
    next_walk: int
    portrait: Shot | None
    tree: Tree | None


def cards_of(context: Context, tour: Tour, plan: TourPlan) -> tuple[Card, ...]:
    """A card for every stop, in order."""
    start = start_seconds(tour)
    cards = []
    for number, stop in enumerate(plan.stops, 1):
        following = plan.stops[number] if number < len(plan.stops) else None
        tree = context.records.trees.get(stop.id) if stop.sort == "tree" else None
        text = said_at(context, tour, stop)
        cards.append(
            Card(
                number=number,
                name=stop_name(context, stop),
                years=sentence_of(context, stop.id) if tree else "",
                place=context.place(stop.place) if stop.sort != "place" else "",
                arrive=clock(start, stop.arrive),
                leave=clock(start, stop.leave),
                seconds=stop.leave - stop.arrive,
                text=text.text,
                is_draft=text.is_draft,
                language=text.language,
                says=_spoken(context, stop, text.text),
                cautions=hazards_of(context, tree) if tree else (),
                next_name=stop_name(context, following)
                if following
                else context.place(plan.end if plan.last_walk else None),
                next_walk=following.walk if following else plan.last_walk,
                portrait=portrait(context, tree) if tree else None,
                tree=tree,
            )
        )
    return tuple(cards)


def _spoken(context: Context, stop: TourStop, text: str) -> tuple[tuple[str, str], ...]:
    """How the names are spoken that a text names: of stewards who have a `pronunciation`."""
    said = []
    for steward in context.records.stewards.values():
        if steward.masked or not steward.pronunciation:
            continue
        name = context.steward_name(steward)
        last = name.split(" ")[-1]
        if name in text or (len(last) > 2 and last in text):
            said.append((name, steward.pronunciation))
    return tuple(said)
