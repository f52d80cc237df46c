"""Which days a date in a file can mean where the collection is."""

from __future__ import annotations

from datetime import date

import pytest

from archive_tools.model.dates import Span
from archive_tools.model.stamps import Stamp, meet, possible_days


def days(kind: str, text: str, timezone: str = "UTC") -> tuple[str, str] | None:
    span = possible_days(Stamp(kind, "EXIF", text), timezone)
    return None if span is None else (str(span.first), str(span.last))


@pytest.mark.parametrize(
    ("kind", "text", "timezone", "first", "last"),
    [
        ("created", "1962", "UTC", "1962-01-01", "1962-12-31"),
        ("created", "1962-02", "UTC", "1962-02-01", "1962-02-28"),
        ("created", "1962-05-01", "Asia/Tokyo", "1962-05-01", "1962-05-01"),
        # A camera's clock without a zone: at noon one day, near midnight perhaps the day beside it.
        ("taken", "2008-06-07T11:42:10", "UTC", "2008-06-06", "2008-06-08"),
        ("taken", "2008-06-07T09:00:00", "UTC", "2008-06-06", "2008-06-07"),
        ("taken", "2008-06-07T12:00:00", "UTC", "2008-06-07", "2008-06-08"),
        # With its offset it is one moment: the day beside it, or the day where the collection is.
        ("taken", "2008-06-07T23:30:00+01:00", "Europe/London", "2008-06-07", "2008-06-07"),
        ("taken", "2008-06-07T23:30:00+01:00", "Asia/Tokyo", "2008-06-07", "2008-06-08"),
        # Satellites give UTC. (The photograph with these two stamps is in the goexif samples: 21:38:40 on the 19th.)
        ("gps", "2012-12-20T04:38:40Z", "America/Denver", "2012-12-19", "2012-12-19"),
        ("gps", "2012-12-20T04:38:40Z", "Europe/Berlin", "2012-12-20", "2012-12-20"),
        ("gps", "2012-12-20T12:00:00Z", "UTC", "2012-12-20", "2012-12-21"),
        ("gps", "2012-12-20", "America/Denver", "2012-12-20", "2012-12-20"),
        # A zone that this machine does not know costs no date.
        ("gps", "2012-12-20T04:38:40Z", "Moon/Tranquillity", "2012-12-20", "2012-12-20"),
    ],
)
def test_possible_days(kind: str, text: str, timezone: str, first: str, last: str) -> None:
    assert days(kind, text, timezone) == (first, last)


@pytest.mark.parametrize("text", ["", "yesterday", "2003-13-41T00:00:00", "1962-13", "0000", "2003-02-29"])
def test_what_is_no_date_means_no_day(text: str) -> None:
    assert days("taken", text) is None


def test_meeting() -> None:
    may = Span(date(2008, 5, 1), date(2008, 5, 31))
    assert meet(may, Span(date(2008, 5, 31), None)) and meet(Span(None, date(2008, 5, 1)), may)
    assert not meet(may, Span(date(2008, 6, 1), None)) and not meet(Span(None, date(2008, 4, 30)), may)
