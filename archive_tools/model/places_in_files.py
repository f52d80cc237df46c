"""Where in a file a value stands, so that every message can point at it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Step = str | int


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """A spot in a file of the collection. `file` is relative to the collection; lines and columns count from 1."""

    file: str
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        if self.line is None:
            return self.file
        return f"{self.file}:{self.line}" if self.column is None else f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Where:
    """The places of one record's values.

    `marks` maps the path of a value inside the file (("events", 2, "by", 0)) to (line, column);
    `base` is the path of this record itself, so that `where.at("by", 0)` asks for its own value.
    """

    file: str
    marks: Mapping[tuple[Step, ...], tuple[int, int]] = field(
        default_factory=dict, repr=False, compare=False, hash=False
    )
    base: tuple[Step, ...] = ()

    def at(self, *path: Step) -> Mark:
        """The place of a value of this record; of the nearest thing around it where the value itself is not written."""
        full = self.base + path
        while True:
            if full in self.marks:
                line, column = self.marks[full]
                return Mark(self.file, line, column)
            if not full:
                return Mark(self.file)
            full = full[:-1]

    def inner(self, *path: Step) -> Where:
        """The places of a record inside this one."""
        return Where(self.file, self.marks, self.base + path)
