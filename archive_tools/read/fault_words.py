"""What pydantic finds, in plain words, with paths as they stand in the file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, get_args

from pydantic import ValidationError

from archive_tools.model.places_in_files import Step
from archive_tools.model.vocabulary import nearest
from archive_tools.read.fields import Record, shape_of, shown

_OTHER_NAMES = {
    "species": "taxon",
    "style": "form",
    "styles": "form",
    "type": "kind",
    "when": "date",
    "year": "date",
    "who": "by",
    "sources": "source",
    "description": "text",
    "comment": "text",
    "note": "text",
    "location": "place",
    "lat": "latitude",
    "lon": "longitude",
    "long": "longitude",
    "number": "accession",
    "photo": "file",
    "filename": "file",
    "event": "events",
    "tree": "of",
    "private": "visibility",
    "photos": "photographs",
    "images": "photographs",
}
"""Keys people think of first, and the one meant where the record knows it."""


@dataclass(frozen=True, slots=True)
class Fault:
    """Something wrong with a value (or, `at_key`, with its key); `path` as in the file.

    `spot` is the place where it differs from that of the value.
    """

    path: tuple[Step, ...]
    rule: str
    what: str
    instead: str | None
    at_key: bool = False
    spot: tuple[int, int] | None = None


def faults_of(error: ValidationError, schema: type[Record], raw: Any) -> list[Fault]:
    """All that is wrong, in the order of the schema."""
    faults = []
    meant: set[tuple[tuple[Step, ...], str]] = set()
    missing: list[tuple[tuple[Step, ...], str]] = []
    for found in error.errors(include_url=False, include_input=False):
        loc, kind = found["loc"], found["type"]
        if kind == "missing":
            missing.append((_in_file(loc[:-1], raw), str(loc[-1])))
            continue
        path = _in_file(loc, raw)
        if kind == "extra_forbidden":
            fault = _unknown_key(path, _schema_at(schema, loc[:-1]), str(loc[-1]), _value_at(raw, path) is None)
            meant.add((path[:-1], fault.instead or ""))
            faults.append(fault)
        elif "what" in found.get("ctx", {}):
            faults.append(Fault(path, kind, found["ctx"]["what"], found["ctx"]["instead"]))
        else:
            faults.append(_wrong_shape(path, _value_at(raw, path), a_list=kind == "tuple_type"))
    for path, key in missing:
        if (path, key) not in meant:
            faults.append(Fault(path, "missing-key", f"`{key}` is missing", f"{key}: and what it is"))
    return faults


def _in_file(loc: tuple[Step, ...], raw: Any) -> tuple[Step, ...]:
    """`loc` without the steps that a value standing alone for a list does not have in the file."""
    path: list[Step] = []
    for step in loc:
        if isinstance(raw, dict) and step in raw:
            raw = raw[str(step)]
        elif isinstance(raw, list) and isinstance(step, int) and step < len(raw):
            raw = raw[step]
        elif isinstance(step, int):
            continue
        else:
            break
        path.append(step)
    return tuple(path)


def _unknown_key(path: tuple[Step, ...], schema: type[Record] | None, key: str, is_empty: bool) -> Fault:
    known = [field.alias or name for name, field in schema.model_fields.items()] if schema else []
    other = _OTHER_NAMES.get(key.casefold(), "")
    instead = other if other in known else nearest(key, known)
    what = f"`{shown(key)}` is no key of this record" if key.strip() else "a colon stands here without a key before it"
    if instead is None and is_empty:
        what += " (a comma inside one-line braces ends the value before it)"
        instead = "the value with the comma in quotes"
    elif instead is None and len(known) <= 16:
        what += f"; it knows {', '.join(known)}"
    return Fault(path, "unknown-key", what, instead, at_key=True)


def _schema_at(schema: type[Record], loc: tuple[Step, ...]) -> type[Record] | None:
    """The schema of the record at `loc`."""
    for step in loc:
        if isinstance(step, int):
            continue
        field = next((f for name, f in schema.model_fields.items() if (f.alias or name) == step), None)
        inner = _record_in(field.annotation) if field is not None else None
        if inner is None:
            return None
        schema = inner
    return schema


def _record_in(annotation: Any) -> type[Record] | None:
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return annotation
    return next((found for found in map(_record_in, get_args(annotation)) if found is not None), None)


def _value_at(raw: Any, path: tuple[Step, ...]) -> Any:
    for step in path:
        raw = raw[step]
    return raw


def _wrong_shape(path: tuple[Step, ...], value: Any, a_list: bool) -> Fault:
    wanted = "a value or a list" if a_list else "keys with values"
    if value is None:
        return Fault(path, "missing-value", f"nothing is written here, and {wanted} should be", None)
    shape = f"the text “{shown(value)}”" if isinstance(value, str) else shape_of(value)
    what = f"this is {shape}, and {wanted} should stand here"
    return Fault(path, "bad-value", what, "a key, a colon and a value for each thing said, like kind: repotted")
