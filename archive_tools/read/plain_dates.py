"""The plain forms of a date, read by hand because nearly every date in a collection is one.

Years, months, days, seasons, decades and centuries, each with `~`, `?` or `%` at the end, and ranges
between them. Whatever else is written goes to the library (`archive_tools.read.edtf_text`), which
would read these too, several hundred times as slowly; a test holds the two equal.
"""

from __future__ import annotations

import re
from datetime import date

from archive_tools.model.calendar import days_in_month
from archive_tools.model.dates import DatePolicy, Span, WhenWritten
from archive_tools.read.date_bounds import Components, read_components, widened
from archive_tools.read.date_ranges import OPEN, read_range

_DATE = re.compile(r"([0-9]{4})(?:-([0-9]{2})(?:-([0-9]{2}))?)?([~?%]?)")
_YEARS = re.compile(r"([0-9]{2})(?:([0-9])X|XX)([~?%]?)")


def read_plain(text: str, policy: DatePolicy) -> WhenWritten | None:
    """The reading of a plain form, or None if `text` is not one (it may still be a date).

    Raises DateProblem only for a range that says nothing or ends before it begins, and for a season
    where the policy names no hemisphere.
    """
    if "/" not in text:
        return _single(text, policy)
    before, _, after = text.partition("/")
    start = before if before in ("", OPEN) else _single(before, policy)
    if start is None:
        return None
    end = after if after in ("", OPEN) else _single(after, policy)
    return None if end is None else read_range(text, start, end)


def _single(text: str, policy: DatePolicy) -> WhenWritten | None:
    matched = _DATE.fullmatch(text)
    if matched is None:
        return _decade_or_century(text, policy)
    year_digits, month_digits, day_digits, mark = matched.groups()
    year = int(year_digits)
    if year == 0:
        return None
    if month_digits is None:
        return _reading(text, Span(date(year, 1, 1), date(year, 12, 31)), "year", mark, policy)
    month = int(month_digits)
    if day_digits is not None:
        try:
            day = date(year, month, int(day_digits))
        except ValueError:
            return None
        return _reading(text, Span(day, day), "day", mark, policy)
    if 1 <= month <= 12:
        said = Span(date(year, month, 1), date(year, month, days_in_month(year, month)))
        return _reading(text, said, "month", mark, policy)
    if 21 <= month <= 41:
        return read_components(text, Components(year_digits, month_digits, "", year_mark=mark, month_mark=mark), policy)
    return None


def _decade_or_century(text: str, policy: DatePolicy) -> WhenWritten | None:
    matched = _YEARS.fullmatch(text)
    if matched is None:
        return None
    century, decade, mark = matched.groups()
    first, length, precision = (
        (int(century) * 100, 100, "century") if decade is None else (int(century + decade) * 10, 10, "decade")
    )
    said = Span(date(max(first, 1), 1, 1), date(first + length - 1, 12, 31))
    return _reading(text, said, precision, mark, policy)


def _reading(text: str, said: Span, precision: str, mark: str, policy: DatePolicy) -> WhenWritten:
    if not mark or mark == "?":
        return WhenWritten(text, said.first, said.last, said, (said,), False, mark == "?", precision)
    wide = widened(said, precision, policy)
    return WhenWritten(text, wide.first, wide.last, said, (said,), True, mark == "%", precision)
