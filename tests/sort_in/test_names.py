"""Numbers in file and folder names: accessions, former numbers with their years, and what only looks like one."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from archive_tools.model.tree import OtherNumber, Tree
from archive_tools.sort_in.names import numbers_of, view_in_name
from archive_tools.sort_in.naming import Names, date_in_name
from tests.making import POLICY, tree, when
from tests.sort_in.scenes import TWO, card, collection, line, scene, shot, taken_in, whose

PATTERN = r"^S[0-9]{4}\.[0-9]{1,3}$"


def _number(number: str, since: str | None = None, until: str | None = None) -> OtherNumber:
    return OtherNumber(number, None, when(since), when(until))


TREES: dict[str, Tree] = {
    "S1979.2": tree(accession="S1979.2", other_numbers=(_number("Q-17", "1954", "1979"), _number("17"))),
    "S1979.23": tree(accession="S1979.23"),
    "S2015.9": tree(accession="S2015.9", other_numbers=(_number("Q-17", "1990", "2015"),)),
    "1979/12": tree(accession="1979/12"),
}


def _of(file: str, days: tuple[date, date] | None = None) -> tuple[str, ...] | str:
    found = numbers_of(TREES, PATTERN).named_by(file, days)
    return () if found is None else "doubtful" if found.doubt else found.trees


@pytest.mark.parametrize(
    ("file", "trees"),
    [
        ("S1979.2.jpg", ("S1979.2",)),
        ("S1979.23.jpg", ("S1979.23",)),
        ("s1979.2_front.jpg", ("S1979.2",)),
        ("2026-05-03 S1979.2-1.jpg", ("S1979.2",)),
        ("S1979.2/IMG_1.jpg", ("S1979.2",)),
        ("maple (S1979.2)/2026/IMG_1.jpg", ("S1979.2",)),
        ("S1979.2 and S2015.9.jpg", ("S1979.2", "S2015.9")),
        ("S1979-2.jpg", ("S1979.2",)),
        ("XS1979.2.jpg", ()),
        ("S1979.2.1.jpg", ()),
        ("S1979.2/S2015.9.jpg", "doubtful"),
        ("S1979.2/S1979.2.jpg", ("S1979.2",)),
        ("S2099.1.jpg", "doubtful"),
        ("1979-12.jpg", "doubtful"),
        ("1979-12_front_1.jpg", "doubtful"),
        ("IMG_17.jpg", ()),
        ("17.jpg", ("S1979.2",)),
        ("no. 17.jpg", ("S1979.2",)),
        ("Nr.17 front.jpg", ("S1979.2",)),
        ("#170.jpg", ()),
        ("IMG_1234.jpg", ()),
        ("Q-17.jpg", "doubtful"),
        ("Q-170.jpg", ()),
    ],
)
def test_a_number_in_a_name_counts_only_as_a_number_of_its_own(file: str, trees: tuple[str, ...] | str) -> None:
    assert _of(file) == trees


def test_a_former_number_counts_in_its_years() -> None:
    assert _of("Q-17.jpg", (date(1962, 1, 1), date(1962, 12, 31))) == ("S1979.2",)
    assert _of("Q-17.jpg", (date(2001, 5, 1), date(2001, 5, 1))) == ("S2015.9",)
    assert _of("Q-17.jpg", (date(1985, 5, 1), date(1985, 5, 1))) == "doubtful"
    assert _of("Q-17.jpg", (date(1970, 1, 1), date(1995, 1, 1))) == "doubtful"


def test_a_number_of_no_tree_is_answered_with_the_nearest() -> None:
    found = numbers_of(TREES, PATTERN).named_by("S1979.32.jpg", None)
    assert found is not None
    assert "is S1979.23 meant?" in (found.doubt or "") or "is S1979.2 meant?" in (found.doubt or "")


def test_a_folder_of_old_prints_by_former_number_and_year(tmp_path: Path) -> None:
    """The scans are of 2014: the name dates them and tells which of two trees bore the number then."""
    root, source = collection(tmp_path / "house"), tmp_path / "scans"
    shot(source / "Q-17/1962.jpg", scene(1), "2014-02-11 10:00:00", ("Flat", "Scan 1", ""), scanner=True)
    shot(source / "Q-17/2001-05.jpg", scene(2), "2014-02-11 10:01:00", ("Flat", "Scan 1", ""), scanner=True)
    shot(source / "Q-17/x.jpg", scene(3), "2014-02-11 10:02:00", ("Flat", "Scan 1", ""), scanner=True)
    done = taken_in(root, source, apply=True)
    assert whose(done.plan) == {
        "Q-17/1962.jpg": ("S1979.2",),
        "Q-17/2001-05.jpg": ("S2015.9",),
        "Q-17/x.jpg": "doubtful",
    }
    assert (root / "trees/S1979.2-a-tree/photos/photos.yml").read_text() == (
        "- file: 1962_1.jpg\n  date: 1962\n  dated_by: file name\n"
    )


def test_the_day_of_a_scan_never_dates_what_it_shows(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "scans"
    shot(source / "S1979.2/a.jpg", scene(1), "2014-02-11 10:00:00", ("Flat", "Scan 1", ""), scanner=True)
    shot(source / "S1979.2/2014-02-11.jpg", scene(2), "2014-02-11 10:01:00", ("Flat", "Scan 1", ""), scanner=True)
    done = taken_in(root, source, apply=True)
    assert [line(done.plan, name).entry for name in ("S1979.2/a.jpg", "S1979.2/2014-02-11.jpg")] == [
        (("file", "undated_2.jpg"),),
        (("file", "undated_1.jpg"),),
    ]
    assert "2014" not in (root / "trees/S1979.2-a-tree/photos/photos.yml").read_text()


def test_a_clock_that_nobody_set_dates_nothing(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    shot(source / "S1979.2.jpg", scene(1), "1980-01-01 00:00:00")
    plan = taken_in(root, source).plan
    assert line(plan, "S1979.2.jpg").target == "trees/S1979.2-a-tree/photos/undated_1.jpg"


def test_a_name_given_by_hand_goes_before_the_camera_that_photographed_a_print(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    shot(source / "1962 S1979.2.jpg", scene(1), "2026-05-03 10:00:00")
    shot(source / "2026-05 S1979.2.jpg", scene(2), "2026-05-03 10:00:10")
    shot(source / "S1979.2/1843.jpg", scene(3), "2026-05-03 10:00:20")
    plan = taken_in(root, source).plan
    assert dict(line(plan, "1962 S1979.2.jpg").entry)["date"] == "1962"
    assert dict(line(plan, "2026-05 S1979.2.jpg").entry)["date"] == "2026-05-03"
    assert dict(line(plan, "S1979.2/1843.jpg").entry)["date"] == "2026-05-03"


def test_the_view_is_written_only_where_the_name_says_exactly_one() -> None:
    assert view_in_name("S1979.2_front") == "front"
    assert view_in_name("Front view") == "front"
    assert view_in_name("front or back") is None
    assert view_in_name("storefront") is None


@pytest.mark.parametrize(
    ("date_written", "start"),
    [
        ("2026-05-03", "2026-05-03"),
        ("1962", "1962"),
        ("1962~", "1962~"),
        ("196X", "196X"),
        ("1962?", "1962"),
        ("1951/1953", "1951~"),
        ("[1951,1953]", "1951~"),
        ("../1951", "undated"),
        ("1951-21", "1951-21"),
        (None, "undated"),
    ],
)
def test_a_date_that_a_file_name_cannot_hold_gives_its_first_year(date_written: str | None, start: str) -> None:
    assert date_in_name(date_written, POLICY) == start


def test_no_name_is_given_twice_not_even_with_another_ending_or_in_capitals() -> None:
    names = Names(["2026-05-03_1.PNG", "2026-05-03_FRONT_1.jpg"])
    assert names.give("2026-05-03", None, ".jpg", POLICY) == "2026-05-03_2.jpg"
    assert names.give("2026-05-03", "front", ".jpg", POLICY) == "2026-05-03_front_2.jpg"
    other = Names(["2026-05-03_3.jpg"])
    assert names.give("2026-05-03", None, ".jpg", POLICY, [other]) == "2026-05-03_4.jpg"
    given = [other.give("2026-05-03", None, ".jpg", POLICY) for _ in range(3)]
    assert given == ["2026-05-03_1.jpg", "2026-05-03_2.jpg", "2026-05-03_5.jpg"]


def test_a_session_named_for_the_folder_is_what_nothing_else_claims(tmp_path: Path) -> None:
    root, source = collection(tmp_path / "house"), tmp_path / "card"
    shot(source / "1.jpg", scene(1), "2026-05-03 10:00:00")
    shot(source / "S1986.1.jpg", scene(2), "2026-05-03 10:00:00")
    plan = taken_in(root, source, session=("S1979.2",)).plan
    assert whose(plan) == {"1.jpg": ("S1979.2",), "S1986.1.jpg": ("S1986.1",)}


def test_a_number_in_the_name_stands_where_the_codes_of_the_folder_can_say_nothing(tmp_path: Path) -> None:
    """Cards of one day, and pictures that another camera took a year before: no card is against their names."""
    root, source = collection(tmp_path / "house"), tmp_path / "box"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(1), "2026-05-03 10:01:00")
    shot(source / "S1986.1 in May.jpg", scene(2), "2025-05-03 10:00:00", TWO)
    shot(source / "in May.jpg", scene(3), "2025-05-03 10:01:00", TWO)
    shot(source / "S1986.1 next day.jpg", scene(4), "2026-05-04 10:01:00")
    plan = taken_in(root, source).plan
    assert whose(plan) == {
        "1.jpg": "card",
        "2.jpg": ("S1979.2",),
        "S1986.1 in May.jpg": ("S1986.1",),
        "S1986.1 next day.jpg": ("S1986.1",),
        "in May.jpg": "doubtful",
    }
    assert "no code in common" in (line(plan, "in May.jpg").doubt or "")
    assert whose(taken_in(root, source, session=("S2015.9",)).plan)["in May.jpg"] == ("S2015.9",)
