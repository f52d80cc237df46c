"""What a file's own dates do to the date of a photograph: names that repeat them, clocks, scans; and what is told."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image

from .folder_of import only, read_tree

FOLDER = "trees/T1-a/photos"
LIST = f"{FOLDER}/photos.yml"
SCANNED = {"FileSource": b"\x02"}


def noted(gps: dict[int, Any] | None = None, **inner: Any) -> bytes:
    exif = Image.Exif()
    exif[ExifTags.IFD.Exif] = {getattr(ExifTags.Base, name): value for name, value in inner.items()}
    if gps:
        exif[ExifTags.IFD.GPSInfo] = gps
    kept = io.BytesIO()
    Image.new("RGB", (8, 6), (10, 20, 40)).save(kept, "JPEG", exif=exif.tobytes())
    return kept.getvalue()


@pytest.mark.parametrize(
    ("name", "inner", "entry", "date", "dated_by", "rule"),
    [
        ("2014-02-28_a.jpg", {"DateTimeDigitized": "2014:02:28 09:00:01", **SCANNED}, "", "2014-02-28", "scan",
         "name-is-scan-day"),
        ("2014-02-28_a.jpg", {"DateTimeOriginal": "2014:02:28 09:00:01", **SCANNED}, "", "2014-02-28", "scan",
         "name-is-scan-day"),
        ("2014-02_a.jpg", {"DateTimeDigitized": "2014:02:28 09:00:01", **SCANNED}, "", "2014-02", "file name", None),
        ("2014-02-28_a.jpg", {"DateTimeDigitized": "2014:02:28 09:00:01"}, "", "2014-02-28", "file name", None),
        ("2014-02-28_a.jpg", {"DateTimeDigitized": "2014:02:28 09:00:01", **SCANNED}, "dated_by: print", "2014-02-28",
         "print", None),
        ("2014-02-28_a.jpg", {"DateTimeDigitized": "2014:02:28 09:00:01", **SCANNED}, "date: 1962", "1962", None, None),
        ("1980-01-01_a.jpg", {"DateTimeOriginal": "1980:01:01 00:04:11"}, "", None, None, "no-date"),
        ("1962_a.jpg", {"DateTimeOriginal": "1980:01:01 00:04:11"}, "", "1962", "file name", None),
        ("a.jpg", {"DateTimeOriginal": "1962:01:01 00:00:00"}, "", None, None, "no-date"),
        ("1962_a.jpg", {"DateTimeOriginal": "1980:01:01 00:04:11"}, "dated_by: camera", "1962", "camera",
         "no-camera-date"),
        ("1962_a.jpg", {}, "{date: 1962, dated_by: camera}", "1962", "camera", "no-camera-date"),
        ("2008_a.jpg", {"DateTimeOriginal": "2008:06:07 11:42:10"}, "dated_by: camera", "2008-06-07", "camera", None),
    ],
)  # fmt: skip
def test_what_it_is_dated_by(
    tmp_path: Path,
    name: str,
    inner: dict[str, Any],
    entry: str,
    date: str | None,
    dated_by: str | None,
    rule: str | None,
) -> None:
    said = ", ".join(filter(None, [f"file: {name}", entry.strip("{}")]))
    others: dict[str, str | bytes] = {f"{FOLDER}/{name}": noted(**inner), LIST: f"- {{{said}}}\n"}
    collection, problems = read_tree(tmp_path, "", **others)
    (photo,) = collection.trees["T1"].photos
    assert (photo.when.text if photo.when else None, photo.dated_by) == (date, dated_by)
    assert [problem.rule for problem in problems] == ([rule] if rule else [])
    # A curator is led to the entry, where the date is to be written.
    assert all(problem.mark.file == LIST and problem.mark.line == 1 and problem.mark.column for problem in problems)


def told(tmp_path: Path, picture: bytes) -> str:
    _, problems = read_tree(tmp_path, "", **{f"{FOLDER}/a.jpg": picture, LIST: "- file: a.jpg\n"})
    problem = only(problems)
    assert (problem.rule, str(problem.mark)) == ("no-date", f"{LIST}:1:9")
    return f"{problem.what} -> {problem.instead}"


def test_what_the_file_knows_is_offered(tmp_path: Path) -> None:
    gps = {29: "2012:12:20", 7: (4.0, 38.0, 40.0)}
    said = told(tmp_path, noted(gps, DateTimeOriginal="1980:01:01 00:00:00"))
    assert "where a clock starts that nobody has set" in said and "`date: 2012-12-20`" in said and "GPS" in said
    said = told(tmp_path, noted(DateTimeOriginal="1962:01:01 00:00:00"))
    assert "a year alone" in said and "`date: 1962`" in said


def test_all_that_the_file_says_goes_with_the_photograph(tmp_path: Path) -> None:
    picture = noted(DateTimeOriginal="2008:06:07 11:42:10", OffsetTimeOriginal="+01:00", FileSource=b"\x03")
    collection, _ = read_tree(tmp_path, "", **{f"{FOLDER}/2009_a.jpg": picture, LIST: "- file: 2009_a.jpg\n"})
    (photo,) = collection.trees["T1"].photos
    assert [(stamp.field, stamp.text, stamp.doubt) for stamp in photo.stamps] == [
        ("EXIF DateTimeOriginal", "2008-06-07T11:42:10+01:00", None)
    ]
    assert photo.made_by == "camera" and photo.named is not None and photo.named.text == "2009"
