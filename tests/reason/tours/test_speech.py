from __future__ import annotations

import pytest

from archive_tools.model.speech import speech_seconds, words_in
from archive_tools.reason.tours.speech import dwell_seconds


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", 0),
        ("Count them. Then bend your knees and count them again.", 10),
        ("It’s Quist’s maple, S1979.2 — struck in 1954.", 7),
        ("half-raw silk", 2),
    ],
)
def test_words(text: str, words: int) -> None:
    assert words_in(text) == words


def test_japanese_is_counted_by_characters() -> None:
    """300 characters a minute at 130 words a minute: common practice of newsreaders, from memory."""
    assert speech_seconds("木" * 300, 130) == pytest.approx(60, abs=1)


@pytest.mark.parametrize(
    ("words", "rate", "seconds"),
    [
        (75, 183, 25),  # Brysbaert 2019: 75 words aloud in 24.6 s, here rounded up
        (100, 238, 26),  # Brysbaert 2019: 100 words in silence in 25.2 s
        (130, 130, 60),
        (0, 130, 0),
    ],
)
def test_published_rates(words: int, rate: int, seconds: int) -> None:
    assert speech_seconds("word " * words, rate) == seconds


def test_a_stop_is_for_gathering_and_looking_too() -> None:
    assert dwell_seconds("word " * 130, 130) == 10 + 60 + 20
