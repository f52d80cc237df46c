"""A talk against the clock: how long each section is given, and how long its words take to say."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.grounds import Talk
from archive_tools.model.speech import speech_seconds

A_PICTURE = 8
"""Seconds in which a new picture is looked at before anybody listens again. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class SectionTime:
    """A section on the clock, in seconds from the beginning of the talk.

    said: what its words and its pictures take. given: what it may take. begin: when it begins.
    """

    title: str
    begin: int
    given: int
    said: int

    @property
    def end(self) -> int:
        """When it is over."""
        return self.begin + self.given

    @property
    def over(self) -> int:
        """Seconds by which its words and pictures are too long; negative where there is room."""
        return self.said - self.given


def times_of(
    talk: Talk, titles: tuple[str, ...], texts: tuple[str, ...], pictures: tuple[int, ...], words_a_minute: int
) -> tuple[SectionTime, ...]:
    """Every section on the clock. Sections that say no `seconds` share what the others leave of the talk's minutes.

    They share it in proportion to what they have to say; where nothing is left, or the talk says no minutes, they are
    given what they need.
    """
    said = [
        speech_seconds(text, words_a_minute) + A_PICTURE * shown for text, shown in zip(texts, pictures, strict=True)
    ]
    open_ones = [at for at, section in enumerate(talk.sections) if section.seconds is None]
    left = 60 * (talk.minutes or 0) - sum(section.seconds or 0 for section in talk.sections)
    needed = sum(said[at] for at in open_ones)
    shares = {at: said[at] for at in open_ones}
    if left > 0 and needed > 0:
        shares = {at: left * said[at] // needed for at in open_ones}
        shares[open_ones[-1]] += left - sum(shares.values())
    times, begin = [], 0
    for at, section in enumerate(talk.sections):
        given = section.seconds if section.seconds is not None else shares[at]
        times.append(SectionTime(titles[at], begin, given, said[at]))
        begin += given
    return tuple(times)


def clock(seconds: int) -> str:
    """Minutes and seconds: "12:05"."""
    return f"{seconds // 60}:{seconds % 60:02d}"
