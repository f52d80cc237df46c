"""Two telephones of one model write nothing that tells them apart; their folders do."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.sort_in.scenes import TWO, card, collection, line, scene, shot, taken_in, whose


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return collection(tmp_path / "house")


def test_the_card_of_the_one_does_not_claim_the_pictures_of_the_other(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "box"
    card(source / "ann" / "1.jpg", "S1979.2", "2026-05-03 10:00:00", TWO)
    card(source / "ben" / "1.jpg", "S1986.1", "2026-05-03 10:01:00", TWO)
    shot(source / "ann" / "2.jpg", scene(1), "2026-05-03 10:02:00", TWO)
    shot(source / "ben" / "2.jpg", scene(2), "2026-05-03 10:03:00", TWO)
    shot(source / "cid" / "2.jpg", scene(3), "2026-05-03 10:02:30", TWO)
    plan = taken_in(root, source).plan
    assert whose(plan) == {
        "ann/1.jpg": "card",
        "ann/2.jpg": ("S1979.2",),
        "ben/1.jpg": "card",
        "ben/2.jpg": ("S1986.1",),
        "cid/2.jpg": "doubtful",
    }
    assert "Lisk Pocket (its pictures in cid) photographed no code in common" in (line(plan, "cid/2.jpg").doubt or "")


def test_a_card_that_both_photographed_sets_their_clocks(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "box"
    card(source / "ann" / "1.jpg", "S1979.2", "2026-05-03 10:00:00", TWO)
    card(source / "ben" / "1.jpg", "S1979.2", "2026-05-03 10:05:00", TWO)
    shot(source / "ann" / "2.jpg", scene(1), "2026-05-03 10:06:00", TWO)
    card(source / "ann" / "3.jpg", "S1986.1", "2026-05-03 10:10:00", TWO)
    shot(source / "ben" / "2.jpg", scene(2), "2026-05-03 10:12:00", TWO)
    shot(source / "ann" / "4.jpg", scene(3), "2026-05-03 10:16:00", TWO)
    shot(source / "ben" / "3.jpg", scene(4), "2026-05-03 10:20:00", TWO)
    plan = taken_in(root, source).plan
    assert whose(plan)["ben/2.jpg"] == ("S1979.2",)
    assert whose(plan)["ben/3.jpg"] == ("S1986.1",)
    assert "5 min ahead" in plan.clocks[0]


def test_the_next_folder_of_one_camera_goes_on_with_its_session(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "box"
    card(source / "100LISK" / "9998.jpg", "S1979.2", "2026-05-03 10:00:00", TWO)
    shot(source / "100LISK" / "9999.jpg", scene(1), "2026-05-03 10:01:00", TWO)
    shot(source / "101LISK" / "0001.jpg", scene(2), "2026-05-03 10:02:00", TWO)
    assert whose(taken_in(root, source).plan)["101LISK/0001.jpg"] == ("S1979.2",)


def test_copies_in_a_second_folder_are_of_the_same_camera(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "box"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00", TWO)
    for number in (2, 3, 4):
        shot(source / f"{number}.jpg", scene(number), f"2026-05-03 10:0{number}:00", TWO)
        shot(source / "small" / f"{number}.jpg", scene(number, (160, 120)), f"2026-05-03 10:0{number}:00", TWO)
    plan = taken_in(root, source).plan
    assert whose(plan)["small/3.jpg"] == ("S1979.2",)


def test_a_camera_with_a_number_is_one_wherever_its_pictures_lie(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "box"
    card(source / "a" / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "b" / "2.jpg", scene(1), "2026-05-03 10:01:00")
    shot(source / "a" / "3.jpg", scene(2), "2026-05-03 10:02:00")
    shot(source / "b" / "4.jpg", scene(3), "2026-05-03 10:03:00")
    assert whose(taken_in(root, source).plan)["b/4.jpg"] == ("S1979.2",)
