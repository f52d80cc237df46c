"""Dates that people and programs write into a picture's file: XMP (ISO 16684-1) and IPTC-IIM 4.2."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree

from PIL import Image, IptcImagePlugin

from archive_tools.model.stamps import Stamp

_DESCRIPTION = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}Description"
_XMP = {
    "{http://ns.adobe.com/exif/1.0/}DateTimeOriginal": ("taken", "XMP exif:DateTimeOriginal"),
    "{http://ns.adobe.com/photoshop/1.0/}DateCreated": ("created", "XMP photoshop:DateCreated"),
    "{http://ns.adobe.com/exif/1.0/}DateTimeDigitized": ("digitised", "XMP exif:DateTimeDigitized"),
    "{http://ns.adobe.com/xap/1.0/}CreateDate": ("digitised", "XMP xmp:CreateDate"),
}
"""Where XMP keeps dates. Its exif:DateTimeOriginal mirrors that of EXIF; photoshop:DateCreated is the day of what is
shown, xmp:CreateDate that of the file."""
_IPTC = (
    ("created", "IPTC date created", (2, 55), (2, 60)),
    ("digitised", "IPTC digital creation date", (2, 62), (2, 63)),
)
_TIFF_XMP = 700
_LONGEST = 4_000_000
"""Bytes of a packet that are looked at: longer ones carry pictures, not dates."""
_DATE = re.compile(
    r"(\d{4})(?:[-:](\d\d)(?:[-:](\d\d)(?:[T ](\d\d):(\d\d)(?::(\d\d)(?:\.\d+)?)?(Z|[+-]\d\d:\d\d)?)?)?)?", re.ASCII
)
_IPTC_DAY = re.compile(r"(\d{4})-?(\d\d)-?(\d\d)", re.ASCII)
_IPTC_TIME = re.compile(r"(\d\d):?(\d\d):?(\d\d)(?:([+-]\d\d):?(\d\d))?", re.ASCII)


def embedded_stamps(picture: Image.Image) -> tuple[Stamp, ...]:
    """The dates in a picture's XMP and IPTC blocks; none where a block is missing or cannot be understood."""
    return (*_xmp_stamps(_packet(picture)), *_iptc_stamps(picture))


def _packet(picture: Image.Image) -> bytes:
    found: Any = picture.info.get("xmp") or picture.info.get("XML:com.adobe.xmp")
    if not found:
        tags = getattr(picture, "tag_v2", None)
        found = tags.get(_TIFF_XMP) if tags is not None else None
    if isinstance(found, str):
        found = found.encode("utf-8", "replace")
    return found if isinstance(found, bytes) else b""


def _decoded(packet: bytes) -> str:
    """ISO 16684-1 allows UTF-8, and UTF-16 of either byte order, which the first signs give away."""
    start = packet[:4].lstrip(b"\xff\xfe")
    encoding = "utf-16-be" if start.startswith(b"\0<") else "utf-16-le" if start.startswith(b"<\0") else "utf-8-sig"
    return packet.decode(encoding, "replace").strip("\ufeff\0 \t\r\n")


def _xmp_stamps(packet: bytes) -> Iterator[Stamp]:
    text = _decoded(packet[:_LONGEST])
    # A packet has no use for a document type, and a declared entity can be a trap.
    if not text or len(packet) > _LONGEST or "<!" in text.replace("<!--", ""):
        return
    try:
        root = ElementTree.fromstring(text)
    except (ElementTree.ParseError, ValueError, LookupError):
        return
    seen: set[tuple[str, str]] = set()
    for description in root.iter(_DESCRIPTION):
        values = [*description.attrib.items(), *((child.tag, child.text or "") for child in description)]
        for name, value in values:
            if name in _XMP and value.strip() and (name, value) not in seen:
                seen.add((name, value))
                kind, field = _XMP[name]
                yield Stamp(kind, field, _tidied(value.strip()))


def _tidied(value: str) -> str:
    found = _DATE.fullmatch(value)
    if found is None:
        return value
    year, month, day, hour, minute, second, zone = found.groups()
    text = "-".join(part for part in (year, month, day) if part)
    return f"{text}T{hour}:{minute}:{second or '00'}{zone or ''}" if hour else text


def _iptc_stamps(picture: Image.Image) -> Iterator[Stamp]:
    try:
        block: Any = IptcImagePlugin.getiptcinfo(picture)  # type: ignore[arg-type]
    # It raises whatever its parsing trips over: then there is no block.
    except Exception:
        return
    if not isinstance(block, dict):
        return
    for kind, field, day_tag, time_tag in _IPTC:
        day, clock = _iptc_text(block.get(day_tag)), _iptc_text(block.get(time_tag))
        if day.strip("0 "):
            yield Stamp(kind, field, _iptc_date(day, clock))


def _iptc_text(value: Any) -> str:
    if isinstance(value, list):
        value = value[0] if value else b""
    return value.decode("ascii", "replace").strip(" \0") if isinstance(value, bytes) else ""


def _iptc_date(day: str, clock: str) -> str:
    """IIM 4.2: CCYYMMDD, where an unknown month or day is 00; HHMMSS±HHMM."""
    found = _IPTC_DAY.fullmatch(day)
    if found is None:
        return day
    year, month, number = found.groups()
    text = year if month == "00" else f"{year}-{month}" if number == "00" else f"{year}-{month}-{number}"
    at = _IPTC_TIME.fullmatch(clock)
    if at is None or len(text) < len("2003-10-05"):
        return text
    hour, minute, second, zone_hour, zone_minute = at.groups()
    return f"{text}T{hour}:{minute}:{second}{f'{zone_hour}:{zone_minute}' if zone_hour else ''}"
