"""Reading level of English texts by the Flesch-Kincaid formula.

Formulas: R. Flesch, "A new readability yardstick", Journal of Applied Psychology 32 (1948), 221-233; J. P. Kincaid and
others, Derivation of New Readability Formulas for Navy Enlisted Personnel, Research Branch Report 8-75 (1975).
Syllables are counted by textstat (the CMU Pronouncing Dictionary, and hyphenation for words it does not know).
"""

from __future__ import annotations

import re
from functools import lru_cache

import pyphen  # type: ignore[import-untyped]
import textstat

from archive_tools.model.reading import ReadingLevel
from archive_tools.reason.prose.sentences import sentences

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|\d[\d,.]*\d|\d")


def reading_ease(words: int, sentence_count: int, syllable_count: int) -> float:
    """Flesch's reading ease: 0 (hard) to about 120 (easy)."""
    return 206.835 - 1.015 * words / sentence_count - 84.6 * syllable_count / words


def grade_level(words: int, sentence_count: int, syllable_count: int) -> float:
    """The Flesch-Kincaid grade level."""
    return 0.39 * words / sentence_count + 11.8 * syllable_count / words - 15.59


def words_in(text: str) -> list[str]:
    """The words of a text: runs of letters, apostrophes within them; numbers count as words."""
    return [match[0] for match in _WORD.finditer(text)]


@lru_cache(maxsize=8192)
def syllables(word: str) -> int:
    """Syllables of one English word, as a machine counts them: see the test for the words it gets wrong."""
    plain = word.replace("’", "'").lower()
    if plain[:1].isdigit():
        # A year is read in pairs (nineteen fifty-seven), which comes to about a syllable and a half a figure.
        return max(1, round(1.5 * sum(letter.isdigit() for letter in plain)))
    try:
        counted = int(textstat.syllable_count(plain))
    except (KeyError, IndexError):
        counted = len(_hyphenation().positions(plain)) + 1
    return max(1, counted)


@lru_cache(maxsize=1)
def _hyphenation() -> pyphen.Pyphen:
    return pyphen.Pyphen(lang="en_US")


def reading_level(text: str) -> ReadingLevel | None:
    """The reading level of an English text; None where there is not a single word."""
    counted = []
    for sentence in sentences(text):
        found = words_in(sentence.text)
        if found:
            counted.append((sentence.text, len(found), sum(map(syllables, found))))
    if not counted:
        return None
    words = sum(count for _, count, _ in counted)
    spoken = sum(count for _, _, count in counted)
    grade = grade_level(words, len(counted), spoken)

    def without(item: tuple[str, int, int]) -> float:
        if len(counted) == 1:
            return 0.0
        return grade_level(words - item[1], len(counted) - 1, spoken - item[2])

    longest = max(counted, key=lambda item: item[1])
    return ReadingLevel(words, len(counted), spoken, grade, longest[1], longest[0], min(counted, key=without)[0])
