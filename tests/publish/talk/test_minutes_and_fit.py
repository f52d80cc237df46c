"""A talk against the clock, and words in their boxes."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from archive_tools.model.grounds import Talk, TalkSection
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words
from archive_tools.publish.talk.fit import POINT, height, largest, lines_of, width
from archive_tools.publish.talk.minutes import clock, times_of
from tests.conftest import missing

HERE = Where("talks/an-evening.yml")


def talk(minutes: int | None, *seconds: int | None) -> Talk:
    sections = tuple(TalkSection(None, each, (), None, None, (), HERE) for each in seconds)
    return Talk("an-evening", Words.plain("An evening"), HERE, minutes=minutes, sections=sections)


def timed(plan: Talk, words: tuple[int, ...], pictures: tuple[int, ...]) -> list[tuple[int, int, int]]:
    texts = tuple(" ".join(["word"] * count) for count in words)
    titles = tuple(str(at) for at in range(len(words)))
    return [(time.begin, time.given, time.said) for time in times_of(plan, titles, texts, pictures, 130)]


def test_a_talk_of_forty_five_minutes_worked_by_hand():
    """Five parts; two say how long they take, and three share what is left, 45 - 5 - 10 = 30 minutes.

    At 130 words a minute and 8 seconds a picture the three need 650 words = 300 s and 5 pictures = 40 s; 390 words =
    180 s and 0; 390 words = 180 s and 10 pictures = 80 s: 340, 180 and 260 of 780 seconds. Of 1,800 they get 784 (and
    a bit), 415 (and a bit), and the rest, 601. Both rates: common practice, no source.
    """
    assert timed(talk(45, 300, None, None, 600, None), (130, 650, 390, 1300, 390), (0, 5, 0, 0, 10)) == [
        (0, 300, 60),
        (300, 784, 340),
        (1084, 415, 180),
        (1499, 600, 600),
        (2099, 601, 260),
    ]
    assert 2099 + 601 == 45 * 60


def test_without_minutes_a_part_is_given_what_it_needs():
    assert timed(talk(None, None, 120), (130, 65), (1, 0)) == [(0, 68, 68), (68, 120, 30)]


def test_when_the_others_have_taken_all_a_part_is_given_what_it_needs():
    assert timed(talk(2, 120, None), (130, 65), (0, 0)) == [(0, 120, 60), (120, 30, 30)]


@given(st.lists(st.one_of(st.none(), st.integers(30, 900)), min_size=1, max_size=9), st.data())
def test_sections_follow_each_other_to_the_second(seconds: list[int | None], data: st.DataObject):
    words = tuple(data.draw(st.integers(0, 900)) for _ in seconds)
    minutes = data.draw(st.integers(1, 90))
    found = timed(talk(minutes, *seconds), words, (1,) * len(words))
    assert all(begin + given == after for (begin, given, _), (after, _, _) in itertools.pairwise(found))
    fixed = sum(each or 0 for each in seconds)
    if None in seconds and fixed < 60 * minutes:
        assert sum(given for _, given, _ in found) == 60 * minutes


def test_a_clock_shows_minutes_beyond_the_hour():
    assert [clock(0), clock(65), clock(3661)] == ["0:00", "1:05", "61:01"]


TEXT = "Halvard Quist wrote on the backs of timber orders, and did not write for us; April 1957, leaf 61."


@pytest.mark.parametrize("points", [12.0, 18.0, 44.0])
def test_words_are_taken_to_be_as_wide_as_the_widest_common_serif(points: float):
    """Beside DejaVu Serif as its file has it, which is wider than Georgia and Times New Roman."""
    font = "DejaVuSerif.ttf"
    try:
        theirs = ImageFont.truetype(font, 1000).getlength(TEXT) / 1000 * points * POINT
    except OSError:
        missing(f"{font} (Debian: fonts-dejavu-core)")
    assert theirs <= width(TEXT, points) <= theirs * 1.08


def test_characters_of_full_width_are_square():
    assert width("夕照鷺灣", 10) == pytest.approx(40 * POINT)
    assert lines_of("夕照鷺灣", 10, 2.5 * 10 * POINT) == 2


@given(st.text(st.characters(codec="utf-8", exclude_categories=("C",)), max_size=60), st.floats(20, 300))
def test_a_narrower_box_never_takes_fewer_lines(text: str, box: float):
    assert lines_of(text, 14, box / 2) >= lines_of(text, 14, box)
    assert height((text,), 14, box) <= height((text,), 18, box)


def test_the_largest_size_that_fits_is_chosen():
    sizes = (44.0, 32.0, 20.0, 12.0)
    chosen = largest((TEXT,), sizes, (150, 60))
    assert chosen is not None and height((TEXT,), chosen, 150) <= 60
    larger = [size for size in sizes if size > chosen]
    assert all(height((TEXT,), size, 150) > 60 for size in larger)
    assert largest((TEXT,), sizes, (150, 4)) is None
    assert largest(("Unforeseeably-long-word-without-an-end",), sizes, (30, 60)) is None
