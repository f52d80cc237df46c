"""Whether a JPEG holds a picture and nothing else.

An allow-list, because what has to be kept out (camera notes, positions, captions, thumbnails of what was
cropped away, profiles, comments) has no complete list. Marker codes: ITU-T T.81 (JPEG), table B.1; the JFIF
segment: ITU-T T.871.
"""

from __future__ import annotations

_START, _END, _SCAN, _JFIF = 0xD8, 0xD9, 0xDA, 0xE0
_ALLOWED = frozenset(
    {
        0xDB,  # quantisation tables
        0xC4,  # Huffman tables
        0xC0,  # start of frame: baseline
        0xC2,  # start of frame: progressive
        0xDD,  # restart interval
    }
)
_JFIF_LENGTH = 16
"""Of a JFIF segment without a thumbnail."""


class NotBare(ValueError):  # noqa: N818  (what it says about the file, not that the program is at fault)
    """The bytes are no JPEG, or hold more than the picture."""


def check_bare(data: bytes) -> None:
    """Pass over a JPEG that is picture only; raise NotBare, saying what else is in it, for any other bytes."""
    if data[:2] != bytes((0xFF, _START)):
        raise NotBare("not a JPEG")
    place = 2
    while True:
        if place + 2 > len(data) or data[place] != 0xFF:
            raise NotBare(f"no marker at byte {place}")
        marker = data[place + 1]
        if marker == _END:
            if place + 2 != len(data):
                raise NotBare(f"{len(data) - place - 2} bytes after the end of the picture")
            return
        if place + 4 > len(data):
            raise NotBare("cut short")
        length = int.from_bytes(data[place + 2 : place + 4], "big")
        body = data[place + 4 : place + 2 + length]
        place += 2 + length
        if marker == _SCAN:
            place = _after_scan(data, place)
        elif marker == _JFIF:
            if length != _JFIF_LENGTH or not body.startswith(b"JFIF\0"):
                raise NotBare("an application segment that is no plain JFIF header")
        elif marker not in _ALLOWED:
            raise NotBare(f"a segment of kind FF{marker:02X}")


def _after_scan(data: bytes, place: int) -> int:
    """Where the next marker stands after the coded picture data that begins at `place`."""
    while True:
        place = data.find(b"\xff", place)
        if place < 0 or place + 1 >= len(data):
            raise NotBare("cut short")
        follows = data[place + 1]
        if follows != 0 and not 0xD0 <= follows <= 0xD7:  # neither a stuffed byte nor a restart
            return place
        place += 2
