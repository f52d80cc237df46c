"""A YAML file of the collection opened, taken apart, and checked against its schema."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.read.event_ids import ids_of_events
from archive_tools.read.fields import House
from archive_tools.read.folders import Telling
from archive_tools.read.front_matter import BrokenFrontMatter, FrontMatter, split_front_matter
from archive_tools.read.text_files import read_text
from archive_tools.read.validation import NO_PARTS, Checked, Parts, R, Subject, Written, check_record, warnings_of
from archive_tools.read.yaml_text import Parsed, parse_yaml


def open_record(path: Path, file: str, telling: Telling, subject: Subject | None = None) -> Written | None:
    """What the YAML file at `path` says; None, with the problems told, if it cannot be read to its end."""
    found = read_text(path, file)
    telling.problems.extend(found.problems)
    if found.text is None:
        return None
    parsed = parse_yaml(found.text)
    if parsed.whole:
        return Written(file, parsed, parsed.value)
    tell_slips(parsed, file, telling, Reach.RECORD, subject)
    return None


def open_fronted(
    path: Path, file: str, telling: Telling, reach: Reach, subject: Subject
) -> tuple[FrontMatter, Parsed] | None:
    """The Markdown file at `path` in two, its front matter parsed (no value where there is none).

    None, with the problems told at `reach`, if it cannot be read or its front matter cannot be told from its text.
    """
    found = read_text(path, file)
    telling.problems.extend(found.problems)
    if found.text is None:
        return None
    parts = split_front_matter(found.text)
    if isinstance(parts, BrokenFrontMatter):
        telling.error(Mark(file, parts.line, 1), "bad-front-matter", parts.what, parts.instead, reach, subject)
        return None
    parsed = parse_yaml(parts.head or "", parts.head_line)
    if parsed.whole:
        return parts, parsed
    tell_slips(parsed, file, telling, reach, subject)
    return None


def tell_slips(parsed: Parsed, file: str, telling: Telling, reach: Reach, subject: Subject | None) -> None:
    """Tell all that is wrong with a text that cannot be read to its end."""
    for slip in parsed.slips:
        mark = Mark(file, *slip.spot)
        telling.problems.append(Problem(mark, slip.what, slip.instead, slip.rule, Severity.ERROR, reach, subject))


def read_record(
    schema: type[R],
    path: Path,
    file: str,
    house: House,
    telling: Telling,
    *,
    own: Subject,
    parts: Mapping[str, Parts] = NO_PARTS,
) -> tuple[Written, Checked[R]] | None:
    """The record in the YAML file at `path`, with its problems told; None if it cannot be read at all."""
    written = open_record(path, file, telling, own)
    return None if written is None else check_file(schema, written, house, telling, own=own, parts=parts)


def check_file(
    schema: type[R],
    written: Written,
    house: House,
    telling: Telling,
    *,
    own: Subject,
    parts: Mapping[str, Parts] = NO_PARTS,
) -> tuple[Written, Checked[R]] | None:
    """The record that is the whole of a file, with its problems told; None if nothing is written in it."""
    if written.raw is None:
        what = "nothing is written in this file"
        telling.error(Mark(written.file), "empty-record", what, "the record, or take the file away", Reach.RECORD, own)
        return None
    checked = check_record(schema, written, house, owner=own[0], own=own, parts=parts, name=_names(written))
    telling.problems.extend(checked.problems)
    telling.problems.extend(warnings_of(written.parsed, written.file, checked.problems))
    return written, checked


def _names(written: Written) -> Callable[[str, int, Any], str]:
    """How a statement of the record is named when it is left out: events as they are in the collection."""

    def name(key: str, number: int, item: Any) -> str:
        if key == "events":
            return ids_of_events(written.raw.get("events"))[number]
        if isinstance(item, dict):
            for own in ("id", "accession", "number"):
                if isinstance(item.get(own), str):
                    return str(item[own])
        return str(number + 1)

    return name
