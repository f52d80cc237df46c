"""Cue cards for a telephone in one hand: one file, large type, one stop a screen, nothing fetched from anywhere."""

from __future__ import annotations

from archive_tools.model.grounds import Tour
from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.context import Context
from archive_tools.publish.spoken.cards import cards_of
from archive_tools.publish.spoken.run_sheet import lasting


def phone_cards(context: Context, tour: Tour, plan: TourPlan) -> str:
    """A whole HTML page."""
    return context.render(
        "tour/phone_cards.html", "cards.html", tour=tour, title=context.say(tour.title),
        cards=cards_of(context, tour, plan), lasting=lasting,
    )  # fmt: skip
