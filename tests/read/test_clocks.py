"""Dates in a file that are not believed, and which of two is not."""

from __future__ import annotations

from datetime import date

import pytest

from archive_tools.model.stamps import Stamp
from archive_tools.read.clocks import DAY_OF_SCAN, doubted, to_come


def doubt(text: str, kind: str = "taken", made_by: str = "") -> str | None:
    (stamp,) = doubted([Stamp(kind, "EXIF", text)], made_by)
    return stamp.doubt


@pytest.mark.parametrize(
    ("text", "kind", "made_by", "why"),
    [
        ("1980-01-01T00:04:11", "taken", "", "clock starts"),
        ("2001-01-01T17:00:00", "taken", "camera", "clock starts"),
        ("1970-01-01", "digitised", "", "clock starts"),
        ("2007-01-01T00:00:00", "taken", "", "first moment of a year"),
        ("1962-01-01T00:00:00", "taken", "", "a year alone"),
        ("2007-01-01T00:21:00", "taken", "camera", "first hour of a year"),
        ("1989-06-01T12:00:00", "taken", "camera", "before there were digital cameras"),
        ("1980-01-06T00:00:12Z", "gps", "", "no fix"),
        ("1956-05-01T12:00:00", "digitised", "scanner", "before pictures could be digitised"),
        ("1825-05-01", "created", "", "before there were photographs"),
        ("2003-02-29T12:00:00", "taken", "", "no day of the calendar"),
        ("", "taken", "", "no day of the calendar"),
    ],
)
def test_what_is_not_believed(text: str, kind: str, made_by: str, why: str) -> None:
    told = doubt(text, kind, made_by)
    assert told is not None and why in told


@pytest.mark.parametrize(
    ("text", "kind", "made_by"),
    [
        ("1980-01-02T00:04:11", "taken", ""),
        ("2007-01-01T00:21:00", "taken", ""),  # New Year's night, and no camera that tells of itself
        ("2007-01-01T01:00:00", "taken", "camera"),
        ("1962-06-01T00:00:00", "taken", "scanner"),  # set by hand
        ("1989-06-01T12:00:00", "taken", ""),
        ("1990-06-01T12:00:00", "taken", "camera"),
        ("1900-01-01", "created", "camera"),  # written by a person, of a print that a camera copied
        ("1962", "created", ""),
        ("1962-05", "created", ""),
        ("1999-08-22T10:00:00Z", "gps", "camera"),
    ],
)
def test_what_is(text: str, kind: str, made_by: str) -> None:
    assert doubt(text, kind, made_by) is None


def test_a_scan_dates_no_subject_in_whatever_tag_its_day_stands() -> None:
    taken, digitised, created = doubted(
        [
            Stamp("taken", "EXIF", "2014-02-28T09:00:01"),
            Stamp("digitised", "EXIF", "2014-02-28T09:00:01"),
            Stamp("created", "XMP", "2014-02-28"),
        ],
        "scanner",
    )
    assert (taken.doubt, digitised.doubt, created.doubt) == (DAY_OF_SCAN, None, DAY_OF_SCAN)
    by_hand, *_ = doubted(
        [Stamp("taken", "EXIF", "1974-06-01T12:00:00"), Stamp("digitised", "EXIF", "2014-02-28T09:00:01")], "scanner"
    )
    assert by_hand.doubt is None


def test_taken_after_it_was_digitised() -> None:
    taken, _ = doubted(
        [Stamp("taken", "EXIF", "2014-03-02T09:00:01"), Stamp("digitised", "EXIF", "2014-02-28T09:00:00")], ""
    )
    assert taken.doubt is not None and "later than the day of digitising (EXIF: 2014-02-28" in taken.doubt
    same_night, _ = doubted(
        [Stamp("taken", "EXIF", "2014-03-01T08:00:00"), Stamp("digitised", "EXIF", "2014-02-28T09:00:00")], ""
    )
    assert same_night.doubt is None


def test_a_receiver_whose_weeks_began_again() -> None:
    # 7168 days before 2023-05-07 is 2003-09-21 (1024 weeks; worked out on the calendar).
    taken, gps = doubted(
        [Stamp("taken", "EXIF", "2023-05-07T12:00:00"), Stamp("gps", "EXIF GPS", "2003-09-21T10:00:00Z")], "camera"
    )
    assert taken.doubt is None
    assert gps.doubt is not None and "1024 weeks" in gps.doubt


def test_what_is_still_to_come_depends_on_the_day() -> None:
    stamps = [Stamp("taken", "EXIF", "2026-11-27T00:10:00"), Stamp("created", "XMP", "2027"), Stamp("gps", "GPS", "x")]
    assert [stamp.doubt for stamp in to_come(stamps, date(2026, 11, 25))] == [
        "is still to come", "is still to come", None,
    ]  # fmt: skip
    assert [stamp.doubt for stamp in to_come(stamps, date(2026, 11, 26))] == [None, "is still to come", None]
