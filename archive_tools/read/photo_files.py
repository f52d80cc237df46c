"""What an original says of itself: its size, its bytes, and the day on which the camera says it was taken.

Originals are read and never written.
"""

from __future__ import annotations

import hashlib
import json
import os
import struct
import warnings
from dataclasses import asdict, dataclass, field, replace
from datetime import date, timedelta
from pathlib import Path
from typing import BinaryIO

from PIL import Image, UnidentifiedImageError

from archive_tools.read.camera_notes import CameraNotes, agreed, notes_by_exifread, notes_by_pillow

FORMATS = ("JPEG", "PNG", "TIFF", "WEBP")
LARGEST_PIXELS = 178_956_970
"""More pixels than this are taken for a trap or a fault, not for a photograph (Pillow's own limit)."""

_TURNED = frozenset({5, 6, 7, 8})


class UnreadablePicture(ValueError):  # noqa: N818  (what a curator can mend is no fault of the program)
    """A file that cannot be used as a photograph; `what` says why in plain words."""

    def __init__(self, what: str) -> None:
        super().__init__(what)
        self.what = what


@dataclass(frozen=True, slots=True)
class PhotoFacts:
    """What is known of one original from the file alone.

    width, height: pixels of the upright image. fingerprint: SHA-256 of the bytes, as hex. taken, digitised: EDTF text
    of a day, or of a day and time, from EXIF DateTimeOriginal and DateTimeDigitized; None where there is none that can
    be believed. orientation: EXIF 1 to 8. doubt: in plain words, why something the camera wrote is not believed.
    """

    width: int
    height: int
    fingerprint: str
    taken: str | None = None
    digitised: str | None = None
    orientation: int = 1
    has_gps: bool = False
    doubt: str | None = None


@dataclass(slots=True)
class FactsCache:
    """Facts already read, so that a build does not read thousands of unchanged originals again.

    A file counts as unchanged while its path, size and time of change (nanoseconds) stay. With `file` the facts are
    kept there between runs, as JSON, when `save` is called; one that cannot be understood is ignored and written anew.
    """

    file: Path | None = None
    _known: dict[str, tuple[int, int, PhotoFacts]] = field(default_factory=dict, repr=False)
    _changed: bool = field(default=False, repr=False)

    def __post_init__(self) -> None:
        if self.file is None:
            return
        try:
            kept = json.loads(self.file.read_text(encoding="utf-8"))
            if kept["version"] == _CACHE_VERSION:
                self._known = {
                    path: (int(size), int(changed), PhotoFacts(**facts))
                    for path, (size, changed, facts) in kept["facts"].items()
                }
        except (OSError, ValueError, TypeError, KeyError, AttributeError):
            self._known = {}

    def get(self, path: Path, stat: os.stat_result) -> PhotoFacts | None:
        """The facts of `path` if the file is as it was when they were read."""
        size, changed, facts = self._known.get(path.as_posix(), (-1, -1, None))
        return facts if (size, changed) == (stat.st_size, stat.st_mtime_ns) else None

    def put(self, path: Path, stat: os.stat_result, facts: PhotoFacts) -> None:
        """Keep the facts of `path`, in place of older ones."""
        self._known[path.as_posix()] = (stat.st_size, stat.st_mtime_ns, facts)
        self._changed = True

    def save(self) -> None:
        """Write the facts to `file`, if there is one and anything is new. Raises OSError where it cannot be written."""
        if self.file is None or not self._changed:
            return
        facts = {path: (size, changed, asdict(known)) for path, (size, changed, known) in sorted(self._known.items())}
        self.file.parent.mkdir(parents=True, exist_ok=True)
        half_written = self.file.with_name(f"{self.file.name}.{os.getpid()}.part")
        half_written.write_text(json.dumps({"version": _CACHE_VERSION, "facts": facts}), encoding="utf-8")
        half_written.replace(self.file)
        self._changed = False


_CACHE_VERSION = 1


def photo_facts(path: Path, cache: FactsCache | None = None, *, today: date | None = None) -> PhotoFacts:
    """Size, fingerprint and camera's date of the original at `path` (JPEG, PNG, TIFF or WebP).

    A date after `today` (default: the day by this machine's clock) is not believed. Raises UnreadablePicture for a file
    that is empty, cut off, too large or no picture, and OSError where the file itself cannot be read.
    """
    stat = path.stat()
    facts = cache.get(path, stat) if cache is not None else None
    if facts is None:
        facts = _read(path, stat.st_size)
        if cache is not None:
            cache.put(path, stat, facts)
    return _without_future(facts, today or date.today())


def _read(path: Path, size: int) -> PhotoFacts:
    if size == 0:
        raise UnreadablePicture("the file is empty")
    with path.open("rb") as opened:
        width, height, by_pillow = _decode(opened)
        by_exifread = notes_by_exifread(opened)
        opened.seek(0)
        fingerprint = hashlib.file_digest(opened, "sha256").hexdigest()
    orientation = by_pillow.orientation or by_exifread.orientation or 1
    taken, taken_doubt = agreed(by_pillow, by_exifread, "taken")
    digitised, digitised_doubt = agreed(by_pillow, by_exifread, "digitised")
    scanned = by_pillow.scanned or by_exifread.scanned
    if scanned and taken is not None and (digitised is None or digitised[:10] == taken[:10]):
        taken_doubt = f"the file says it was made by a scanner, so {taken[:10]} is the day of the scan"
        digitised, taken = digitised or taken, None
    doubts = [doubt for doubt in (taken_doubt, digitised_doubt) if doubt]
    return PhotoFacts(
        width=width,
        height=height,
        fingerprint=fingerprint,
        taken=taken,
        digitised=digitised,
        orientation=orientation,
        has_gps=by_pillow.has_gps or by_exifread.has_gps,
        doubt="; ".join(dict.fromkeys(doubts)) or None,
    )


def _decode(opened: BinaryIO) -> tuple[int, int, CameraNotes]:
    """Width and height of the upright image, and the camera's notes; the whole picture is decoded on the way."""
    head = opened.read(64)
    opened.seek(0)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(opened, formats=FORMATS) as picture:
                if picture.width * picture.height > LARGEST_PIXELS:
                    raise UnreadablePicture(_too_large(f"{picture.width} × {picture.height} pixels"))
                notes = notes_by_pillow(picture)
                width, height = picture.size
                # Pillow itself turns the size of a TIFF.
                if notes.orientation in _TURNED and picture.format != "TIFF":
                    width, height = height, width
                # An eighth of the size is enough to find out whether the picture is all there.
                picture.draft("L", (max(picture.width // 8, 1), max(picture.height // 8, 1)))
                picture.load()
    except Image.DecompressionBombError as fault:
        raise UnreadablePicture(_too_large("far more pixels than a photograph has")) from fault
    except UnidentifiedImageError as fault:
        raise UnreadablePicture(_no_picture(head)) from fault
    except (OSError, SyntaxError, ValueError, EOFError, struct.error, IndexError) as fault:
        if isinstance(fault, UnreadablePicture):
            raise
        # Decoders answer a cut or spoilt file with whatever their parsing trips over.
        raise UnreadablePicture("the picture is cut off or damaged: it cannot be decoded to its end") from fault
    return width, height, notes


def _too_large(size: str) -> str:
    return f"the picture claims {size}; more than {LARGEST_PIXELS // 1_000_000} million are not read"


def _no_picture(head: bytes) -> str:
    readable = "JPEG, PNG, TIFF or WebP"
    if head[:23] == b"version https://git-lfs":
        return "the file is only the pointer that git's large file storage leaves; fetch the picture itself"
    if head[4:8] == b"ftyp":
        return f"the file is a HEIC, AVIF or film file; save a {readable} copy of it"
    for magic, name in ((b"GIF8", "GIF"), (b"%PDF", "PDF"), (b"BM", "BMP"), (b"<svg", "SVG"), (b"8BPS", "PSD")):
        if head.startswith(magic):
            return f"the file is a {name}; save a {readable} copy of it"
    if head[:2] == b"\xff\xd8" or head[:8] == b"\x89PNG\r\n\x1a\n" or head[:4] in (b"II*\0", b"MM\0*", b"RIFF"):
        return "the picture is cut off or damaged: not even its beginning can be read"
    return f"the file is no {readable} picture"


def _without_future(facts: PhotoFacts, today: date) -> PhotoFacts:
    """Facts without dates later than the day after `today` (it may be tomorrow already where the picture was taken)."""
    doubts = [facts.doubt] if facts.doubt else []
    for name in ("taken", "digitised"):
        stamp: str | None = getattr(facts, name)
        if stamp is not None and date.fromisoformat(stamp[:10]) - timedelta(days=1) > today:
            doubts.append(f"the camera says it was {name} on {stamp}, which is still to come")
            facts = replace(facts, taken=None) if name == "taken" else replace(facts, digitised=None)
    return replace(facts, doubt="; ".join(doubts) or None)
