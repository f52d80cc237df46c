"""A sheet of years set out: what the house says of the tree and how it began, in the margin or across the head, and
photographs in order of time, in rows as large as one sheet allows, under each of them what happened until the next.

Lengths are units of the drawing, which is as wide as its sheet: 1460 units are 277 mm on A4 and 400 mm on A3.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil

from archive_tools.publish.broken_lines import EM, broken, letters
from archive_tools.publish.tree_years import YearFrame

WIDE, HIGH = 1460, 1000
TOP, BOTTOM = 170, 944
"""Between these the rows stand; above is the name with the line of years, below the credits."""
GAP = 26
CAPTION, CAPTION_LINE = 13, 16
"""Size of captions, in sans, and from line to line."""
ENTRY, ENTRY_LINE = 15.5, 19
"""The same of what happened, in serif."""
LABEL, LABEL_LINE = 19, 25
"""The same of what the house says of the tree."""
YEARS = 46
"""Room for the year at the head of an entry; a longer one takes more."""
UNDER = 36
"""From the foot of a picture to its first line of caption; the year stands between."""
MOST_CAPTION_LINES = 3
LEAST_MARGIN, MOST_MARGIN = 216.0, 330.0
"""Width of the text in the margin; it takes what the rows leave over."""
ACROSS = 690.0
"""Width of what the house says where it stands across the head; how it began stands to the right of that."""
WORTH_IT = 1.08
"""The text stands across the head where more can be told so, or the pictures become so much taller."""
MOST_GAP, MOST_LEAD = 70.0, 60.0
"""What is left over beyond that parts the pictures, and the rows, so far and no further."""
TALLEST, LOWEST = 430, 40
"""Heights of pictures are looked for between these."""
GIVEN_UP = 0.85
"""What happened may cost the pictures so much of the height they would have alone, and no more."""
TRIED = 8
"""Whether something has to be left out is tried at one height in so many."""


@dataclass(frozen=True, slots=True)
class Entry:
    """Something that happened: its year, its lines and how far in these stand, and how far below the foot of the
    cell's picture they begin (in the margin: below the upper edge of the rows).
    """

    year: str
    lines: tuple[str, ...]
    down: float
    is_quiet: bool
    inset: float = YEARS


@dataclass(frozen=True, slots=True)
class Cell:
    """A photograph in its place, with its caption and what happened next."""

    picture: YearFrame
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
class Margin:
    """The text beside or above the rows: what the house says, and, `right` of its edge, what happened before the first
    photograph. `deep` is how far down both reach.
    """

    label: tuple[str, ...] = ()
    entries: tuple[Entry, ...] = ()
    deep: float = 0
    right: float = 0


@dataclass(frozen=True, slots=True)
class Layout:
    """All rows, the height of their pictures, the margin, and how many things that happened found no room."""

    rows: tuple[Row, ...]
    tall: float
    margin: Margin
    left_out: int


def set_out(frames: Sequence[YearFrame], label: str = "") -> Layout:
    """The frames in rows with the tallest pictures that fit.

    What weighs least is left out as long as words make the pictures much smaller than they would be alone. A label for
    which the margin has no room is left out whole.
    """
    if _margin(_first(frames), label, LEAST_MARGIN).deep > BOTTOM - TOP:
        label = ""
    beside, above = (_set_out(frames, label, across) for across in (False, True))
    if above.left_out != beside.left_out:
        return min(above, beside, key=lambda layout: layout.left_out)
    return above if above.tall >= beside.tall * WORTH_IT else beside


def _set_out(frames: Sequence[YearFrame], label: str, across: bool) -> Layout:
    alone = _tallest([frame for frame in frames if frame.sort == "picture"], label, across)
    kept = list(frames)
    # Of those that weigh the same the later goes first: beginnings are told.
    words = sorted([frame for frame in reversed(frames) if frame.sort != "picture"], key=lambda frame: frame.weight)
    # Lower pictures are narrower, and words under them deeper: what does not fit at one height may fit at a greater.
    heights = range(alone, ceil(alone * GIVEN_UP) - 1, -3)
    while words and not any(_fits(kept, label, across, height) for height in heights[::TRIED]):
        kept.remove(words.pop(0))
    tall = next((height for height in heights if _fits(kept, label, across, height)), alone)
    return _spread(kept, label, tall, across, len(frames) - len(kept))


def _first(frames: Sequence[YearFrame]) -> list[YearFrame]:
    """What happened before the first photograph."""
    pictures = [at for at, frame in enumerate(frames) if frame.sort == "picture"]
    return list(frames[: pictures[0]] if pictures else frames)


def _tallest(frames: Sequence[YearFrame], label: str, across: bool) -> int:
    """Of pictures alone, found by halving: what fits at one height fits at a lower one, but for a row that breaks
    elsewhere.
    """
    heights = range(TALLEST, LOWEST, -3)
    at = bisect_left(heights, True, key=lambda tall: _fits(frames, label, across, tall))
    return heights[at] if at < len(heights) else LOWEST


def _fits(frames: Sequence[YearFrame], label: str, across: bool, tall: float) -> bool:
    margin = _text(frames, label, across, LEAST_MARGIN)
    if margin.deep > BOTTOM - TOP:
        return False
    rows = _rows(frames, tall, *_corner(margin, across))
    within = all(cell.x + cell.wide <= WIDE + 0.5 for row in rows for cell in row.cells)
    return within and (not rows or _foot(rows[-1], tall) <= BOTTOM)


def _text(frames: Sequence[YearFrame], label: str, across: bool, wide: float) -> Margin:
    """The text beside the rows, `wide`, or across the head."""
    begun = _first(frames)
    if not across:
        return _margin(begun, label, wide)
    right = ACROSS + 2 * GAP if label else 0
    said, told = _margin([], label, ACROSS), _margin(begun, "", WIDE - right)
    return Margin(said.label, told.entries, max(said.deep, told.deep), right)


def _corner(margin: Margin, across: bool) -> tuple[float, float]:
    """Where the rows begin: from the left, from the top."""
    if not margin.deep:
        return 0, TOP
    return (0, TOP + margin.deep + GAP) if across else (LEAST_MARGIN + GAP, TOP)


def _spread(frames: Sequence[YearFrame], label: str, tall: float, across: bool, left_out: int) -> Layout:
    """What the rows leave over goes to the margin, then between the pictures, so that the sheet ends on its edges."""
    left, top = _corner(_text(frames, label, across, LEAST_MARGIN), across)
    rows = _rows(frames, tall, left, top)
    over = [WIDE - row.cells[-1].x - row.cells[-1].wide for row in rows]
    wider = max(min(min(over, default=0), MOST_MARGIN - LEAST_MARGIN), 0) if left else 0
    parts = [(left - wider) / (len(row.cells) - 1) for row, left in zip(rows, over, strict=True) if len(row.cells) > 1]
    apart = max(min([*parts, MOST_GAP - GAP]), 0) if parts else 0
    below = BOTTOM - _foot(rows[-1], tall) if rows else 0
    lead = max(min(below / len(rows), MOST_LEAD), 0) if rows else 0
    moved = tuple(
        Row(
            tuple(replace(cell, x=cell.x + wider + apart * at) for at, cell in enumerate(row.cells)),
            row.top + lead * number,
        )
        for number, row in enumerate(rows)
    )
    return Layout(moved, tall, _text(frames, label, across, LEAST_MARGIN + wider), left_out)


def _rows(frames: Sequence[YearFrame], tall: float, left: float, top: float) -> tuple[Row, ...]:
    rows: list[Row] = []
    waiting: list[Cell] = []
    x = left
    for picture, after in _groups(frames):
        wide = tall * (picture.shot.ratio if picture.shot else 1)
        if waiting and x + wide > WIDE:
            rows.append(Row(tuple(waiting), top))
            waiting, x, top = [], left, _foot(rows[-1], tall) + GAP
        waiting.append(_cell(picture, after, x, wide))
        x += wide + GAP
    return (*rows, Row(tuple(waiting), top)) if waiting else tuple(rows)


def _groups(frames: Sequence[YearFrame]) -> list[tuple[YearFrame, list[YearFrame]]]:
    groups: list[tuple[YearFrame, list[YearFrame]]] = []
    for frame in frames:
        if frame.sort == "picture":
            groups.append((frame, []))
        elif groups:
            groups[-1][1].append(frame)
    return groups


def _cell(picture: YearFrame, after: Sequence[YearFrame], x: float, wide: float) -> Cell:
    caption = _shortened(broken(picture.caption, wide, CAPTION, "sans"))
    down = UNDER + len(caption) * CAPTION_LINE + ENTRY_LINE / 4
    entries, down = _entries(after, wide, down)
    return Cell(picture, x, wide, caption, entries, down)


def _margin(begun: Sequence[YearFrame], label: str, wide: float) -> Margin:
    lines = broken(label, wide, LABEL, "serif") if label else ()
    down = len(lines) * LABEL_LINE + (LABEL_LINE / 2 if lines and begun else 0)
    entries, down = _entries(begun, wide, down)
    return Margin(lines, entries, down)


def _entries(frames: Iterable[YearFrame], wide: float, down: float) -> tuple[tuple[Entry, ...], float]:
    """What happened, one under the other from `down` on, and how far down that reaches."""
    listed = list(frames)
    longest = max((letters(frame.year) for frame in listed), default=0)
    inset = max(YEARS, min((longest + 1) * ENTRY * EM["serif"] * 1.1, wide / 2))
    entries = []
    for frame in listed:
        said = (frame.caption,) if frame.sort == "quiet" else (frame.text, frame.grade)
        lines = broken(". ".join(part.rstrip(".") for part in said if part), wide - inset, ENTRY, "serif")
        entries.append(Entry(frame.year, lines, down, frame.sort == "quiet", inset))
        down += max(len(lines), 1) * ENTRY_LINE
    return tuple(entries), down


def _shortened(lines: tuple[str, ...]) -> tuple[str, ...]:
    if len(lines) <= MOST_CAPTION_LINES:
        return lines
    return (*lines[: MOST_CAPTION_LINES - 1], lines[MOST_CAPTION_LINES - 1].rstrip(".,;: ") + " …")


def _foot(row: Row, tall: float) -> float:
    """Where the words of a row end."""
    return row.top + tall + max(cell.deep for cell in row.cells)
