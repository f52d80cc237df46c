"""The dates of a photograph's entry, name and file, compared; and pictures that look the same."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from archive_tools.check import check_findings
from archive_tools.check.duplicates import pictures_that_look_the_same
from archive_tools.check.photograph_dates import dates_that_differ, scanned_before_taken, stamps_out_of_order
from archive_tools.model.findings import Bounds, EventFinding, Findings, TreeChronology
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.stamps import Stamp
from tests.check.builders import TODAY, collection, event, photo, spot, timing, told, tree, when

SHEET = "trees/T1/photos/photos.yml"
TAKEN, GPS, XMP = "EXIF DateTimeOriginal", "EXIF GPS date and time", "XMP photoshop:DateCreated"


def taken(text: str, doubt: str | None = None) -> Stamp:
    return Stamp("taken", TAKEN, text, doubt)


def satellites(text: str) -> Stamp:
    return Stamp("gps", GPS, text)


def created(text: str) -> Stamp:
    return Stamp("created", XMP, text)


def digitised(text: str) -> Stamp:
    return Stamp("digitised", "EXIF DateTimeDigitized", text)


def pictured(
    *stamps: Stamp, zone: str = "Europe/London", named: str | None = None, made_by: str = "", **keys: Any
) -> Any:
    entry = photo("2008.jpg", stamps=stamps, **keys)
    return collection(
        tree("T1", photos=(replace(entry, named=when(named), made_by=made_by), photo("2020.jpg", visibility="public"))),
        house={"timezone": zone},
    )


def problems(made: Any) -> list[Problem]:
    return [*dates_that_differ(made), *scanned_before_taken(made)]


def test_both_sides_are_named_with_their_place_and_what_to_write() -> None:
    (problem,) = problems(pictured(taken("2008-06-07T11:42:10+01:00"), when="2009", dated_by="estimate"))
    assert (problem.rule, problem.severity, problem.reach) == ("photo-dates-differ", Severity.WARNING, Reach.TOLD)
    assert spot(problem.mark) == f"{SHEET} 2008.jpg/date"
    for words in ("trees/T1/photos/2008.jpg", "2009 (estimate)", TAKEN, "2008-06-07"):
        assert words in problem.what
    assert problem.instead is not None
    assert "`date: 2008-06-07` with `dated_by: camera`" in problem.instead and "`why`" in problem.instead
    assert told(pictured(taken("2008-06-07T11:42:10+01:00"), when="2009")) == [
        ("photo-dates-differ", f"{SHEET} 2008.jpg/date")
    ]


@pytest.mark.parametrize(
    ("stamps", "keys"),
    [
        ([taken("2008-06-07T11:42:10+01:00")], {"when": "2008"}),
        ([taken("2008-06-07T11:42:10+01:00")], {"when": "2008-06-07"}),
        ([taken("2008-06-07T11:42:10+01:00")], {"when": "2009", "why": "the camera's clock was wrong"}),
        ([taken("1980-01-01T00:00:00", "is where a clock starts")], {"when": "2009"}),
        # A camera whose zone nobody knows, and satellites that give UTC: midnight is no disagreement.
        ([taken("2008-06-08T01:30:00")], {"when": "2008-06-07"}),
        ([satellites("2008-06-07T23:30:00Z")], {"when": "2008-06-08"}),
        ([taken("2008-06-08T01:30:00"), satellites("2008-06-07T15:30:00Z")],
         {"when": "2008-06-08", "dated_by": "camera"}),
        # Paper and film that somebody copied: the file is younger.
        ([taken("2014-02-28T09:00:00")], {"when": "2005", "dated_by": "print", "made_by": "camera"}),
        ([taken("2014-02-28T09:00:00")], {"when": "1962", "dated_by": "file name"}),
        ([created("2014-02-28")], {"when": "1962", "dated_by": "what it shows"}),
        ([taken("1988-05-01T09:00:00")], {"when": "1990", "dated_by": "lab stamp"}),
        ([digitised("2014-02-28T09:00:00")], {"when": "1962", "made_by": "scanner"}),
        ([], {"when": "2009"}),
        ([taken("2008-06-07T11:42:10+01:00")], {}),
    ],
)  # fmt: skip
def test_what_is_no_disagreement(stamps: list[Stamp], keys: dict[str, Any]) -> None:
    assert problems(pictured(*stamps, **keys)) == []


@pytest.mark.parametrize(
    ("stamps", "keys", "field"),
    [
        ([taken("2008-06-08T01:30:00+01:00")], {"when": "2008-06-07"}, TAKEN),  # the zone is known: another day
        ([satellites("2008-06-07T15:30:00Z")], {"when": "2008-06-08"}, GPS),
        ([taken("2008-06-08T12:00:00"), satellites("2008-11-02T12:00:00Z")],
         {"when": "2008-06-08", "dated_by": "camera"}, GPS),
        ([taken("1988-05-01T09:00:00")], {"when": "1990", "dated_by": "print"}, TAKEN),  # older than its own print
        ([taken("2014-02-28T09:00:00")], {"when": "1962", "dated_by": "file name", "made_by": "camera"}, TAKEN),
        ([created("1961-05")], {"when": "1962"}, XMP),
        ([created("1963")], {"when": "1962", "dated_by": "publication", "made_by": "camera"}, None),
        ([taken("2014-02-28T09:00:00")], {"when": "2005", "dated_by": "what it shows"}, TAKEN),
    ],
)  # fmt: skip
def test_what_is(stamps: list[Stamp], keys: dict[str, Any], field: str | None) -> None:
    found = problems(pictured(*stamps, **keys))
    assert len(found) == (1 if field else 0)
    assert all(str(field) in problem.what for problem in found)


def test_fields_that_give_the_same_day_are_told_in_one() -> None:
    (problem,) = problems(pictured(taken("2008-06-07T11:42:10+01:00"), created("2008-06-07"), when="2009"))
    assert f"{TAKEN} and {XMP} give 2008-06-07" in problem.what


def test_a_file_name_that_says_another_date() -> None:
    (problem,) = problems(pictured(when="2009", named="2008"))
    assert (problem.rule, spot(problem.mark)) == ("photo-dates-differ", f"{SHEET} 2008.jpg/date")
    assert "its name begins with 2008" in problem.what and "`date: 2008`" in (problem.instead or "")
    assert problems(pictured(when="2008-05", named="2008")) == []
    assert problems(pictured(when="2009~", named="2008")) == []  # the collection's margin of two years
    assert problems(pictured(when="2009", named="2008", why="named when it was filed")) == []


def test_a_scan_older_than_its_photograph() -> None:
    (problem,) = problems(pictured(digitised("2014-02-28T09:00:00"), when="2016", made_by="scanner"))
    assert (problem.rule, spot(problem.mark)) == ("scanned-before-taken", f"{SHEET} 2008.jpg/date")
    assert problems(pictured(digitised("2014-02-28T09:00:00"), when="2014", made_by="scanner")) == []


def test_a_file_against_the_photographs_own_timing() -> None:
    """It shows the tree before it was bent, and its file gives a day after that."""
    shown = photo("a.jpg", stamps=(created("1995-05-01"),), timing=(timing("before", "bent"),))
    made = collection(tree("T1", event("bent", "1991"), photos=(shown, photo("2020.jpg", visibility="public"))))
    bent = EventFinding("bent", "bent", Bounds(when("1991").earliest, when("1991").latest), None, 0)  # type: ignore[union-attr, arg-type]
    findings = Findings(TODAY, {"T1": TreeChronology("T1", TODAY, False, {}, (bent,))})
    (problem,) = stamps_out_of_order(made, findings)
    assert (problem.rule, spot(problem.mark)) == ("photo-out-of-order", f"{SHEET} a.jpg/timing")
    for words in ("before “bent” (1991-01-01 to 1991-12-31)", XMP, "1995-05-01", "trees/T1/photos/a.jpg"):
        assert words in problem.what
    assert problem in check_findings(made, findings)
    for fine in (created("1990-05-01"), created("1991-06"), digitised("2014-02-28")):
        quiet = replace(shown, stamps=(fine,))
        assert not [*stamps_out_of_order(collection(tree("T1", event("bent", "1991"), photos=(quiet,))), findings)]


def looked(*looks: tuple[str, int, dict[str, Any]]) -> Any:
    photos = tuple(photo(file, look=f"{bits:064x}", fingerprint=file, **keys) for file, bits, keys in looks)
    return collection(tree("T1", photos=(*photos, photo("2020.jpg", visibility="public"))))


LOOK = int("9c3f" * 16, 16)


def flipped(bits: int) -> int:
    """The look with so many bits changed, spread over it."""
    return LOOK ^ sum(1 << (place * 19 % 256) for place in range(bits))


@pytest.mark.parametrize(
    ("bits", "dates", "rule"),
    [
        (0, ("1990", "1990"), "looks-the-same"),
        (12, ("1990", "1990-05"), "looks-the-same"),
        (13, ("1990", "1990"), None),
        (12, ("1990", None), "looks-the-same"),
        (6, ("1990", "1992"), "looks-the-same-dated-otherwise"),
        (7, ("1990", "1992"), None),
        (128, ("1990", "1990"), None),
    ],
)
def test_pictures_that_look_the_same(bits: int, dates: tuple[str, str | None], rule: str | None) -> None:
    made = looked(("a.jpg", LOOK, {"when": dates[0]}), ("b.jpg", flipped(bits), {"when": dates[1]}))
    found = list(pictures_that_look_the_same(made))
    assert [problem.rule for problem in found] == ([rule] if rule else [])
    for problem in found:
        assert problem.severity is Severity.WARNING and spot(problem.mark) == f"{SHEET} b.jpg/file"
        assert "photos/a.jpg" in problem.what and "photos/b.jpg" in problem.what


def test_an_entry_that_names_the_other_settles_it() -> None:
    settled = {"when": "1990", "why": "the same photograph as a, printed again"}
    assert not [*pictures_that_look_the_same(looked(("a.jpg", LOOK, {"when": "1990"}), ("b.jpg", LOOK, settled)))]


def test_three_files_of_one_photograph_are_two_problems() -> None:
    made = looked(
        *((file, flipped(bits), {"when": "1990"}) for file, bits in (("a.jpg", 0), ("b.jpg", 3), ("c.jpg", 6)))
    )
    assert [spot(problem.mark) for problem in pictures_that_look_the_same(made)] == [
        f"{SHEET} b.jpg/file", f"{SHEET} c.jpg/file",
    ]  # fmt: skip


def test_pictures_without_a_look_are_not_compared() -> None:
    photos = tuple(photo(file, look="", fingerprint=file, when="1990") for file in ("a.jpg", "b.jpg"))
    assert not [*pictures_that_look_the_same(collection(tree("T1", photos=photos)))]
