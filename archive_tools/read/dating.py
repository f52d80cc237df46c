"""What a photograph is dated by: the written date, the file name, the camera; and what must never date it."""

from __future__ import annotations

from archive_tools.model.dates import DateProblem, WhenWritten
from archive_tools.model.places_in_files import Mark, Where
from archive_tools.model.stamps import Stamp
from archive_tools.read.edtf_text import file_name_date, file_name_problem, read_date
from archive_tools.read.fields import House
from archive_tools.read.folders import Entry, Telling
from archive_tools.read.photo_files import PhotoFacts
from archive_tools.read.schema_photo import PhotoSchema

DatedBy = tuple[WhenWritten | None, str | None]
"""A date, and what it rests on."""


def date_in_name(entry: Entry, house: House) -> WhenWritten | None:
    """The date with which the file's name begins, if it does."""
    named = file_name_date(entry.stem, house.policy)
    return named[0] if named else None


def dated(
    telling: Telling, entry: Entry, schema: PhotoSchema | None, where: Where, facts: PhotoFacts, house: House
) -> DatedBy:
    """The date and what it rests on: as written, else by the file name, else by the camera.

    A file name that repeats the day of the scan only says that the photograph is not younger; one that repeats what a
    clock shows that nobody has set says nothing.
    """
    mark = where.at("file") if schema is not None else Mark(entry.file)
    said = schema.dated_by if schema else None
    taken = _camera_day(facts, house)
    if said == "camera" and taken is None:
        _no_camera_date(telling, where.at("dated_by"), entry, facts)
    if schema is not None and schema.when is not None:
        return schema.when, said
    if said == "camera" and taken is not None:
        return taken, said
    named = date_in_name(entry, house)
    borrowed = _repeated(named, facts) if named is not None and said is None else None
    if named is not None and borrowed is None:
        return named, said or "file name"
    problem = file_name_problem(entry.stem, house.policy)
    if problem is not None:
        telling.warning(mark, "bad-date", problem.what, problem.instead)
    if taken is not None:
        return taken, said or "camera"
    if named is not None and borrowed is not None and borrowed.kind == "digitised":
        what = f"the name repeats the day of the scan ({borrowed.field} {borrowed.text}): not the day of the photograph"
        telling.warning(mark, "name-is-scan-day", what, "the date of the photograph as `date` in photos.yml")
        return named, "scan"
    _no_date(telling, mark, facts)
    return None, said


def _repeated(named: WhenWritten, facts: PhotoFacts) -> Stamp | None:
    """The stamp of which a file name is only the echo, as programs that fetch pictures name them."""
    if named.one_day is None:
        return None
    day = named.one_day.isoformat()
    for stamp in facts.stamps:
        if stamp.day != day:
            continue
        if facts.made_by == "scanner" and (stamp.kind == "digitised" or facts.digitised == stamp.text):
            return Stamp("digitised", stamp.field, stamp.text)
        if stamp.doubt and stamp.kind in ("taken", "gps"):
            return stamp
    return None


def _no_camera_date(telling: Telling, mark: Mark, entry: Entry, facts: PhotoFacts) -> None:
    doubt = f": {facts.doubt}" if facts.doubt else ""
    what = f"“camera” is said to date it, and {entry.name} holds no date by a camera that can be believed{doubt}"
    telling.warning(mark, "no-camera-date", what, "what else dates it (print, estimate, file name …), or nothing")


def _no_date(telling: Telling, mark: Mark, facts: PhotoFacts) -> None:
    doubt = f" ({facts.doubt})" if facts.doubt else ""
    what = f"nothing dates this photograph: no `date` in photos.yml, no file name, no camera{doubt}"
    hint = next((s for kind in ("gps", "created") for s in facts.stamps if s.kind == kind and not s.doubt), None)
    alone = next((s for s in facts.stamps if s.kind == "taken" and s.doubt and s.text[4:] == "-01-01T00:00:00"), None)
    instead = "a date in photos.yml"
    if hint is not None:
        instead = f"`date: {hint.day}` in photos.yml, if it is right ({hint.field} of the file says so)"
    elif alone is not None:
        instead = f"`date: {alone.text[:4]}` in photos.yml if the year alone is meant, or another date"
    telling.warning(mark, "no-date", what, instead)


def _camera_day(facts: PhotoFacts, house: House) -> WhenWritten | None:
    if facts.taken is None:
        return None
    try:
        return read_date(facts.taken[:10], house.policy)
    except DateProblem:
        return None
