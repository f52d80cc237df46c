"""Every date, turn and position of public test images, against exiftool (Debian: libimage-exiftool-perl).

Images: Debian's source packages of exiftool (t/images), exiv2 (test/data), libexif (test/testdata), jhead (tests) and
libmetadata-extractor-java (Tests/Data), and the package golang-github-rwcarlsen-goexif-dev, whose samples are the first
bytes of photographs by some fifty cameras.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from datetime import date
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from archive_tools.read.newer_formats import heif_version
from archive_tools.read.photo_files import UnreadablePicture, photo_facts
from archive_tools.read.picture_dates import PictureDates, camera_dates
from tests.conftest import missing
from tests.outside.public_pictures import HOW, go_samples, images_of_libraries

TODAY = date(2026, 11, 25)
COMPARED = {
    "EXIF DateTimeOriginal": ("ExifIFD:DateTimeOriginal", "IFD0:DateTimeOriginal"),
    "EXIF DateTimeDigitized": ("ExifIFD:CreateDate", "IFD0:CreateDate"),
    "EXIF GPS date and time": ("GPS:GPSDateStamp",),
    "XMP exif:DateTimeOriginal": ("XMP-exif:DateTimeOriginal",),
    "XMP photoshop:DateCreated": ("XMP-photoshop:DateCreated",),
    "XMP xmp:CreateDate": ("XMP-xmp:CreateDate",),
    "IPTC date created": ("IPTC:DateCreated",),
}
_WANTED = {"exiftool", "exiv2"}
IN_PNG = "IPTC in a PNG stands in no standard: one program's habit, which is not followed"
DIFFERENCES = {
    ("ReaganSmallPng.png", "IPTC date created"): IN_PNG,
    ("exiv2-bug922.png", "IPTC date created"): IN_PNG,
    ("imagemagick.png", "IPTC date created"): IN_PNG,
    ("exiv2-bug1026.jpg", "XMP exif:DateTimeOriginal"): "the packet is no well-formed XML, and is not believed",
    ("gps-corrupted-dir.jpg", "GPS"): "a spoilt directory of positions counts as one: rather one position too many",
    ("withXmp.jpg", "XMP photoshop:DateCreated"): "the packet stands behind a header that no standard knows",
    ("2021-02-13-1929.heic", "orientation"): "a HEIC picture is turned by its decoder: turning it again would be wrong",
}
"""Where ours does not say what exiftool says, with the reason for ours. Everything else must agree."""


@pytest.fixture(scope="module", autouse=True)
def _exiftool() -> None:
    if shutil.which("exiftool") is None:
        missing("exiftool (Debian: libimage-exiftool-perl)")


def told_by_exiftool(files: list[Path]) -> dict[Path, dict[str, Any]]:
    """Of many files in one go; it leaves with 1 where any of them has a fault."""
    run = subprocess.run(
        ["exiftool", "-j", "-n", "-G1", "-a", *map(str, files)],
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    return {Path(told["SourceFile"]): told for told in json.loads(run.stdout)}


def differences(found: PictureDates, told: dict[str, Any]) -> dict[str, tuple[object, object]]:
    """What the two say differently: exiftool's word first."""
    ours = {stamp.field: stamp.text for stamp in found.stamps}
    unlike: dict[str, tuple[object, object]] = {}
    for field, names in COMPARED.items():
        theirs = next((str(told[name]) for name in names if told.get(name)), "")
        if field.startswith("EXIF GPS") and theirs and told.get("GPS:GPSTimeStamp"):
            theirs += str(told["GPS:GPSTimeStamp"])
        length = 8 if field.startswith("IPTC") else 14
        if digits(theirs, length) != digits(ours.get(field, ""), length):
            unlike[field] = (theirs, ours.get(field))
    turned = told.get("IFD0:Orientation", 1)
    if (turned if turned in range(1, 9) else 1) != found.orientation:
        unlike["orientation"] = (turned, found.orientation)
    positioned = any(key.startswith("GPS:") and key != "GPS:GPSVersionID" for key in told)
    if positioned != found.has_gps:
        unlike["GPS"] = (positioned, found.has_gps)
    return unlike


def digits(text: str, length: int) -> str:
    """The date and time without signs between them and without a zone; seconds that are not written are none."""
    found = "".join(sign for sign in re.sub(r"(?:Z|[+-]\d\d:\d\d)$", "", text) if sign.isdigit())
    return (f"{found}00" if len(found) == len("200310051407") else found)[:length]


@pytest.mark.slow
def test_test_images_of_other_libraries() -> None:
    sets = images_of_libraries()
    if not set(sets) >= _WANTED or not heif_version():
        missing(f"public pictures, {HOW}," if heif_version() else "pillow-heif")
    files = [file for pictures in sets.values() for file in pictures]
    told = told_by_exiftool(files)
    compared: list[Path] = []
    unlike: dict[tuple[str, str], tuple[object, object]] = {}
    for file in files:
        try:
            photo_facts(file, today=TODAY)
        except UnreadablePicture:
            continue  # a whole picture is asked for, and many of these are spoilt on purpose
        compared.append(file)
        for what, both in differences(camera_dates(file, today=TODAY), told[file]).items():
            unlike[file.name, what] = both
    assert len(compared) > (250 if {"jhead", "metadata-extractor"} <= set(sets) else 150)
    assert {file.suffix.lower() for file in compared} >= {".jpg", ".png", ".tif", ".webp", ".heic", ".avif"}
    assert {what: both for what, both in unlike.items() if what not in DIFFERENCES} == {}
    # A difference that has gone is to be taken off the list.
    there = {file.name for file in compared}
    assert set(unlike) == {(name, what) for name, what in DIFFERENCES if name in there}


def test_photographs_by_some_fifty_cameras(tmp_path: Path) -> None:
    samples = go_samples()
    if not samples:
        missing(f"photographs of many cameras, {HOW},")
    sheet = BytesIO()
    Image.effect_noise((32, 24), 60).convert("RGB").save(sheet, "JPEG")
    whole = []
    for sample in samples:
        # exiftool reads no file that is cut off: the camera's notes go into a whole picture, for both.
        data = sample.read_bytes()
        start = data.find(b"\xff\xe1")
        length = int.from_bytes(data[start + 2 : start + 4], "big")
        whole.append(tmp_path / sample.name)
        whole[-1].write_bytes(data[:2] + data[start : start + 2 + length] + sheet.getvalue()[2:])
    told = told_by_exiftool(whole)
    makers = {told[file].get("IFD0:Make") for file in whole}
    assert len(whole) > 50
    assert len(makers) > 8
    unlike = {file.name: differences(camera_dates(file, today=TODAY), told[file]) for file in whole}
    assert {name: what for name, what in unlike.items() if what} == {}


def test_the_sets_are_asked_for_where_everything_has_to_be_there() -> None:
    if os.environ.get("CI"):
        assert set(images_of_libraries()) >= _WANTED, HOW
        assert go_samples(), HOW
