"""A day with one camera: cards and labels photographed before the trees, and what follows them."""

from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.sort_in import end_card_text
from archive_tools.sort_in.payload import label_address
from tests.sort_in.scenes import (
    SITE,
    TREES,
    bytes_below,
    card,
    collection,
    line,
    scene,
    shot,
    showing_code,
    taken_in,
    whose,
)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return collection(tmp_path / "house")


def _label(accession: str) -> str:
    return label_address(SITE, accession, TREES)


def test_everything_after_a_card_belongs_to_its_tree_until_the_next(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    shot(source / "IMG_0000.JPG", scene(1), "2026-05-03 09:59:00")
    card(source / "IMG_0001.JPG", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "IMG_0002.JPG", scene(2), "2026-05-03 10:01:00")
    shot(source / "IMG_0003.JPG", scene(3), "2026-05-03 10:20:00")
    card(source / "IMG_0004.JPG", "S1986.1", "2026-05-03 10:30:00")
    shot(source / "IMG_0005.JPG", scene(4), "2026-05-03 10:31:00")
    shot(source / "IMG_0006.JPG", showing_code(end_card_text()), "2026-05-03 10:40:00")
    shot(source / "IMG_0007.JPG", scene(5), "2026-05-03 10:41:00")
    plan = taken_in(root, source).plan
    assert whose(plan) == {
        "IMG_0000.JPG": "doubtful",
        "IMG_0001.JPG": "card",
        "IMG_0002.JPG": ("S1979.2",),
        "IMG_0003.JPG": ("S1979.2",),
        "IMG_0004.JPG": "card",
        "IMG_0005.JPG": ("S1986.1",),
        "IMG_0006.JPG": "card",
        "IMG_0007.JPG": "doubtful",
    }
    assert "follows the card of S1979.2 (IMG_0001.JPG)" in line(plan, "IMG_0002.JPG").because
    assert line(plan, "IMG_0002.JPG").target == "trees/S1979.2-a-tree/photos/2026-05-03_1.jpg"
    assert line(plan, "IMG_0003.JPG").target == "trees/S1979.2-a-tree/photos/2026-05-03_2.jpg"


def test_the_label_of_a_tree_opens_its_pictures_like_a_card(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    shot(source / "1.jpg", showing_code(_label("S2015.9")), "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    assert whose(taken_in(root, source).plan) == {"1.jpg": "card", "2.jpg": ("S2015.9",)}


def test_a_tree_photographed_with_its_label_beside_it_is_a_picture_of_the_tree(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    picture = showing_code(_label("S2015.9"), (1600, 1200), share=0.1)
    shot(source / "1.jpg", picture, "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    assert whose(taken_in(root, source).plan) == {"1.jpg": ("S2015.9",), "2.jpg": ("S2015.9",)}


def test_a_small_label_of_another_tree_in_the_background_is_doubtful(root: Path, tmp_path: Path) -> None:
    """Misfiling is worse than asking: the label may open that tree's pictures, or only stand behind this one."""
    source = tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    picture = showing_code(_label("S2015.9"), (3000, 2250), share=0.05)
    shot(source / "2.jpg", picture, "2026-05-03 10:01:00")
    shot(source / "3.jpg", scene(2), "2026-05-03 10:02:00")
    card(source / "4.jpg", "S1979.2", "2026-05-03 10:03:00")
    shot(source / "5.jpg", scene(5), "2026-05-03 10:04:00")
    plan = taken_in(root, source).plan
    assert whose(plan) == {
        "1.jpg": "card",
        "2.jpg": "doubtful",
        "3.jpg": "doubtful",
        "4.jpg": "card",
        "5.jpg": ("S1979.2",),
    }
    assert "stand behind S1979.2" in (line(plan, "3.jpg").doubt or "")


def test_codes_of_two_trees_in_one_picture_open_nothing(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    both = scene(1, (1200, 600))
    both.paste(showing_code(_label("S1979.2"), (600, 600)), (0, 0))
    both.paste(showing_code(_label("S1986.1"), (600, 600)), (600, 0))
    shot(source / "1.jpg", both, "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    plan = taken_in(root, source).plan
    assert line(plan, "2.jpg").state == "doubtful"
    assert "S1979.2 and of S1986.1" in (line(plan, "2.jpg").doubt or "") or "S1986.1 and of S1979.2" in (
        line(plan, "2.jpg").doubt or ""
    )


def test_a_card_for_two_trees_files_the_picture_once_for_both(root: Path, tmp_path: Path) -> None:
    from archive_tools.sort_in import card_text
    from tests.sort_in.scenes import DAY

    source = tmp_path / "card"
    shot(source / "1.jpg", showing_code(card_text(["S1979.2", "S2015.9"], DAY)), "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    taken_in(root, source, apply=True)
    assert (root / "photos/photos.yml").read_text() == (
        "- file: 2026-05-03_1.jpg\n  of: [S1979.2, S2015.9]\n  date: 2026-05-03\n  dated_by: camera\n"
    )
    assert [path.name for path in root.rglob("*.jpg")] == ["2026-05-03_1.jpg"]


def test_a_card_that_no_picture_follows_is_told(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    card(source / "2.jpg", "S1986.1", "2026-05-03 10:05:00")
    shot(source / "3.jpg", scene(3), "2026-05-03 10:06:00")
    plan = taken_in(root, source).plan
    assert plan.empty == ("no picture follows the card of S1979.2 (1.jpg, Ormond Tern 4 (no. 1001))",)


def test_a_card_photographed_twice_for_safety_is_no_empty_card(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    card(source / "2.jpg", "S1979.2", "2026-05-03 10:00:04", quality=80)
    shot(source / "3.jpg", scene(3), "2026-05-03 10:06:00")
    plan = taken_in(root, source).plan
    assert plan.empty == ()
    assert whose(plan)["3.jpg"] == ("S1979.2",)


def test_a_night_between_card_and_picture_ends_the_session(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    shot(source / "3.jpg", scene(3), "2026-05-04 08:00:00")
    plan = taken_in(root, source).plan
    assert whose(plan) == {"1.jpg": "card", "2.jpg": ("S1979.2",), "3.jpg": "doubtful"}
    assert "the camera rested 21 h 59 min since" in (line(plan, "3.jpg").doubt or "")


def test_pictures_of_one_second_stand_in_the_order_of_their_parts_and_names(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    shot(source / "IMG_9.JPG", scene(1), "2026-05-03 10:00:00", part="10")
    card(source / "IMG_10.JPG", "S1979.2", "2026-05-03 10:00:00", part="50")
    shot(source / "IMG_11.JPG", scene(2), "2026-05-03 10:00:00", part="90")
    plan = taken_in(root, source).plan
    assert whose(plan) == {"IMG_9.JPG": "doubtful", "IMG_10.JPG": "card", "IMG_11.JPG": ("S1979.2",)}


def test_a_clock_set_back_in_the_middle_is_noticed_by_the_running_numbers(root: Path, tmp_path: Path) -> None:
    """Autumn 2026: at 03:00 the camera went back to 02:00 by itself and wrote no zone; two pictures change places."""
    source = tmp_path / "card"
    card(source / "IMG_0001.JPG", "S1979.2", "2026-10-25 02:40:00")
    shot(source / "IMG_0002.JPG", scene(2), "2026-10-25 02:50:00")
    shot(source / "IMG_0003.JPG", scene(3), "2026-10-25 02:05:00")
    card(source / "IMG_0004.JPG", "S1986.1", "2026-10-25 02:45:00")
    shot(source / "IMG_0005.JPG", scene(5), "2026-10-25 02:55:00")
    plan = taken_in(root, source).plan
    assert whose(plan)["IMG_0003.JPG"] == "doubtful"
    assert whose(plan)["IMG_0002.JPG"] == "doubtful"
    assert "set back" in (line(plan, "IMG_0003.JPG").doubt or "")
    assert whose(plan)["IMG_0005.JPG"] == ("S1986.1",)


def test_a_zone_in_the_camera_keeps_the_order_through_the_change_of_summer_time(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "a.jpg", "S1979.2", "2026-10-25 02:40:00", zone="+02:00")
    shot(source / "b.jpg", scene(2), "2026-10-25 02:50:00", zone="+02:00")
    shot(source / "c.jpg", scene(3), "2026-10-25 02:05:00", zone="+01:00")
    card(source / "d.jpg", "S1986.1", "2026-10-25 02:45:00", zone="+01:00")
    shot(source / "e.jpg", scene(5), "2026-10-25 02:55:00", zone="+01:00")
    assert whose(taken_in(root, source).plan) == {
        "a.jpg": "card",
        "b.jpg": ("S1979.2",),
        "c.jpg": ("S1979.2",),
        "d.jpg": "card",
        "e.jpg": ("S1986.1",),
    }


def test_the_same_file_name_in_two_folders_is_two_pictures(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "100/IMG_0001.JPG", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "100/IMG_0002.JPG", scene(2), "2026-05-03 10:01:00")
    shot(source / "101/IMG_0002.JPG", scene(3), "2026-05-03 10:02:00")
    done = taken_in(root, source, apply=True)
    assert whose(done.plan)["100/IMG_0002.JPG"] == ("S1979.2",)
    assert whose(done.plan)["101/IMG_0002.JPG"] == ("S1979.2",)
    photos = root / "trees/S1979.2-a-tree/photos"
    assert (photos / "2026-05-03_1.jpg").read_bytes() == (source / "100/IMG_0002.JPG").read_bytes()
    assert (photos / "2026-05-03_2.jpg").read_bytes() == (source / "101/IMG_0002.JPG").read_bytes()


def test_names_in_any_script_with_spaces_and_as_long_as_they_may_be(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "Karte mit Ümlaut 写真"
    card(source / "前 1.jpg", "S1979.2", "2026-05-03 10:00:00")
    names = ["ein Baum, früh.jpg", "楓の木 ２.jpg", f"{'x' * 240}.jpg", "#hash 'quote' \"double\".jpg", "e\u0301.jpg"]
    for number, name in enumerate(names):
        shot(source / name, scene(20 + number), f"2026-05-03 10:0{number + 1}:00")
    before = bytes_below(source)
    done = taken_in(root, source, apply=True)
    assert {whose(done.plan)[name] for name in names} == {("S1979.2",)}
    assert bytes_below(source) == before
    assert sorted(path.name for path in (root / "trees/S1979.2-a-tree/photos").iterdir()) == [
        *(f"2026-05-03_{number}.jpg" for number in range(1, 6)),
        "photos.yml",
    ]


def test_a_read_only_source_is_enough(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    card(source / "1.jpg", "S1979.2", "2026-05-03 10:00:00")
    shot(source / "2.jpg", scene(2), "2026-05-03 10:01:00")
    for path in source.iterdir():
        path.chmod(0o444)
    source.chmod(0o555)
    try:
        done = taken_in(root, source, apply=True)
        assert len(done.plan.filed()) == 1
        assert done.receipt is not None
    finally:
        source.chmod(0o755)


def test_the_order_of_the_disk_does_not_matter(tmp_path: Path) -> None:
    """Files written in another order, with other times, come to the same names."""
    ends = []
    for turn in (1, -1):
        home = tmp_path / str(turn)
        root, source = collection(home / "house"), home / "card"
        shots = [(f"{n}.jpg", scene(n), f"2026-05-03 10:0{n}:00") for n in range(1, 6)]
        for name, picture, when in shots[::turn]:
            shot(source / name, picture, when)
        card(source / "0.jpg", "S1979.2", "2026-05-03 10:00:00")
        taken_in(root, source, apply=True)
        ends.append(bytes_below(root))
    assert ends[0] == ends[1]
