"""From the components of a written date to its days: unspecified digits, seasons, and "about".

The readings are those of the Library of Congress EDTF specification (4 February 2019). The
standard gives `~` no width; the margins are the collection's own policy.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from archive_tools.model.calendar import add, days_in_month, latest_before
from archive_tools.model.dates import DatePolicy, DateProblem, Duration, Span, WhenWritten

_ONE_DAY = Duration(0, 0, 1, "P1D")
_NAMES = ("", "January", "February", "March", "April", "May", "June", "July", "August", "September",
          "October", "November", "December")  # fmt: skip
_SEASONS = {
    "north": {21: (3, 3), 22: (6, 3), 23: (9, 3), 24: (12, 3)},
    "south": {21: (9, 3), 22: (12, 3), 23: (3, 3), 24: (6, 3)},
}
_PARTS_OF_YEAR: dict[int, tuple[int, int]] = {
    **{code + 4: months for code, months in _SEASONS["north"].items()},
    **{code + 8: months for code, months in _SEASONS["south"].items()},
    **{33 + quarter: (1 + 3 * quarter, 3) for quarter in range(4)},
    **{37 + third: (1 + 4 * third, 4) for third in range(3)},
    **{40 + half: (1 + 6 * half, 6) for half in range(2)},
}
"""Code to (first month, number of months), for 25 to 41."""


@dataclass(frozen=True, slots=True)
class Components:
    """A single date taken apart. Digits may be `X`; `month` may be a season (21-41); "" is absent.

    The marks are "", "?", "~" or "%" on each component that is there.
    """

    year: str
    month: str = ""
    day: str = ""
    year_mark: str = ""
    month_mark: str = ""
    day_mark: str = ""

    @property
    def bare(self) -> str:
        """The date without its marks."""
        return "-".join(filter(None, (self.year, self.month, self.day)))


def read_components(text: str, parts: Components, policy: DatePolicy) -> WhenWritten:
    """The days that one date (no range, no set) stands for. Raises DateProblem if there are none."""
    if parts.year == "XXXX" and not _tells_something(parts):
        raise DateProblem(f"`{text}` says nothing about any day", "no date at all, and what is known as text")
    if parts.month and 21 <= _number(parts.month) <= 41:
        said, precision = _season_span(parts, policy), "season"
    else:
        said = _digits_span(parts)
        precision = "day" if parts.day else "month" if parts.month else year_precision(parts.year)
    if parts.year == "XXXX":  # without a year there is no bound to reason with
        said = Span(None, None)
    present = [
        (mark, unit)
        for mark, unit, there in (
            (parts.year_mark, year_precision(parts.year), parts.year),
            (parts.month_mark, "season" if precision == "season" else "month", parts.month),
            (parts.day_mark, "day", parts.day),
        )
        if there
    ]
    about = [unit for mark, unit in present if mark in ("~", "%")]
    wide = said
    if about:
        # Marks on every component mean the date as a whole; otherwise the coarsest one decides.
        wide = widened(said, precision if len(about) == len(present) else about[0], policy)
    return WhenWritten(
        text=text,
        earliest=wide.first,
        latest=wide.last,
        said=said,
        parts=(said,),
        approximate=bool(about),
        uncertain=any(mark in ("?", "%") for mark, _ in present),
        precision=precision,
    )


def year_precision(year: str) -> str:
    """Whether a year's digits leave a year, a decade (`195X`) or more (`19XX`, `1XXX`, `1X51`) open."""
    at = year.find("X")
    return "year" if at < 0 else "decade" if at == 3 else "century"


def widened(said: Span, unit: str, policy: DatePolicy) -> Span:
    """`said` with the margin for `unit` on both sides, filled up to whole days, months or years.

    Seasons are filled up to whole months, decades and centuries to whole years.
    """
    margin = policy.margin(unit)
    first, last = said.first, said.last
    if first is not None:
        first = latest_before(_unit_start(first, unit), margin)
        first = None if first is None else _unit_start(first, unit)
    if last is not None:
        last = _widened_end(last, unit, margin)
    return Span(first, last)


def _widened_end(last: date, unit: str, margin: Duration) -> date | None:
    # Counted from the first day that is too late, so that January + P1M ends with February.
    morrow = add(last, _ONE_DAY)
    too_late = None if morrow is None else add(morrow, margin)
    if too_late is None:
        return None
    start = _unit_start(too_late, unit)
    if start != too_late:
        step = _ONE_DAY if unit == "day" else Duration(0, 1, 0, "P1M")
        following = add(start, step if unit in ("day", "month", "season") else Duration(1, 0, 0, "P1Y"))
        if following is None:
            return None
        start = following
    return date.fromordinal(start.toordinal() - 1)


def _unit_start(day: date, unit: str) -> date:
    if unit == "day":
        return day
    return date(day.year, day.month, 1) if unit in ("month", "season") else date(day.year, 1, 1)


def _number(digits: str) -> int:
    return int(digits) if "X" not in digits else 0


def _tells_something(parts: Components) -> bool:
    return any(digits.strip("X") for digits in (parts.month, parts.day))


def _season_span(parts: Components, policy: DatePolicy) -> Span:
    code = _number(parts.month)
    if parts.day:
        raise DateProblem(
            f"`{parts.bare}` has a day in a season or part of the year ({code})",
            f"{parts.year}-{code}, or the month by its number 01 to 12",
        )
    if code <= 24:
        months = _SEASONS.get(policy.hemisphere, {}).get(code)
        if months is None:
            raise DateProblem(
                f"`{parts.bare}` names a season, and collection.yml does not say of which hemisphere",
                f"`hemisphere: north` or `hemisphere: south` in collection.yml, or {parts.year}-{code + 4} "
                f"for a northern and {parts.year}-{code + 8} for a southern season",
            )
    else:
        months = _PARTS_OF_YEAR[code]
    years = _years(parts.year)
    return Span(date(years[0], months[0], 1), _end_of(years[-1], *months))


def _end_of(year: int, month: int, count: int) -> date | None:
    too_late = add(date(year, month, 1), Duration(0, count, 0, ""))
    if too_late is None:  # a winter that would run out of the year 9999
        return date(9999, 12, 31) if month + count == 13 else None
    return date.fromordinal(too_late.toordinal() - 1)


def _digits_span(parts: Components) -> Span:
    """The first and the last day that fit the digits: the hull of all that do."""
    years = _years(parts.year)
    first = next(_days(parts, years, last=False), None)
    last = next(_days(parts, years, last=True), None)
    if first is None or last is None:
        raise _impossible(parts)
    return Span(first, last)


def _days(parts: Components, years: list[int], *, last: bool) -> Iterator[date]:
    """Days that fit, from the earliest on or from the latest back."""
    months = [month for month in range(1, 13) if _fits(parts.month, f"{month:02}")]
    step = -1 if last else 1
    for year in years[::step]:
        for month in months[::step]:
            days = range(1, days_in_month(year, month) + 1)
            for day in days[::step]:
                if _fits(parts.day, f"{day:02}"):
                    yield date(year, month, day)


def _years(pattern: str) -> list[int]:
    """The years 1 to 9999 that fit. Raises DateProblem if there are none (0000)."""
    at = pattern.find("X")
    fixed = pattern if at < 0 else pattern[:at]
    low, high = int(fixed.ljust(4, "0")), int(fixed.ljust(4, "9"))
    years = [year for year in range(max(low, 1), high + 1) if _fits(pattern, f"{year:04}")]
    if not years:
        raise DateProblem("the year 0000 lies outside the years 0001 to 9999 that can be read here")
    return years


def _fits(pattern: str, digits: str) -> bool:
    return not pattern or all(asked in ("X", digit) for asked, digit in zip(pattern, digits, strict=True))


def _impossible(parts: Components) -> DateProblem:
    year, month, day = parts.year, parts.month, parts.day
    number = _number(month)
    if month and "X" not in month and not 1 <= number <= 12:
        what = f"`{parts.bare}` has no month {month}: months run from 01 to 12, parts of the year from 21 to 41"
        return DateProblem(what, _instead_of_month(parts))
    if month and not any(_fits(month, f"{each:02}") for each in range(1, 13)):
        return DateProblem(f"`{parts.bare}` fits no month: months run from 01 to 12", f"{year}-XX")
    if "X" in month or not number:
        return DateProblem(f"no month has a day that fits `{parts.bare}`", year)
    instead = f"{year}-{month} for some day of that month, or the right day"
    if _number(year) and month == "02" and re.fullmatch("29", day):
        what = f"`{parts.bare}` is no day: {year} was not a leap year, its February had 28 days"
    elif "X" in year or "X" in day:
        what = f"no day fits `{parts.bare}`"
    elif day == "00":
        what = f"`{parts.bare}` has no day 00: days run from 01"
    else:
        what = f"`{parts.bare}` is no day: {_NAMES[number]} {year} had {days_in_month(int(year), number)} days"
    return DateProblem(what, instead)


def _instead_of_month(parts: Components) -> str:
    year, month, day = parts.year, parts.month, parts.day
    if day.isdigit() and 1 <= int(day) <= 12 and 1 <= int(month) <= 31:
        return f"{year}-{day}-{month} if day and month changed places"
    if month != "00" and not day and year.isdigit() and int(month) > int(year[2:]):
        return f"{year}/{year[:2]}{month} if the years from one to the other are meant"
    return f"{year} if the month is not known, or the right month"
