"""What is said on a walk in another language than the house's first: nothing passes for a language it is not in."""

from __future__ import annotations

from archive_tools.model.grounds import Stop, Tour
from archive_tools.model.places_in_files import Where
from archive_tools.model.tour_plan import StopText, TourStop
from archive_tools.model.words import Words
from archive_tools.publish.spoken import said_at, stop_texts
from tests.making import tree
from tests.publish.spoken.walks import context

HERE = Where("tours/round.yml")
POINTS = Words.plain("Two trunks, one root.")


def test_points_written_without_a_language_are_in_the_first_of_the_house() -> None:
    grown = tree(accession="T1", talking_points=POINTS)
    at_home = stop_texts(context(grown))["T1"]
    assert (at_home.text, at_home.language, at_home.is_draft) == ("Two trunks, one root.", "en", False)
    abroad = stop_texts(context(grown, language="ja"))["T1"]
    assert abroad.is_draft
    assert "Two trunks" not in abroad.text
    assert abroad.language == "ja"


def test_words_for_a_place_that_nobody_translated_are_marked_with_their_language() -> None:
    tour = Tour("round", Words.plain("A round"), HERE, stops=(Stop(None, "gate", None, 60, POINTS, HERE),))
    stop = TourStop("place", "gate", "gate", 0, 0, 60, 0, 10, StopText("", "en"))
    said = said_at(context(language="ja"), tour, stop)
    assert (said.text, said.language) == ("Two trunks, one root.", "en")


def test_words_of_a_plan_are_in_the_language_of_the_plan() -> None:
    stops = (Stop(None, "gate", None, 60, Words.plain("門から始めます。"), HERE),)
    tour = Tour("round", Words.plain("一周"), HERE, language="ja", stops=stops)
    stop = TourStop("place", "gate", "gate", 0, 0, 60, 0, 10, StopText("", "ja"))
    said = said_at(context(language="ja"), tour, stop)
    assert (said.text, said.language) == ("門から始めます。", "ja")
