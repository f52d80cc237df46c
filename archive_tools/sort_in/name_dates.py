"""Dates in the names of files as people, cameras and telephones write them, wherever in the name they stand.

The collection's own names begin with their date (`read.edtf_text`); what comes in from elsewhere seldom does.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from archive_tools.model.dates import DatePolicy, DateProblem, WhenWritten
from archive_tools.read.clocks import FIRST_PHOTOGRAPH
from archive_tools.read.edtf_text import file_name_date, read_date

_FIRST_CLOCK = 1990
"""No camera or telephone has named a file before (from memory)."""
_YEAR = r"(?:1[89]|20)\d\d"
_MONTH = r"(?:0[1-9]|1[0-2])"
_DAY = r"(?:0[1-9]|[12]\d|3[01])"
_BY_CLOCK = re.compile(rf"(?<!\d)({_YEAR})({_MONTH})({_DAY})(?=$|[-_ .]|T?(?:[01]\d|2[0-3])[0-5]\d[0-5]\d(?!\d{{4}}))")
"""20240503_101112, 20240503-WA0012, 20240503101112: how telephones name pictures (common practice, no source)."""
_SENT = re.compile(r"\bWA\d{3,}\b|\bWhatsApp\b|\bsignal-|\btelegram\b", re.IGNORECASE)
"""What programs for messages write into the names of pictures that they pass on (common practice, no source)."""
_SCANNED = re.compile(r"scan|digiti[sz]ed|digitali[sz]", re.IGNORECASE)
_WHOLE_DAY = re.compile(rf"(?<![^\W_])(?<!\d[-.])({_YEAR})-({_MONTH})-({_DAY})(?!\d)")
_WORD = re.compile(rf"{_YEAR}(?:-{_MONTH})?~?|(?:1[89]|20)\dX~?")
_TWO_WAYS = re.compile(rf"(?<![\d.])(\d\d?)\.(\d\d?)\.({_YEAR})(?![\d.])")
_COUNTED = re.compile(r"img|dsc[a-z]?|pict?|p|mvi|scan|image|bild|foto|photo|no|nr|file|\d+", re.IGNORECASE)
"""What stands before a running number in names that cameras and scanners give (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class NameDate:
    """A date in a file's name.

    by_clock: a machine wrote it there. sent: the picture was sent on then. of_scan: a day, in a name that says "scan".
    """

    when: WhenWritten
    by_clock: bool = False
    sent: bool = False
    of_scan: bool = False


def date_in_stem(stem: str, numbers: Iterable[str], policy: DatePolicy) -> NameDate | None:
    """The date that a file's name (without its ending) gives; None where it gives none, or more than one.

    numbers: accessions and former numbers in it, whose figures are none of a date. Where there are such, a year or
    month that stands alone counts too; in other names it may be a running number.
    """
    numbers = sorted(numbers, key=len, reverse=True)
    scanned = _SCANNED.search(stem) is not None
    # Some houses number their trees 1979-12.
    begins = any(stem.casefold().startswith(number.casefold()) for number in numbers)
    first = None if begins else file_name_date(stem, policy)
    if first is not None and (first[0].years[1] or 9999) >= FIRST_PHOTOGRAPH:
        return NameDate(first[0], of_scan=scanned and first[0].one_day is not None)
    rest, named = stem, False
    for number in numbers:
        found = re.search(re.escape(number), rest, re.IGNORECASE)
        if found:
            rest, named = f"{rest[: found.start()]} {rest[found.end() :]}", True
    whole = {found.groups(): found for pattern in (_WHOLE_DAY, _BY_CLOCK) for found in pattern.finditer(rest)}
    if len(whole) == 1:
        ((year, month, day),) = whole
        by_clock = next(iter(whole.values())).re is _BY_CLOCK
        sent = _SENT.search(stem) is not None
        if by_clock and int(year) < _FIRST_CLOCK:
            return None
        when = _read(f"../{year}-{month}-{day}" if sent else f"{year}-{month}-{day}", policy)
        return NameDate(when, by_clock or sent, sent, scanned) if when is not None else None
    if whole or not named:
        return None
    words = [word for word in re.split(r"[\s_,;()\[\]]+", rest) if word]
    years = [at for at, word in enumerate(words) if _WORD.fullmatch(word)]
    if len(years) != 1 or (years[0] and _COUNTED.fullmatch(words[years[0] - 1])):
        return None
    when = _read(words[years[0]], policy)
    return NameDate(when) if when is not None and (when.years[1] or 9999) >= FIRST_PHOTOGRAPH else None


def unclear_in_stem(stem: str) -> str | None:
    """What is to be said of a date in a name that can be read in more than one way; None where there is none."""
    found = _TWO_WAYS.search(stem)
    if found is None:
        return None
    one, other, year = int(found[1]), int(found[2]), int(found[3])
    days = []
    for day, month in ((one, other), (other, one)):
        try:
            days.append(date(year, month, day).isoformat())
        except ValueError:
            continue
    if not days:
        return None
    return f"the file name holds {found[0]}; if that is its date, write {' or '.join(dict.fromkeys(days))}"


def _read(text: str, policy: DatePolicy) -> WhenWritten | None:
    try:
        return read_date(text, policy)
    except DateProblem:
        return None
