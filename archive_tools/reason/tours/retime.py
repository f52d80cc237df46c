"""Where the stops of a tour begin in a recording, found by what was said.

Each stop is known by its names and number, and by the words planned for it. Every piece of the transcript is weighed
for every stop; then the places are chosen together, so that stops follow each other as planned and the whole fits best
(dynamic programming over pieces and stops). A stop of which nothing was heard is not found, rather than guessed.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from archive_tools.model.timed_text import Said, StopFound

NAMED, NUMBERED, PART_OF_NAME = 3.0, 4.0, 1.5
LEAST = 1.2
"""A stop is taken to be found where it weighs so much at least."""
_WINDOW = 25_000
"""Milliseconds after a piece begins in which the stop's own words count for it."""
_ALIKE = 0.8
"""Another place that weighs so much of the best is worth a doubt, if it lies in the same stretch."""
_FAR = 180_000
"""Milliseconds by which a stop may come before or after its planned time until that is told."""

_DIGITS = dict(
    zip(("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"), "0123456789", strict=True)
)
_TEENS = {
    "ten": "10", "eleven": "11", "twelve": "12", "thirteen": "13", "fourteen": "14", "fifteen": "15", "sixteen": "16",
    "seventeen": "17", "eighteen": "18", "nineteen": "19",
}  # fmt: skip
_TENS = {"twenty": 2, "thirty": 3, "forty": 4, "fifty": 5, "sixty": 6, "seventy": 7, "eighty": 8, "ninety": 9}
_WORD = re.compile(r"[^\W_]+")
_CJK = re.compile(r"[\u3040-\u30ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff]")
_COMMON = {
    "the", "and", "for", "from", "with", "without", "are", "was", "were", "been", "its", "this", "that", "these",
    "those", "him", "her", "his", "they", "them", "our", "you", "your", "not", "but", "then", "than", "there",
    "here", "what", "who", "which", "when", "where", "how", "why", "all", "one", "two", "some", "any", "very",
    "more", "most", "now", "has", "have", "had", "did", "does", "can", "could", "will", "would", "shall", "should",
    "may", "might", "must", "tree", "trees", "garden", "year", "years",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class StopHeard:
    """What a stop may be known by. names: in every language; number: an accession or ""; text: what was to be said.

    planned: the millisecond of the walk at which it was to begin.
    """

    names: tuple[str, ...]
    number: str
    text: str
    planned: int


def find_stops(said: Sequence[Said], stops: Sequence[StopHeard]) -> tuple[StopFound, ...]:
    """Where each stop begins, in the order of the stops; with doubts told."""
    if not said or not stops:
        return tuple(StopFound(at, None, doubt="nothing was said") for at in range(len(stops)))
    weights = [[_weight(said, at, stop, stops) for at in range(len(said))] for stop in stops]
    chosen = _together([[weight for weight, _ in row] for row in weights])
    found = []
    for number, (stop, at) in enumerate(zip(stops, chosen, strict=True)):
        if at is None:
            found.append(StopFound(number, None, doubt="neither its name nor its words were heard in their place"))
            continue
        weight, by = weights[number][at]
        begin = said[at].begin
        before = max((said[c].begin for c in chosen[:number] if c is not None), default=-1)
        after = min((said[c].begin for c in chosen[number + 1 :] if c is not None), default=said[-1].end + 1)
        rivals = [
            said[other].begin
            for other, (rival, _) in enumerate(weights[number])
            if before < said[other].begin < after
            and abs(said[other].begin - begin) > _WINDOW
            and rival >= _ALIKE * weight
        ]
        found.append(StopFound(number, begin, by, _doubt(stop, begin, weight, rivals)))
    return tuple(found)


def _doubt(stop: StopHeard, begin: int, weight: float, rivals: list[int]) -> str:
    doubts = []
    if weight < 2 * LEAST:
        doubts.append("little speaks for it")
    if rivals:
        doubts.append(f"it could as well begin at {rivals[0] // 60000}:{rivals[0] // 1000 % 60:02d}")
    if abs(begin - stop.planned) > _FAR:
        late = begin - stop.planned
        doubts.append(f"{abs(late) // 60000} minutes {'later' if late > 0 else 'earlier'} than planned")
    return "; ".join(doubts)


def _together(weights: list[list[float]]) -> list[int | None]:
    """For each stop the piece at which it begins, in order, so that the sum is greatest; None where nothing fits."""
    pieces = len(weights[0])
    # best[i][p]: the first i stops placed within the first p pieces.
    best = [[0.0] * (pieces + 1) for _ in range(len(weights) + 1)]
    for i, row in enumerate(weights):
        for p in range(pieces + 1):
            best[i + 1][p] = best[i][p]
            if p:
                taken = best[i][p - 1] + row[p - 1] if row[p - 1] >= LEAST else 0.0
                best[i + 1][p] = max(best[i + 1][p], best[i + 1][p - 1], taken)
    chosen: list[int | None] = [None] * len(weights)
    i, p = len(weights), pieces
    while i and p:
        if best[i][p] == best[i][p - 1]:
            p -= 1
        elif best[i][p] == best[i - 1][p]:
            i -= 1
        else:
            i, p = i - 1, p - 1
            chosen[i] = p
    return chosen


def _weight(said: Sequence[Said], at: int, stop: StopHeard, stops: Sequence[StopHeard]) -> tuple[float, str]:
    """How much speaks for a stop's beginning with a piece, and by what it is known."""
    weight, by = _words_weight(said, at, stop, stops), "its words"
    spoken = _plain(said[at].text)
    number = _digits(stop.number)
    if number and len(number) > 4 and number in _digits(spoken):
        return weight + NUMBERED, stop.number
    for name in stop.names:
        plain = _plain(name)
        if plain and _holds(spoken, plain):
            return weight + NAMED, name
    for name in stop.names:
        for word in _telling(name):
            shared = sum(any(word in _telling(n) for n in other.names) for other in stops)
            if shared == 1 and _holds(spoken, word):
                return weight + PART_OF_NAME, word
    return weight, by


def _words_weight(said: Sequence[Said], at: int, stop: StopHeard, stops: Sequence[StopHeard]) -> float:
    """Up to 3, by the share of the beginning of the stop's own words that follow within half a minute."""
    own = _telling(stop.text)[:24]
    if len(own) < 4:
        return 0.0
    others = [set(_telling(other.text)) for other in stops if other is not stop]
    rare = [word for word in own if sum(word in words for words in others) * 3 <= len(others)]
    if not rare:
        return 0.0
    heard = {w for piece in said[at:] if piece.begin < said[at].begin + _WINDOW for w in _telling(piece.text)}
    first = set(_telling(said[at].text))
    share = sum(word in heard for word in rare) / len(rare)
    begins = any(word in first for word in own[:6])
    return 3.0 * share * (1.0 if begins else 0.5) if share >= 0.3 else 0.0


def _telling(text: str) -> list[str]:
    """The words of a text that tell something, each once; of scripts without spaces, its pairs of characters."""
    plain = _plain(text)
    words = [w for w in _WORD.findall(_CJK.sub(" ", plain)) if len(w) > 2 and w not in _COMMON]
    characters = _CJK.findall(plain)
    return list(dict.fromkeys([*words, *("".join(pair) for pair in pairwise(characters))]))


def _plain(text: str) -> str:
    """Small letters, no accents, one kind of apostrophe, none of a possessive's."""
    folded = unicodedata.normalize("NFKD", text.casefold()).replace("’", "'")
    folded = "".join(c for c in folded if not unicodedata.combining(c) or _CJK.match(c))
    return unicodedata.normalize("NFKC", re.sub(r"'s\b|'", "", folded))


def _holds(spoken: str, name: str) -> bool:
    if _CJK.search(name):
        return re.sub(r"\s", "", name) in re.sub(r"\s", "", spoken)
    return re.search(rf"(?<!\w){re.escape(name)}(?!\w)", spoken) is not None


def _digits(text: str) -> str:
    """All digits of a text, those that are spoken as words too: "nineteen seventy-nine point two" is 19792."""
    found: list[str] = []
    tens: int | None = None
    for word in re.findall(r"[a-z]+|\d+", text.casefold()):
        if tens is not None:
            joined = word in _DIGITS and word != "zero"
            found.append(str(10 * tens + int(_DIGITS[word])) if joined else str(10 * tens))
            tens = None
            if joined:
                continue
        if word.isdigit():
            found.append(word)
        elif word in _DIGITS or word in ("oh", "o"):
            found.append(_DIGITS.get(word, "0"))
        elif word in _TEENS:
            found.append(_TEENS[word])
        elif word in _TENS:
            tens = _TENS[word]
    if tens is not None:
        found.append(str(10 * tens))
    return "".join(found)
