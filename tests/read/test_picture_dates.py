"""Every date of a file: EXIF, GPS, XMP and IPTC; and whether a camera or a scanner made it."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image, PngImagePlugin

from archive_tools.read.picture_dates import PictureDates, camera_dates

TODAY = date(2026, 11, 25)
PACKET = (
    '<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/">'
    '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    '<rdf:Description rdf:about="" xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/"'
    ' xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:exif="http://ns.adobe.com/exif/1.0/"{attributes}>{elements}'
    '</rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end="w"?>'
)


def made(path: Path, *, xmp: bytes = b"", gps: dict[int, Any] | None = None, inner: Any = None, **top: Any) -> Path:
    exif = Image.Exif()
    for name, value in top.items():
        exif[getattr(ExifTags.Base, name)] = value
    if gps:
        exif[ExifTags.IFD.GPSInfo] = gps
    if inner:
        exif[ExifTags.IFD.Exif] = {getattr(ExifTags.Base, name): value for name, value in inner.items()}
    more: dict[str, Any] = {}
    if xmp and path.suffix == ".png":
        more["pnginfo"] = PngImagePlugin.PngInfo()
        more["pnginfo"].add_itxt("XML:com.adobe.xmp", xmp.decode())
    elif xmp and path.suffix == ".tif":
        exif[700] = xmp
    elif xmp:
        more["xmp"] = xmp
    Image.effect_noise((40, 30), 60).convert("RGB").save(path, exif=exif.tobytes(), **more)
    return path


def texts(found: PictureDates) -> dict[str, str]:
    return {stamp.field: stamp.text for stamp in found.stamps}


def test_satellites(tmp_path: Path) -> None:
    gps = {29: "2012:12:20", 7: (4.0, 38.0, 40.9)}
    found = camera_dates(made(tmp_path / "a.jpg", gps=gps), today=TODAY)
    assert texts(found) == {"EXIF GPS date and time": "2012-12-20T04:38:40Z"}
    found = camera_dates(made(tmp_path / "b.jpg", gps={29: "2012:12:20"}), today=TODAY)
    assert texts(found) == {"EXIF GPS date and time": "2012-12-20"}


@pytest.mark.parametrize("ending", ["jpg", "png", "tif", "webp"])
@pytest.mark.parametrize("as_elements", [False, True])
def test_xmp(tmp_path: Path, ending: str, as_elements: bool) -> None:
    values = {"photoshop:DateCreated": "1962-05", "xmp:CreateDate": "2014-02-28T09:00:01+01:00"}
    told = {"attributes": "".join(f' {name}="{value}"' for name, value in values.items()), "elements": ""}
    if as_elements:
        elements = "".join(f"<{name}>{value}</{name}>" for name, value in values.items())
        told = {"attributes": "", "elements": elements}
    path = made(tmp_path / f"a.{ending}", xmp=PACKET.format(**told).encode())
    assert texts(camera_dates(path, today=TODAY)) == {
        "XMP photoshop:DateCreated": "1962-05",
        "XMP xmp:CreateDate": "2014-02-28T09:00:01+01:00",
    }


@pytest.mark.parametrize("encoding", ["utf-16-be", "utf-16-le", "utf-8-sig"])
def test_xmp_in_every_encoding_that_its_standard_allows(tmp_path: Path, encoding: str) -> None:
    packet = PACKET.format(attributes=' photoshop:DateCreated="1962"', elements="").encode(encoding)
    assert texts(camera_dates(made(tmp_path / "a.jpg", xmp=packet), today=TODAY)) == {
        "XMP photoshop:DateCreated": "1962"
    }


@pytest.mark.parametrize(
    "packet",
    [
        b"<not closed",
        b"\xff\xfe\x00",
        b'<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><x>&b;</x>',
        b'<?xml version="1.0" encoding="no-such"?><x/>',
    ],
)
def test_a_packet_that_cannot_be_understood_says_nothing(tmp_path: Path, packet: bytes) -> None:
    assert camera_dates(made(tmp_path / "a.jpg", xmp=packet), today=TODAY).stamps == ()


def iptc(*fields: tuple[int, bytes]) -> bytes:
    """A block by the layout of IPTC-IIM 4.2, 1.6, in the 8BIM resource 0x0404."""
    block = b"".join(b"\x1c\x02" + bytes([tag]) + len(value).to_bytes(2, "big") + value for tag, value in fields)
    resource = b"8BIM\x04\x04\x00\x00" + len(block).to_bytes(4, "big") + block + b"\0" * (len(block) % 2)
    body = b"Photoshop 3.0\0" + resource
    return b"\xff\xed" + (len(body) + 2).to_bytes(2, "big") + body


@pytest.mark.parametrize(
    ("fields", "text"),
    [
        (((55, b"19620501"),), "1962-05-01"),
        (((55, b"19620501"), (60, b"140731+0200")), "1962-05-01T14:07:31+02:00"),
        (((55, b"19620500"),), "1962-05"),
        (((55, b"19620000"),), "1962"),
        (((55, b"1962-05-01"),), "1962-05-01"),
    ],
)
def test_iptc(tmp_path: Path, fields: tuple[tuple[int, bytes], ...], text: str) -> None:
    path = made(tmp_path / "a.jpg")
    data = path.read_bytes()
    path.write_bytes(data[:2] + iptc(*fields) + data[2:])
    assert texts(camera_dates(path, today=TODAY)) == {"IPTC date created": text}


EXPOSED = {"ExposureTime": 0.01, "FNumber": 5.6}


@pytest.mark.parametrize(
    ("top", "inner", "by"),
    [
        ({}, {"FileSource": b"\x01"}, "scanner"),
        ({}, {"FileSource": b"\x02", **EXPOSED}, "scanner"),
        ({}, {"FileSource": b"\x03"}, "camera"),
        ({"Model": "Plattgrau Filmscanner 4"}, {}, "scanner"),
        ({"Software": "PlattScan 3.1"}, {}, "scanner"),
        ({"Software": "PlattScan 3.1"}, EXPOSED, "camera"),  # a telephone that copies prints
        ({"Make": "Scandor", "Model": "D 3"}, EXPOSED, "camera"),
        ({"Make": "Scandor", "Model": "D 3"}, {}, ""),
        ({"Make": "Ostrel"}, {}, ""),
        ({}, {}, ""),
    ],
)
def test_what_made_it(tmp_path: Path, top: dict[str, Any], inner: dict[str, Any], by: str) -> None:
    assert camera_dates(made(tmp_path / "a.jpg", inner=inner, **top), today=TODAY).made_by == by


def test_a_scanner_that_writes_the_camera_tag_dates_nothing(tmp_path: Path) -> None:
    path = made(tmp_path / "a.jpg", Model="Plattgrau Filmscanner 4", inner={"DateTimeOriginal": "2014:02:28 09:00:01"})
    found = camera_dates(path, today=TODAY)
    assert found.believed("taken") is None
    assert "day of the scan" in (found.stamps[0].doubt or "")


def test_no_picture_has_no_dates_and_a_missing_one_is_the_callers_affair(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(b"\xff\xd8 nothing")
    assert camera_dates(tmp_path / "a.jpg", today=TODAY) == PictureDates()
    with pytest.raises(FileNotFoundError):
        camera_dates(tmp_path / "b.jpg", today=TODAY)


def test_dates_as_some_cameras_write_them(tmp_path: Path) -> None:
    """A colon before the time (as in jhead's sample of a Minolta E223); memory behind the text's end (of a Verizon)."""
    written = {"DateTimeOriginal": "2003:08:27:00:09:15", "DateTimeDigitized": "05.10.2009 11:16\x0000"}
    path = made(tmp_path / "a.jpg", inner=written)
    found = camera_dates(path, today=TODAY)
    assert found.believed("taken") is not None
    assert texts(found)["EXIF DateTimeOriginal"] == "2003-08-27T00:09:15"
    (doubted,) = [stamp for stamp in found.stamps if stamp.kind == "digitised"]
    assert (doubted.text, doubted.doubt) == ("05.10.2009 11:16", "is no day of the calendar")
