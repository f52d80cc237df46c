"""What a camera's clock can say and what it cannot: dates that are in the file and yet not believed.

No library knows these; the days below are what clocks show when nobody has set them (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from archive_tools.model.stamps import Stamp

FIRST_PHOTOGRAPH = 1826
"""No photograph is older (from memory; the exact year does not matter to a clock)."""
FIRST_SCAN = 1957
"""The first photograph was put into a computer (from memory)."""
FIRST_DIGITAL_CAMERA = 1990
"""From when digital cameras were sold (from memory). EXIF itself is of 1995."""

DAY_OF_SCAN = "is the day of the scan: a scanner made this file"

_CLOCK_STARTS = frozenset({(1900, 1, 1), (1904, 1, 1), (1970, 1, 1), (1980, 1, 1), (2000, 1, 1), (2001, 1, 1)})
"""Days from which computers and cameras count."""
_SATELLITES_START = date(1980, 1, 6)
_WEEKS = timedelta(weeks=1024)
"""The satellites' own count of weeks begins again after as many (IS-GPS-200, 20.3.3.3.1.1, from memory)."""
_COARSE = re.compile(r"\d{4}(?:-(?:0[1-9]|1[0-2]))?", re.ASCII)


def doubted(stamps: Sequence[Stamp], made_by: str) -> tuple[Stamp, ...]:
    """The stamps, each with what speaks against it by itself or beside the others.

    made_by: "camera", "scanner" or "" (nobody can tell), of the file as a whole.
    """
    alone = [stamp if stamp.doubt else replace(stamp, doubt=_impossible(stamp, made_by)) for stamp in stamps]
    scan_days = {stamp.day for stamp in alone if stamp.kind == "digitised" and not stamp.doubt}
    together = [stamp if stamp.doubt else replace(stamp, doubt=_beside(stamp, alone)) for stamp in alone]
    if made_by != "scanner":
        return tuple(together)
    return tuple(
        replace(stamp, doubt=DAY_OF_SCAN) if not stamp.doubt and _is_day_of_scan(stamp, scan_days) else stamp
        for stamp in together
    )


def to_come(stamps: Sequence[Stamp], today: date) -> tuple[Stamp, ...]:
    """The stamps, those in doubt that lie after tomorrow (it may be tomorrow already where the picture was taken)."""
    return tuple(
        replace(stamp, doubt="is still to come") if not stamp.doubt and _first_day(stamp) > today else stamp
        for stamp in stamps
    )


def _first_day(stamp: Stamp) -> date:
    moment = _moment(stamp.text)
    return date.min if moment is None else moment.date() - timedelta(days=1)


def _moment(text: str) -> datetime | None:
    """The first moment of what is written, without its zone."""
    padded = f"{text}-01-01"[:10] if _COARSE.fullmatch(text) else text
    try:
        return datetime.fromisoformat(padded).replace(tzinfo=None)
    except ValueError:
        return None


def _impossible(stamp: Stamp, made_by: str) -> str | None:
    moment = _moment(stamp.text)
    if moment is None:
        return "is no day of the calendar"
    has_time = len(stamp.text) > len("2003-10-05")
    whole_day = len(stamp.text) >= len("2003-10-05")
    if whole_day and stamp.kind != "created" and (moment.year, moment.month, moment.day) in _CLOCK_STARTS:
        return "is where a clock starts that nobody has set"
    if has_time and (moment.month, moment.day, moment.hour, moment.minute, moment.second) == (1, 1, 0, 0, 0):
        return "is the first moment of a year: a clock that nobody has set, or a year alone"
    if has_time and made_by == "camera" and (moment.month, moment.day, moment.hour) == (1, 1, 0):
        return "is the first hour of a year, where a clock starts that nobody has set"
    if moment.year < FIRST_PHOTOGRAPH:
        return "is before there were photographs"
    if stamp.kind == "digitised" and moment.year < FIRST_SCAN:
        return "is before pictures could be digitised"
    if stamp.kind == "gps" and moment.date() <= _SATELLITES_START:
        return "is where the count of the satellites begins: no fix"
    if made_by == "camera" and stamp.kind != "created" and moment.year < FIRST_DIGITAL_CAMERA:
        return "is before there were digital cameras, and a camera made this file"
    return None


def _beside(stamp: Stamp, others: Sequence[Stamp]) -> str | None:
    moment = _moment(stamp.text)
    if moment is None or len(stamp.text) < len("2003-10-05"):
        return None
    day = timedelta(days=1)
    for other in others:
        at = _moment(other.text)
        if other.doubt or at is None or len(other.text) < len("2003-10-05"):
            continue
        if stamp.kind == "taken" and other.kind == "digitised" and moment - at > day:
            return f"is later than the day of digitising ({other.field}: {other.text})"
        if stamp.kind == "gps" and other.kind == "taken" and abs(at - moment - _WEEKS) <= day:
            return "is 1024 weeks too early: the receiver's count of weeks has begun again"
    return None


def _is_day_of_scan(stamp: Stamp, scan_days: set[str]) -> bool:
    if stamp.kind == "taken":
        # A day set by hand beside the scanner's own stands, and one from before anybody scanned at home; any other
        # that stands alone is the scanner's.
        return stamp.day in scan_days if scan_days else stamp.day[:4] >= str(FIRST_DIGITAL_CAMERA)
    return stamp.kind == "created" and stamp.day in scan_days
