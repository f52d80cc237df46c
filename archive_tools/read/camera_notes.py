"""The camera's notes in an original (EXIF 2.32), as two libraries read them, and what of them can be believed.

Each library has files in which it sees nothing or the wrong thing: a date on which they differ is not believed.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, BinaryIO

import exifread
from PIL import ExifTags, Image

_MAKES_NO_SENSE_BEFORE = 1826
"""No photograph is older (from memory; the exact year does not matter to a camera's clock)."""

_CLOCK_STARTS = frozenset({(1904, 1, 1), (1970, 1, 1), (1980, 1, 1), (2000, 1, 1)})
"""Days from which computers and cameras count when nobody has set their clock (common practice, no source)."""

_STAMP = re.compile(r"(\d{4})[:\-/.](\d\d)[:\-/.](\d\d)(?:[ T](\d\d):(\d\d)(?::(\d\d))?)?", re.ASCII)
_OFFSET = re.compile(r"(?!-00:00)[+-](?:0\d|1[0-4]):[0-5]\d", re.ASCII)
_SCANNERS = frozenset({1, 2})
"""FileSource (0xA300): film scanner, reflection print scanner."""

logging.getLogger("exifread").setLevel(logging.CRITICAL)


@dataclass(frozen=True, slots=True)
class CameraNotes:
    """What one library found. `any` is False where it found no camera notes at all, and so has no say."""

    any: bool = False
    taken: str | None = None
    digitised: str | None = None
    orientation: int | None = None
    has_gps: bool = False
    scanned: bool = False


def notes_by_pillow(picture: Image.Image) -> CameraNotes:
    """The camera's notes as Pillow reads them; without a say where the block of notes is broken."""
    try:
        top = picture.getexif()
        inner = top.get_ifd(ExifTags.IFD.Exif)
        gps = top.get_ifd(ExifTags.IFD.GPSInfo)
    # A broken block of notes is no reason to refuse the picture: then this library has no say.
    except Exception:
        return CameraNotes()

    def noted(tag: int) -> Any:
        return inner.get(tag, top.get(tag))

    return CameraNotes(
        any=bool(inner) or bool(gps) or bool(top),
        taken=_stamp(noted(ExifTags.Base.DateTimeOriginal), noted(ExifTags.Base.OffsetTimeOriginal)),
        digitised=_stamp(noted(ExifTags.Base.DateTimeDigitized), noted(ExifTags.Base.OffsetTimeDigitized)),
        orientation=_orientation(top.get(ExifTags.Base.Orientation)),
        has_gps=any(tag != ExifTags.GPS.GPSVersionID for tag in gps),
        scanned=_whole(noted(ExifTags.Base.FileSource)) in _SCANNERS,
    )


def notes_by_exifread(opened: BinaryIO) -> CameraNotes:
    """The camera's notes as exifread reads them; without a say where it cannot."""
    try:
        opened.seek(0)
        tags: Mapping[str, Any] = exifread.process_file(opened, details=False)
    # It raises a dozen unlike things on files it does not know: then it has no say.
    except Exception:
        return CameraNotes()

    def noted(name: str) -> Any:
        tag = tags.get(f"EXIF {name}", tags.get(f"Image {name}"))
        return None if tag is None else getattr(tag, "values", None)

    return CameraNotes(
        any=bool(tags),
        taken=_stamp(noted("DateTimeOriginal"), noted("OffsetTimeOriginal")),
        digitised=_stamp(noted("DateTimeDigitized"), noted("OffsetTimeDigitized")),
        orientation=_orientation(noted("Orientation")),
        has_gps=any(name.startswith("GPS ") and name != "GPS GPSVersionID" for name in tags),
        scanned=_whole(noted("FileSource")) in _SCANNERS,
    )


def _first(value: Any) -> Any:
    while isinstance(value, (list, tuple)) and value:
        value = value[0]
    return value


def _whole(value: Any) -> int | None:
    value = _first(value)
    if isinstance(value, bytes):
        return value[0] if value else None
    return int(value) if isinstance(value, int) else None


def _orientation(value: Any) -> int | None:
    turned = _whole(value)
    return turned if turned is not None and 1 <= turned <= 8 else None


def _text(value: Any) -> str:
    value = _first(value)
    if isinstance(value, bytes):
        value = value.decode("ascii", errors="replace")
    return str(value).strip(" \0\t\r\n") if isinstance(value, str) else ""


def _stamp(value: Any, offset: Any) -> str | None:
    """The camera's date as it stands, tidied: EDTF text where it has the shape of a date, else the raw text.

    None where it is not set: EXIF 2.32 lets an unknown date be all blanks but the colons.
    """
    text = _text(value)
    if not text.strip(" :"):
        return None
    found = _STAMP.match(text)
    if found is None:
        return text
    year, month, day, hour, minute, second = found.groups()
    if hour is None:
        return f"{year}-{month}-{day}"
    zone = _text(offset)
    return f"{year}-{month}-{day}T{hour}:{minute}:{second or '00'}{zone if _OFFSET.fullmatch(zone) else ''}"


def agreed(one: CameraNotes, other: CameraNotes, which: str) -> tuple[str | None, str | None]:
    """The believed date on which both libraries agree (or which the only one with a say gives), and any doubt."""
    written: list[str | None] = [getattr(notes, which) for notes in (one, other) if notes.any]
    if len(set(written)) > 1:
        # One library may know a finer part (the zone) of the same moment.
        coarse, fine = sorted((stamp or "" for stamp in written), key=len)
        if not coarse or not fine.startswith(coarse) or coarse == fine:
            told = " and ".join(stamp or "no date" for stamp in written)
            return None, f"the camera's note of when it was {which} reads differently to two readers: {told}"
        written = [fine]
    stamp = written[0] if written else None
    if stamp is None:
        return None, None
    why_not = _unbelievable(stamp)
    if why_not is None:
        return stamp, None
    return None, f"the camera says it was {which} on {stamp}, {why_not}"


def _unbelievable(stamp: str) -> str | None:
    try:
        moment = datetime.fromisoformat(stamp)
    except ValueError:
        return "which is no day of the calendar"
    if (moment.year, moment.month, moment.day) in _CLOCK_STARTS:
        return "which is where a clock starts that nobody has set"
    if moment.year < _MAKES_NO_SENSE_BEFORE:
        return "when there were no photographs"
    return None
