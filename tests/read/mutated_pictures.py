"""Reads so many spoilt pictures, each in every way that the archive does, and prints what became of them as JSON.

    python mutated_pictures.py FOLDER FIRST COUNT

Run as a process of its own: a decoder that crashes or hangs takes only this one along.
"""

from __future__ import annotations

import faulthandler
import io
import json
import random
import resource
import signal
import sys
from collections import Counter
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import numpy as np
from PIL import ExifTags, Image, PngImagePlugin

from archive_tools.illustrate.pixels import CannotRead, open_original, upright_size, upright_srgb
from archive_tools.read.newer_formats import heif_version, prepare_pillow
from archive_tools.read.photo_files import UnreadablePicture, photo_facts
from archive_tools.read.picture_dates import camera_dates

TODAY = date(2026, 11, 25)
SECONDS_EACH = 10
"""Of the processor, not of the clock: a busy machine is no hang."""
MOST_MEMORY = 3 * 1024**3
PACKET = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    b'<rdf:Description xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" photoshop:DateCreated="1962-05-01"/>'
    b"</rdf:RDF></x:xmpmeta>"
)


def whole() -> dict[str, bytes]:
    """A small picture of every format and kind that is read, with camera notes."""
    rows, columns = np.mgrid[0:48, 0:64]
    colour = np.stack([rows * 5, columns * 4, (rows * columns) % 256], axis=-1).astype(np.uint8)
    picture = Image.fromarray(colour)
    long = Image.fromarray((rows * 1300 + columns).astype(np.uint16))
    exif = Image.Exif()
    exif[ExifTags.Base.Make], exif[ExifTags.Base.Orientation] = "Ostrel", 6
    exif[ExifTags.IFD.Exif] = {ExifTags.Base.DateTimeOriginal: "2008:06:07 11:42:10"}
    exif[ExifTags.IFD.GPSInfo] = {1: "N", 2: (61.0, 12.0, 3.0), 29: "2008:06:07", 7: (10.0, 42.0, 10.0)}
    notes = exif.tobytes()
    note = PngImagePlugin.PngInfo()
    note.add_itxt("XML:com.adobe.xmp", PACKET.decode(), zip=True)
    ways = {
        "jpg": ("JPEG", picture, {"exif": notes, "xmp": PACKET, "quality": 80}),
        "progressive.jpg": ("JPEG", picture, {"exif": notes, "progressive": True}),
        "inks.jpg": ("JPEG", picture.convert("CMYK"), {"exif": notes}),
        "two.jpg": ("MPO", picture, {"save_all": True, "append_images": [picture]}),
        "png": ("PNG", picture, {"exif": notes, "pnginfo": note}),
        "table.png": ("PNG", picture.quantize(16), {"exif": notes, "transparency": 3}),
        "long.png": ("PNG", long, {"exif": notes}),
        "tif": ("TIFF", picture, {"exif": notes}),
        "lzw.tif": ("TIFF", picture, {"compression": "tiff_lzw"}),
        "zip.tif": ("TIFF", long, {"compression": "tiff_adobe_deflate"}),
        "jpeg.tif": ("TIFF", picture, {"compression": "jpeg"}),
        "webp": ("WEBP", picture, {"exif": notes, "xmp": PACKET}),
        "lossless.webp": ("WEBP", picture.convert("RGBA"), {"exif": notes, "lossless": True}),
        "avif": ("AVIF", picture, {"exif": notes, "speed": 10}),
    }
    if heif_version():
        prepare_pillow()
        ways["heic"] = ("HEIF", picture, {"exif": notes})
    made = {}
    for ending, (kind, source, how) in ways.items():
        sheet = io.BytesIO()
        source.save(sheet, kind, **how)
        made[ending] = sheet.getvalue()
    return made


def spoilt(data: bytes, rng: random.Random) -> bytes:
    """The file cut off, with bytes changed, lengths blown up, parts doubled, left out or blanked."""
    changed = bytearray(data)
    way = rng.randrange(6)
    place = rng.randrange(len(changed))
    # What decoders go by stands at the beginning.
    early = rng.randrange(min(len(changed), 400))
    if way == 0:
        return bytes(changed[:place])
    if way == 1:
        for _ in range(rng.randrange(1, 12)):
            changed[rng.randrange(len(changed))] = rng.randrange(256)
    elif way == 2:
        changed[early : early + 4] = rng.choice(
            [b"\xff\xff\xff\xff", b"\x7f\xff\xff\xff", b"\0\0\0\0", b"\xff\xff\xff\x7f"]
        )
    elif way == 3:
        changed[place:place] = changed[early : early + rng.randrange(1, 200)]
    elif way == 4:
        del changed[early : early + rng.randrange(1, 60)]
    else:
        length = rng.randrange(1, 200)
        changed[place : place + length] = bytes(length)
    return bytes(changed)


def all_ways(path: Path) -> Iterator[str]:
    """Read the file as the archive does; "read" or "refused" for each way."""
    camera_dates(path, today=TODAY)
    try:
        photo_facts(path, today=TODAY)
        yield "read"
    except UnreadablePicture as fault:
        yield "refused" if fault.what else "refused without a word"
    try:
        with path.open("rb") as file, open_original(file) as image:
            width, height = upright_size(image)
            upright_srgb(image, (max(1, min(width, 40)), max(1, min(height, 40))))
            yield "shown"
    except CannotRead as fault:
        yield "not shown" if str(fault) else "not shown without a word"


def main(folder: Path, first: int, count: int) -> None:
    # Tells where it was, and ends the process.
    faulthandler.register(signal.SIGPROF, chain=True)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    made = whole()
    met: Counter[str] = Counter()
    for number in range(first, first + count):
        rng = random.Random(number)
        ending = list(made)[number % len(made)]
        path = folder / f"{number}.{ending.rpartition('.')[2]}"
        path.write_bytes(spoilt(made[ending], rng))
        signal.setitimer(signal.ITIMER_PROF, SECONDS_EACH)
        try:
            for became in all_ways(path):
                met[became] += 1
        except Exception as fault:
            met[f"{path.name} ({ending}): {fault!r}"] += 1
        signal.setitimer(signal.ITIMER_PROF, 0)
        path.unlink()
    print(json.dumps(dict(met)))


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
