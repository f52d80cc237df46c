"""As of which day a length of years is told: today's, or a day the sentence names ("had been here for ten years in 1998")."""

from __future__ import annotations

import re
from datetime import date

from archive_tools.model.dates import DatePolicy
from archive_tools.reason.prose.predicates import Kind, Pair
from archive_tools.reason.prose.times import Role, times_in
from archive_tools.reason.prose.years import WHEN, days_of

__all__ = ["day_meant"]

_LAST_TIME = re.compile(rf"(?<![\w.,-]){WHEN}(?!\w)", re.I | re.X)
_AS_OF = re.compile(rf"\bas\ (?:of|at)\s+{WHEN}", re.I | re.X)
_TENSE = re.compile(
    r"\b(?P<had>(?:has|have) (?:now )?had)\b|\b(?P<past>was|were|had|did)\b|\b(?P<now>is|are|has|have|now)\b|(?P<simple>(?<!has )(?<!have )(?<!has now )\b(?:lived|stood|spent|stayed|remained|grew|stayed)\b)",
    re.I,
)
_AT_THAT_TIME = re.compile(r"\b(?:when|by the time|on the day|at the time|by then|then|before|after)\b", re.I)


def day_meant(pair: Pair, clause: str, sentence: str, day: date, policy: DatePolicy) -> tuple[date, date] | None:
    """The first and last day from which a length may be counted, None where it is told of a past that is not dated."""
    if pair.time.role is Role.AGO:
        return day, day
    then = _then(pair, clause, sentence, policy)
    if then is not None:
        return then
    if pair.time.role is not Role.NTH and _is_past(pair, clause):
        return _past_day(pair, clause, sentence, policy)
    return _said_day(sentence, day, policy)


def _is_past(pair: Pair, clause: str) -> bool:
    if re.match(r"\s*,?\s*(?:before|until|till|when)\b", clause[pair.end :], re.I):
        return True
    before = clause[: max(pair.phrase.begin, pair.time.begin)]
    tenses = list(_TENSE.finditer(before))
    return bool(tenses) and (tenses[-1].lastgroup in ("past", "simple"))


def _past_day(pair: Pair, clause: str, sentence: str, policy: DatePolicy) -> tuple[date, date] | None:
    """The one day that the sentence names beside a "had been", if it names one."""
    if not re.search(r"\b(?:had|was|were)\b", clause, re.I):
        return None
    named = [time for time in times_in(sentence, policy) if time.role in (Role.AT, Role.BY) and time.days is not None]
    fronted = (
        len(named) == 1
        and sentence.lstrip().casefold().startswith(("in ", "on ", "by "))
        and (re.search(r"\bhad\b", clause) or pair.phrase.kind is Kind.AGE_AFTER)
    )
    if len(named) != 1 or not (_AT_THAT_TIME.search(sentence) or fronted):
        return None
    time = named[0]
    first, last = time.days.earliest if time.days else None, time.days.latest if time.days else None
    if time.role is Role.BY and last is not None:
        first = last
    return (first, last) if first is not None and last is not None else None


def _then(pair: Pair, clause: str, sentence: str, policy: DatePolicy) -> tuple[date, date] | None:
    """The days that "then" points back to: the last time named before it."""
    words = pair.time.words[0]
    if not re.search(r"\bthen\W*$", clause[: pair.time.begin], re.I) and not re.match(r"\W*then\b", words, re.I):
        return None
    if pair.phrase.kind is Kind.EVENT:
        return None
    before = sentence[: pair.time.begin]
    days = [found for time in _LAST_TIME.finditer(before) if (found := days_of(time, policy)) is not None]
    if not days or days[-1].earliest is None or days[-1].latest is None:
        return None
    return days[-1].earliest, days[-1].latest


def _said_day(sentence: str, day: date, policy: DatePolicy) -> tuple[date, date]:
    """The day the sentence itself names by "as of", else the day of the text."""
    found = _AS_OF.search(sentence)
    days = days_of(found, policy) if found else None
    if days is None or days.latest is None or days.earliest is None or days.earliest <= day <= days.latest:
        return day, day
    return days.latest, days.latest
