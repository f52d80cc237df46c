"""A tree's folder: its record, notes and photographs."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from archive_tools.model.event import Event, EventRef, Note
from archive_tools.model.grades import Visibility
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Reach
from archive_tools.model.tree import Tree
from archive_tools.read.event_ids import each_once, events_of, ids_of_events, slug
from archive_tools.read.fields import House
from archive_tools.read.folders import Entry, Ground
from archive_tools.read.notes import NoteFile, read_notes
from archive_tools.read.photo_files import FactsCache
from archive_tools.read.photos import read_photos
from archive_tools.read.record_files import check_file, open_record
from archive_tools.read.records import EVENTS
from archive_tools.read.schema_event import event_of, where_item
from archive_tools.read.schema_tree import (
    OWN_KEYS,
    TreeSchema,
    kin_of,
    member_of,
    not_shown_of,
    other_number_of,
)
from archive_tools.read.validation import Checked, Parts, Written

RECORD = "tree.yml"
_KNOWN = (RECORD, "notes", "photos", "documents")
_PARTS = {
    "events": EVENTS,
    "comparisons": Parts("comparison"),
    "kin": Parts("kin"),
    "due": Parts("due"),
    "members": Parts("member"),
    "not_shown": Parts("not_shown"),
    "other_numbers": Parts("other_number"),
}


@dataclass(slots=True)
class TreeFolder:
    """A tree while its folder and the things it shares with others are gathered."""

    accession: str
    folder: str
    schema: TreeSchema
    written: Written
    checked: Checked[TreeSchema]
    events: list[Event] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    photos: list[Photo] = field(default_factory=list)

    @property
    def facts(self) -> dict[str, tuple[str, ...]]:
        """What a query may ask for."""
        schema = self.schema
        return {
            "accession": (self.accession,),
            "taxon": schema.taxon,
            "form": schema.form or (),
            "tradition": (schema.tradition,) if schema.tradition else (),
            "kind": (schema.kind or "single",),
            "place": (schema.place.id,) if schema.place else (),
        }


def read_tree(
    ground: Ground, folder: Entry, house: House, pattern: re.Pattern[str] | None, cache: FactsCache | None
) -> TreeFolder | None:
    """What lies in a tree's folder; None, with the problems told, if its record cannot be read."""
    lying = {entry.name: entry for entry in ground.entries(folder.path, folder.file)}
    for name, entry in lying.items():
        if name not in _KNOWN or entry.is_folder != (name != RECORD):
            ground.tell_stray(entry, _KNOWN, "a tree's folder")
    record = lying.get(RECORD)
    if record is None or record.is_folder:
        what = "this folder has no tree.yml, so it is no tree's"
        ground.telling.error(Mark(folder.file), "no-record", what, "tree.yml with accession and taxon")
        return None
    tree = _read_record(ground, record, folder, house, pattern)
    if tree is None:
        return None
    inside = {name: entry for name, entry in lying.items() if entry.is_folder}
    notes = read_notes(ground, inside["notes"], house, tree.accession) if "notes" in inside else []
    taken = {note.note.id for note in notes if note.has_event}
    ids = ids_of_events(tree.written.raw.get("events"), taken)
    tree.events = events_of(tree.schema.events, ids, tree.written, house, tree.accession)
    for note in notes:
        add_note(ground, tree, note, house, note.note.trees)
    if "photos" in inside:
        tree.photos = read_photos(ground, inside["photos"], house, tree.accession, cache)
    if "documents" in inside:
        look_through(ground, inside["documents"])
    return tree


def look_through(ground: Ground, folder: Entry) -> None:
    """Tell what is wrong with the names of what lies in a folder that is not read, and in those inside it."""
    for entry in ground.entries(folder.path, folder.file, Reach.STATEMENT):
        if entry.is_folder:
            look_through(ground, entry)


def add_note(ground: Ground, tree: TreeFolder, note: NoteFile, house: House, about: tuple[str, ...]) -> None:
    """Give a note, and the event it carries, to one of the trees it is `about`."""
    first = next((one for one in tree.notes if one.id == note.note.id), None)
    if first is not None:
        what = f"a note of this name is given to {tree.accession} already ({first.path})"
        subject = (tree.accession, "note", f"{note.note.id}#2")
        mark = note.note.where.at()
        ground.telling.error(mark, "duplicate-id", what, "another file name", Reach.STATEMENT, subject)
        return
    tree.notes.append(replace(note.note, trees=about))
    if not note.has_event:
        return
    known: dict[str, Any] = {"id": note.note.id, "tree": tree.accession, "from_note": True, "when": note.note.when}
    if note.is_shared:
        # `trees` says whom the note is about; only where tags were exchanged are the others part of the event.
        exchanged = note.schema.kind == "tags exchanged"
        known["trees"] = tuple(EventRef(one, None) for one in about if exchanged and one != tree.accession)
    made = event_of(note.schema, note.note.where, house, **known)
    tree.events.append(made)


def finished(tree: TreeFolder, ground: Ground) -> Tree:
    """The tree as the model has it."""
    schema, where = tree.schema, tree.written.where
    values = {name: getattr(schema, name) for name in OWN_KEYS if getattr(schema, name) is not None}
    if not tree.checked.trusted:
        values["visibility"] = Visibility.RESTRICTED
    return Tree(
        accession=tree.accession,
        folder=tree.folder,
        where=where,
        taxon=schema.taxon,
        place=schema.place.id if schema.place else None,
        place_visibility=schema.place.visibility if schema.place else None,
        origin_locality=schema.origin_locality.locality() if schema.origin_locality else None,
        members=tuple(
            member_of(one, number + 1, where_item(where, "members", number))
            for number, one in enumerate(schema.members or ())
            if one
        ),
        other_numbers=tuple(other_number_of(one) for one in schema.other_numbers or () if one),
        events=each_once(tree.events, tree.accession, ground.telling),
        notes=tuple(tree.notes),
        photos=tuple(tree.photos),
        comparisons=_comparisons(tree, ground),
        kin=tuple(kin_of(one) for one in schema.kin or () if one),
        due=tuple(one.due(where_item(where, "due", number)) for number, one in enumerate(schema.due or ()) if one),
        not_shown=tuple(not_shown_of(one) for one in schema.not_shown or () if one),
        **values,
    )


def _read_record(
    ground: Ground, record: Entry, folder: Entry, house: House, pattern: re.Pattern[str] | None
) -> TreeFolder | None:
    written = open_record(record.path, record.file, ground.telling, (folder.name, "tree", folder.name))
    if written is None:
        return None
    said = written.raw.get("accession") if isinstance(written.raw, dict) else None
    called = said.strip() if isinstance(said, str) and said.strip() else folder.name
    own = (called, "tree", called)
    found = check_file(TreeSchema, written, house, ground.telling, own=own, parts=_PARTS)
    if found is None or found[1].record is None:
        return None
    tree = TreeFolder(found[1].record.accession, folder.file, found[1].record, written, found[1])
    _tell_accession(ground, tree, folder, pattern)
    return tree


def _tell_accession(ground: Ground, tree: TreeFolder, folder: Entry, pattern: re.Pattern[str] | None) -> None:
    accession, mark = tree.accession, tree.written.where.at("accession")
    own = (accession, "tree", accession)
    if folder.name != accession and not folder.name.startswith(f"{accession}-"):
        what = f"the folder “{folder.name}” does not begin with the accession `{accession}` that is written in it"
        instead = f"the folder's name as {accession}-…, or the accession it belongs to"
        ground.telling.error(mark, "folder-name", what, instead, Reach.RECORD, own)
    if pattern is not None and not pattern.fullmatch(accession):
        what = f"the accession `{accession}` does not have the form that `accession_pattern` in collection.yml asks for"
        ground.telling.error(
            mark, "accession-pattern", what, f"a number of the form {pattern.pattern}", Reach.RECORD, own
        )


def _comparisons(tree: TreeFolder, ground: Ground) -> tuple[ComparisonWanted, ...]:
    made: dict[str, ComparisonWanted] = {}
    for number, one in enumerate(tree.schema.comparisons or ()):
        if one is None:
            continue
        where = where_item(tree.written.where, "comparisons", number)
        name = one.id or slug(f"{one.before.rpartition('.')[0]} {one.after.rpartition('.')[0]}") or str(number + 1)
        if name in made:
            what = f"the id `{name}` is borne by another comparison of this tree already"
            subject = (tree.accession, "comparison", f"{name}#2")
            ground.telling.error(where.at("id"), "duplicate-id", what, f"{name}-2", Reach.STATEMENT, subject)
            continue
        made[name] = one.comparison(name, where)
    return tuple(made.values())
