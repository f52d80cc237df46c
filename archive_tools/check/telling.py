"""How rules tell what they found: one small function for each sort of thing that a problem may concern."""

from __future__ import annotations

import re
from collections.abc import Iterable

from archive_tools.model.event import Event, Note
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.places_in_files import Mark, Step, Where
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.vocabulary import nearest

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)


def in_event(
    owner: str, event: Event, at: tuple[Step, ...], rule: str, what: str, instead: str | None = None
) -> Problem:
    """An error that leaves the event out of a build. `owner` is the accession, or the object, it belongs to."""
    return _left_out(event.where.at(*at), (owner, "event", event.id), rule, what, instead)


def in_note(owner: str, note: Note, at: tuple[Step, ...], rule: str, what: str, instead: str | None = None) -> Problem:
    """An error that leaves the note out of a build."""
    return _left_out(note.where.at(*at), (owner, "note", note.id), rule, what, instead)


def in_photo(
    owner: str, photo: Photo, at: tuple[Step, ...], rule: str, what: str, instead: str | None = None
) -> Problem:
    """An error that leaves the photograph out of a build."""
    return _left_out(photo.where.at(*at), (owner, "photo", photo.file), rule, what, instead)


def in_comparison(
    owner: str, wanted: ComparisonWanted, at: tuple[Step, ...], rule: str, what: str, instead: str | None = None
) -> Problem:
    """An error that leaves the comparison out of a build."""
    return _left_out(wanted.where.at(*at), (owner, "comparison", wanted.id), rule, what, instead)


def in_value(
    mark: Mark, record: tuple[str, str], value: str, rule: str, what: str, instead: str | None = None
) -> Problem:
    """An error that leaves one value of a record out of a build, or one item of it (`members/2`).

    `record` is its sort and id: ("tree", accession), ("steward", id), ("source", id), ("object", id), ("photo",
    "accession/file"), ("collection", "").
    """
    sort, owner = record
    return _left_out(mark, (owner, f"{sort} value", value), rule, what, instead)


def left_out(
    where: Where, at: tuple[Step, ...], subject: tuple[str, str, str], rule: str, what: str, instead: str | None = None
) -> Problem:
    """An error that leaves something else out of a build: a tour, a talk, a path."""
    return _left_out(where.at(*at), subject, rule, what, instead)


def error(mark: Mark, rule: str, what: str, instead: str | None = None) -> Problem:
    """An error that leaves nothing out."""
    return Problem(mark, what, instead, rule, Severity.ERROR, Reach.TOLD)


def stops(mark: Mark, rule: str, what: str, instead: str | None = None) -> Problem:
    """An error that no build can go on with."""
    return Problem(mark, what, instead, rule, Severity.ERROR, Reach.RECORD)


def warning(mark: Mark, rule: str, what: str, instead: str | None = None) -> Problem:
    """Something that can stand, but that somebody should look at."""
    return Problem(mark, what, instead, rule, Severity.WARNING, Reach.TOLD)


def looks_like_an_id(text: str) -> bool:
    """Whether `text` is written as ids are: small letters and digits, joined by hyphens."""
    return _ID.fullmatch(text) is not None


def likely_slip(text: str, known: Iterable[str]) -> str | None:
    """The id that `text` is most likely a slip for, where a value may be an id or plain text; None for plain text."""
    return nearest(text, known) if looks_like_an_id(text) else None


def listed(words: Iterable[str], joined: str = "and") -> str:
    """Words for a message: "a, b and c"."""
    names = list(words)
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {joined} {names[-1]}"


def _left_out(mark: Mark, subject: tuple[str, str, str], rule: str, what: str, instead: str | None) -> Problem:
    return Problem(mark, what, instead, rule, Severity.ERROR, Reach.STATEMENT, subject)
