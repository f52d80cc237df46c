"""What is there already: the same bytes, the same pixels, and what only looks nearly alike."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from archive_tools.sort_in.look import WrongSourceError
from tests.sort_in.scenes import TWO, bytes_below, collection, line, scene, shot, taken_in, whose


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return collection(tmp_path / "house")


def test_a_card_taken_in_twice_adds_nothing(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    shot(source / "S1979.2_1.jpg", scene(1), "2026-05-03 10:00:00")
    taken_in(root, source, apply=True)
    before = bytes_below(root)
    done = taken_in(root, source, apply=True)
    assert done.receipt is None
    assert whose(done.plan) == {"S1979.2_1.jpg": "same"}
    same = line(done.plan, "S1979.2_1.jpg").same
    assert same is not None
    assert (same.kind, same.other) == ("bytes", "trees/S1979.2-a-tree/photos/2026-05-03_1.jpg")
    assert bytes_below(root) == before


def test_the_same_pixels_in_another_file_are_found_upright(root: Path, tmp_path: Path) -> None:
    """Saved anew without loss, and turned in the file with a note that says how to turn it back."""
    source = tmp_path / "card"
    picture = scene(1)
    shot(source / "S1979.2_a.png", picture, "2026-05-03 10:00:00")
    shot(source / "S1979.2_b.tif", picture)
    exif = Image.Exif()
    exif[0x0112] = 6
    picture.transpose(Image.Transpose.ROTATE_90).save(source / "S1979.2_c.png", exif=exif)
    plan = taken_in(root, source).plan
    assert whose(plan) == {"S1979.2_a.png": ("S1979.2",), "S1979.2_b.tif": "same", "S1979.2_c.png": "same"}
    same = line(plan, "S1979.2_c.png").same
    assert same is not None
    assert (same.kind, same.other, same.in_collection) == ("pixels", "S1979.2_a.png", False)


def test_of_equal_pixels_the_file_with_a_cameras_date_is_kept(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    shot(source / "S1979.2_a.png", scene(1), camera=("", "", ""))
    shot(source / "S1979.2_b.png", scene(1), "2026-05-03 10:00:00")
    assert whose(taken_in(root, source).plan) == {"S1979.2_a.png": "same", "S1979.2_b.png": ("S1979.2",)}


def test_one_pixel_more_is_another_picture(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    picture = scene(1)
    shot(source / "S1979.2_a.png", picture)
    picture.putpixel((5, 5), (1, 2, 3))
    shot(source / "S1979.2_b.png", picture)
    assert set(whose(taken_in(root, source).plan).values()) == {("S1979.2",)}


def test_a_smaller_copy_is_told_as_near_and_still_taken_in(root: Path, tmp_path: Path) -> None:
    first, second = tmp_path / "first", tmp_path / "second"
    shot(first / "S1979.2.jpg", scene(1, (1200, 900)), "2026-05-03 10:00:00")
    taken_in(root, first, apply=True)
    shot(second / "S1979.2 sent.jpg", scene(1, (1200, 900)).resize((400, 300)), camera=("", "", ""), quality=60)
    shot(second / "S1979.2 other.jpg", scene(2, (1200, 900)), camera=("", "", ""))
    plan = taken_in(root, second).plan
    (near,) = line(plan, "S1979.2 sent.jpg").near
    assert near.other == "trees/S1979.2-a-tree/photos/2026-05-03_1.jpg"
    assert near.in_collection
    assert line(plan, "S1979.2 sent.jpg").target is not None
    assert line(plan, "S1979.2 other.jpg").near == ()


def test_a_burst_of_one_tree_is_not_told_as_near(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    for number in range(3):
        shot(source / f"S1979.2_{number}.jpg", scene(1), f"2026-05-03 10:00:0{number}", quality=70 + 10 * number)
    shot(source / "S1986.1.jpg", scene(1), "2026-05-03 10:05:00", TWO, quality=60)
    plan = taken_in(root, source).plan
    assert [line(plan, f"S1979.2_{number}.jpg").near for number in range(3)] == [(), (), ()]
    assert len(line(plan, "S1986.1.jpg").near) == 3


def test_a_smaller_copy_beside_its_original_is_told_though_both_are_of_one_tree(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card" / "S1979.2"
    whole = scene(1, (1600, 1200))
    shot(source / "a.jpg", whole, "2026-05-03 10:00:00")
    shot(source / "small" / "a.jpg", whole.resize((400, 300)), "2026-05-03 10:00:00", quality=60)
    shot(source / "sent" / "a.jpg", whole.resize((500, 375)), camera=("", "", ""), quality=60)
    plan = taken_in(root, source.parent).plan
    assert [one.other for one in line(plan, "S1979.2/small/a.jpg").near] == ["S1979.2/a.jpg"]
    assert {one.other for one in line(plan, "S1979.2/sent/a.jpg").near} == {"S1979.2/a.jpg", "S1979.2/small/a.jpg"}


@pytest.mark.parametrize("where", ["trees", "trees/S1979.2-a-tree", "."])
def test_a_source_inside_the_collection_is_refused(root: Path, where: str) -> None:
    before = bytes_below(root)
    with pytest.raises(WrongSourceError, match="inside the collection"):
        taken_in(root, root / where, apply=True)
    assert bytes_below(root) == before


def test_a_source_that_leads_into_the_collection_or_holds_it_is_refused(root: Path, tmp_path: Path) -> None:
    link = tmp_path / "elsewhere"
    link.symlink_to(root / "trees")
    with pytest.raises(WrongSourceError, match="inside the collection"):
        taken_in(root, link)
    with pytest.raises(WrongSourceError, match="holds the collection"):
        taken_in(root, tmp_path)
    with pytest.raises(WrongSourceError, match="no folder"):
        taken_in(root, tmp_path / "nowhere")


def test_what_is_no_picture_is_counted_and_what_is_broken_is_named(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    whole = shot(source / "S1979.2.jpg", scene(1), "2026-05-03 10:00:00")
    (source / "S1979.2_cut.jpg").write_bytes(whole.read_bytes()[:2000])
    (source / "S1979.2_empty.jpg").touch()
    (source / "notes.txt").write_text("no picture")
    (source / "S1979.2.MOV").write_bytes(b"film")
    (source / "IMG.CR3").write_bytes(b"raw")
    (source / ".hidden.jpg").write_bytes(whole.read_bytes())
    (source / "linked.jpg").symlink_to(whole)
    done = taken_in(root, source, apply=True)
    assert whose(done.plan) == {
        "S1979.2.jpg": ("S1979.2",),
        "S1979.2_cut.jpg": "unreadable",
        "S1979.2_empty.jpg": "unreadable",
        "IMG.CR3": "unreadable",
        "linked.jpg": "unreadable",
    }
    assert done.plan.others == ((".mov", 1), (".txt", 1))
