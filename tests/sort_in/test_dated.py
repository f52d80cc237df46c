"""When what comes in was taken: dates in names of all kinds, in the file, and those that are none."""

from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.sort_in.name_dates import date_in_stem, unclear_in_stem
from tests.making import POLICY
from tests.sort_in.scenes import card, collection, line, scene, shot, taken_in, whose


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return collection(tmp_path / "house")


@pytest.mark.parametrize(
    ("stem", "numbers", "date"),
    [
        # How telephones and programs name pictures: common practice, no source.
        ("IMG_20240503_101112", (), "2024-05-03"),
        ("20240503_101112 S2008.4", ("S2008.4",), "2024-05-03"),
        ("PXL_20240503_101112345", (), "2024-05-03"),
        ("IMG20240503101112", (), "2024-05-03"),
        ("IMG-20240503-WA0012", (), "../2024-05-03"),
        ("WhatsApp Image 2024-05-03 at 10.11.12", (), "../2024-05-03"),
        ("IMG_2024-06-01_S2019.1", ("S2019.1",), "2024-06-01"),
        # How people do.
        ("S1983.6 front 1964", ("S1983.6",), "1964"),
        ("S1983.6_1964-05_front", ("S1983.6",), "1964-05"),
        ("S1983.6 (196X) front", ("S1983.6",), "196X"),
        ("S1983.6 1964~", ("S1983.6",), "1964~"),
        ("1971 S1983.6 front", ("S1983.6",), "1971"),
        # Running numbers, numbers of trees and other figures.
        ("front 1964", (), None),
        ("IMG_1964 S1983.6", ("S1983.6",), None),
        ("100_1964 S1983.6", ("S1983.6",), None),
        ("S1983.6 1964 or 1966", ("S1983.6",), None),
        ("S1983.6-1964", ("S1983.6",), None),
        ("19830605 S1983.6", ("S1983.6",), None),
        ("20241345_101112", (), None),
        ("2024-05-03 to 2024-05-04 S1", ("S1",), "2024-05-03"),
        ("days 2024-05-03 2024-05-04", (), None),
        ("1979-12 1964", ("1979-12",), "1964"),
        ("1979-12 front", ("1979-12",), None),
        ("S1700.2 1701", ("S1700.2",), None),
    ],
)
def test_dates_in_names(stem: str, numbers: tuple[str, ...], date: str | None) -> None:
    found = date_in_stem(stem, numbers, POLICY)
    assert (found.when.text if found else None) == date


def test_a_date_that_can_be_read_in_two_ways_is_asked_for() -> None:
    assert "write 2024-05-03 or 2024-03-05" in (unclear_in_stem("03.05.2024 S2008.4") or "")
    assert (unclear_in_stem("23.05.2024") or "").endswith("write 2024-05-23")
    assert unclear_in_stem("1.2.3.2024") is None
    assert unclear_in_stem("33.44.2024") is None


def test_the_year_in_the_name_of_a_scan_dates_it_and_the_day_of_the_scan_does_not(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "box"
    shot(source / "S1979.2 front 1964.jpg", scene(1), "2013-02-03 10:00:00", scanner=True)
    shot(source / "S1979.2 0001.jpg", scene(2), "2013-02-03 10:01:00", scanner=True)
    shot(source / "2013-02-03 S1979.2.jpg", scene(3), "2013-02-03 10:02:00", scanner=True)
    plan = taken_in(root, source).plan
    named = line(plan, "S1979.2 front 1964.jpg")
    assert named.target == "trees/S1979.2-a-tree/photos/1964_front_1.jpg"
    assert dict(named.entry)["dated_by"] == "file name"
    (told,) = line(plan, "S1979.2 0001.jpg").told
    assert told == "it was digitised on 2013-02-03, which does not date the photograph"
    (told,) = line(plan, "2013-02-03 S1979.2.jpg").told
    assert "only repeats a day in the file that is not the photograph's (2013-02-03)" in told
    assert "date" not in dict(line(plan, "2013-02-03 S1979.2.jpg").entry)


@pytest.mark.parametrize(
    "name", ["Scan_20130203_101112 S1979.2", "2013-02-03 scanned S1979.2", "S1979.2 scan 2013-02-03"]
)
def test_the_day_in_a_name_that_speaks_of_a_scan_dates_no_photograph(root: Path, tmp_path: Path, name: str) -> None:
    shot(tmp_path / "box" / f"{name}.jpg", scene(1), camera=("", "", ""))
    shot(tmp_path / "box" / "S1979.2 scan 1964.jpg", scene(2), camera=("", "", ""))
    plan = taken_in(root, tmp_path / "box").plan
    assert "date" not in dict(line(plan, f"{name}.jpg").entry)
    assert "2013-02-03 is taken for its day" in line(plan, f"{name}.jpg").told[0]
    assert "date" not in dict(line(plan, "S1979.2 scan 1964.jpg").entry)
    assert date_in_stem("S1979.2 front 1964 scan", ("S1979.2",), POLICY) is not None


def test_a_telephones_name_gives_way_to_its_camera(root: Path, tmp_path: Path) -> None:
    """Some name their pictures in the time of Greenwich: the day may be another."""
    source = tmp_path / "box"
    shot(source / "PXL_20240502_231112345 S1979.2.jpg", scene(1), "2024-05-03 01:11:12", zone="+02:00")
    plan = taken_in(root, source).plan
    assert dict(plan.lines[0].entry) == {"file": "2024-05-03_1.jpg", "date": "2024-05-03", "dated_by": "camera"}


def test_what_was_sent_on_may_be_older(root: Path, tmp_path: Path) -> None:
    shot(tmp_path / "box" / "S1979.2" / "IMG-20240503-WA0012.jpg", scene(1))
    (filed,) = taken_in(root, tmp_path / "box").plan.lines
    assert dict(filed.entry) == {"file": "undated_1.jpg", "date": "../2024-05-03", "dated_by": "file name"}
    assert any("may be older" in told for told in filed.told)


PACKET = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    '<rdf:Description xmlns:p="http://ns.adobe.com/photoshop/1.0/" p:DateCreated="1974-05-03"/></rdf:RDF></x:xmpmeta>'
)


def test_a_date_that_somebody_wrote_into_the_file_is_offered_and_held_against_others(
    root: Path, tmp_path: Path
) -> None:
    source, kept = tmp_path / "box", {"xmp": PACKET.encode()}
    shot(source / "S1979.2 a.jpg", scene(1), camera=("", "", ""), **kept)
    shot(source / "1976 S1979.2 b.jpg", scene(2), camera=("", "", ""), **kept)
    shot(source / "S1979.2 c.jpg", scene(3), "2024-05-03 10:00:00", **kept)
    shot(source / "1974 S1979.2 d.jpg", scene(4), camera=("", "", ""), **kept)
    plan = taken_in(root, source).plan
    field = "its XMP photoshop:DateCreated gives 1974-05-03"
    assert line(plan, "S1979.2 a.jpg").told[-1] == f"{field}: a `date` in the mapping file, if that is right"
    assert line(plan, "1976 S1979.2 b.jpg").told == (f"{field}: one of the two dates is wrong",)
    assert line(plan, "S1979.2 c.jpg").told == (f"{field}: one of the two dates is wrong",)
    assert line(plan, "1974 S1979.2 d.jpg").told == ()


def test_a_table_that_dates_a_print_is_not_held_against_the_camera_that_copied_it(root: Path, tmp_path: Path) -> None:
    source, table = tmp_path / "box", tmp_path / "map.csv"
    shot(source / "a.jpg", scene(1), "2014-05-03 10:00:00")
    shot(source / "b.jpg", scene(2), "2014-05-03 10:01:00")
    table.write_text("file,accession,date,dated_by\na.jpg,S1979.2,1974,print\nb.jpg,S1979.2,1974,\n")
    plan = taken_in(root, source, mapping=table).plan
    assert line(plan, "a.jpg").told == ()
    assert "EXIF DateTimeOriginal gives 2014-05-03" in " ".join(line(plan, "b.jpg").told)


def test_a_folders_year_and_an_unclear_day_are_offered(root: Path, tmp_path: Path) -> None:
    shot(tmp_path / "box" / "1964 summer" / "S1979.2.jpg", scene(1), camera=("", "", ""))
    shot(tmp_path / "box" / "S1979.2 03.05.2024.jpg", scene(2), camera=("", "", ""))
    plan = taken_in(root, tmp_path / "box").plan
    assert "a folder's name gives 1964" in line(plan, "1964 summer/S1979.2.jpg").told[-1]
    assert "2024-05-03 or 2024-03-05" in line(plan, "S1979.2 03.05.2024.jpg").told[-1]


@pytest.mark.parametrize("begin", ["1980-01-01 00:0", "2000-01-01 00:0", "2031-05-05 10:0"])
def test_a_clock_nobody_set_dates_nothing_and_tells_the_order_where_running_numbers_do_too(
    root: Path, tmp_path: Path, begin: str
) -> None:
    source = tmp_path / "card"
    card(source / "DSC_0001.jpg", "S1979.2", f"{begin}1:00")
    shot(source / "DSC_0002.jpg", scene(1), f"{begin}2:00")
    card(source / "DSC_0003.jpg", "S1986.1", f"{begin}3:00")
    shot(source / "DSC_0004.jpg", scene(2), f"{begin}4:00")
    plan = taken_in(root, source).plan
    assert whose(plan)["DSC_0002.jpg"] == ("S1979.2",)
    assert whose(plan)["DSC_0004.jpg"] == ("S1986.1",)
    assert line(plan, "DSC_0002.jpg").entry == (("file", "undated_1.jpg"),)


def test_a_clock_that_began_again_gives_no_picture_to_the_wrong_card(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "DSC_0001.jpg", "S1979.2", "2000-01-01 00:01:00")
    shot(source / "DSC_0002.jpg", scene(1), "2000-01-01 00:05:00")
    card(source / "DSC_0003.jpg", "S1986.1", "2000-01-01 00:00:30")
    shot(source / "DSC_0004.jpg", scene(2), "2000-01-01 00:02:00")
    assert whose(taken_in(root, source).plan)["DSC_0004.jpg"] == "doubtful"


def test_without_running_numbers_an_unset_clock_tells_nothing_and_the_plan_says_so(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "first.jpg", "S1979.2", "1980-01-01 00:01:00")
    shot(source / "second.jpg", scene(1), "1980-01-01 00:02:00")
    doubtful = line(taken_in(root, source).plan, "second.jpg")
    assert doubtful.state == "doubtful"
    assert "its camera's clock was not set" in doubtful.told[0]
