"""What is read of an original against exiftool (Debian: libimage-exiftool-perl), on pictures made here.

Tags: EXIF 2.32: 0x0112 orientation, 0x9003 original, 0x9004 digitised, 0x9011 and 0x9012 their offsets, 0x8825 GPS.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image, ImageOps

from archive_tools.read.photo_files import photo_facts

TODAY = date(2026, 11, 25)
WIDTH, HEIGHT = 64, 40
ENDINGS = ("jpg", "png", "tif", "webp")


@pytest.fixture(scope="module", autouse=True)
def exiftool() -> str:
    found = shutil.which("exiftool")
    if found is None:
        if os.environ.get("CI") == "true":
            pytest.fail("exiftool is missing (Debian: apt-get install libimage-exiftool-perl)")
        pytest.skip("exiftool is missing (Debian: apt-get install libimage-exiftool-perl)")
    return found


def make(
    path: Path,
    *,
    orientation: int | None = None,
    taken: str | None = None,
    digitised: str | None = None,
    offset: str | None = None,
    gps: bool = False,
) -> Path:
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = "Invented"
    if orientation is not None:
        exif[ExifTags.Base.Orientation] = orientation
    inner: dict[int, Any] = {}
    if taken is not None:
        inner[ExifTags.Base.DateTimeOriginal] = taken
    if digitised is not None:
        inner[ExifTags.Base.DateTimeDigitized] = digitised
    if offset is not None:
        inner[ExifTags.Base.OffsetTimeOriginal] = offset
        inner[ExifTags.Base.OffsetTimeDigitized] = offset
    if gps:
        exif[ExifTags.IFD.GPSInfo] = {1: "N", 2: (61.0, 12.0, 3.0), 3: "W", 4: (12.0, 0.0, 0.0)}  # far out at sea
    if inner:
        exif[ExifTags.IFD.Exif] = inner
    picture = Image.new("RGB", (WIDTH, HEIGHT), (90, 120, 80))
    picture.putpixel((0, 0), (255, 0, 0))
    picture.save(path, exif=exif.tobytes())
    return path


def as_exiftool_says(path: Path) -> dict[str, Any]:
    told = subprocess.run(
        ["exiftool", "-j", "-n", "-G1", "-a", str(path)], capture_output=True, text=True, check=True
    ).stdout
    return json.loads(told)[0]  # type: ignore[no-any-return]


def tag(told: dict[str, Any], name: str) -> Any:
    """A camera's note wherever exiftool found it, leaving out what it works out itself."""
    return next(
        (value for key, value in told.items() if key.endswith(f":{name}") and not key.startswith("Composite")), None
    )


def upright_size(told: dict[str, Any]) -> tuple[int, int]:
    width, height = tag(told, "ImageWidth"), tag(told, "ImageHeight")
    return (height, width) if (tag(told, "Orientation") or 1) >= 5 else (width, height)


def edtf(stamp: str | None, offset: str | None) -> str | None:
    return None if stamp is None else stamp[:10].replace(":", "-") + "T" + stamp[11:] + (offset or "")


@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize("orientation", range(1, 9))
def test_all_orientations(tmp_path: Path, ending: str, orientation: int) -> None:
    path = make(tmp_path / f"one.{ending}", orientation=orientation)
    told, facts = as_exiftool_says(path), photo_facts(path, today=TODAY)
    assert tag(told, "Orientation") == orientation == facts.orientation
    assert (facts.width, facts.height) == upright_size(told)
    # Marks are pixels of what Pillow calls upright, so both must agree.
    with Image.open(path) as picture:
        assert ImageOps.exif_transpose(picture).size == (facts.width, facts.height)


@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize("offset", [None, "+02:00", "-09:30"])
@pytest.mark.parametrize("gps", [False, True])
def test_dates_offsets_and_gps(tmp_path: Path, ending: str, offset: str | None, gps: bool) -> None:
    path = make(
        tmp_path / f"one.{ending}",
        taken="2003:10:05 14:07:31",
        digitised="2014:02:28 09:00:01",
        offset=offset,
        gps=gps,
    )
    told, facts = as_exiftool_says(path), photo_facts(path, today=TODAY)
    assert tag(told, "DateTimeOriginal") == "2003:10:05 14:07:31"
    assert facts.taken == edtf(tag(told, "DateTimeOriginal"), tag(told, "OffsetTimeOriginal"))
    assert facts.digitised == edtf(tag(told, "CreateDate"), tag(told, "OffsetTimeDigitized"))
    assert facts.has_gps == (tag(told, "GPSLatitude") is not None) == gps
    assert facts.doubt is None


@pytest.mark.parametrize("ending", ENDINGS)
def test_scan_is_dated_by_nothing(tmp_path: Path, ending: str) -> None:
    path = make(tmp_path / f"one.{ending}", digitised="2014:02:28 09:00:01")
    told, facts = as_exiftool_says(path), photo_facts(path, today=TODAY)
    assert tag(told, "DateTimeOriginal") is None
    assert facts.taken is None
    assert facts.digitised == edtf(tag(told, "CreateDate"), None) == "2014-02-28T09:00:01"


@pytest.mark.parametrize("ending", ENDINGS)
def test_no_camera_notes_at_all(tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"one.{ending}"
    Image.new("RGB", (WIDTH, HEIGHT)).save(path)
    told, facts = as_exiftool_says(path), photo_facts(path, today=TODAY)
    assert tag(told, "DateTimeOriginal") is tag(told, "CreateDate") is tag(told, "GPSLatitude") is None
    assert (facts.taken, facts.digitised, facts.has_gps, facts.doubt) == (None, None, False, None)
    assert (facts.width, facts.height) == upright_size(told) == (WIDTH, HEIGHT)


@pytest.mark.parametrize("ending", ENDINGS)
def test_notes_written_by_exiftool_itself(tmp_path: Path, ending: str) -> None:
    """The other way round: exiftool writes, ours reads."""
    path = tmp_path / f"one.{ending}"
    Image.new("RGB", (WIDTH, HEIGHT)).save(path)
    subprocess.run(
        ["exiftool", "-q", "-overwrite_original", "-n", "-EXIF:Orientation=6", "-DateTimeOriginal=1996:04:30 08:15:00",
         "-OffsetTimeOriginal=+01:00", "-EXIF:GPSLatitude=61.5", "-EXIF:GPSLatitudeRef=N", str(path)],
        check=True,
    )  # fmt: skip
    facts = photo_facts(path, today=TODAY)
    assert (facts.taken, facts.orientation, facts.has_gps) == ("1996-04-30T08:15:00+01:00", 6, True)
    assert (facts.width, facts.height) == (HEIGHT, WIDTH)
