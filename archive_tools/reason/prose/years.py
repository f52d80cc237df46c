"""Times as people write them in English: 1953, about 1953, March 1958, the spring of 1990, the late fifties, 1961–1963."""

from __future__ import annotations

import re
from datetime import date

from archive_tools.model.calendar import add, days_in_month, latest_before
from archive_tools.model.dates import DatePolicy
from archive_tools.model.findings import Bounds
from archive_tools.reason.prose.numbers import DECADE_NAMES, ORDINAL, TENS_WORD, number_value, ordinal_value

_MONTHS = {
    name: number
    for number, name in enumerate(
        "january february march april may june july august september october november december".split(), 1
    )
}
_MONTH = rf"(?:{'|'.join(_MONTHS)}|jan\.?|feb\.?|mar\.?|apr\.?|jun\.?|jul\.?|aug\.?|sept?\.?|oct\.?|nov\.?|dec\.?)"
_SEASON = r"(?:spring|summer|autumn|fall|winter)"
_YEAR = rf"(?:1[0-9]{{3}}|20[0-9]{{2}}|(?:eighteen|nineteen|twenty)[-\ ](?:{TENS_WORD}|ten|eleven|twelve|\w+teen)(?:-\w+)?(?!\ years))"
_DECADE = rf"(?:(?:1[0-9]|20)[0-9]0['’]?s|['’][2-9]0s|(?:nineteen[-\ ])?(?:{'|'.join(DECADE_NAMES)}))"
_CENTURY = r"(?:1[0-9]th|2[01]st|sixteenth|seventeenth|eighteenth|nineteenth|twentieth)\ century"
_FUZZ = r"(?:(?:in\ or\ |on\ or\ )?(?:about|around)|circa|c\.|ca\.|roughly|approximately|perhaps|maybe|possibly)"

WHEN = rf"""(?:
    (?P<before>before|prior\ to|earlier\ than)?(?P<after>(?<!not\ )after)?(?P<notbefore>(?:not|no)\ (?:before|earlier\ than))?
    (?P<notafter>not\ after|(?:not|no)\ later\ than|by|in\ or\ before|at\ least|as\ early\ as)?\s*
    (?:(?P<about>{_FUZZ})\s+)?
    (?:the\ )?
    (?:(?P<part>early|mid|late|middle\ of\ the|beginning\ of|start\ of|end\ of|first\ half\ of|second\ half\ of)[-\ ](?:the\ )?)?
    (?:
      (?P<decade>{_DECADE})|(?P<century>{_CENTURY})
      |(?:(?P<day>[0-9]{{1,2}}(?:st|nd|rd|th)?|{ORDINAL})\s+(?:of\s+)?)?(?:(?P<month>{_MONTH})\s+(?:(?P<day2>[0-9]{{1,2}})(?:st|nd|rd|th)?,?\s+)?|(?P<season>{_SEASON})\s+(?:of\s+)?)?
       (?P<year>{_YEAR})(?!\s*(?:crowns|pounds|people|visitors|cm|mm|metres|meters|feet|km|litres|\.[0-9]))(?:(?:,\s(?:{_YEAR},?\s)*?or\s|,?(?:,\s{_YEAR})*\ or\ |\s?(?:–|-|/|\ to\ |\ and\ )\s?)(?P<year2>{_YEAR}|[0-9]{{2}}(?![0-9])))?
    )
    (?P<earlier>\ (?:or|if\ not)\ (?:earlier|before|sooner)|\ at\ the\ latest)?
    (?P<thereabouts>\ or\ (?:so|thereabouts))?
)"""
"""A time, for use inside a verbose, case-insensitive pattern; at most once in one pattern."""


def days_of(found: re.Match[str], policy: DatePolicy) -> Bounds | None:
    """The days a `WHEN` leaves open, None where it names no day that exists."""
    span = _named(found, policy)
    if span is None:
        return None
    first, last = span
    if found["about"] or found["thereabouts"]:
        margin = policy.margin("year")
        first = (latest_before(first, margin) or date.min).replace(month=1, day=1)
        last = (add(last, margin) or date.max).replace(month=12, day=31)
    if found["before"]:
        return Bounds(None, date.fromordinal(first.toordinal() - 1))
    if found["after"]:
        return Bounds(date.fromordinal(last.toordinal() + 1), None)
    if found["notbefore"]:
        return Bounds(first, None)
    if found["notafter"] or found["earlier"]:
        return Bounds(None, last)
    return Bounds(first, last)


def _named(found: re.Match[str], policy: DatePolicy) -> tuple[date, date] | None:
    if found["decade"]:
        return _in_decade(found["decade"].casefold(), (found["part"] or "").casefold())
    if found["century"]:
        return _in_century(found["century"].casefold(), (found["part"] or "").casefold())
    year = _year(found["year"])
    if year is None:
        return None
    if found["year2"]:
        short = len(found["year2"]) == len("53")
        other = year // 100 * 100 + int(found["year2"]) if short else _year(found["year2"]) or 0
        return (date(year, 1, 1), date(other, 12, 31)) if other > year else None
    if found["season"]:
        return _in_season(year, found["season"].casefold(), policy.hemisphere)
    if found["month"]:
        month = next(n for name, n in _MONTHS.items() if name.startswith(found["month"].casefold().rstrip(".")[:3]))
        day = found["day"] or found["day2"]
        if not day:
            return date(year, month, 1), date(year, month, days_in_month(year, month))
        number = ordinal_value(day) or 0
        if not 1 <= number <= days_in_month(year, month):
            return None
        return date(year, month, number), date(year, month, number)
    return _part(date(year, 1, 1), date(year, 12, 31), (found["part"] or "").casefold())


def _year(words: str) -> int | None:
    """1953, nineteen fifty-three."""
    if words.isdigit():
        return int(words)
    century, _, rest = words.casefold().replace("-", " ").partition(" ")
    hundreds, ones = number_value(century), number_value(rest)
    return 100 * hundreds + ones if hundreds and ones else None


def _in_decade(words: str, part: str) -> tuple[date, date]:
    name = re.sub(r"^nineteen[- ]", "", words)
    first = 1900 + DECADE_NAMES[name] if name in DECADE_NAMES else int(re.sub(r"\D", "", name))
    years = {"early": (0, 3), "beginning of": (0, 3), "start of": (0, 3), "mid": (3, 6), "middle of the": (3, 6),
             "late": (6, 9), "end of": (7, 9), "first half of": (0, 4), "second half of": (5, 9)}.get(part, (0, 9))  # fmt: skip
    return date(first + years[0], 1, 1), date(first + years[1], 12, 31)


_CENTURY_WORDS = {"sixteenth": 16, "seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20}


def _in_century(words: str, part: str) -> tuple[date, date]:
    name = words.partition(" ")[0]
    first = 100 * ((_CENTURY_WORDS.get(name) or int(name[:2])) - 1)
    years = {"early": (0, 33), "beginning of": (0, 15), "start of": (0, 15), "mid": (33, 66), "middle of the": (33, 66),
             "late": (67, 99), "end of": (85, 99), "first half of": (0, 49), "second half of": (50, 99)}.get(part, (0, 99))  # fmt: skip
    return date(first + years[0], 1, 1), date(first + years[1], 12, 31)


def _part(first: date, last: date, part: str) -> tuple[date, date]:
    months = {"early": (1, 4), "beginning of": (1, 4), "start of": (1, 4), "mid": (5, 8), "middle of the": (5, 8),
              "late": (9, 12), "end of": (9, 12), "first half of": (1, 6), "second half of": (7, 12)}.get(part)  # fmt: skip
    if months is None:
        return first, last
    return first.replace(month=months[0]), last.replace(month=months[1], day=days_in_month(last.year, months[1]))


def _in_season(year: int, season: str, hemisphere: str) -> tuple[date, date] | None:
    begins = {"spring": 3, "summer": 6, "autumn": 9, "fall": 9, "winter": 12}[season]
    if hemisphere == "south":
        begins = (begins + 5) % 12 + 1
    ends_year, ends = (year, begins + 2) if begins <= 10 else (year + 1, begins - 10)
    if ends_year > date.max.year:
        return None
    return date(year, begins, 1), date(ends_year, ends, days_in_month(ends_year, ends))
