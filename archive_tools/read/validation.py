"""A record's raw values against its schema: all that is wrong at once, each at its place.

A record may hold statements that stand or fall alone (an event, a relative, a lapse of time in an event).
A fault inside one leaves that statement out; a fault in the record's own keys means that the record
cannot be trusted, because what is misspelt there may have been meant to hide something.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Generic, TypeVar

from pydantic import ValidationError

from archive_tools.model.places_in_files import Mark, Step, Where
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.read.fault_words import Fault, faults_of
from archive_tools.read.fields import House, Record
from archive_tools.read.yaml_slips import Slip
from archive_tools.read.yaml_text import Parsed

R = TypeVar("R", bound=Record)
Path = tuple[Step, ...]
Subject = tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class Parts:
    """A key whose items are statements of their own: what one is called, and its own such keys."""

    sort: str
    inner: tuple[str, ...] = ()


NO_PARTS: Mapping[str, Parts] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Written:
    """One record as it stands in a file: `raw` at `base` of what was parsed."""

    file: str
    parsed: Parsed
    raw: Any
    base: Path = ()

    @property
    def where(self) -> Where:
        """The places of its values."""
        return Where(self.file, self.parsed.marks, self.base)

    def mark(self, path: Path, of_key: bool = False) -> Mark:
        """The place of the value (or of the key) at `path` inside the record."""
        if of_key and self.base + path in self.parsed.keys:
            line, column = self.parsed.keys[self.base + path]
            return Mark(self.file, line, column)
        return self.where.at(*path)

    def inner(self, *path: Step) -> Written:
        """The record inside this one at `path`."""
        raw = self.raw
        for step in path:
            raw = raw[step]
        return Written(self.file, self.parsed, raw, self.base + path)


@dataclass(slots=True)
class Checked(Generic[R]):
    """What came of a record. `trusted` is False where its own keys have a fault; `record` is then what is
    left without them, or None where nothing can be.
    """

    record: R | None
    problems: list[Problem] = field(default_factory=list)
    trusted: bool = True


def check_record(
    schema: type[R],
    written: Written,
    house: House,
    *,
    owner: str = "",
    own: Subject | None = None,
    own_reach: Reach = Reach.RECORD,
    parts: Mapping[str, Parts] = NO_PARTS,
    name: Callable[[str, int, Any], str] | None = None,
) -> Checked[R]:
    """Validate `written` against `schema`.

    owner, name: how statements left out are named (`name` gives an item's id from key, index and raw item).
    own, own_reach: the same for the record itself; with Reach.STATEMENT a fault leaves the whole of it out.
    """
    slips = [slip for slip in written.parsed.slips if slip.path[: len(written.base)] == written.base]
    record, faults = _validated(schema, written.raw, house)
    faults += [_fault_of(slip, len(written.base)) for slip in slips]
    if record is not None and not faults:
        return Checked(record)
    raw = deepcopy(written.raw) if isinstance(written.raw, dict) else written.raw
    checked: Checked[R] = Checked(None)
    for fault in faults:
        twice = fault.at_key and len(fault.path) == 1
        statement = None if twice else _statement(fault.path, written.raw, parts)
        if statement is None:
            checked.trusted = False
            subject, reach = own, own_reach
            _take_out(raw, fault.path[:1])
        else:
            subject, reach = _subject(statement, written.raw, parts, owner, name), Reach.STATEMENT
            _take_out(raw, statement)
        mark = Mark(written.file, *fault.spot) if fault.spot else written.mark(fault.path, fault.at_key)
        checked.problems.append(Problem(mark, fault.what, fault.instead, fault.rule, Severity.ERROR, reach, subject))
    if checked.trusted or own_reach is Reach.RECORD:
        checked.record = _validated(schema, raw, house)[0]
    return checked


def warnings_of(parsed: Parsed, file: str, problems: list[Problem]) -> list[Problem]:
    """What the text itself gives to doubt, except inside what is told as wrong already."""
    told = {(problem.mark.line, problem.mark.column) for problem in problems}
    faulty = [slip.path for slip in parsed.slips if slip.path]
    return [
        Problem(Mark(file, *slip.spot), slip.what, slip.instead, slip.rule, Severity.WARNING, Reach.TOLD)
        for slip in parsed.warnings
        if slip.spot not in told
        and not any(slip.path[: len(path)] == path for path in faulty)
        and not any(parsed.marks.get(slip.path[:length]) in told for length in range(1, len(slip.path)))
    ]


def _validated(schema: type[R], raw: Any, house: House) -> tuple[R | None, list[Fault]]:
    try:
        return schema.model_validate(raw, context=house), []
    except ValidationError as fault:
        return None, faults_of(fault, schema, raw)


def _fault_of(slip: Slip, depth: int) -> Fault:
    twice = slip.rule == "duplicate-key"
    return Fault(slip.path[depth:], slip.rule, slip.what, slip.instead, at_key=twice, spot=slip.spot)


def _statement(path: Path, raw: Any, parts: Mapping[str, Parts]) -> Path | None:
    """The path of the statement that `path` lies in; None if it lies in the record's own keys."""
    if not path or path[0] not in parts:
        return None
    value, length = _inside(raw, path[0]), 1
    if isinstance(value, list):
        if len(path) < 2:
            return None
        value, length = _inside(value, path[1]), 2
    if len(path) > length and path[length] in parts[str(path[0])].inner and isinstance(value, dict):
        value, length = _inside(value, path[length]), length + 1
        if isinstance(value, list) and len(path) > length:
            length += 1
    return path[:length]


def _subject(
    statement: Path, raw: Any, parts: Mapping[str, Parts], owner: str, name: Callable[[str, int, Any], str] | None
) -> Subject:
    key = str(statement[0])
    number = statement[1] if len(statement) > 1 and isinstance(statement[1], int) else 0
    item = raw[key][number] if isinstance(raw[key], list) else raw[key]
    called = name(key, number, item) if name else str(number + 1)
    inside = [step for step in statement[1:] if isinstance(step, str)]
    return (owner, inside[0] if inside else parts[key].sort, called)


def _take_out(raw: Any, path: Path) -> None:
    """Replace the value at `path` by None, which stands for what is not written."""
    for step in path[:-1]:
        raw = _inside(raw, step)
    for last in path[-1:]:
        if isinstance(raw, dict):
            raw.pop(last, None)
        elif isinstance(raw, list) and isinstance(last, int) and last < len(raw):
            raw[last] = None


def _inside(raw: Any, step: Step) -> Any:
    """The value under `step`, or None where it has been taken out already."""
    if isinstance(raw, dict):
        return raw.get(step)
    return raw[step] if isinstance(raw, list) and isinstance(step, int) and step < len(raw) else None
