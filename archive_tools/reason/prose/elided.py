"""Pairs of which one half is left out: a number without its years, a time shared by two phrases."""

from __future__ import annotations

import re

from archive_tools.reason.prose.fits import TAKES, attests
from archive_tools.reason.prose.lengths import COUNT
from archive_tools.reason.prose.numbers import number_value
from archive_tools.reason.prose.predicates import Kind, Pair, Predicate
from archive_tools.reason.prose.times import Role, Time

__all__ = ["counted", "counts_follow", "elliptic", "shared"]

_COORDINATED = re.compile(r"\s*,?\s*(?:and|then|and then|,)\s*(?:(?:has|was|been|kept|also|both|then|its)\s+)*$", re.I)
_FEWEST, _MOST = 20, 999
"""What "the maple is …" may count: less may be trunks or leaves, more is a year."""
_COUNT = re.compile(
    rf"\s*{COUNT}(?=\s*(?:[.,;:)!—–”\"]|$|and\b|now\b|by\b|in\s+all|this\b|when\b|as\b|of\s+(?:them|those|these)\b))",
    re.I,
)
_AND_COUNT = re.compile(rf"(?P<joint>(?:,|\band|\bbut)\s+){COUNT}(?:\s+of\s+(?:them|these|those))?\s+$", re.I)


def counts_follow(clause: str, phrase: Predicate) -> bool:
    """Whether a bare number stands right behind a phrase."""
    return _COUNT.match(clause, phrase.end) is not None


def counted(clause: str, phrase: Predicate, found: list[Pair]) -> Pair | None:
    """The bare number right behind a phrase that counts years: "its age is seventy"."""
    if phrase.kind not in (Kind.COUNTED, Kind.AGE_BEFORE, Kind.IS) or any(pair.phrase is phrase for pair in found):
        return None
    match = _COUNT.match(clause, phrase.end)
    if match is None:
        return None
    if phrase.kind is Kind.IS and not _FEWEST <= (number_value(match["number"]) or 0) <= _MOST:
        return None
    return Pair(phrase, Time(match.start(), match.end(), Role.COUNT, "", match))


def elliptic(clause: str, phrases: list[Predicate], times: list[Time], found: list[Pair]) -> list[Pair]:
    """Numbers whose years were named before them: "thirty-six years here, sixty-eight in a pot"."""
    pairs = []
    for phrase in phrases:
        if phrase.kind is not Kind.STATE or any(pair.phrase is phrase for pair in found):
            continue
        named = any(time.role is Role.LENGTH and time.end <= phrase.begin for time in times)
        match = _AND_COUNT.search(clause[: phrase.begin]) if named else None
        begin = match.end("joint") if match else 0
        if match and not any(t.begin < match.end() and begin < t.end for t in times):
            pairs.append(Pair(phrase, Time(begin, match.end(), Role.COUNT, "", match)))
    return pairs


def shared(clause: str, phrases: list[Predicate], found: list[Pair]) -> list[Pair]:
    """A phrase joined to one that has its time: "trained and kept in a pot since 1953"."""
    pairs: list[Pair] = []
    for pair in found:
        for phrase in phrases:
            if any(other.phrase is phrase for other in [*found, *pairs]) or phrase.about is pair.phrase.about:
                continue
            one, other = sorted((phrase, pair.phrase), key=lambda p: p.begin)
            # The time stands at the outer side of both, nearest to the one that has it already.
            outer = pair.time.begin >= other.end or (pair.time.end <= one.begin and pair.phrase is one)
            joined = _COORDINATED.fullmatch(clause[one.end : other.begin])
            if outer and joined and pair.time.role in TAKES[phrase.kind]:
                pairs.append(Pair(phrase, pair.time, attests(phrase, pair.time)))
    return pairs
