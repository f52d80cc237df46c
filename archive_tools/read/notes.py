"""Notes: front matter and Markdown, in a tree's folder or about several trees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import EventRef, Note
from archive_tools.model.places_in_files import Mark, Where
from archive_tools.model.problems import Reach
from archive_tools.read.edtf_text import file_name_date, file_name_problem
from archive_tools.read.fields import House
from archive_tools.read.folders import Entry, Ground
from archive_tools.read.record_files import open_fronted
from archive_tools.read.schema_event import STATEMENTS_IN_EVENT
from archive_tools.read.schema_note import KEYS_OF_A_TEXT, AnyNoteSchema, NoteSchema, SharedNoteSchema
from archive_tools.read.validation import Parts, Written, check_record, warnings_of

_PARTS: Mapping[str, Parts] = {key: Parts(key) for key in STATEMENTS_IN_EVENT}


@dataclass(frozen=True, slots=True)
class NoteFile:
    """A note before it is given to its trees. `schema` holds its event where it has a `kind`."""

    note: Note
    schema: AnyNoteSchema
    asked: tuple[EventRef, ...] | str
    """`trees` as written: in a note about several trees, those it is about (or a query)."""

    is_shared: bool

    @property
    def has_event(self) -> bool:
        """Whether its front matter is an event."""
        return self.schema.kind is not None


def read_notes(ground: Ground, folder: Entry, house: House, accession: str | None) -> list[NoteFile]:
    """The notes of a folder, by file name; `accession` is None for notes about several trees."""
    notes = []
    for entry in ground.entries(folder.path, folder.file):
        if entry.is_folder or entry.ending != ".md":
            ground.tell_stray(entry, (), "a folder of notes (.md)")
            continue
        note = _read_note(ground, entry, house, accession)
        if note is not None:
            notes.append(note)
    return notes


def _read_note(ground: Ground, entry: Entry, house: House, accession: str | None) -> NoteFile | None:
    telling = ground.telling
    own = (accession or "notes", "note", entry.stem)
    schema_class: type[NoteSchema] | type[SharedNoteSchema] = NoteSchema if accession else SharedNoteSchema
    opened = open_fronted(entry.path, entry.file, telling, Reach.STATEMENT, own)
    if opened is None:
        return None
    parts, parsed = opened
    raw = {} if parsed.value is None else parsed.value
    if parsed.value is None:
        parsed.marks[()] = (1, 1)
        parsed.warnings.clear()
    written = Written(entry.file, parsed, raw)
    checked = check_record(schema_class, written, house, owner=own[0], own=own, own_reach=Reach.STATEMENT, parts=_PARTS)
    telling.problems.extend(checked.problems)
    telling.problems.extend(warnings_of(parsed, entry.file, checked.problems))
    schema: NoteSchema | SharedNoteSchema | None = checked.record
    if schema is None:
        return None
    when = _date(ground, entry, house, schema.when, written.where, own)
    if when is None and schema.when is not None:
        return None
    _tell_idle_keys(ground, schema, written)
    note = Note(
        id=entry.stem,
        path=entry.file,
        where=written.where,
        trees=(accession,) if accession else (),
        when=when,
        body=parts.body,
        body_line=parts.body_line,
        title=schema.title,
        event=entry.stem if schema.kind is not None else schema.event,
        by=schema.by or (),
        sources=schema.sources or (),  # type: ignore[arg-type]
        visibility=schema.visibility,
        public_from=schema.public_from,
    )
    return NoteFile(note, schema, schema.trees or (), accession is None)


def _date(
    ground: Ground, entry: Entry, house: House, said: WhenWritten | None, where: Where, own: tuple[str, str, str]
) -> WhenWritten | None:
    """The date that is written, else that of the file name. None, with the problem told, if they disagree."""
    named = file_name_date(entry.stem, house.policy)
    if named is None:
        problem = file_name_problem(entry.stem, house.policy)
        if problem is not None:
            ground.telling.warning(Mark(entry.file), "bad-date", problem.what, problem.instead)
        elif said is None:
            what = "this note bears no date, neither in its front matter nor at the beginning of its file name"
            ground.telling.warning(Mark(entry.file), "no-date", what, "a name such as 2026-03-14-first-frost.md")
        return said
    if said is None:
        return named[0]
    if _apart(said, named[0]):
        what = f"the date `{said.text}` and the file name, which begins with `{named[0].text}`, do not agree"
        ground.telling.error(
            where.at("date"), "date-differs", what, "the same date in both, or none here", Reach.STATEMENT, own
        )
        return None
    return said


def _apart(one: WhenWritten, other: WhenWritten) -> bool:
    """Whether no day can be meant by both."""
    ends = ((one.latest, other.earliest), (other.latest, one.earliest))
    return any(last is not None and first is not None and last < first for last, first in ends)


def _tell_idle_keys(ground: Ground, schema: AnyNoteSchema, written: Written) -> None:
    """Keys that nothing is made of: of an event, in a note that carries none; an id other than the file name."""
    if schema.id is not None and schema.id != written.file.rpartition("/")[2].rpartition(".")[0]:
        what = f"a note is called by its file name, so `id: {schema.id}` is passed over"
        ground.telling.warning(written.mark(("id",), of_key=True), "idle-key", what, "no id, or the file's name")
    if schema.kind is not None:
        return
    for name in sorted(schema.written().keys() - KEYS_OF_A_TEXT):
        key = type(schema).model_fields[name].alias or name
        what = f"`{key}` says something of an event, and without `kind` this note is text only"
        instead = "kind: and what happened, or the key in the event itself"
        ground.telling.warning(written.mark((key,), of_key=True), "idle-key", what, instead)
