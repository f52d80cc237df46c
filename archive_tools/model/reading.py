"""How hard a text is to read, by counting."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ReadingLevel:
    """A text's counts and what follows from them.

    grade: Flesch-Kincaid grade level (years of school in the United States). longest: words of its longest sentence,
    which is `longest_sentence`. costly: the sentence without which the grade would fall most.
    """

    words: int
    sentences: int
    syllables: int
    grade: float
    longest: int
    longest_sentence: str
    costly: str
