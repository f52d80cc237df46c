"""Copies of one photograph look the same, other photographs do not."""

from __future__ import annotations

from io import BytesIO
from itertools import combinations
from pathlib import Path

import imagehash
import pytest
from PIL import Image, ImageEnhance, ImageOps

from archive_tools.read.look import look_of
from archive_tools.read.photo_files import photo_facts

skimage_data = pytest.importorskip("skimage.data")


def apart(one: str, other: str) -> int:
    return (int(one, 16) ^ int(other, 16)).bit_count()


def scenes() -> dict[str, Image.Image]:
    """Photographs that come with scikit-image (public domain or CC0)."""
    return {name: Image.fromarray(getattr(skimage_data, name)()) for name in ("camera", "coins", "astronaut", "page")}


def copies(picture: Image.Image) -> dict[str, Image.Image]:
    sheet = BytesIO()
    picture.save(sheet, "JPEG", quality=40)
    width, height = picture.size
    return {
        "smaller": picture.resize((width // 2, height // 2)),
        "coarser": Image.open(sheet),
        "brighter": ImageEnhance.Brightness(picture).enhance(1.1),
        "paler": ImageEnhance.Contrast(picture).enhance(0.7),
        "grey": picture.convert("L"),
    }


@pytest.mark.parametrize("name", ["camera", "coins", "astronaut"])
def test_copies_look_the_same(name: str) -> None:
    picture = scenes()[name]
    look = look_of(picture)
    assert len(look) == 64
    assert {
        what: distance for what, copy in copies(picture).items() if (distance := apart(look, look_of(copy))) > 6
    } == {}


@pytest.mark.parametrize("mode", ["RGBA", "LA"])
@pytest.mark.parametrize("strip", [1, 512 * 9, 4_000_000])
def test_transparent_parts_brought_down_in_strips_look_as_in_one(
    mode: str, strip: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    picture = scenes()["astronaut"].resize((517, 611)).convert(mode)
    picture.putalpha(Image.linear_gradient("L").resize(picture.size))
    monkeypatch.setattr("archive_tools.read.look._STRIP", strip)
    whole = picture.reduce(517 // (3 * 64)).convert("L").resize((64, 64), Image.Resampling.LANCZOS)
    assert look_of(picture) == str(imagehash.phash(whole, hash_size=16))


def test_other_pictures_do_not() -> None:
    looks = {name: look_of(picture) for name, picture in scenes().items()}
    assert min(apart(one, other) for one, other in combinations(looks.values(), 2)) > 60


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("ending", ["jpg", "png", "tif", "webp"])
def test_a_picture_stored_turned_looks_as_it_stands(tmp_path: Path, orientation: int, ending: str) -> None:
    upright = scenes()["astronaut"].resize((300, 200))
    exif = Image.Exif()
    exif[0x0112] = orientation
    # What exif_transpose turns upright was stored by the inverse turn: of these eight, 6 and 8 are each other's.
    tag = {6: 8, 8: 6}.get(orientation, orientation)
    turned = Image.Exif()
    turned[0x0112] = tag
    sheet = BytesIO()
    upright.save(sheet, "PNG", exif=turned)
    stored = ImageOps.exif_transpose(Image.open(sheet))
    stored.info.clear()
    stored.save(tmp_path / f"a.{ending}", exif=exif)
    upright.save(tmp_path / f"b.{ending}")
    facts = [photo_facts(tmp_path / f"{name}.{ending}") for name in "ab"]
    assert (facts[0].width, facts[0].height) == (300, 200)
    assert apart(facts[0].look, facts[1].look) <= 6


def test_a_blank_page_has_no_look() -> None:
    assert look_of(Image.new("RGB", (300, 200), (90, 90, 90))) == ""


def test_long_numbers_look_like_short_ones() -> None:
    grey = scenes()["camera"]
    long = Image.fromarray((__import__("numpy").asarray(grey).astype("uint16")) * 257)
    assert apart(look_of(long), look_of(grey)) <= 6
