"""Dates as years in a sentence: never narrower than the evidence, and never stale."""

from __future__ import annotations

from collections.abc import Callable

from archive_tools.model.dates import WhenWritten
from archive_tools.model.findings import AgeRange, Bounds
from archive_tools.reason.lineage import sayings as say

Translate = Callable[[str], str]


def at(bounds: Bounds, when: WhenWritten | None, _: Translate) -> str:
    """When something happened: "in 1953", "about 1953", "between 1951 and 1955", "in or before 1953", or ""."""
    if when is not None and when.approximate and when.said.first and when.said.last:
        first, last = when.said.first.year, when.said.last.year
        said = _(say.ABOUT) % {"year": first if first == last else f"{first}–{last}"}
    elif bounds.earliest is None and bounds.latest is None:
        return ""
    elif bounds.earliest is None:
        assert bounds.latest is not None
        said = _(say.BY_YEAR) % {"year": bounds.latest.year}
    elif bounds.latest is None:
        said = _(say.AFTER_YEAR) % {"year": bounds.earliest.year}
    elif bounds.earliest.year == bounds.latest.year:
        said = _(say.IN_YEAR) % {"year": bounds.earliest.year}
    else:
        said = _(say.BETWEEN) % {"first": bounds.earliest.year, "last": bounds.latest.year}
    return _(say.PERHAPS) % {"when": said} if when is not None and when.uncertain else said


def years(bounds: Bounds | None, _: Translate) -> str:
    """A year or years alone: "1953", "1951–1955", "1953 or earlier", or ""."""
    if bounds is None or not bounds.known:
        return ""
    if bounds.earliest is None:
        assert bounds.latest is not None
        return _(say.YEAR_OR_EARLIER) % {"year": bounds.latest.year}
    if bounds.latest is None:
        return _(say.YEAR_OR_LATER) % {"year": bounds.earliest.year}
    first, last = bounds.earliest.year, bounds.latest.year
    return (
        _(say.ONE_YEAR_ALONE) % {"year": first}
        if first == last
        else _(say.YEARS_FROM_TO) % {"first": first, "last": last}
    )


def one_year(bounds: Bounds) -> int | None:
    """The one year a date lies in, or None where it may lie in several."""
    first, last = bounds.earliest, bounds.latest
    return first.year if first is not None and last is not None and first.year == last.year else None


def span(start: Bounds, end: Bounds | None, _: Translate) -> str:
    """From when to when: "from 1994 to 1996", "in 2016", "since 2020", "until 1996", or ""."""
    first, last = years(start, _), years(end, _)
    if end is None or not last:
        return _(say.SINCE) % {"start": first} if first else ""
    if not first:
        return _(say.UNTIL) % {"end": last}
    if first == last and (year := one_year(start)) is not None:
        return _(say.IN_YEAR) % {"year": year}
    return _(say.SPAN) % {"start": first, "end": last}


def how_long(lasted: AgeRange, _: Translate) -> str:
    """Completed years in words: "6 to 7 years", "less than a year", "at least 3 years"."""
    least, most = lasted.min, lasted.max
    if least is None and most is None:
        return _(say.YEARS_UNKNOWN)
    if most is None:
        return _(say.YEARS_AT_LEAST) % {"n": least} if least else _(say.YEARS_UNKNOWN)
    if most == 0:
        return _(say.UNDER_A_YEAR)
    if not least:
        return _(say.AT_MOST_ONE) if most == 1 else _(say.YEARS_AT_MOST) % {"n": most}
    if least == most:
        return _(say.ONE_YEAR) if most == 1 else _(say.YEARS) % {"n": most}
    return _(say.YEARS_BETWEEN) % {"least": least, "most": most}
