"""Lengths of years as people write them: over sixty years, 57 or 58 years, half a century and more, in its 61st year."""

from __future__ import annotations

import re
from datetime import date, timedelta

from archive_tools.model.calendar import add, latest_before
from archive_tools.model.dates import Duration
from archive_tools.model.findings import Bounds
from archive_tools.reason.prose.numbers import DECADE_NAMES, NUMBER, ORDINAL, SPAN, number_value, ordinal_value

__all__ = ["AGED", "COUNT", "LENGTH", "NTH", "VAGUE", "days_of_length"]

_OVER = (
    r"well over|just over|a little over|a bit over|slightly over|rather over|over|(?:a little |rather |slightly |far |many )?more than|"
    r"upwards? of|in excess of|beyond|past|exceeding"
)
_LEAST = r"at (?:the very |the )?least|(?:no|not) (?:less|fewer) than|a good|a minimum of|certainly|as much as|as many as|no younger than"
_ALMOST = (
    r"almost|nearly|very nearly|close (?:to|on|upon)|not quite|just under|just short of|a little (?:under|less than)|getting on for|going on"
    r"(?: for)?|approaching|all but|nigh on|coming up (?:to|for)|hard on"
)
_ABOUT = r"about|around|some|roughly|approximately|circa|c\.|ca\.|perhaps|maybe|somewhere (?:near|around|about)|or so|in the region of|more or less|an estimated"
_MOST = r"at (?:the )?most|no more than|not more than|up to|anything up to|a maximum of|no older than"
_UNDER = r"less than|under|fewer than|below|not yet"
_BOUND = rf"(?:{_ALMOST}|{_LEAST}|{_MOST}|{_UNDER}|{_OVER}|{_ABOUT})".replace(" ", r"\s+")
_KINDS = tuple(
    (kind, re.compile(rf"(?:{words})$".replace(" ", r"\s+"), re.I))
    for kind, words in (
        ("almost", _ALMOST), ("least", _LEAST), ("most", _MOST), ("under", _UNDER), ("over", _OVER), ("about", _ABOUT)
    )
)  # fmt: skip
_LEAD = (
    r"(?:(?:between|from|now|already|only|just|all of|fully|barely|merely|something like|the|its|these|those|last|past|full|whole|long|good|"
    r"unbroken|continuous|then|quite|exactly|precisely)\s+)*"
)
_TAIL = (
    r"(?P<tail>\s+(?:or\s+so|or\s+thereabouts|(?:or|and)\s+(?:\w+\s+)?(?:more|upwards|longer|over)|and\s+counting|at\s+(?:the\s+)?"
    r"(?:least|most)|and\s+a\s+bit|or\s+less))?"
)
_N = rf"(?P<number>{NUMBER})(?P<odd>[-\s]odd|[-\s]some)?(?P<more>\s+(?:and|or)\s+more)?(?:\s?(?:to|or|-|–|and)\s?(?P<number2>{NUMBER}))?"

_YEARS = rf"(?:{_N}(?:[-\s]+(?:long|full|whole|good|unbroken|continuous))?[-\s]+(?P<unit>years?|decades?|centuries|century)['’]?|(?P<span>{SPAN})['’]?)"
LENGTH = rf"{_LEAD}(?:(?P<bound>{_BOUND})\s+)?{_LEAD}{_YEARS}(?:\s+and\s+(?:{NUMBER}|an?)\s+(?:months?|weeks?|days?)\b)?{_TAIL}"
"""A length with its unit, for a verbose-free, case-insensitive pattern; at most once in one pattern."""

COUNT = rf"{_LEAD}(?:(?P<bound>{_BOUND})\s+)?{_N}(?P<unit>(?!))?(?P<span>(?!))?{_TAIL}"
"""A number of years whose unit is left to be understood: "its age is seventy", "and here for twenty-nine"."""

NTH = rf"(?P<ordinal>{ORDINAL})\s+year"
"""The year that is running: "in its sixty-first year" completes sixty."""

VAGUE = r"(?P<centuries>(?:many\s+|several\s+)?centuries|(?:several\s+|many\s+)?hundreds?\s+of\s+years|(?:several|many)\s+hundred\s+years)(?=[\s-]+old\b)"
"""Many hundred years, uncounted."""

AGED = rf"(?:(?P<part>early|mid|late)[-\s]+)?(?P<decade>{'|'.join(DECADE_NAMES)})"
"""An age by its ten: "in its seventies"."""

_PER_UNIT = {"year": 1, "decade": 10, "centur": 100}


def days_of_length(found: re.Match[str], first: date, last: date, tail: str = "") -> Bounds | None:
    """The days on which something began that is as old as the words say on some day from `first` to `last`.

    `tail`: a bound that comes after the words and their phrase ("sixty years old at least").
    """
    early, late = _began(found, first, tail), _began(found, last, tail)
    if early is None or late is None:
        return None
    return Bounds(early.earliest, late.latest)


def _began(found: re.Match[str], day: date, tail: str) -> Bounds | None:
    groups = found.groupdict()
    if groups.get("ordinal"):
        count = ordinal_value(groups["ordinal"])
        return _completed(count - 1, count - 1, day) if count else None
    if groups.get("decade"):
        least = DECADE_NAMES[groups["decade"].casefold()]
        low, high = {"early": (0, 3), "mid": (3, 6), "late": (6, 9)}.get((groups.get("part") or "").casefold(), (0, 9))
        return _completed(least + low, least + high, day)
    if groups.get("centuries"):
        return Bounds(None, latest_before(day, _years(_CENTURIES)))
    least_words = groups.get("number") or groups.get("span") or ""
    count = number_value(least_words)
    if not count:
        return None
    most = number_value(groups["number2"]) if groups.get("number2") else count
    unit = next((v for k, v in _PER_UNIT.items() if (groups.get("unit") or "year").casefold().startswith(k)), 1)
    if most is None or most < count:
        return None
    if (other := _OR_OTHER.search(tail)) is not None:
        most = max(most, number_value(other[1]) or 0)
    if groups.get("odd"):
        most = count + 9
    return _bounded(
        groups.get("bound") or "",
        (groups.get("more") or "") + (groups.get("tail") or "") + tail,
        count * unit,
        most * unit,
        day,
    )


_OR_OTHER = re.compile(rf"(?:or|perhaps|maybe)\s+({NUMBER})$", re.I)
_CENTURIES = 200
"""What "centuries old" claims at the least."""


def _kind(words: str, tail: str) -> str:
    if re.search(r"\bso\b|thereabouts|give", tail):
        return "about"
    if re.search(r"more|upwards|longer|over|least|counting", tail):
        return "least"
    if re.search(r"most|less", tail):
        return "most"
    if re.search(r"a\s+bit", tail):
        return "over"
    return next((kind for kind, pattern in _KINDS if pattern.match(words)), "")


def _bounded(words: str, tail: str, least: int, most: int, day: date) -> Bounds | None:
    kind = _kind(words, tail)
    if kind == "over":
        return Bounds(None, latest_before(day - timedelta(days=1), _years(least)))
    if kind == "least":
        return Bounds(None, latest_before(day, _years(least)))
    if kind == "almost":
        return _completed(least - 1, least - 1, day)
    if kind == "most":
        whole = _completed(most, most, day)
        return Bounds(whole.earliest, None) if whole else None
    if kind == "under":
        latest = latest_before(day, _years(least))
        return Bounds(latest + timedelta(days=1), None) if latest else None
    if kind == "about":
        return _completed(max(least - 2, 0), most + 2, day)
    return _completed(least, most, day)


def _completed(least: int, most: int, day: date) -> Bounds | None:
    """The days of a beginning of which `least` to `most` years are completed on `day`."""
    latest, too_early = latest_before(day, _years(least)), latest_before(day, _years(most + 1))
    if latest is None:
        return None
    return Bounds(add(too_early, Duration(0, 0, 1, "P1D")) if too_early else None, latest)


def _years(count: int) -> Duration:
    return Duration(count, 0, 0, f"P{count}Y")
