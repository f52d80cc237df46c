"""Which time goes with which phrase of a clause."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from archive_tools.model.grades import Milestone
from archive_tools.reason.prose.elided import counted, counts_follow, elliptic, shared
from archive_tools.reason.prose.fits import attests, fits
from archive_tools.reason.prose.predicates import Kind, Pair, Predicate
from archive_tools.reason.prose.times import Time

__all__ = ["pairs"]

_STATE_VERB = re.compile(
    r"(?:\w+ed|shown|seen|sown|struck|won|held|built|made|found|met|written|photographed|drawn)\s+$", re.I
)
_STAYED = re.compile(
    r"(?:lived|stayed|remained|rested|resided|housed|settled|sheltered|arrived|trained|tended|loved|cared|rooted|potted|cultivated|shaped|called|confined)\s+$",
    re.I,
)


def pairs(clause: str, phrases: list[Predicate], times: list[Time]) -> list[Pair]:
    """The pairs of a clause in the order of its words. A time goes to the nearest phrase that can take it; phrases joined by
    "and" share one.
    """
    phrases = [p for p in phrases if p.kind is not Kind.IS or counts_follow(clause, p)]
    phrases = [_noun_at_least(clause, p, times) for p in phrases]
    phrases = [p for p in phrases if not _outdone(p, phrases) and not _of_another_verb(clause, p)]
    found: list[Pair] = []
    candidates = ((phrase, time) for phrase in phrases for time in times)
    for phrase, time in sorted(candidates, key=lambda both: (_distance(*both), both[1].begin)):
        if any(pair.phrase is phrase or pair.time is time for pair in found):
            continue
        if fits(clause, phrase, time, phrases, times):
            found.append(Pair(phrase, time, attests(phrase, time)))
    found += [pair for phrase in phrases if (pair := counted(clause, phrase, found)) is not None]
    found += elliptic(clause, phrases, times, found)
    found += shared(clause, phrases, found)
    return sorted((_of_the_house(clause, pair, phrases) for pair in found), key=lambda pair: pair.begin)


def _noun_at_least(clause: str, phrase: Predicate, times: list[Time]) -> Predicate:
    """The noun alone, where "are" behind it counts nothing ("seventy years of training are behind it")."""
    counts = counts_follow(clause, phrase) or any(0 <= time.begin - phrase.end <= 1 for time in times)
    return phrase if phrase.kind is not Kind.COUNTED or counts else replace(phrase, kind=Kind.NOUN)


def _outdone(phrase: Predicate, phrases: Iterable[Predicate]) -> bool:
    """Whether "growing" or "lived" only carries another phrase ("has lived here since …")."""
    growing = phrase.about is Milestone.ORIGIN and phrase.kind in (Kind.STATE, Kind.AGE_BEFORE)
    return growing and any(other.kind in (Kind.STATE, Kind.NOUN) and other is not phrase for other in phrases)


def _of_another_verb(clause: str, phrase: Predicate) -> bool:
    """Whether "here" or "with us" is where something else happened ("repotted here since 2003")."""
    before = clause[: phrase.begin]
    return (
        phrase.kind is Kind.STATE
        and phrase.about is not Milestone.CARE
        and bool(_STATE_VERB.search(before))
        and not _STAYED.search(before)
    )


def _distance(phrase: Predicate, time: Time) -> int:
    return time.begin - phrase.end if time.begin >= phrase.end else phrase.begin - time.end


def _of_the_house(clause: str, pair: Pair, phrases: list[Predicate]) -> Pair:
    """The pair said of "here", where a state stands next to it: "here in training since 1988"."""
    for phrase in phrases:
        near = phrase.about is Milestone.ARRIVAL and phrase.kind is Kind.STATE and pair.phrase.kind is Kind.STATE
        one, other = sorted((phrase, pair.phrase), key=lambda p: p.begin)
        if near and phrase is not pair.phrase and not clause[one.end : other.begin].strip():
            return replace(pair, phrase=phrase)
    return pair
