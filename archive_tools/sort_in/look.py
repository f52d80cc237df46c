"""The edge where files become facts: what lies in the source folder, and what the collection already has.

Everything is opened for reading only. What was made out of a picture is remembered in the collection's cache folder, so
that a plan looked at first and applied later reads each picture once.
"""

from __future__ import annotations

import contextlib
import json
import os
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict, dataclass, field
from datetime import date, datetime
from pathlib import Path
from typing import Any, TypeVar

from archive_tools.model.collection import Collection
from archive_tools.model.stamps import Stamp
from archive_tools.read.file_names import is_left_alone, shown_name
from archive_tools.read.photo_files import UnreadablePicture
from archive_tools.read.photos import LIST
from archive_tools.sort_in.codes import codes_in
from archive_tools.sort_in.disk import hash_of
from archive_tools.sort_in.facts import Camera, CodeSeen, House, Kept, Passed, PhotoFolder, Picture, Source
from archive_tools.sort_in.opening import BESIDE_A_FILM, ENDINGS, OTHER_RAW, file_facts, is_picture, upright

Progress = Callable[[str, int, int], None]
T = TypeVar("T")
R = TypeVar("R")
_VERSION = 2


class WrongSourceError(ValueError):
    """The folder cannot be taken in from; the message says why."""


@dataclass(slots=True)
class Remembered:
    """What was made out of pictures in former runs, by path, size and time of change; not `use`: only written."""

    file: Path
    use: bool = True
    _known: dict[str, tuple[int, int, Any]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if self.use:
            with contextlib.suppress(OSError, ValueError, TypeError, KeyError):
                kept = json.loads(self.file.read_text(encoding="utf-8"))
                if kept["version"] == _VERSION:
                    self._known = {path: tuple(one) for path, one in kept["known"].items()}

    def get(self, path: Path, stat: os.stat_result) -> Any:
        """What was made out of `path`, or None if it has changed or was never looked at."""
        size, changed, what = self._known.get(os.fspath(path.absolute()), (-1, -1, None))
        return what if (size, changed) == (stat.st_size, stat.st_mtime_ns) else None

    def put(self, path: Path, stat: os.stat_result, what: Any) -> None:
        """Remember what can be written as JSON."""
        self._known[os.fspath(path.absolute())] = (stat.st_size, stat.st_mtime_ns, what)

    def save(self) -> None:
        """Keep it for the next run; a cache that cannot be written is no fault."""
        with contextlib.suppress(OSError):
            self.file.parent.mkdir(parents=True, exist_ok=True)
            half = self.file.with_name(f".{self.file.name}.{os.getpid()}.part")
            known = {path: one for path, one in sorted(self._known.items()) if _utf8(path)}
            half.write_text(json.dumps({"version": _VERSION, "known": known}), encoding="utf-8")
            half.replace(self.file)


def source_in(
    folder: Path, collection: Path, today: date, remembered: Remembered, progress: Progress | None = None
) -> Source:
    """Every file below `folder`, as facts. Raises WrongSourceError for a folder that cannot be a source."""
    refuse_source(folder, collection)
    passed: list[Passed] = []
    wanted: list[tuple[str, Path]] = []
    for file, path in _walk(folder, passed):
        ending = path.suffix.lower()
        if ending in ENDINGS:
            wanted.append((file, path))
        elif ending in OTHER_RAW:
            passed.append(Passed(file, f"{ending[1:].upper()} is not read; save a {_instead_of(ending)} of it", True))
        elif ending not in BESIDE_A_FILM and is_picture(path):
            wanted.append((file, path))
        else:
            passed.append(Passed(file, "no picture", False))
    looked = _each(wanted, lambda one: _looked_at(*one, today, remembered), "looking at pictures", progress)
    pictures = [one for one in looked if isinstance(one, Picture)]
    passed += [one for one in looked if isinstance(one, Passed)]
    name = folder.resolve().name or "source"
    return Source(shown_name(name), tuple(pictures), tuple(sorted(passed, key=lambda one: one.file)))


def house_in(folder: Path, collection: Collection) -> House:
    """What taking in needs to know of the collection in `folder`."""
    folders = {"": photo_folder(folder, "photos")}
    kept: dict[str, Kept] = {}
    for accession, tree in collection.trees.items():
        folders[accession] = photo_folder(folder, f"{tree.folder}/photos")
        for one in tree.photos:
            look = int(one.look, 16) if one.look else None
            kept[one.path] = Kept(one.path, one.of, one.fingerprint, one.width, one.height, look)
    for accession, lying in folders.items():
        for name in lying.names:
            path = f"{lying.path}/{name}"
            if path not in kept and Path(name).suffix.lower() in ENDINGS:
                # What the readers leave out (a DNG, an entry with a fault) is there all the same.
                sha256 = hash_of(folder / path)
                if sha256 is not None:
                    kept[path] = Kept(path, (accession,), sha256, 0, 0, None)
    return House(collection, folders, tuple(kept[path] for path in sorted(kept)))


def photo_folder(root: Path, path: str) -> PhotoFolder:
    """A folder of photographs as it lies on the disk. Raises OSError where it is there and cannot be read."""
    here = root / path
    if not here.is_dir():
        return PhotoFolder(path)
    names = tuple(sorted(one.name for one in here.iterdir()))
    sheet = here / LIST
    return PhotoFolder(path, sheet.read_bytes() if sheet.is_file() else None, names)


def refuse_source(folder: Path, collection: Path) -> None:
    """Raises WrongSourceError for a folder that is none, lies in the collection, or holds it."""
    if folder.is_file():
        raise WrongSourceError(f"{folder} is a file; name the folder in which it lies")
    if not folder.is_dir():
        raise WrongSourceError(f"there is no folder {folder}")
    source, own = folder.resolve(), collection.resolve()
    if source == own or source.is_relative_to(own):
        raise WrongSourceError(
            f"{folder} lies inside the collection; pictures are taken in from elsewhere, because what lies in the "
            "collection is there already"
        )
    if own.is_relative_to(source):
        raise WrongSourceError(f"{folder} holds the collection itself; name the folder in which the new pictures lie")


def _walk(folder: Path, passed: list[Passed]) -> Iterator[tuple[str, Path]]:
    pending = [(folder, "")]
    while pending:
        here, prefix = pending.pop()
        with os.scandir(here) as found:
            entries = sorted(found, key=lambda one: one.name)
        for one in reversed(entries):
            if one.is_dir(follow_symlinks=False) and not is_left_alone(one.name):
                pending.append((Path(one.path), f"{prefix}{one.name}/"))
        for one in entries:
            file = shown_name(prefix + one.name)
            if is_left_alone(one.name) or one.is_dir(follow_symlinks=False):
                continue
            if file != prefix + one.name:
                passed.append(Passed(file, "the name is not written in UTF-8; rename the file", True))
            elif one.is_symlink():
                passed.append(Passed(file, "a link, not a file; links are not followed", True))
            elif one.is_file():
                yield file, Path(one.path)


def _looked_at(file: str, path: Path, today: date, remembered: Remembered) -> Picture | Passed:
    try:
        stat = path.stat()
        known = remembered.get(path, stat)
        if known is not None:
            return _picture_of(file, known)
        facts = file_facts(path, today)
        seen = Picture(
            file=file,
            size=stat.st_size,
            sha256=facts.sha256,
            ending=facts.ending,
            width=facts.width,
            height=facts.height,
            taken=facts.taken,
            clock=facts.clock,
            camera=facts.camera,
            codes=codes_in(upright(path)),
            look=facts.look,
            not_its_days=facts.not_its_days,
            doubt=facts.doubt,
            not_shown=facts.not_shown,
            clock_doubted=facts.clock_doubted,
            stamps=facts.stamps,
            scanned=facts.scanned,
            pages=facts.pages,
        )
    except UnreadablePicture as fault:
        return Passed(file, fault.what, True)
    except OSError as fault:
        return Passed(file, f"the file cannot be read: {fault.strerror or fault}", True)
    if not seen.doubt:
        remembered.put(path, stat, _as_kept(seen))
    return seen


def _as_kept(picture: Picture) -> dict[str, Any]:
    kept = asdict(picture)
    kept["clock"] = picture.clock.isoformat() if picture.clock else None
    return kept


def _picture_of(file: str, known: dict[str, Any]) -> Picture:
    values = dict(known)
    values["file"] = file
    values["clock"] = datetime.fromisoformat(values["clock"]) if values["clock"] else None
    values["camera"] = Camera(**values["camera"])
    values["not_its_days"] = tuple(values["not_its_days"])
    values["codes"] = tuple(CodeSeen(**code) for code in values["codes"])
    values["stamps"] = tuple(Stamp(**stamp) for stamp in values["stamps"])
    return Picture(**values)


def _each(items: Iterable[T], work: Callable[[T], R], what: str, progress: Progress | None) -> list[R]:
    """`work` on each item, in their order; decoding lets other threads run, so several pictures go at once."""
    items = list(items)
    done = []
    with ThreadPoolExecutor(max_workers=min(os.cpu_count() or 1, 8)) as threads:
        for number, result in enumerate(threads.map(work, items), 1):
            done.append(result)
            if progress is not None:
                progress(what, number, len(items))
    return done


def _instead_of(ending: str) -> str:
    return "PNG" if ending in (".gif", ".bmp") else "DNG, TIFF or JPEG"


def _utf8(text: str) -> bool:
    return not any("\ud800" <= letter <= "\udfff" for letter in text)
