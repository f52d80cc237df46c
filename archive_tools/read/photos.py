"""Photographs: the originals in a folder, joined to what photos.yml says of each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Mark, Where
from archive_tools.model.problems import Reach
from archive_tools.model.vocabulary import nearest
from archive_tools.read.dating import date_in_name, dated
from archive_tools.read.fields import House, shown
from archive_tools.read.folders import Entry, Ground
from archive_tools.read.photo_files import FactsCache, PhotoFacts, UnreadablePicture, photo_facts
from archive_tools.read.record_files import open_record
from archive_tools.read.schema_event import timings_of
from archive_tools.read.schema_photo import PhotoSchema
from archive_tools.read.validation import Parts, Written, check_record, warnings_of

LIST = "photos.yml"
_PARTS = {"timing": Parts("timing")}
READ = (".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".avif", ".heic", ".heif")
"""Endings of what is read as a photograph."""
_TOLD = (".gif", ".bmp", ".dng", ".cr2", ".cr3", ".nef", ".arw", ".raf", ".orf", ".rw2")
_PICTURES = frozenset({*READ, *_TOLD})
"""Endings of what is meant as a photograph; of those in `_TOLD` only what to do about it is said."""


@dataclass(slots=True)
class _Listed:
    """What photos.yml says: an entry by file name (None: one that must be left out)."""

    entries: dict[str, tuple[PhotoSchema, Where] | None]
    sure: bool = True
    """False where an entry may be meant for any file: then no file without an entry can be shown."""
    readable: bool = True


def read_photos(
    ground: Ground, folder: Entry, house: House, accession: str | None, cache: FactsCache | None
) -> list[Photo]:
    """The photographs of a folder, by file name; `accession` is None for photographs of several trees.

    A file whose entry cannot be trusted is left out, and so is every file without an entry while some
    entry belongs to no file: it may have been meant for that one, and may have said that it is private.
    """
    owner = accession or "photos"
    lying = ground.entries(folder.path, folder.file, Reach.STATEMENT)
    pictures = {entry.name: entry for entry in lying if not entry.is_folder and entry.ending in _PICTURES}
    for entry in lying:
        if entry.name not in pictures and entry.name != LIST:
            ground.tell_stray(entry, (LIST,), "a folder of photographs")
    sheet = next((entry for entry in lying if entry.name == LIST and not entry.is_folder), None)
    listed = _read_list(ground, sheet, house, owner, pictures) if sheet else _Listed({})
    if not listed.readable:
        return []
    photos = []
    stems: dict[str, str] = {}
    for name, entry in pictures.items():
        own = (owner, "photo", name)
        if stems.setdefault(entry.stem, name) != name:
            what = f"“{stems[entry.stem]}” beside it differs in the ending alone, and photographs are called without it"
            ground.telling.error(Mark(entry.file), "duplicate-id", what, "another name", Reach.STATEMENT, own)
            continue
        where = Where(entry.file)
        schema: PhotoSchema | None = None
        if name in listed.entries:
            found = listed.entries[name]
            if found is None:
                continue
            schema, where = found
        elif not _may_stand_alone(ground, entry, listed, accession, own):
            continue
        try:
            facts = photo_facts(entry.path, cache)
        except (UnreadablePicture, OSError) as fault:
            what = fault.what if isinstance(fault, UnreadablePicture) else f"this file cannot be read: {fault.strerror}"
            ground.telling.error(Mark(entry.file), "unreadable-picture", what, None, Reach.STATEMENT, own)
            continue
        photos.append(_photo(ground, entry, schema, where, facts, house, accession))
    return photos


def _may_stand_alone(
    ground: Ground, entry: Entry, listed: _Listed, accession: str | None, own: tuple[str, str, str]
) -> bool:
    """Whether a file without an entry can be shown."""
    mark = Mark(entry.file)
    line = f"- file: {entry.name}"
    if not listed.sure:
        what = "no entry names this file, and one that names no file may be meant for it: it is left out"
        ground.telling.error(mark, "photo-not-listed", what, line, Reach.STATEMENT, own)
        return False
    if accession is None:
        what = "no entry says which trees this photograph shows"
        ground.telling.error(mark, "photo-not-listed", what, f"{line} with of: [accessions]", Reach.STATEMENT, own)
        return False
    ground.telling.warning(mark, "photo-not-listed", f"{LIST} says nothing of this photograph", line)
    return True


def _read_list(ground: Ground, sheet: Entry, house: House, owner: str, pictures: dict[str, Entry]) -> _Listed:
    telling = ground.telling
    written = open_record(sheet.path, sheet.file, telling, (owner, "photos", sheet.file))
    if written is None:
        return _Listed({}, readable=False)
    listed = _Listed({})
    problems = []
    first: dict[str, Where] = {}
    items = [(item, _file_named(item.raw)) for item in _items(written)]
    free = set(pictures) - {name for _, name in items}
    for item, name in items:
        if item.raw is None:
            continue
        own = (owner, "photo", name) if name else None
        reach = Reach.STATEMENT if name in pictures else Reach.RECORD
        checked = check_record(PhotoSchema, item, house, owner=owner, own=own, own_reach=reach, parts=_PARTS)
        problems += checked.problems
        if name is None or name not in pictures:
            listed.sure = False
            if name:
                near = nearest(name, sorted(free))
                what = f"no photograph “{shown(name)}” lies in this folder"
                telling.error(item.where.at("file"), "photo-missing", what, near, Reach.STATEMENT, own)
            continue
        if name in first:
            what = f"another entry names this file already ({first[name].at('file')}), and neither is used"
            telling.error(item.where.at("file"), "duplicate-entry", what, "one entry a file", Reach.STATEMENT, own)
            listed.entries[name] = None
            continue
        first[name] = item.where
        schema = checked.record if checked.trusted else None
        listed.entries[name] = (schema, item.where) if schema is not None else None
    telling.problems.extend(problems)
    telling.problems.extend(warnings_of(written.parsed, sheet.file, problems))
    return listed


def _file_named(raw: Any) -> str | None:
    name = raw.get("file") if isinstance(raw, dict) else None
    return name.strip() if isinstance(name, str) else None


def _items(written: Written) -> list[Written]:
    if isinstance(written.raw, list):
        return [written.inner(number) for number in range(len(written.raw))]
    return [] if written.raw is None else [written]


def _photo(
    ground: Ground,
    entry: Entry,
    schema: PhotoSchema | None,
    where: Where,
    facts: PhotoFacts,
    house: House,
    accession: str | None,
) -> Photo:
    values: dict[str, Any] = schema.written() if schema else {}
    values["when"], values["dated_by"] = dated(ground.telling, entry, schema, where, facts, house)
    values["file"] = entry.name
    values["of"] = tuple(dict.fromkeys(values.get("of", (accession,) if accession else ())))
    if schema is not None and schema.timing:
        values["timing"] = timings_of(schema.timing, where)
    if schema is not None and schema.scale:
        values["scale"] = schema.scale.scale()
    return Photo(
        path=entry.file,
        where=where,
        width=facts.width,
        height=facts.height,
        fingerprint=facts.fingerprint,
        named=date_in_name(entry, house),
        stamps=facts.stamps,
        made_by=facts.made_by,
        look=facts.look,
        **values,
    )
