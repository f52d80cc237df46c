"""Every format a camera or a telephone writes: found, dated, known again, and kept as it is."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import ExifTags, Image, TiffImagePlugin

from archive_tools.sort_in import card_text
from tests.sort_in.scenes import DAY, ONE, collection, line, scene, shot, showing_code, taken_in, whose


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return collection(tmp_path / "house")


def _heic(path: Path, picture: Image.Image, when: str) -> Path:
    heif = pytest.importorskip("pillow_heif")
    heif.register_heif_opener()
    return shot(path, picture, when)


def dng(path: Path, picture: Image.Image, when: str | None = "2026-05-03 10:00:00") -> Path:
    """The least of a DNG that its readers take: raw values of one colour filter each, and notes (DNG 1.4)."""
    grey = np.asarray(picture.convert("L"), dtype=np.uint16) * 16
    image = Image.fromarray(grey)
    tags = TiffImagePlugin.ImageFileDirectory_v2()
    tags[ExifTags.Base.Make], tags[ExifTags.Base.Model] = ONE[0], ONE[1]
    tags[262] = 32803  # PhotometricInterpretation: colour filter array
    tags[33421], tags.tagtype[33421] = (2, 2), 3  # CFARepeatPatternDim
    tags[33422], tags.tagtype[33422] = b"\x00\x01\x01\x02", 1  # CFAPattern: red, green, green, blue
    tags[50706], tags.tagtype[50706] = b"\x01\x04\x00\x00", 1  # DNGVersion
    tags[50708] = "Ormond Tern 4"  # UniqueCameraModel
    tags[50714], tags.tagtype[50714] = 0, 3  # BlackLevel
    tags[50717], tags.tagtype[50717] = 4095, 3  # WhiteLevel
    one = TiffImagePlugin.IFDRational(1, 1)
    zero = TiffImagePlugin.IFDRational(0, 1)
    tags[50721], tags.tagtype[50721] = (one, zero, zero, zero, one, zero, zero, zero, one), 10  # ColorMatrix1
    tags[50728], tags.tagtype[50728] = (one, one, one), 5  # AsShotNeutral
    tags[50778], tags.tagtype[50778] = 21, 3  # CalibrationIlluminant1: D65
    if when is not None:
        tags[36867] = when.replace("-", ":")  # DateTimeOriginal
    path.parent.mkdir(parents=True, exist_ok=True)
    image.save(path, format="TIFF", tiffinfo=tags)
    return path


@pytest.mark.parametrize("ending", ["jpg", "png", "tif", "webp", "avif"])
def test_a_card_and_a_picture_in_each_common_format(root: Path, tmp_path: Path, ending: str) -> None:
    source = tmp_path / "card"
    shot(source / f"1.{ending}", showing_code(card_text("S1979.2", DAY)), "2026-05-03 10:00:00")
    picture = shot(source / f"2.{ending.upper()}", scene(2), "2026-05-03 10:01:00")
    done = taken_in(root, source, apply=True)
    assert whose(done.plan) == {f"1.{ending}": "card", f"2.{ending.upper()}": ("S1979.2",)}
    kept = root / f"trees/S1979.2-a-tree/photos/2026-05-03_1.{ending}"
    assert kept.read_bytes() == picture.read_bytes()


def test_heic_of_a_telephone(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    _heic(source / "1.HEIC", showing_code(card_text("S1979.2", DAY)), "2026-05-03 10:00:00")
    picture = _heic(source / "2.HEIC", scene(2), "2026-05-03 10:01:00")
    done = taken_in(root, source, apply=True)
    assert whose(done.plan) == {"1.HEIC": "card", "2.HEIC": ("S1979.2",)}
    assert (root / "trees/S1979.2-a-tree/photos/2026-05-03_1.heic").read_bytes() == picture.read_bytes()


def test_without_the_extra_for_heic_the_message_says_what_to_install(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    _heic(source / "S1979.2.HEIC", scene(2), "2026-05-03 10:01:00")
    shot(source / "S1979.2.jpg", scene(3), "2026-05-03 10:01:00")
    without = "import sys; sys.modules['pillow_heif'] = None; from archive_tools.cli import main; main()"
    words = ["sort-in", str(source), "--collection", str(root), "--json"]
    run = subprocess.run([sys.executable, "-c", without, *words], capture_output=True, text=True, check=True)
    heic, jpeg = json.loads(run.stdout)["pictures"]
    assert (heic["state"], jpeg["state"]) == ("unreadable", "filed")
    assert "pip install 'archive-tools[heic]'" in heic["doubt"]


def test_dng_is_kept_whole_and_known_by_its_preview(root: Path, tmp_path: Path) -> None:
    pytest.importorskip("rawpy")
    source = tmp_path / "card"
    dng(source / "1.DNG", showing_code(card_text("S1979.2", DAY), (1280, 960)), "2026-05-03 10:00:00")
    picture = dng(source / "2.DNG", scene(2, (640, 480)), "2026-05-03 10:01:00")
    done = taken_in(root, source, apply=True)
    assert whose(done.plan) == {"1.DNG": "card", "2.DNG": ("S1979.2",)}
    assert (root / "trees/S1979.2-a-tree/photos/2026-05-03_1.dng").read_bytes() == picture.read_bytes()
    assert any("the site cannot show it" in told for told in line(done.plan, "2.DNG").told)


def test_without_the_extra_for_raw_the_message_says_what_to_install(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = tmp_path / "card"
    dng(source / "S1979.2.dng", scene(2))
    monkeypatch.setitem(sys.modules, "rawpy", None)
    plan = taken_in(root, source).plan
    assert "archive-tools[raw]" in (line(plan, "S1979.2.dng").doubt or "")


def test_the_ending_goes_by_what_the_file_is_not_by_what_it_is_called(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "card"
    made = shot(source / "x.png", scene(2), "2026-05-03 10:01:00")
    made.rename(source / "S1979.2.jpg")
    plan = taken_in(root, source).plan
    assert line(plan, "S1979.2.jpg").target == "trees/S1979.2-a-tree/photos/2026-05-03_1.png"


def test_a_raw_file_and_its_jpeg_get_names_that_differ_in_more_than_the_ending(root: Path, tmp_path: Path) -> None:
    pytest.importorskip("rawpy")
    source = tmp_path / "S1979.2"
    dng(source / "IMG_1.DNG", scene(2, (640, 480)), "2026-05-03 10:01:00")
    shot(source / "IMG_1.JPG", scene(2, (640, 480)), "2026-05-03 10:01:00")
    shot(source / "IMG_2.JPG", scene(3), "2026-05-03 10:02:00")
    taken_in(root, tmp_path / "S1979.2", apply=True, session=("S1979.2",))
    names = sorted(path.name for path in (root / "trees/S1979.2-a-tree/photos").iterdir())
    assert names == ["2026-05-03_1.dng", "2026-05-03_2.jpg", "2026-05-03_3.jpg", "photos.yml"]


def test_a_dng_taken_in_twice_adds_nothing(root: Path, tmp_path: Path) -> None:
    """The readers leave it out, and it is there all the same."""
    pytest.importorskip("rawpy")
    source = tmp_path / "card"
    dng(source / "S1979.2.DNG", scene(2, (640, 480)))
    taken_in(root, source, apply=True)
    again = taken_in(root, source, apply=True)
    assert (whose(again.plan), again.receipt) == ({"S1979.2.DNG": "same"}, None)


@pytest.mark.parametrize("name", ["2", "2.jpe", "2.jfif", "2.JFIF", "2.jpg_large"])
def test_a_picture_is_one_whatever_it_is_called(root: Path, tmp_path: Path, name: str) -> None:
    shot(tmp_path / "box" / "S1979.2" / name, scene(1), "2026-05-03 10:01:00", format="JPEG")
    assert whose(taken_in(root, tmp_path / "box").plan)[f"S1979.2/{name}"] == ("S1979.2",)


def test_films_and_what_lies_beside_them_are_no_pictures_and_are_told_by_kind(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "S1979.2"
    shot(source / "MVI_1.THM", scene(1, (160, 120)), format="JPEG")
    film = b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom"
    for name, data in (("a.MOV", film), ("b.mp4", film), ("c.mp4", film), ("d.AAE", b"<?xml"), ("notes", b"")):
        (source / name).write_bytes(data)
    plan = taken_in(root, source).plan
    assert plan.lines == ()
    assert plan.others == ((".mp4", 2), ("", 1), (".aae", 1), (".mov", 1), (".thm", 1))


def test_pages_of_a_scan_are_told_and_small_ones_for_showing_are_no_pages(root: Path, tmp_path: Path) -> None:
    source = tmp_path / "box"
    source.mkdir()
    pages = [scene(number, (300, 200)) for number in range(3)]
    pages[0].save(source / "S1979.2 a.tif", save_all=True, append_images=pages[1:])
    small = pages[1].resize((60, 40))
    small.encoderinfo = {"tiffinfo": {254: 1}}
    pages[0].save(source / "S1979.2 b.tif", save_all=True, append_images=[small])
    pages[2].save(source / "S1979.2 c.webp", save_all=True, append_images=pages[:1])
    plan = taken_in(root, source).plan
    assert line(plan, "S1979.2 a.tif").told[0] == "the file holds 3 pictures, of which the site shows the first"
    assert not any("holds" in told for told in line(plan, "S1979.2 b.tif").told)
    assert line(plan, "S1979.2 c.webp").told[0].startswith("the file holds 2 pictures")
