"""Stops found again in a recording. Each test is a short story of what was said."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from archive_tools.model.timed_text import Said
from archive_tools.reason.tours.retime import StopHeard, find_stops

BESOM = StopHeard(("The Besom",), "S1983.6", "Here is a broom that nobody signed; look at the pencilled back.", 60_000)
MAPLE = StopHeard(("Halvard's Maple", "唐楓"), "S1979.2", "Halvard Quist put it into a fish box in April.", 240_000)
HERON = StopHeard(
    ("Evening at Heron Reach", "夕照鷺湾"), "S2006.2", "White marble, and it is water. No heron.", 500_000
)
STOPS = (BESOM, MAPLE, HERON)


def said(*pieces: tuple[int, str]) -> list[Said]:
    """Pieces by the second at which they begin."""
    return [Said(at * 1000, at * 1000 + 4000, text, number) for number, (at, text) in enumerate(pieces, 1)]


def begins(*pieces: tuple[int, str]) -> list[int | None]:
    return [None if found.at is None else found.at // 1000 for found in find_stops(said(*pieces), STOPS)]


def test_by_their_names_although_one_is_named_too_early():
    assert begins(
        (0, "Good afternoon, later we shall see Halvard's Maple."),
        (50, "Well. This is the Besom."),
        (90, "Nobody signed it."),
        (230, "And here, at last, Halvard’s maple stands."),
        (480, "Evening at Heron Reach. Look down."),
    ) == [50, 230, 480]


def test_by_numbers_spoken_digit_by_digit_and_in_tens():
    assert begins(
        (70, "Number S one nine eight three point six, please gather round"),
        (250, "S nineteen seventy-nine two is next"),
        (510, "S2006.2, the last one"),
    ) == [70, 250, 510]


def test_by_the_words_that_were_planned_where_no_name_is_said():
    assert begins(
        (61, "Here is a broom, and nobody signed it."),
        (66, "Look at the back, pencilled."),
        (241, "Quist put this into a fish box, it was in April"),
        (505, "White marble, you see, and that is water; there is no heron"),
    ) == [61, 241, 505]


def test_by_a_name_in_japanese():
    assert begins((55, "The Besom"), (240, "これが唐楓でございます"), (490, "夕照鷺湾、白い石は水です")) == [
        55,
        240,
        490,
    ]


def test_a_stop_that_was_left_out_is_not_guessed():
    found = find_stops(said((50, "The Besom."), (300, "Let us walk on."), (480, "Evening at Heron Reach.")), STOPS)
    assert found[1].at is None and "neither" in found[1].doubt
    assert (found[0].at, found[2].at) == (50_000, 480_000)


def test_two_places_that_fit_alike_are_told():
    found = find_stops(
        said((50, "The Besom."), (120, "The Besom, again."), (480, "Evening at Heron Reach.")), STOPS[::2]
    )
    assert "could as well begin" in found[0].doubt


def test_what_comes_long_after_its_time_is_told():
    found = find_stops(said((700, "The Besom."), (1200, "Evening at Heron Reach.")), STOPS[::2])
    assert "10 minutes later than planned" in found[0].doubt


def test_nothing_said_and_nothing_found():
    assert [found.at for found in find_stops([], STOPS)] == [None, None, None]


@given(
    st.lists(
        st.tuples(st.integers(0, 3600), st.sampled_from(["the besom", "halvard's maple", "heron", "hm", ""])),
        max_size=25,
    )
)
def test_stops_never_change_their_order(pieces: list[tuple[int, str]]):
    found = [one.at for one in find_stops(said(*sorted(pieces)), STOPS) if one.at is not None]
    assert found == sorted(found)
