"""What is known of the pictures in a folder and of the collection they may go to, before anything is decided."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem
from archive_tools.model.stamps import Stamp


@dataclass(frozen=True, slots=True, order=True)
class Camera:
    """A camera by what it writes of itself (EXIF Make, Model, BodySerialNumber); all empty where it writes nothing.

    folder: that of its pictures, where nothing else tells it from another camera of its make; else empty.
    """

    make: str = ""
    model: str = ""
    serial: str = ""
    folder: str = ""

    @property
    def called(self) -> str:
        """The camera in words."""
        model = self.model.removeprefix(self.make).strip() if self.make else self.model
        name = f"{self.make} {model}".strip()
        lying = (
            f" (its pictures in {'the folder itself' if self.folder == '.' else self.folder})" if self.folder else ""
        )
        if not name:
            return f"a camera that does not say its name{lying}"
        return f"{name} (no. {self.serial})" if self.serial else f"{name}{lying}"


@dataclass(frozen=True, slots=True)
class CodeSeen:
    """A QR code found in a picture: its text, and its side as a share of the picture's shorter side."""

    text: str
    share: float


@dataclass(frozen=True, slots=True)
class Picture:
    """One readable picture of the source folder.

    file: its path from that folder, with `/`. sha256: of its bytes. ending: by its format, not by its name. width,
    height: upright. taken: EDTF text of what the camera says and can be believed, else None; clock: the same as the
    camera's clock showed it, with its zone if it writes one, to the part of a second; None without a time of day.
    clock_doubted: the clock is not believed as a date (`taken` is None), and only tells what came after what. look:
    what it looks like in 256 bits, None without contrast. not_its_days: days that the file carries and that do not date
    what it shows, such as that of the scan. doubt: why a date in it is not believed. not_shown: why the site cannot
    show this format, if it cannot. stamps: every date in the file, believed or not. scanned: the day of the scan, where
    it is one. pages: how many pictures the file holds.
    """

    file: str
    size: int
    sha256: str
    ending: str
    width: int
    height: int
    taken: str | None = None
    clock: datetime | None = None
    camera: Camera = Camera()
    codes: tuple[CodeSeen, ...] = ()
    look: int | None = None
    not_its_days: tuple[str, ...] = ()
    doubt: str | None = None
    not_shown: str | None = None
    clock_doubted: bool = False
    stamps: tuple[Stamp, ...] = ()
    scanned: str | None = None
    pages: int = 1


@dataclass(frozen=True, slots=True)
class Passed:
    """A file of the source folder that is not taken for a picture, or cannot be read as one, and why."""

    file: str
    why: str
    is_picture: bool


@dataclass(frozen=True, slots=True)
class Kept:
    """A photograph that the collection already has; `look` as in Picture."""

    path: str
    of: tuple[str, ...]
    sha256: str
    width: int
    height: int
    look: int | None


@dataclass(frozen=True, slots=True)
class PhotoFolder:
    """A folder of photographs as it lies on the disk: the bytes of its photos.yml (None: there is none), file names."""

    path: str
    sheet: bytes | None = None
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class House:
    """The collection as far as taking in needs it. folders: by accession, "" for photographs of several trees."""

    collection: Collection
    folders: Mapping[str, PhotoFolder]
    kept: tuple[Kept, ...]


@dataclass(frozen=True, slots=True)
class Source:
    """What lies in the folder that is to be taken in. `name` is the folder's own name, never where it stands."""

    name: str
    pictures: tuple[Picture, ...]
    passed: tuple[Passed, ...] = ()


@dataclass(frozen=True, slots=True)
class MappingRow:
    """What the mapping file says of one picture.

    trees: the accessions; None where it leaves that to the other ways; empty where the picture is to be left out.
    entry: further keys of photos.yml, as text or lists of text.
    """

    file: str
    line: int
    trees: tuple[str, ...] | None
    entry: tuple[tuple[str, str | list[str]], ...] = ()


@dataclass(frozen=True, slots=True)
class MappingFile:
    """A mapping file read: its rows by the path of the picture, and what is wrong with it."""

    rows: Mapping[str, MappingRow]
    problems: tuple[Problem, ...] = ()


NO_MAPPING = MappingFile({})


def in_words(length: timedelta) -> str:
    """A length of time in words, to the second: "1 h 3 min", "40 s"."""
    seconds = abs(round(length.total_seconds()))
    days, rest = divmod(seconds, 86_400)
    hours, rest = divmod(rest, 3_600)
    minutes, rest = divmod(rest, 60)
    parts = [f"{count} {unit}" for count, unit in ((days, "d"), (hours, "h"), (minutes, "min"), (rest, "s")) if count]
    return " ".join(parts) or "0 s"


def listed(words: Sequence[str]) -> str:
    """Words one after another: "a, b and c"."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""
