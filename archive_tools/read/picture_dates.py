"""Every date that a picture's file carries, each with where it stands and what speaks against it."""

from __future__ import annotations

import warnings
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import BinaryIO

from PIL import Image

from archive_tools.model.stamps import Stamp
from archive_tools.read.camera_notes import CameraNotes, agreed, notes_by_exifread, notes_by_pillow
from archive_tools.read.clocks import doubted, to_come
from archive_tools.read.embedded_notes import embedded_stamps
from archive_tools.read.made_by import made_by
from archive_tools.read.newer_formats import prepare_pillow

_EXIF = (
    ("taken", "taken", "EXIF DateTimeOriginal"),
    ("digitised", "digitised", "EXIF DateTimeDigitized"),
    ("gps", "gps", "EXIF GPS date and time"),
)


@dataclass(frozen=True, slots=True)
class PictureDates:
    """What a picture's file says of when it was made, and with what.

    stamps: every date in it, believed or not (`Stamp.doubt`). made_by: "camera", "scanner" or "" where nothing tells.
    maker, model: of the device. orientation: EXIF 1 to 8.
    """

    stamps: tuple[Stamp, ...] = ()
    made_by: str = ""
    maker: str = ""
    model: str = ""
    orientation: int = 1
    has_gps: bool = False

    def believed(self, kind: str) -> Stamp | None:
        """The first stamp of a kind ("taken", "gps", "created", "digitised") against which nothing speaks."""
        return next((stamp for stamp in self.stamps if stamp.kind == kind and not stamp.doubt), None)


def camera_dates(path: Path, *, today: date | None = None) -> PictureDates:
    """Every date in the file at `path`, without decoding its pixels. The file is only read.

    Understands JPEG, PNG, TIFF, WebP, AVIF, with pillow-heif HEIC, and of most raw files the EXIF part; of anything
    else the answer is empty. A date after `today` (default: the day by this machine's clock) is in doubt. Raises
    OSError where the file cannot be read.
    """
    prepare_pillow()
    with path.open("rb") as opened:
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                with Image.open(opened) as picture:
                    found = dates_of(picture, opened)
        # Whatever a decoder trips over, the other reader may still know the file.
        except Exception:
            found = dates_from(CameraNotes(), notes_by_exifread(opened), ())
    return without_future(found, today or date.today())


def dates_of(picture: Image.Image, opened: BinaryIO) -> PictureDates:
    """The dates of a picture that is open already; those still to come are not yet in doubt."""
    by_exifread = notes_by_exifread(opened)
    if picture.format in ("HEIF", "AVIF"):
        # How these stand is said outside the camera's notes, and only the decoder knows it.
        by_exifread = replace(by_exifread, orientation=None)
    return dates_from(notes_by_pillow(picture), by_exifread, embedded_stamps(picture))


def dates_from(by_pillow: CameraNotes, by_exifread: CameraNotes, embedded: tuple[Stamp, ...]) -> PictureDates:
    """The dates on which the readers agree, with the doubts that the file itself gives cause for."""
    stamps = []
    for which, kind, field in _EXIF:
        text, doubt = agreed(by_pillow, by_exifread, which)
        if text is not None or doubt is not None:
            stamps.append(Stamp(kind, field, text or "", doubt))
    source = made_by(by_pillow, by_exifread)
    return PictureDates(
        stamps=doubted((*stamps, *embedded), source),
        made_by=source,
        maker=by_pillow.maker or by_exifread.maker,
        model=by_pillow.model or by_exifread.model,
        orientation=by_pillow.orientation or by_exifread.orientation or 1,
        has_gps=by_pillow.has_gps or by_exifread.has_gps,
    )


def without_future(found: PictureDates, today: date) -> PictureDates:
    """The same, with dates after `today` in doubt."""
    stamps = to_come(found.stamps, today)
    return PictureDates(stamps, found.made_by, found.maker, found.model, found.orientation, found.has_gps)
