"""YAML text taken apart: every value stays text, and every value keeps its place.

The parser's events are read one by one (libyaml through PyYAML), so that nothing is ever turned into a
number, a date or a truth value, no depth of nesting can exhaust the machine, and names for values
(anchors) cannot multiply. What YAML allows and a record does not is told as a slip at its place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from archive_tools.model.places_in_files import Step
from archive_tools.read.yaml_slips import DEEPEST, Slip, empty_value, explain_parser, too_deep

PathInFile = tuple[Step, ...]
Spot = tuple[int, int]

_OTHER_BREAKS = re.compile("[\x85\u2028\u2029]")
_COMMENT_IN_VALUE = re.compile(r"(?<=\S)[ \t]+#(?=[^\s#])")
_ODD_SIGN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@dataclass(slots=True)
class Parsed:
    """What a YAML text says: mappings, lists, text, and None where a key has no value.

    marks: line and column of each value by its path; keys: the same of the key before it. slips: what
    is wrong, with the path it belongs to. whole: False where the text could not be read to its end, in
    which case `value` must not be used.
    """

    value: Any = None
    marks: dict[PathInFile, Spot] = field(default_factory=dict)
    keys: dict[PathInFile, Spot] = field(default_factory=dict)
    slips: list[Slip] = field(default_factory=list)
    warnings: list[Slip] = field(default_factory=list)
    whole: bool = True


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not been met."""

    holder: dict[str, Any] | list[Any]
    path: PathInFile
    spot: Spot
    bracket: str
    """The sign that opened it, or "" where indentation did."""
    key: str | None = None
    skipped: int = 0


class _StopReading(Exception):  # noqa: N818  (a signal inside this module, no error)
    def __init__(self, slip: Slip) -> None:
        super().__init__()
        self.slip = slip


def parse_yaml(text: str, first_line: int = 1) -> Parsed:
    """Take `text` apart. Lines are counted from `first_line`. Never raises for any text."""
    parsed = Parsed()
    reader = _Reader(text, first_line, parsed)
    try:
        reader.run()
    except _StopReading as stop:
        parsed.slips.append(stop.slip)
        parsed.whole = False
    except yaml.YAMLError as fault:
        parsed.slips.append(reader.told(fault))
        parsed.whole = False
    return parsed


class _Reader:
    def __init__(self, text: str, first_line: int, parsed: Parsed) -> None:
        self.text = text
        self.first_line = first_line
        self.parsed = parsed
        self.stack: list[_Open] = []
        self.began = False
        # libyaml counts three rare separators as line ends; editors do not.
        self.odd_lines = _OTHER_BREAKS.search(text) is not None
        self.cut_short = {found.start() for found in _COMMENT_IN_VALUE.finditer(text)} if "#" in text else set()

    def spot(self, mark: Any) -> Spot:
        if self.odd_lines:
            before = self.text[: mark.index]
            return before.count("\n") + self.first_line, mark.index - before.rfind("\n")
        return mark.line + self.first_line, mark.column + 1

    def events(self) -> Iterator[Any]:
        loader = _Loader(self.text)
        try:
            while loader.check_event():
                yield loader.get_event()
        finally:
            loader.dispose()

    def run(self) -> None:
        for event in self.events():
            kind = type(event)
            if kind is yaml.ScalarEvent:
                self.scalar(event)
            elif kind is yaml.MappingStartEvent:
                self.open(event, {})
            elif kind is yaml.SequenceStartEvent:
                self.open(event, [])
            elif kind in (yaml.MappingEndEvent, yaml.SequenceEndEvent):
                self.stack.pop()
            elif kind is yaml.AliasEvent:
                self.alias(event)
            elif kind is yaml.DocumentStartEvent:
                self.document(event)

    def document(self, event: Any) -> None:
        if self.began:
            what = "a line of three dashes begins a second record in this file"
            raise self.stop(event, "second-document", what, "one record a file: take the line out")
        self.began = True

    def scalar(self, event: Any) -> None:
        spot = self.spot(event.start_mark)
        value: str | None = event.value
        style = event.style
        top = self.stack[-1] if self.stack else None
        if top is not None and top.key is None and type(top.holder) is dict:
            self.key(top, event, spot)
            return
        path = self.place(top, spot)
        if event.anchor is not None or (event.tag is not None and event.tag != "!"):
            self.named_or_tagged(event, path, spot)
        if style in ("", None):
            if value == "":
                value = None
                self.parsed.warnings.append(empty_value(path, spot, self.rest_of_line(event.start_mark.index)))
            elif event.end_mark.index in self.cut_short:
                self.comment_in_value(path, spot, event)
        elif style == ">":
            if self.text[event.start_mark.index + 1 : event.start_mark.index + 2].isdigit():
                what = "a value that begins with > must stand in quotes, or it is taken for folded text"
                rest = self.rest_of_line(event.start_mark.index).strip()
                self.slip(path, spot, "bad-yaml", what, f'"{rest}"')
        elif style == '"' and value and _ODD_SIGN.search(value):
            what = "the escapes in this quoted text make a character that cannot be printed"
            self.slip(path, spot, "control-character", what, "the text without it")
        self.put(top, value)

    def key(self, top: _Open, event: Any, spot: Spot) -> None:
        name: str = event.value
        if event.anchor is not None or event.tag is not None:
            self.named_or_tagged(event, top.path, spot)
        top.key = name
        path = (*top.path, name)
        if name in top.holder:
            first = self.parsed.keys[path]
            what = f"`{name}` is written twice; the first stands in line {first[0]}"
            self.slip(path, spot, "duplicate-key", what, "it once: take one of the two out")
            top.skipped += 1
        else:
            self.parsed.keys[path] = spot

    def place(self, top: _Open | None, spot: Spot) -> PathInFile:
        """The path of the value that comes now; its place is noted."""
        if top is None:
            path: PathInFile = ()
        elif type(top.holder) is dict:
            path = (*top.path, top.key or "")
            if path in self.parsed.marks:
                # The second of two equal keys: its inside is read, and left out, under a path of its own.
                path = (*top.path, f"{top.key}\0{top.skipped}")
        else:
            path = (*top.path, len(top.holder))
        self.parsed.marks[path] = spot
        return path

    def put(self, top: _Open | None, value: Any) -> None:
        if top is None:
            self.parsed.value = value
        elif type(top.holder) is dict:
            top.holder.setdefault(top.key or "", value)
            top.key = None
        else:
            top.holder.append(value)  # type: ignore[union-attr]

    def open(self, event: Any, holder: dict[str, Any] | list[Any]) -> None:
        spot = self.spot(event.start_mark)
        top = self.stack[-1] if self.stack else None
        if top is not None and type(top.holder) is dict and top.key is None:
            if self.text[event.start_mark.index - 1 : event.start_mark.index + 1] == "{{":
                what, instead = "a value that begins with {{ must stand in quotes", "the whole value in quotes"
            else:
                what = "a list or a mapping stands where a key is expected"
                instead = "a key and a colon; quotes round a value that begins with [ { or ?"
            raise self.stop(event, "bad-yaml", what, instead)
        if len(self.stack) >= DEEPEST:
            raise _StopReading(too_deep(spot))
        path = self.place(top, spot)
        if event.anchor is not None or event.tag is not None:
            self.named_or_tagged(event, path, spot)
        self.put(top, holder)
        sign = self.text[event.start_mark.index : event.start_mark.index + 1] if event.flow_style else ""
        self.stack.append(_Open(holder, path, spot, sign if sign in ("[", "{") else ""))

    def alias(self, event: Any) -> None:
        spot = self.spot(event.start_mark)
        top = self.stack[-1] if self.stack else None
        if top is not None and type(top.holder) is dict and top.key is None:
            raise self.stop(event, "alias", f"*{event.anchor} stands where a key is expected", "the key written out")
        path = self.place(top, spot)
        what = f"*{event.anchor} refers to a value written elsewhere, and records do not do that"
        self.slip(path, spot, "alias", what, "the value again, written out (in quotes if it really begins with *)")
        self.put(top, None)

    def named_or_tagged(self, event: Any, path: PathInFile, spot: Spot) -> None:
        if event.anchor is not None:
            what = f"&{event.anchor} gives the value a name for use elsewhere, and records do not do that"
            self.slip(path, spot, "alias", what, "the value without it (in quotes if it really begins with &)")
        else:
            what = "a value that begins with ! must stand in quotes, or it is taken for a type"
            self.slip(path, spot, "bad-yaml", what, "the whole value in quotes")

    def comment_in_value(self, path: PathInFile, spot: Spot, event: Any) -> None:
        rest = self.rest_of_line(event.end_mark.index)
        what = f"everything from # on is a comment, so the value ends before “{rest.strip()}”"
        instead = f'"{event.value}{rest.rstrip()}" if that belongs to it, or a space after the #'
        self.parsed.warnings.append(Slip(path, spot, "comment-in-value", what, instead))

    def rest_of_line(self, index: int) -> str:
        return self.text[index:].partition("\n")[0] if index >= 0 else ""

    def slip(self, path: PathInFile, spot: Spot, rule: str, what: str, instead: str | None) -> None:
        self.parsed.slips.append(Slip(path, spot, rule, what, instead))

    def stop(self, event: Any, rule: str, what: str, instead: str | None) -> _StopReading:
        return _StopReading(Slip((), self.spot(event.start_mark), rule, what, instead))

    def told(self, fault: yaml.YAMLError) -> Slip:
        opened = next(((at.bracket, at.spot) for at in reversed(self.stack) if at.bracket), None)
        return explain_parser(fault, self.text, self.spot, opened)
