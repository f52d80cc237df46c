"""What stands on a guide's card, in the letters a printer would choose."""

from __future__ import annotations

import pytest

from archive_tools.model.grounds import Stop, Tour
from archive_tools.model.places_in_files import Where
from archive_tools.model.tour_plan import StopText, TourPlan, TourStop
from archive_tools.model.words import Words
from archive_tools.publish.print.cue_cards import cue_cards
from archive_tools.publish.spoken import said_at
from archive_tools.publish.spoken.phone_cards import phone_cards
from tests.publish.spoken.walks import context

HERE = Where("tours/round.yml")
SAID = Words.plain('It\'s "the wind" you are.')
TOUR = Tour("round", Words.plain("A round"), HERE, stops=(Stop(None, "gate", None, 60, SAID, HERE),))


def stop(place: str, walk: int, arrive: int) -> TourStop:
    return TourStop("place", place, place, walk, arrive, arrive + 60, 0, 10, StopText("", "en"))


def plan(second_walk: int) -> TourPlan:
    stops = (stop("gate", 0, 0), stop("gate", second_walk, 60 + second_walk))
    return TourPlan("round", 600, stops, 0, 120 + second_walk, 2, 2, "gate", None, True)


def test_quotation_marks_and_apostrophes_are_set_in_type() -> None:
    assert said_at(context(), TOUR, stop("gate", 0, 0)).text == "It’s “the wind” you are."


@pytest.mark.parametrize(("walk", "said"), [(0, "Next: Gate."), (75, "Next: Gate, 1:15 on foot")])
def test_nobody_walks_to_where_they_stand(walk: int, said: str) -> None:
    printed = cue_cards(context(), TOUR, plan(walk), lambda url: b"").source
    shown = phone_cards(context(), TOUR, plan(walk))
    for cards in (printed, shown):
        assert said in cards
        assert "0:00 on foot" not in cards
