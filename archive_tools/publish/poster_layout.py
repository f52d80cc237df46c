"""A sheet of years set out: photographs in order of time, in rows as large as one sheet allows, and under each of them
what happened until the next.

Lengths are units of the drawing, which is as wide as its sheet: 1460 units are 277 mm on A4 and 400 mm on A3.
"""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

from archive_tools.publish.tree_years import YearFrame

WIDE, HIGH = 1460, 1000
TOP, BOTTOM = 146, 944
"""Between these the rows stand; above is the name, below the credits."""
GAP = 26
CAPTION, CAPTION_LINE = 13, 16
"""Size of captions, in sans, and from line to line."""
ENTRY, ENTRY_LINE = 15.5, 19
"""The same of what happened, in serif."""
YEARS = 46
"""Room for the year at the head of an entry."""
UNDER = 36
"""From the foot of a picture to its first line of caption; the year stands between."""
MOST_CAPTION_LINES = 3
FIRST_COLUMN = 200.0
TALLEST, LOWEST = 430, 40
"""Heights of pictures are looked for between these."""
GIVEN_UP = 0.85
"""What happened may cost the pictures so much of the height they would have alone, and no more."""
_EM = {"serif": 0.43, "sans": 0.47}
"""Mean width of a letter in ems in the theme's faces, a little more than measured; ideographs count twice."""


@dataclass(frozen=True, slots=True)
class Entry:
    """Something that happened: its year, its lines, and how far below the foot of the cell's picture they begin."""

    year: str
    lines: tuple[str, ...]
    down: float
    is_quiet: bool


@dataclass(frozen=True, slots=True)
class Cell:
    """A photograph (None: what happened before the first) in its place, with its caption and what happened next."""

    picture: YearFrame | None
    x: float
    wide: float
    caption: tuple[str, ...]
    entries: tuple[Entry, ...]
    deep: float
    """From the foot of the picture to the foot of the last line."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of cells; `top` is the upper edge of its pictures."""

    cells: tuple[Cell, ...]
    top: float


@dataclass(frozen=True, slots=True)
class Layout:
    """All rows, the height of their pictures, and how many things that happened found no room."""

    rows: tuple[Row, ...]
    tall: float
    left_out: int


def set_out(frames: Sequence[YearFrame]) -> Layout:
    """The frames in rows with the tallest pictures that fit.

    What weighs least is left out as long as words make the pictures much smaller than they would be alone.
    """
    alone = _tallest([frame for frame in frames if frame.sort == "picture"])
    kept = list(frames)
    while True:
        tall = _tallest(kept)
        words = [frame for frame in kept if frame.sort != "picture"]
        if tall >= alone * GIVEN_UP or not words:
            return Layout(_rows(kept, tall), tall, len(frames) - len(kept))
        # Of those that weigh the same the later goes first: beginnings are told.
        kept.remove(min(reversed(words), key=lambda frame: frame.weight))


def broken(text: str, wide: float, size: float, face: str) -> tuple[str, ...]:
    """`text` in lines of at most `wide` units at `size`, at spaces where there are any."""
    room = max(int(wide / (size * _EM[face])), 4)
    lines: list[str] = []
    for line in textwrap.wrap(text, room, break_long_words=False):
        rest = line
        while _letters(rest) > room and len(rest) > 1:
            at = _fitting(rest, room)
            lines.append(rest[:at])
            rest = rest[at:]
        lines.append(rest)
    return tuple(lines)


def _letters(text: str) -> int:
    return sum(2 if unicodedata.east_asian_width(letter) in "WF" else 1 for letter in text)


def _fitting(line: str, room: int) -> int:
    taken = 0
    for at, letter in enumerate(line):
        taken += _letters(letter)
        if taken > room:
            return max(at, 1)
    return len(line)


def _tallest(frames: Sequence[YearFrame]) -> int:
    for tall in range(TALLEST, LOWEST, -3):
        rows = _rows(frames, tall)
        if not rows or _foot(rows[-1], tall) - GAP <= BOTTOM:
            return tall
    return LOWEST


def _rows(frames: Sequence[YearFrame], tall: float) -> tuple[Row, ...]:
    rows: list[Row] = []
    waiting: list[Cell] = []
    x, top = 0.0, float(TOP)
    for picture, after in _groups(frames):
        wide = FIRST_COLUMN if picture is None or picture.shot is None else tall * picture.shot.ratio
        if waiting and x + wide > WIDE:
            rows.append(Row(tuple(waiting), top))
            waiting, x, top = [], 0.0, _foot(rows[-1], tall)
        waiting.append(_cell(picture, after, x, wide, tall))
        x += wide + GAP
    return (*rows, Row(tuple(waiting), top)) if waiting else tuple(rows)


def _groups(frames: Sequence[YearFrame]) -> list[tuple[YearFrame | None, list[YearFrame]]]:
    groups: list[tuple[YearFrame | None, list[YearFrame]]] = []
    for frame in frames:
        if frame.sort == "picture":
            groups.append((frame, []))
        elif groups:
            groups[-1][1].append(frame)
        else:
            groups.append((None, [frame]))
    return groups


def _cell(picture: YearFrame | None, after: Sequence[YearFrame], x: float, wide: float, tall: float) -> Cell:
    caption = _shortened(broken(picture.caption, wide, CAPTION, "sans")) if picture else ()
    # Before the first picture the entries begin beside it, not under it.
    down = UNDER + len(caption) * CAPTION_LINE + ENTRY_LINE / 4 if picture else ENTRY_LINE - tall
    entries = []
    for frame in after:
        said = (frame.caption,) if frame.sort == "quiet" else (frame.text, frame.grade)
        lines = broken(". ".join(part.rstrip(".") for part in said if part), wide - YEARS, ENTRY, "serif")
        entries.append(Entry(frame.year, lines, down, frame.sort == "quiet"))
        down += len(lines) * ENTRY_LINE
    return Cell(picture, x, wide, caption, tuple(entries), max(down, 0.0))


def _shortened(lines: tuple[str, ...]) -> tuple[str, ...]:
    if len(lines) <= MOST_CAPTION_LINES:
        return lines
    return (*lines[: MOST_CAPTION_LINES - 1], lines[MOST_CAPTION_LINES - 1].rstrip(".,;: ") + " …")


def _foot(row: Row, tall: float) -> float:
    """Where the next row may begin."""
    return row.top + tall + max(cell.deep for cell in row.cells) + GAP
