"""Any picture opened upright, whatever its format; its camera's notes; and a plain word where that cannot be done."""

from __future__ import annotations

import hashlib
import io
import warnings
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any

from PIL import ExifTags, Image, ImageOps

from archive_tools.model.photo import LARGEST_PIXELS
from archive_tools.model.stamps import Stamp
from archive_tools.read.look import look_of
from archive_tools.read.newer_formats import WITHOUT_HEIC, heif_version, prepare_pillow
from archive_tools.read.photo_files import UnreadablePicture, photo_facts
from archive_tools.read.picture_dates import camera_dates
from archive_tools.sort_in.facts import Camera

ENDINGS = (".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".heic", ".heif", ".avif", ".dng")
"""What a file is called that is taken for a picture."""
OTHER_RAW = (".cr2", ".cr3", ".nef", ".arw", ".raf", ".orf", ".rw2", ".pef", ".gif", ".bmp")
BESIDE_A_FILM = (".thm", ".lrv")
"""Small pictures that cameras lay beside their films: those are JPEG, and no photographs."""
_ENDING_OF = {
    "JPEG": ".jpg",
    "MPO": ".jpg",
    "PNG": ".png",
    "TIFF": ".tif",
    "WEBP": ".webp",
    "AVIF": ".avif",
    "HEIF": ".heic",
}
_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"mif1", b"avif")
"""How a file of ISO/IEC 23008-12 says that it holds a still picture (from memory)."""
_OF_SEVERAL = ("TIFF", "WEBP", "PNG", "HEIF", "AVIF")
"""Formats that may hold several pictures. (The further ones in a camera's JPEG are for showing.)"""
_MOST_PAGES = 100
_SERIALS = (0xA431, 0xC62F)
"""BodySerialNumber (EXIF 2.32) and CameraSerialNumber (DNG 1.4)."""


@dataclass(frozen=True, slots=True)
class FileFacts:
    """What one file says of itself; see Picture for the meaning of each."""

    sha256: str
    ending: str
    width: int
    height: int
    taken: str | None
    clock: datetime | None
    camera: Camera
    look: int | None
    not_its_days: tuple[str, ...] = ()
    doubt: str | None = None
    not_shown: str | None = None
    clock_doubted: bool = False
    stamps: tuple[Stamp, ...] = ()
    scanned: str | None = None
    pages: int = 1


def is_picture(path: Path) -> bool:
    """Whether a file begins as a picture does, whatever it is called; False where it cannot be read."""
    try:
        with path.open("rb") as opened:
            head = opened.read(12)
    except OSError:
        return False
    if head[4:8] == b"ftyp":
        return head[8:12] in _BRANDS
    tiff = head[:4] in (b"II*\0", b"MM\0*") and not path.suffix
    return tiff or head.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")) or head[8:12] == b"WEBP"


def file_facts(path: Path, today: date) -> FileFacts:
    """What the picture at `path` says of itself. Raises UnreadablePicture and OSError."""
    if path.suffix.lower() == ".dng":
        return _facts_of_dng(path, today)
    if path.suffix.lower() in (".heic", ".heif") and not heif_version():
        raise UnreadablePicture(WITHOUT_HEIC)
    seen = photo_facts(path, today=today)
    ending, notes = _kind_and_camera(path)
    clock, doubted = _clock(seen.taken, seen.stamps, seen.made_by, notes)
    strange = (
        stamp.day
        for stamp in seen.stamps
        if (stamp.doubt and stamp.kind in ("taken", "gps"))
        or (seen.made_by == "scanner" and (stamp.kind == "digitised" or stamp.text == seen.digitised))
    )
    return FileFacts(
        sha256=seen.fingerprint,
        ending=ending,
        width=seen.width,
        height=seen.height,
        taken=seen.taken,
        clock=clock,
        camera=_camera(notes),
        look=int(seen.look, 16) if seen.look else None,
        not_its_days=tuple(dict.fromkeys(strange)),
        doubt=seen.doubt,
        clock_doubted=doubted,
        stamps=seen.stamps,
        scanned=seen.digitised[:10] if seen.digitised and seen.made_by != "camera" and not seen.taken else None,
        pages=notes.get("pages", 1),
    )


def upright(path: Path, mode: str = "L") -> Image.Image:
    """The whole picture, turned as it is to be seen. Raises UnreadablePicture and OSError."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            if path.suffix.lower() == ".dng":
                return _preview(path).convert(mode)
            prepare_pillow()
            with Image.open(path) as picture:
                if picture.width * picture.height > LARGEST_PIXELS:
                    raise UnreadablePicture("the picture claims more pixels than a photograph has")
                if mode == "L":
                    picture.draft("L", picture.size)
                picture.load()
                return ImageOps.exif_transpose(picture).convert(mode)
    except (UnreadablePicture, FileNotFoundError, PermissionError):
        raise
    # Decoders answer a spoilt file with whatever their parsing trips over.
    except Exception as fault:
        raise UnreadablePicture("the picture is cut off or damaged: it cannot be decoded to its end") from fault


def pixels_hash(path: Path) -> str:
    """SHA-256 of the upright picture's size and colours, whatever file they stand in."""
    picture = upright(path, "RGB")
    return hashlib.sha256(f"{picture.width}x{picture.height}\0".encode() + picture.tobytes()).hexdigest()


def _raw(path: Path) -> Any:
    try:
        import rawpy
    except ImportError as fault:
        what = "this is a DNG file, and reading those needs an extra: pip install 'archive-tools[raw]'"
        raise UnreadablePicture(what) from fault
    return rawpy.imread(str(path))


def _preview(path: Path) -> Image.Image:
    """The picture a DNG brings along for showing, else a quick development of half its size."""
    with _raw(path) as raw:
        try:
            thumb = raw.extract_thumb()
            if isinstance(thumb.data, bytes):
                with Image.open(io.BytesIO(thumb.data)) as picture:
                    picture.load()
                    return ImageOps.exif_transpose(picture)
            return Image.fromarray(thumb.data)
        # Whatever is wrong with the preview, the picture itself may be sound.
        except Exception:
            return Image.fromarray(raw.postprocess(half_size=True, use_camera_wb=True))


def _kind_and_camera(path: Path) -> tuple[str, dict[str, Any]]:
    """The ending that the format asks for, and what the camera writes besides its dates."""
    suffix = path.suffix.lower()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(path) as picture:
                ending = ".dng" if suffix == ".dng" else _ENDING_OF.get(picture.format or "", suffix)
                return ending, {**_written(picture), "pages": _pages(picture)}
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        return suffix, {}


def _pages(picture: Image.Image) -> int:
    """How many pictures a file holds, without small ones for showing (TIFF 6.0, NewSubfileType 254: bit 0)."""
    count: int = getattr(picture, "n_frames", 1)
    if picture.format != "TIFF" or count < 2:
        return count if picture.format in _OF_SEVERAL else 1
    whole = 0
    for page in range(min(count, _MOST_PAGES)):
        picture.seek(page)
        tags: Any = getattr(picture, "tag_v2", {})
        whole += page == 0 or not int(tags.get(254, 0)) & 1
    return whole


def _written(picture: Image.Image) -> dict[str, Any]:
    try:
        top = picture.getexif()
        inner = top.get_ifd(ExifTags.IFD.Exif)
    # A broken block of notes is no reason to refuse the picture.
    except Exception:
        return {}
    return {
        "make": _plain(top.get(ExifTags.Base.Make)),
        "model": _plain(top.get(ExifTags.Base.Model)),
        "serial": next((text for tag in _SERIALS if (text := _plain(inner.get(tag, top.get(tag))))), ""),
        "part": _plain(inner.get(ExifTags.Base.SubsecTimeOriginal)),
    }


def _plain(value: Any) -> str:
    if isinstance(value, bytes):
        value = value.decode("ascii", "replace")
    return "".join(letter for letter in value if letter.isprintable()).strip() if isinstance(value, str) else ""


def _camera(notes: dict[str, Any]) -> Camera:
    return Camera(notes.get("make", ""), notes.get("model", ""), notes.get("serial", ""))


def _clock(
    taken: str | None, stamps: Iterable[Stamp], made_by: str, notes: dict[str, Any]
) -> tuple[datetime | None, bool]:
    """What the camera's clock showed, to the part of a second, and whether it is not believed as a date."""
    doubted = (one.text for one in stamps if one.kind == "taken" and one.doubt and one.field.startswith("EXIF"))
    text = taken or (next(doubted, None) if made_by != "scanner" else None)
    if text is None or "T" not in text:
        return None, False
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None, False
    part = notes.get("part", "")
    if part.isascii() and part.isdigit():
        moment = moment.replace(microsecond=int(part[:6].ljust(6, "0")))
    return moment, taken is None


def _facts_of_dng(path: Path, today: date) -> FileFacts:
    """The same for a DNG, which the rest of the house does not read: by its preview, and its camera's notes."""
    if path.stat().st_size == 0:
        raise UnreadablePicture("the file is empty")
    picture = upright(path)
    dates = camera_dates(path, today=today)
    stamp = dates.believed("taken")
    taken = stamp.text if stamp else None
    _, notes = _kind_and_camera(path)
    clock, doubted = _clock(taken, dates.stamps, dates.made_by, notes)
    with path.open("rb") as opened:
        sha256 = hashlib.file_digest(opened, "sha256").hexdigest()
    look = look_of(picture)
    return FileFacts(
        sha256=sha256,
        ending=".dng",
        width=picture.width,
        height=picture.height,
        taken=taken,
        clock=clock,
        clock_doubted=doubted,
        stamps=dates.stamps,
        camera=_camera(notes),
        look=int(look, 16) if look else None,
        doubt="; ".join(f"{one.field} {one.text} {one.doubt}" for one in dates.stamps if one.doubt) or None,
        not_shown="the site does not show DNG; keep a JPEG of it beside it",
    )
