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
from datetime import date
from pathlib import Path
from typing import Any, BinaryIO

import exifread
import PIL
from PIL import Image, UnidentifiedImageError

from archive_tools.model.photo import LARGEST_PIXELS
from archive_tools.model.stamps import Stamp
from archive_tools.read.clocks import DAY_OF_SCAN
from archive_tools.read.look import LEAST, look_of
from archive_tools.read.newer_formats import FORMATS, READABLE, WITHOUT_HEIC, heif_version, prepare_pillow
from archive_tools.read.picture_dates import PictureDates, dates_of, without_future

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
    stamps: every date in the file, believed or not. made_by: "camera", "scanner" or "" where nothing tells. look: what
    the picture looks like, as 256 bits in hex ("" for a picture without contrast); see `read.look`.
    """

    width: int
    height: int
    fingerprint: str
    taken: str | None = None
    digitised: str | None = None
    orientation: int = 1
    has_gps: bool = False
    doubt: str | None = None
    stamps: tuple[Stamp, ...] = ()
    made_by: str = ""
    look: str = ""


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
                    path: (int(size), int(changed), _facts_from(facts))
                    for path, (size, changed, facts) in kept["facts"].items()
                }
        except (OSError, ValueError, TypeError, KeyError, AttributeError):
            self._known = {}

    def get(self, path: Path, stat: os.stat_result) -> PhotoFacts | None:
        """The facts of `path` if the file is as it was when they were read."""
        size, changed, facts = self._known.get(_called(path), (-1, -1, None))
        return facts if (size, changed) == (stat.st_size, stat.st_mtime_ns) else None

    def knows(self, path: Path) -> bool:
        """Whether the facts of `path` are kept as the file is now. A file that is not there is not known."""
        try:
            return self.get(path, path.stat()) is not None
        except OSError:
            return False

    def put(self, path: Path, stat: os.stat_result, facts: PhotoFacts) -> None:
        """Keep the facts of `path`, in place of older ones."""
        self.keep(path, (stat.st_size, stat.st_mtime_ns), facts)

    def keep(self, path: Path, status: tuple[int, int], facts: PhotoFacts) -> None:
        """Keep the facts of `path` as it was at a size and a time of change (nanoseconds), in place of older ones."""
        self._known[_called(path)] = (*status, facts)
        self._changed = True

    def save(self) -> None:
        """Write the facts to `file`, if there is one and anything is new; files that are gone are forgotten.

        Raises OSError where it cannot be written.
        """
        if self.file is None or not self._changed:
            return
        there = {path: known for path, known in sorted(self._known.items()) if os.path.exists(path)}  # noqa: PTH110
        facts = {path: (size, changed, asdict(known)) for path, (size, changed, known) in there.items()}
        self.file.parent.mkdir(parents=True, exist_ok=True)
        half_written = self.file.with_name(f"{self.file.name}.{os.getpid()}.part")
        half_written.write_text(json.dumps({"version": _CACHE_VERSION, "facts": facts}), encoding="utf-8")
        half_written.replace(self.file)
        self._changed = False


def _called(path: Path) -> str:
    """One name for a file, from whatever folder it is asked for."""
    return os.path.abspath(path).replace(os.sep, "/")  # noqa: PTH100 - resolve() asks the disk for each of thousands


_CACHE_VERSION = f"2, Pillow {PIL.__version__}, exifread {exifread.__version__}, HEIC {heif_version()}"
"""Another library may read more, or less, of the same file."""


def _facts_from(kept: dict[str, Any]) -> PhotoFacts:
    return PhotoFacts(**{**kept, "stamps": tuple(Stamp(**stamp) for stamp in kept["stamps"])})


def photo_facts(path: Path, cache: FactsCache | None = None, *, today: date | None = None) -> PhotoFacts:
    """Size, fingerprint and dates of the original at `path` (JPEG, PNG, TIFF, WebP, AVIF, with pillow-heif HEIC).

    A date after `today` (default: the day by this machine's clock) is not believed. Raises UnreadablePicture for a file
    that is empty, cut off, too large or no picture, and OSError where the file itself cannot be read.
    """
    facts = cache.get(path, path.stat()) if cache is not None else None
    if facts is None:
        stat, facts = facts_anew(path)
        if cache is not None:
            cache.put(path, stat, facts)
    return _judged(facts, today or date.today())


def facts_anew(path: Path) -> tuple[os.stat_result, PhotoFacts]:
    """The facts of an original read now, before its dates are judged, and what its file was before it was read.

    Raises UnreadablePicture and OSError as `photo_facts` does.
    """
    stat = path.stat()
    return stat, _read(path, stat.st_size)


def _read(path: Path, size: int) -> PhotoFacts:
    if size == 0:
        raise UnreadablePicture("the file is empty")
    with path.open("rb") as opened:
        seen = _decode(opened)
        opened.seek(0)
        fingerprint = hashlib.file_digest(opened, "sha256").hexdigest()
    return PhotoFacts(
        width=seen.width,
        height=seen.height,
        fingerprint=fingerprint,
        orientation=seen.dates.orientation,
        has_gps=seen.dates.has_gps,
        stamps=seen.dates.stamps,
        made_by=seen.dates.made_by,
        look=seen.look,
    )


@dataclass(frozen=True, slots=True)
class _Seen:
    width: int
    height: int
    dates: PictureDates
    look: str


def _decode(opened: BinaryIO) -> _Seen:
    """Width and height of the upright image, its dates and looks; the whole picture is decoded on the way."""
    prepare_pillow()
    head = opened.read(64)
    opened.seek(0)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(opened, formats=FORMATS) as picture:
                if picture.width * picture.height > LARGEST_PIXELS:
                    raise UnreadablePicture(_too_large(f"{picture.width} × {picture.height} pixels"))
                dates = dates_of(picture, opened)
                # A TIFF is turned by Pillow itself, which tells the size of the upright picture.
                orientation = 1 if picture.format == "TIFF" else dates.orientation
                width, height = picture.size
                if orientation in _TURNED:
                    width, height = height, width
                # An eighth of the size is enough to find out whether the picture is all there, and what it looks like.
                picture.draft("L", (max(picture.width // 8, LEAST), max(picture.height // 8, LEAST)))
                picture.load()
                look = look_of(picture, orientation)
    except Image.DecompressionBombError as fault:
        raise UnreadablePicture(_too_large("far more pixels than a photograph has")) from fault
    except UnidentifiedImageError as fault:
        raise UnreadablePicture(_no_picture(head)) from fault
    except UnreadablePicture:
        raise
    except MemoryError as fault:
        raise UnreadablePicture("the picture needs more memory than this machine has") from fault
    except (OSError, SyntaxError, ValueError, EOFError, RuntimeError, LookupError, TypeError, struct.error) as fault:
        # Decoders answer a cut or spoilt file with whatever their parsing trips over.
        raise UnreadablePicture("the picture is cut off or damaged: it cannot be decoded to its end") from fault
    return _Seen(width, height, dates, look)


_HEIC = frozenset({b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"})
"""Brands of HEIC files (ISO/IEC 23008-12, from memory)."""


def _too_large(size: str) -> str:
    return f"the picture claims {size}; more than {LARGEST_PIXELS // 1_000_000} million are not read"


def _no_picture(head: bytes) -> str:
    if head[:23] == b"version https://git-lfs":
        return "the file is only the pointer that git's large file storage leaves; fetch the picture itself"
    if head[4:8] == b"ftyp" and head[8:12] in _HEIC and not heif_version():
        return WITHOUT_HEIC
    if head[4:8] == b"ftyp":
        return f"the file is a film, or a HEIC or AVIF picture that is damaged; save a {READABLE} copy of it"
    for magic, name in ((b"GIF8", "GIF"), (b"%PDF", "PDF"), (b"BM", "BMP"), (b"<svg", "SVG"), (b"8BPS", "PSD")):
        if head.startswith(magic):
            return f"the file is a {name}; save a {READABLE} copy of it"
    if head[:4] in (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+"):
        return (
            "the picture is damaged, or a TIFF of a kind that cannot be read (colours in fractions, 16-bit Lab); save "
            "a TIFF or PNG copy of it with 8 or 16 bits a colour"
        )
    if head[:2] == b"\xff\xd8" or head[:8] == b"\x89PNG\r\n\x1a\n" or head[:4] == b"RIFF":
        return "the picture is cut off or damaged: not even its beginning can be read"
    return f"the file is no {READABLE} picture"


def _judged(facts: PhotoFacts, today: date) -> PhotoFacts:
    """Facts with the dates that can be believed on `today`."""
    dates = without_future(PictureDates(facts.stamps), today)
    taken = dates.believed("taken")
    of_scan = (stamp for stamp in dates.stamps if stamp.doubt == DAY_OF_SCAN)
    digitised = dates.believed("digitised") or next(of_scan, None)
    doubts = [f"{s.field} {s.text} {s.doubt}" for s in dates.stamps if s.doubt and s.kind in ("taken", "digitised")]
    return replace(
        facts,
        stamps=dates.stamps,
        taken=taken.text if taken else None,
        digitised=digitised.text if digitised else None,
        doubt="; ".join(doubts) or None,
    )
