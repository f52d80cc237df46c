"""ISO 8601 lengths of time (`P2Y`, `P1Y6M`, `P3D`, `P2W`) and pairs of them (`P3Y/P5Y`)."""

from __future__ import annotations

import re
from functools import cache

from archive_tools.model.dates import DateProblem, Duration

_DURATION = re.compile(r"P(?:([0-9]+)Y)?(?:([0-9]+)M)?(?:([0-9]+)W)?(?:([0-9]+)D)?")
_WORDS = re.compile(
    r"(?:(\d+)\s*(?:years?|yrs?|y))?\s*(?:and|,)?\s*(?:(\d+)\s*(?:months?|mo|m))?\s*(?:and|,)?\s*"
    r"(?:(\d+)\s*(?:weeks?|wks?|w))?\s*(?:and|,)?\s*(?:(\d+)\s*(?:days?|d))?"
)
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_LONGEST = 9999
"""Years: nothing longer fits between 0001 and 9999."""


@cache
def read_duration(text: str) -> Duration:
    """A length of time in whole years, months, weeks and days. Weeks are kept as days.

    Published source: ISO 8601-1:2019, 5.5.2. Fractions and times of day are not used here.
    Raises DateProblem for anything else.
    """
    matched = _DURATION.fullmatch(text)
    if matched is None or not any(matched.groups()):
        raise DateProblem(_what(text), _instead(text))
    years, months, weeks, days = (int(number or 0) for number in matched.groups())
    duration = Duration(years, months, days + 7 * weeks, text)
    if _nominal_days(duration) > _LONGEST * 366:
        raise DateProblem(f"`{text}` is longer than the years 0001 to 9999 that can be read here")
    return duration


def read_duration_range(text: str) -> tuple[Duration, Duration]:
    """`P3Y/P5Y` as its shorter and its longer length; one length alone stands for both.

    Raises DateProblem as `read_duration` does, and where the longer one comes first.
    """
    if "/" not in text:
        duration = read_duration(text)
        return duration, duration
    first, _, second = text.partition("/")
    shorter, longer = read_duration(first), read_duration(second)
    if _nominal_days(shorter) > _nominal_days(longer):
        raise DateProblem(f"`{text}` names the longer time first", f"{second}/{first}")
    return shorter, longer


def _nominal_days(duration: Duration) -> float:
    return duration.whole_months * 30.436875 + duration.days


def _what(text: str) -> str:
    if re.match(r"P.*T", text):
        return f"`{text}` has a time of day; lengths are in whole years (Y), months (M), weeks (W) and days (D)"
    if re.search(r"[0-9][.,][0-9]", text):
        return f"`{text}` has a fraction; lengths are in whole years (Y), months (M), weeks (W) and days (D)"
    return f"`{text}` is no length of time"


def _instead(text: str) -> str:
    """What was probably meant: words, small letters, a missing P, half years."""
    words = text.strip().lower()
    for value, word in enumerate(_NUMBERS, start=1):
        words = re.sub(rf"\b{word}\b", str(value), words)
    half = re.fullmatch(r"p?(\d+)[.,]5\s*(?:y|years?)", words)
    if half:
        return f"P{half[1]}Y6M" if int(half[1]) else "P6M"
    matched = _WORDS.fullmatch(words.removeprefix("p").strip())
    if matched and any(matched.groups()):
        parts = zip(matched.groups(), "YMWD", strict=True)
        return "P" + "".join(f"{int(number)}{letter}" for number, letter in parts if number)
    return "P2Y for two years, P1Y6M for a year and six months, P2W for two weeks, P3D for three days"
