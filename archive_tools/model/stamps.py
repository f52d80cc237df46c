"""The dates that a picture's file carries, and which days each of them can mean."""

from __future__ import annotations

import calendar
import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from archive_tools.model.dates import Span

EARLIEST_ZONE, LATEST_ZONE = timedelta(hours=-12), timedelta(hours=14)
"""How far local times lie from UTC at most (time zone database, from memory: Baker Island, Kiritimati)."""

_COARSE = re.compile(r"(\d{4})(?:-(\d\d))?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Stamp:
    """One date in a picture's file.

    kind: "taken" (by the camera's clock), "gps" (UTC, by satellites), "created" (set by a person or a program for what
    the picture shows) or "digitised". field: where it stands, as in "EXIF DateTimeOriginal". text: EDTF text of a year,
    a month, a day, or a day and time with the offset from UTC where it is known; what is no date stands as written.
    doubt: why it is not believed, completing "…, which"; None where nothing speaks against it.
    """

    kind: str
    field: str
    text: str
    doubt: str | None = None

    @property
    def day(self) -> str:
        """The day as it is written (or the month, or the year)."""
        return self.text[:10]


def possible_days(stamp: Stamp, timezone: str = "UTC") -> Span | None:
    """The days on which the picture can have been taken where the collection is, as far as this stamp knows.

    timezone: the collection's (an IANA name). A time with its offset is one moment: the day written beside it, or the
    day in the collection's zone. A camera's clock without an offset may show the time of another zone, so a time near
    midnight may belong to the day beside it; what satellites give is UTC. None where the text is no date.
    """
    text = stamp.text
    coarse = _COARSE.fullmatch(text)
    try:
        if coarse is not None:
            year, month = int(coarse[1]), int(coarse[2] or 1)
            last = int(coarse[2] or 12)
            return Span(date(year, month, 1), date(year, last, calendar.monthrange(year, last)[1]))
        if len(text) == len("2003-10-05"):
            day = date.fromisoformat(text)
            return Span(day, day)
        moment = datetime.fromisoformat(text)
        if moment.tzinfo is None:
            return Span((moment + EARLIEST_ZONE).date(), (moment + LATEST_ZONE).date())
        days = [_in_zone(moment, timezone)]
        if stamp.kind != "gps":
            days.append(moment.date())
        elif timezone == "UTC":
            # What a collection takes that does not say where it is: anywhere.
            utc = moment.astimezone(UTC)
            days += [(utc + EARLIEST_ZONE).date(), (utc + LATEST_ZONE).date()]
        return Span(min(days), max(days))
    except (ValueError, OverflowError, calendar.IllegalMonthError):
        return None


def _in_zone(moment: datetime, timezone: str) -> date:
    try:
        return moment.astimezone(ZoneInfo(timezone)).date()
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return moment.date()


def meet(one: Span, other: Span) -> bool:
    """Whether some day lies in both; an end that is None has no bound."""
    return (one.first is None or other.last is None or one.first <= other.last) and (
        other.first is None or one.last is None or other.first <= one.last
    )
