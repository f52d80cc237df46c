"""EXIF and XMP of a finished picture: a camera's own dates, or the day on which a print was scanned."""

from __future__ import annotations

import io
from dataclasses import dataclass
from fractions import Fraction
from xml.sax.saxutils import escape

from PIL import Image
from PIL.TiffImagePlugin import IFDRational

EXIF_IFD, GPS_IFD = 0x8769, 0x8825
CAMERAS = {
    "pocket": ("Ostrel", "Ostrel P4"),
    "body": ("Ostrel", "Ostrel N7"),
    "phone": ("Tavolet", "Tavolet T8"),
    "studio": ("Vessgard", "Vessgard Studio 2"),
    "scanner": ("Plattgrau", "Plattgrau 600"),
}


@dataclass(frozen=True)
class Taken:
    """When and with what. A scan's `when` is the day of the scan and never the day of its subject."""

    when: str
    offset: str = "+00:00"
    device: str = "studio"
    sea: tuple[float, float] | None = None
    turned: bool = False
    words: str = ""

    @property
    def scanned(self) -> bool:
        """True for prints and slides."""
        return self.device == "scanner"


def degrees(value: float) -> tuple[IFDRational, IFDRational, IFDRational]:
    """Degrees, minutes, seconds as EXIF keeps them."""
    exact = abs(Fraction(str(value)))
    whole = int(exact)
    minutes = int((exact - whole) * 60)
    seconds = round(((exact - whole) * 60 - minutes) * 6000)
    return IFDRational(whole), IFDRational(minutes), IFDRational(seconds, 100)


def exif(t: Taken) -> Image.Exif:
    """The EXIF block (tags of Exif 2.32: OffsetTime and its kin came with 2.31)."""
    e = Image.Exif()
    make, model = CAMERAS[t.device]
    e[0x010F], e[0x0110] = make, model
    stamp = t.when.replace("-", ":").replace("T", " ")
    inner = e.get_ifd(EXIF_IFD)
    inner[0x9000] = b"0232"
    if t.scanned:
        inner[0x9004] = stamp
        inner[0xA300] = b"\x02"  # file source: reflection print scanner
    else:
        e[0x0132] = stamp
        inner[0x9003], inner[0x9004], inner[0x9011], inner[0x9012] = stamp, stamp, t.offset, t.offset
        inner[0xA300] = b"\x03"  # file source: digital camera
        inner[0x920A] = IFDRational(85)
    if t.turned:
        e[0x0112] = 6
    if t.sea:
        lat, lon = t.sea
        gps = e.get_ifd(GPS_IFD)
        gps[0] = b"\x02\x03\x00\x00"
        gps[1], gps[2] = "N" if lat >= 0 else "S", degrees(lat)
        gps[3], gps[4] = "E" if lon >= 0 else "W", degrees(lon)
    return e


def xmp(words: str) -> bytes:
    """An XMP packet with one description."""
    return (
        '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>'
        '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
        '<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:description><rdf:Alt>'
        f'<rdf:li xml:lang="x-default">{escape(words)}</rdf:li>'
        '</rdf:Alt></dc:description></rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end="w"?>'
    ).encode()


def encode(im: Image.Image, t: Taken, limit: int) -> bytes:
    """The JPEG file, at the best quality (at most 92) that keeps it under `limit` bytes.

    An upright picture from a turned camera is stored lying, with the tag that tells viewers to turn it.
    """
    stored = im.transpose(Image.Transpose.ROTATE_90) if t.turned else im
    for quality in range(92, 55, -3):
        out = io.BytesIO()
        extra = {"xmp": xmp(t.words)} if t.words else {}
        stored.save(out, "JPEG", quality=quality, optimize=True, progressive=True, exif=exif(t), **extra)
        if out.tell() <= limit:
            break
    return out.getvalue()
