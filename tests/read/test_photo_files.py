from __future__ import annotations

import hashlib
import io
import json
import os
import struct
import zlib
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image

from archive_tools.read import photo_files
from archive_tools.read.camera_notes import CameraNotes, agreed
from archive_tools.read.photo_files import FactsCache, UnreadablePicture, photo_facts

TODAY = date(2026, 11, 25)
ENDINGS = ("jpg", "png", "tif", "webp")


def make(path: Path, size: tuple[int, int] = (64, 40), **notes: Any) -> Path:
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = "Invented"
    inner = {getattr(ExifTags.Base, name): value for name, value in notes.items()}
    if inner:
        exif[ExifTags.IFD.Exif] = inner
    noise = Image.effect_noise(size, 80).convert("RGB")
    noise.save(path, exif=exif.tobytes())
    return path


def what_is_wrong(path: Path) -> str:
    with pytest.raises(UnreadablePicture) as caught:
        photo_facts(path, today=TODAY)
    return caught.value.what


@pytest.mark.parametrize("ending", ENDINGS)
def test_fingerprint_is_that_of_the_bytes(tmp_path: Path, ending: str) -> None:
    path = make(tmp_path / f"one.{ending}")
    assert photo_facts(path, today=TODAY).fingerprint == hashlib.sha256(path.read_bytes()).hexdigest()


@pytest.mark.parametrize("ending", ENDINGS)
def test_originals_are_not_touched(tmp_path: Path, ending: str) -> None:
    path = make(tmp_path / f"one.{ending}", DateTimeOriginal="2003:10:05 14:07:31")
    before, stat = path.read_bytes(), path.stat()
    photo_facts(path, today=TODAY)
    assert path.read_bytes() == before
    assert path.stat().st_mtime_ns == stat.st_mtime_ns


@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize("kept", [0.0, 0.02, 0.3, 0.9])
def test_cut_off(tmp_path: Path, ending: str, kept: float) -> None:
    path = make(tmp_path / f"one.{ending}", (300, 200))
    whole = path.read_bytes()
    path.write_bytes(whole[: int(len(whole) * kept)])
    assert ("empty" if kept == 0 else "cut off or damaged") in what_is_wrong(path)


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"Dear Sir, the maple has arrived.\n", "no JPEG, PNG, TIFF, WebP or AVIF"),
        (b"\0" * 5000, "no JPEG, PNG, TIFF, WebP or AVIF"),
        (b"version https://git-lfs.github.com/spec/v1\noid sha256:00\nsize 4\n", "pointer"),
        (b"\0\0\0\x18ftypheic\0\0\0\0", "HEIC"),
        (b"%PDF-1.7\n", "PDF"),
        (b"GIF89a" + b"\0" * 60, "GIF"),
    ],
)
def test_not_a_picture(tmp_path: Path, content: bytes, told: str) -> None:
    path = tmp_path / "one.jpg"
    path.write_bytes(content)
    assert told in what_is_wrong(path)


@pytest.mark.parametrize("side", [16_000, 60_000])
def test_bomb(tmp_path: Path, side: int) -> None:
    """A few bytes that claim more pixels than any photograph: refused by their header alone."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    path = tmp_path / "one.png"
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0))
        + chunk(b"IDAT", zlib.compress(b"\0" * 100))
        + chunk(b"IEND", b"")
    )
    assert "million" in what_is_wrong(path)


@pytest.mark.parametrize("orientation", [6, 8])
@pytest.mark.parametrize("ending", ENDINGS)
def test_size_is_that_of_the_upright_picture(tmp_path: Path, ending: str, orientation: int) -> None:
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    path = tmp_path / f"one.{ending}"
    Image.new("RGB", (30, 20)).save(path, exif=exif.tobytes())
    facts = photo_facts(path, today=TODAY)
    assert (facts.width, facts.height, facts.orientation) == (20, 30, orientation)


@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize(
    "stamp",
    [
        "0000:00:00 00:00:00",
        "2003:13:41 00:00:00",
        "2003:02:29 12:00:00",
        "1980:01:01 00:00:00",
        "1980:01:01 00:04:11",
        "2000:01:01 00:00:00",
        "1970:01:01 00:00:00",
        "2031:05:01 10:00:00",
        "0203:05:01 10:00:00",
        "yesterday",
    ],
)
def test_impossible_dates_are_not_believed(tmp_path: Path, ending: str, stamp: str) -> None:
    facts = photo_facts(make(tmp_path / f"one.{ending}", DateTimeOriginal=stamp), today=TODAY)
    assert facts.taken is None
    assert facts.doubt is not None
    assert stamp[:4] in facts.doubt


@pytest.mark.parametrize(
    ("stamp", "taken"),
    [
        ("2004:02:29 23:59:59", "2004-02-29T23:59:59"),
        ("1980:01:02 00:00:00", "1980-01-02T00:00:00"),
        ("2026:11:26 06:00:00", "2026-11-26T06:00:00"),  # it may be tomorrow already where it was taken
        ("1962:05:01", "1962-05-01"),
        ("2003-10-05 14:07:31", "2003-10-05T14:07:31"),
    ],
)
def test_possible_dates_are(tmp_path: Path, stamp: str, taken: str) -> None:
    facts = photo_facts(make(tmp_path / "one.jpg", DateTimeOriginal=stamp), today=TODAY)
    assert (facts.taken, facts.doubt) == (taken, None)


def test_unknown_date_written_as_blanks_is_no_date(tmp_path: Path) -> None:
    """EXIF 2.32: when the date is unknown, everything but the colons may be blank."""
    facts = photo_facts(make(tmp_path / "one.jpg", DateTimeOriginal="    :  :     :  :  "), today=TODAY)
    assert (facts.taken, facts.doubt) == (None, None)


@pytest.mark.parametrize("maker", [b"\x01", b"\x02"])
def test_a_scanners_own_date_dates_no_subject(tmp_path: Path, maker: bytes) -> None:
    """EXIF 2.32, FileSource: 1 film scanner, 2 reflection print scanner, 3 digital camera."""
    stamp = "2014:02:28 09:00:01"
    facts = photo_facts(make(tmp_path / "one.jpg", DateTimeOriginal=stamp, FileSource=maker), today=TODAY)
    assert (facts.taken, facts.digitised) == (None, "2014-02-28T09:00:01")
    assert facts.doubt is not None
    camera = photo_facts(make(tmp_path / "two.jpg", DateTimeOriginal=stamp, FileSource=b"\x03"), today=TODAY)
    assert (camera.taken, camera.doubt) == ("2014-02-28T09:00:01", None)


def test_a_date_set_by_hand_on_a_scan_stands(tmp_path: Path) -> None:
    path = make(
        tmp_path / "one.jpg",
        DateTimeOriginal="1974:06:01 00:00:00",
        DateTimeDigitized="2014:02:28 09:00:01",
        FileSource=b"\x02",
    )
    assert photo_facts(path, today=TODAY).taken == "1974-06-01T00:00:00"


def test_two_readers_that_differ() -> None:
    one = CameraNotes(any=True, taken="2003-10-05T14:07:31")
    other = CameraNotes(any=True, taken="2004-10-05T14:07:31")
    believed, doubt = agreed(one, other, "taken")
    assert believed is None
    assert doubt is not None
    assert "2003-10-05T14:07:31" in doubt
    assert "2004-10-05T14:07:31" in doubt


def test_one_reader_sees_a_date_and_the_other_only_other_notes() -> None:
    one, other = CameraNotes(any=True, taken="2003-10-05T14:07:31"), CameraNotes(any=True)
    for believed, doubt in (agreed(one, other, "taken"), agreed(other, one, "taken")):
        assert believed is None
        assert doubt is not None
        assert "no date" in doubt


def test_a_reader_that_knows_the_zone_is_the_finer_one() -> None:
    one = CameraNotes(any=True, taken="2003-10-05T14:07:31")
    other = CameraNotes(any=True, taken="2003-10-05T14:07:31+02:00")
    assert agreed(one, other, "taken") == agreed(other, one, "taken") == ("2003-10-05T14:07:31+02:00", None)


def test_a_reader_that_sees_nothing_at_all_has_no_say() -> None:
    assert agreed(CameraNotes(), CameraNotes(any=True, taken="2003-10-05"), "taken") == ("2003-10-05", None)
    assert agreed(CameraNotes(), CameraNotes(), "taken") == (None, None)


def test_broken_notes_do_not_spoil_the_picture(tmp_path: Path) -> None:
    path = make(tmp_path / "one.jpg", DateTimeOriginal="2003:10:05 14:07:31")
    content = bytearray(path.read_bytes())
    start = content.index(b"Exif\0\0") + 6
    content[start + 4 : start + 8] = b"\xff\xff\xff\x7f"
    path.write_bytes(bytes(content))
    facts = photo_facts(path, today=TODAY)
    assert (facts.width, facts.height, facts.taken) == (64, 40, None)


def counted(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    read: list[Path] = []
    really_read = photo_files._read

    def spy(path: Path, size: int) -> photo_files.PhotoFacts:
        read.append(path)
        return really_read(path, size)

    monkeypatch.setattr(photo_files, "_read", spy)
    return read


def test_unchanged_files_are_read_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read = counted(monkeypatch)
    path, cache = make(tmp_path / "one.jpg"), FactsCache()
    assert photo_facts(path, cache, today=TODAY) == photo_facts(path, cache, today=TODAY)
    assert len(read) == 1


def test_changed_files_are_read_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read = counted(monkeypatch)
    path, cache = make(tmp_path / "one.jpg"), FactsCache()
    before = photo_facts(path, cache, today=TODAY)
    stat = path.stat()
    os.utime(path, ns=(stat.st_atime_ns, stat.st_mtime_ns + 1))
    assert photo_facts(path, cache, today=TODAY) == before
    assert len(read) == 2
    make(path, (20, 20))
    os.utime(path, ns=(stat.st_atime_ns, stat.st_mtime_ns))
    assert photo_facts(path, cache, today=TODAY).width == 20
    assert len(read) == 3


def test_the_cache_outlives_the_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read = counted(monkeypatch)
    path = make(tmp_path / "one.jpg", DateTimeOriginal="1980:01:01 00:00:00")
    kept = tmp_path / "cache" / "facts.json"
    first = FactsCache(kept)
    facts = photo_facts(path, first, today=TODAY)
    first.save()
    assert photo_facts(path, FactsCache(kept), today=TODAY) == facts
    assert len(read) == 1
    assert [entry.name for entry in kept.parent.iterdir()] == ["facts.json"]


@pytest.mark.parametrize("content", ["", "{", "[]", '{"version": 1}', '{"version": 1, "facts": {"a": 3}}', "null"])
def test_a_spoilt_cache_is_ignored(tmp_path: Path, content: str) -> None:
    path, kept = make(tmp_path / "one.jpg"), tmp_path / "facts.json"
    kept.write_text(content, encoding="utf-8")
    cache = FactsCache(kept)
    photo_facts(path, cache, today=TODAY)
    cache.save()
    assert list(json.loads(kept.read_text(encoding="utf-8"))["facts"]) == [path.as_posix()]


def test_nothing_is_kept_on_disk_unless_asked(tmp_path: Path) -> None:
    path, cache = make(tmp_path / "one.jpg"), FactsCache()
    photo_facts(path, cache, today=TODAY)
    cache.save()
    assert [entry.name for entry in tmp_path.iterdir()] == ["one.jpg"]


def test_what_is_still_to_come_is_judged_by_the_day_asked(tmp_path: Path) -> None:
    """A cached date is not believed or disbelieved for ever."""
    path, cache = make(tmp_path / "one.jpg", DateTimeOriginal="2024:05:01 10:00:00"), FactsCache()
    assert photo_facts(path, cache, today=date(2020, 1, 1)).taken is None
    assert photo_facts(path, cache, today=TODAY).taken == "2024-05-01T10:00:00"


def test_a_missing_file_is_the_callers_affair(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        photo_facts(tmp_path / "none.jpg", today=TODAY)


@pytest.mark.parametrize("mode", ["L", "LA", "P", "RGBA", "CMYK", "I;16", "1"])
def test_every_kind_of_pixel(tmp_path: Path, mode: str) -> None:
    ending = {"CMYK": "jpg", "LA": "png", "RGBA": "png"}.get(mode, "tif")
    path = tmp_path / f"one.{ending}"
    Image.new(mode, (12, 8)).save(path)
    assert (photo_facts(path, today=TODAY).width, photo_facts(path, today=TODAY).height) == (12, 8)


def test_progressive_and_several_pictures_in_one_file(tmp_path: Path) -> None:
    buffer = io.BytesIO()
    Image.new("RGB", (12, 8)).save(buffer, "MPO", save_all=True, append_images=[Image.new("RGB", (40, 40))])
    (tmp_path / "one.jpg").write_bytes(buffer.getvalue())
    Image.new("RGB", (12, 8)).save(tmp_path / "two.tif", save_all=True, append_images=[Image.new("RGB", (40, 40))])
    Image.new("RGB", (12, 8)).save(tmp_path / "three.jpg", progressive=True)
    for name in ("one.jpg", "two.tif", "three.jpg"):
        assert photo_facts(tmp_path / name, today=TODAY).width == 12
