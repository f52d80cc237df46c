"""A figure with time from left to right: one row below the other, words above the bar, the years at the foot.

Percent across and pixels down: what is drawn grows with the page and the words do not, so they fit at every width if
they fit at `least`.
"""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.illustrate.bars import gradients
from archive_tools.illustrate.figure import Figure, Mark, Row, Tie, middle
from archive_tools.illustrate.strands import Part, exchange, parts_of, place_of
from archive_tools.illustrate.svg_frame import drawing, group, words
from archive_tools.illustrate.svg_text import Run, Text, beside, line_width, percent, pixels, wrapped
from archive_tools.illustrate.year_axis import YearAxis

LEAST_WIDE = 520.0
"""Pixels across the drawing on the narrowest page that shows it: below, time runs down."""
_FIRST_LINE, _NEXT_LINE, _TO_BAR, _BELOW = 22.0, 21.0, 13.0, 17.0
"""Pixels: top of a row to its first baseline, to each further one, to the middle of the bar, and to the next row."""
_SMALL_FIRST, _SMALL_NEXT, _SMALL_TO_BAR, _SMALL_BELOW = 17.0, 18.0, 12.0, 11.0
"""The same for rows whose words are all data."""
_TIGHT_FIRST, _TIGHT_NEXT, _TIGHT_TO_BAR, _TIGHT_BELOW = 15.0, 17.0, 9.0, 6.0
"""The same for rows that are many."""
_MANY = 13
"""So many close rows have their words one below the other."""
_TALL = 640.0
"""A drawing higher than this has its years at the head too."""
_APART = 26.0
_SAME_MARK = 0.004
"""Marks nearer than this share of the width are drawn once."""


@dataclass(frozen=True, slots=True)
class _Placed:
    markup: str
    line: float
    bottom: float


def across(figure: Figure, axis: YearAxis, css: str = "wide", least: float = LEAST_WIDE) -> str:
    """The figure as one SVG element; no two lines of words meet in it, at any width of `least` pixels and more."""
    placed = _stack(figure, axis, 0.0, least)
    head: tuple[Text, ...] = ()
    if placed[-1].bottom > _TALL:
        placed, head = _stack(figure, axis, _APART, least), axis.numbers(15, least)
    y = placed[-1].bottom
    ties = "".join(_tie(tie, placed, axis) for tie in figure.ties)
    rules = "".join(_rules(row, at.line, y, axis) for row, at in zip(figure.rows, placed, strict=True))
    soft = f"{figure.prefix}-soft"
    return drawing(
        figure.prefix,
        figure.title,
        figure.description,
        y + 38,
        gradients(f"{soft}-held") + gradients(f"{soft}-here", "of-here"),
        (group(words(head)) if head else "")
        + axis.lines(y + 8)
        + (group(rules) if figure.ruled and rules else "")
        + (group(ties) if ties else "")
        + "".join(one.markup for one in placed)
        + group(words(axis.numbers(y + 30, least))),
        css,
        linked=figure.linked,
    )


def _stack(figure: Figure, axis: YearAxis, top: float, least: float) -> list[_Placed]:
    placed: list[_Placed] = []
    for row in figure.rows:
        placed.append(_row(figure, row, axis, placed[-1].bottom if placed else top, least))
    return placed


def _row(figure: Figure, row: Row, axis: YearAxis, top: float, least: float) -> _Placed:
    head: list[Text] = []
    if row.apart:
        head.append(Text((Run(row.apart, "gap-word"),), 0.0, top + 18))
        top += _APART
    places = [place_of(strand, axis) for strand in row.strands]
    ends = [(place.low, place.high) for place in places] + [_ends(mark, axis) for mark in row.marks]
    start, end = (min(low for low, _ in ends), max(high for _, high in ends)) if ends else (0.0, 1.0)
    first, step, to_bar, below = _measures(row)
    column = _column(figure, axis) if row.tight else None
    if column is not None:
        texts = tuple(
            Text(line, column, top + first + at * step)
            for at, line in enumerate(_wrapped(row.runs, least * (1 - column)))
        )
    else:
        texts = _lines(row.runs, start, end, top + first, step, least)
    line = (texts[-1].y if texts else top) + to_bar
    if not ends:
        return _Placed(group(words([*head, *texts]), css=row.css), texts[-1].y - 5, texts[-1].y + 12)
    bars = "".join(_part(part, line, figure.prefix) for strand in row.strands for part in parts_of(strand, axis))
    return _Placed(group(words([*head, *texts]), bars, _marks(row.marks, line, axis), css=row.css), line, line + below)


def _measures(row: Row) -> tuple[float, float, float, float]:
    if row.tight:
        return _TIGHT_FIRST, _TIGHT_NEXT, _TIGHT_TO_BAR, _TIGHT_BELOW
    if all(run.css in ("", "by") for run in row.runs):
        return _SMALL_FIRST, _SMALL_NEXT, _SMALL_TO_BAR, _SMALL_BELOW
    return _FIRST_LINE, _NEXT_LINE, _TO_BAR, _BELOW


def _column(figure: Figure, axis: YearAxis) -> float | None:
    """Where the words of close rows stand one below the other, if the rows are many; else beside their bars."""
    close = [row for row in figure.rows if row.tight]
    if len(close) < _MANY:
        return None
    first = min((axis.at(day) for row in close for day in row.days), default=0.0)
    return min(first, 0.2)


def _lines(runs: tuple[Run, ...], start: float, end: float, y: float, step: float, least: float) -> tuple[Text, ...]:
    """The words of a row, beside its bars."""
    return beside(_wrapped(runs, least), start, end, y, step, least) if runs else ()


def _wrapped(runs: tuple[Run, ...], room: float) -> list[tuple[Run, ...]]:
    """The words of a row on as few lines as fit the room; a part begins a new line where it must."""
    lines: list[tuple[Run, ...]] = []
    for run in runs:
        if lines and line_width((*lines[-1], run)) <= room:
            lines[-1] = (*lines[-1], run)
        else:
            lines += [(line,) for line in wrapped(run, room)]
    return lines


def _part(part: Part, line: float, prefix: str) -> str:
    if part.dotted:
        ends = f'x1="{percent(part.from_)}" x2="{percent(part.to)}" y1="{pixels(line)}" y2="{pixels(line)}"'
        return f'<line class="{part.css}" {ends}/>'
    look = f'fill="url(#{prefix}-soft-{part.css}-{part.soft})"' if part.soft else f'class="{part.css}"'
    place = f'x="{percent(part.from_)}" width="{percent(part.to - part.from_)}"'
    return f'<rect {look} {place} y="{pixels(line + part.aside)}" height="{pixels(part.thick)}"/>'


def _ends(mark: Mark, axis: YearAxis) -> tuple[float, float]:
    return axis.at(mark.first), axis.at(mark.last)


def _marks(marks: tuple[Mark, ...], line: float, axis: YearAxis) -> str:
    drawn: list[str] = []
    seen: list[tuple[str, float]] = []
    for mark in marks:
        low, high = _ends(mark, axis)
        x = (low + high) / 2
        if any(css == mark.css and abs(other - x) < _SAME_MARK for css, other in seen):
            continue
        seen.append((mark.css, x))
        if mark.css == "swap":
            drawn.append(exchange(percent(x), line + 9))
            continue
        half = 4.0 if mark.css in ("hand small", "seen") else 6.0
        if high - low > _SAME_MARK:
            place = f'x1="{percent(low)}" x2="{percent(high)}" y1="{pixels(line)}" y2="{pixels(line)}"'
            drawn.append(f'<line class="about" {place}/>')
        place = f'x1="{percent(x)}" x2="{percent(x)}" y1="{pixels(line - half)}" y2="{pixels(line + half)}"'
        drawn.append(f'<line class="{mark.css}" {place}/>')
    return "".join(drawn)


def _tie(tie: Tie, placed: list[_Placed], axis: YearAxis) -> str:
    x = percent(axis.at(tie.day))
    top, bottom = sorted((placed[tie.older].line, placed[tie.younger].line))
    return f'<line class="tie {tie.css}" x1="{x}" x2="{x}" y1="{pixels(top)}" y2="{pixels(bottom)}"/>'


def _rules(row: Row, line: float, bottom: float, axis: YearAxis) -> str:
    """The lines that run from each making of a planting down through the rows of its plants."""
    found = (percent(axis.at(middle((mark.first, mark.last)))) for mark in row.marks if mark.css == "made")
    return "".join(
        f'<line class="made-rule" x1="{x}" x2="{x}" y1="{pixels(line)}" y2="{pixels(bottom)}"/>' for x in found
    )
