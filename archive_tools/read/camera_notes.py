"""The camera's notes in an original (EXIF 2.32), as two libraries read them, and the dates on which they agree.

Each library has files in which it sees nothing or the wrong thing: a date on which they differ is not believed.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, BinaryIO

import exifread
from PIL import ExifTags, Image

_STAMP = re.compile(r"(\d{4})[:\-/.](\d\d)[:\-/.](\d\d)(?:[ T:](\d\d):(\d\d)(?::(\d\d))?)?", re.ASCII)
_OFFSET = re.compile(r"(?!-00:00)[+-](?:0\d|1[0-4]):[0-5]\d", re.ASCII)
_EXPOSURE = ("ExposureTime", "FNumber", "ISOSpeedRatings", "ShutterSpeedValue", "ApertureValue", "BrightnessValue")
"""What a camera measures and a scanner does not. (Pillow and exifread both call ISO speed so.)"""

logging.getLogger("exifread").setLevel(logging.CRITICAL)


@dataclass(frozen=True, slots=True)
class CameraNotes:
    """What one library found. `any` is False where it found no camera notes at all, and so has no say.

    taken, digitised: DateTimeOriginal and DateTimeDigitized with their offsets. gps: the satellites' date and time,
    in UTC. source: FileSource (1 film scanner, 2 print scanner, 3 digital camera).
    """

    any: bool = False
    taken: str | None = None
    digitised: str | None = None
    gps: str | None = None
    orientation: int | None = None
    has_gps: bool = False
    source: int | None = None
    exposed: bool = False
    maker: str = ""
    model: str = ""
    software: str = ""


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
        gps=_satellites(gps.get(ExifTags.GPS.GPSDateStamp), gps.get(ExifTags.GPS.GPSTimeStamp)),
        orientation=_orientation(top.get(ExifTags.Base.Orientation)),
        has_gps=any(tag != ExifTags.GPS.GPSVersionID for tag in gps),
        source=_whole(noted(ExifTags.Base.FileSource)),
        exposed=any(noted(getattr(ExifTags.Base, name)) is not None for name in _EXPOSURE),
        maker=_text(top.get(ExifTags.Base.Make)),
        model=_text(top.get(ExifTags.Base.Model)),
        software=_text(top.get(ExifTags.Base.Software)),
    )


def notes_by_exifread(opened: BinaryIO) -> CameraNotes:
    """The camera's notes as exifread reads them; without a say where it cannot."""
    try:
        opened.seek(0)
        tags: Mapping[str, Any] = exifread.process_file(opened, details=False)
    # It raises a dozen unlike things on files it does not know: then it has no say.
    except Exception:
        return CameraNotes()

    def noted(name: str, *kinds: str) -> Any:
        found = (tags.get(f"{kind} {name}") for kind in kinds or ("EXIF", "Image"))
        tag = next((tag for tag in found if tag is not None), None)
        return None if tag is None else getattr(tag, "values", None)

    return CameraNotes(
        any=bool(tags),
        taken=_stamp(noted("DateTimeOriginal"), noted("OffsetTimeOriginal")),
        digitised=_stamp(noted("DateTimeDigitized"), noted("OffsetTimeDigitized")),
        gps=_satellites(noted("GPSDate", "GPS"), noted("GPSTimeStamp", "GPS")),
        orientation=_orientation(noted("Orientation")),
        has_gps=any(name.startswith("GPS ") and name != "GPS GPSVersionID" for name in tags),
        source=_whole(noted("FileSource")),
        exposed=any(noted(name) is not None for name in _EXPOSURE),
        maker=_text(noted("Make", "Image")),
        model=_text(noted("Model", "Image")),
        software=_text(noted("Software", "Image")),
    )


def agreed(one: CameraNotes, other: CameraNotes, which: str) -> tuple[str | None, str | None]:
    """The date on which both libraries agree (or which the only one with a say gives), or else why there is none."""
    written: list[str | None] = [getattr(notes, which) for notes in (one, other) if notes.any]
    if len(set(written)) > 1:
        # One library may know a finer part (the zone) of the same moment.
        coarse, fine = sorted((stamp or "" for stamp in written), key=len)
        if not coarse or not fine.startswith(coarse) or coarse == fine:
            return None, f"reads differently to two readers: {' and '.join(stamp or 'no date' for stamp in written)}"
        return fine, None
    return (written[0] if written else None), None


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
    # What stands behind the end that a text has is what lay in the camera's memory.
    return value.strip(" \0\t\r\n").partition("\0")[0].rstrip() if isinstance(value, str) else ""


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


def _satellites(day: Any, clock: Any) -> str | None:
    """GPSDateStamp and GPSTimeStamp together, in UTC; the day alone where the time cannot be read."""
    text = _stamp(day, None)
    if text is None or len(text) != len("2003-10-05"):
        return text
    try:
        hour, minute, second = (float(part) for part in clock)
    except (TypeError, ValueError, ZeroDivisionError):
        return text
    if not (0 <= hour < 24 and 0 <= minute < 60 and 0 <= second < 61):
        return text
    return f"{text}T{int(hour):02}:{int(minute):02}:{min(int(second), 59):02}Z"
