"""stewards/, sources/, objects/, places.yml, tours/ and talks/ read into the model."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, TypeVar

from archive_tools.model.grades import Visibility
from archive_tools.model.grounds import Path as Way
from archive_tools.model.grounds import Place, Talk, Tour
from archive_tools.model.people import CollectionObject, Source, Steward
from archive_tools.read.event_ids import each_once, events_of, ids_of_events
from archive_tools.read.fields import House
from archive_tools.read.folders import Entry, Ground
from archive_tools.read.record_files import open_record, read_record
from archive_tools.read.schema_event import STATEMENTS_IN_EVENT, where_item
from archive_tools.read.schema_grounds import GroundsSchema, PlaceInGroundsSchema, TalkSchema, TourSchema
from archive_tools.read.schema_people import ObjectSchema, SourceSchema, StewardSchema
from archive_tools.read.validation import Checked, Parts, R, Written, check_record, warnings_of

M = TypeVar("M", Steward, Source, CollectionObject, Tour, Talk, Place)

EVENTS = Parts("event", STATEMENTS_IN_EVENT)


def guarded(record: M, checked: Checked[Any]) -> M:
    """The record; one that cannot be trusted is closed to everybody, whatever it says of itself."""
    return record if checked.trusted else replace(record, visibility=Visibility.RESTRICTED)


def read_stewards(ground: Ground, folder: Entry | None, house: House) -> dict[str, Steward]:
    """Stewards by id."""
    found = _read_all(ground, folder, StewardSchema, "steward", house, {"taught_by": Parts("taught_by")})
    return {
        entry.stem: guarded(one.steward(entry.stem, written.where), checked) for entry, written, checked, one in found
    }


def read_sources(ground: Ground, folder: Entry | None, house: House) -> dict[str, Source]:
    """Sources by id."""
    found = _read_all(ground, folder, SourceSchema, "source", house)
    return {
        entry.stem: guarded(one.source(entry.stem, written.where), checked) for entry, written, checked, one in found
    }


def read_tours(ground: Ground, folder: Entry | None, house: House) -> dict[str, Tour]:
    """Tours by the name of their file."""
    found = _read_all(ground, folder, TourSchema, "tour", house)
    return {entry.stem: guarded(one.tour(entry.stem, written.where), checked) for entry, written, checked, one in found}


def read_talks(ground: Ground, folder: Entry | None, house: House) -> dict[str, Talk]:
    """Talks by the name of their file."""
    found = _read_all(ground, folder, TalkSchema, "talk", house)
    return {entry.stem: guarded(one.talk(entry.stem, written.where), checked) for entry, written, checked, one in found}


def read_objects(ground: Ground, folder: Entry | None, house: House) -> dict[str, CollectionObject]:
    """Objects by id, with their events."""
    objects = {}
    for entry, written, checked, schema in _read_all(ground, folder, ObjectSchema, "object", house, {"events": EVENTS}):
        values = {name: value for name, value in schema.written().items() if name != "events"}
        events = events_of(schema.events, ids_of_events(written.raw.get("events")), written, house, "")
        kept = each_once(events, entry.stem, ground.telling)
        made = CollectionObject(id=entry.stem, where=written.where, events=kept, **values)
        objects[entry.stem] = guarded(made, checked)
    return objects


def read_places(ground: Ground, entry: Entry | None, house: House) -> tuple[dict[str, Place], tuple[Way, ...]]:
    """places.yml: places by id, and the ways between them."""
    telling = ground.telling
    written = open_record(entry.path, entry.file, telling, ("", "places", entry.file)) if entry else None
    if entry is None or written is None or written.raw is None:
        return {}, ()
    own = ("", "places", entry.file)
    whole = check_record(GroundsSchema, _without_places(written), house, own=own, parts={"paths": Parts("path")})
    problems = list(whole.problems)
    places: dict[str, Place] = {}
    listed = written.raw.get("places") if isinstance(written.raw, dict) else None
    for name in listed if isinstance(listed, dict) else ():
        inner = written.inner("places", name)
        checked = check_record(PlaceInGroundsSchema, inner, house, own=("", "place", name))
        problems += checked.problems
        if checked.record is not None:
            places[name] = guarded(checked.record.place(name, inner.where), checked)
    telling.problems.extend(problems)
    telling.problems.extend(warnings_of(written.parsed, entry.file, problems))
    ways = enumerate(whole.record.paths or ()) if whole.record else ()
    return dict(sorted(places.items())), tuple(
        one.path(where_item(written.where, "paths", number)) for number, one in ways if one
    )


def _without_places(written: Written) -> Written:
    """The file with its well-formed places taken out of sight: they are checked one by one."""
    raw = written.raw
    if not isinstance(raw, dict) or not isinstance(raw.get("places"), dict):
        return written
    parsed = replace(written.parsed, slips=[slip for slip in written.parsed.slips if slip.path[:1] != ("places",)])
    return Written(written.file, parsed, {**raw, "places": {}})


def _read_all(
    ground: Ground,
    folder: Entry | None,
    schema: type[R],
    sort: str,
    house: House,
    parts: dict[str, Parts] | None = None,
) -> Iterator[tuple[Entry, Written, Checked[R], R]]:
    """Every record of a folder that can be made from its file, sorted by id."""
    if folder is None:
        return
    for entry in sorted(ground.entries(folder.path, folder.file), key=lambda one: one.stem):
        if entry.is_folder or entry.ending != ".yml":
            ground.tell_stray(entry, (), f"{folder.file}/")
            continue
        found = read_record(
            schema,
            entry.path,
            entry.file,
            house,
            ground.telling,
            own=(entry.stem, sort, entry.stem),
            parts=parts or {},
        )
        if found is not None and found[1].record is not None:
            yield entry, found[0], found[1], found[1].record
