"""A figure with time running down, for a phone: years at the left, bars beside each other, words at the right.

All in pixels, for the narrowest phone: a wider one leaves room at the right.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from archive_tools.illustrate.bars import LEAST
from archive_tools.illustrate.figure import Figure, Mark, Row, Tie, middle
from archive_tools.illustrate.stacking import stacked
from archive_tools.illustrate.strands import Part, exchange, parts_of, place_of
from archive_tools.illustrate.svg_frame import drawing, group, words
from archive_tools.illustrate.svg_text import NARROW, Run, Text, pixels, wrapped
from archive_tools.illustrate.year_axis import YearAxis

_TOP, _LANES, _LANE, _TO_WORDS = 12.0, 56.0, 15.0, 16.0
"""Pixels: above the first year, left of the lanes, one lane, and from the last lane to the words."""
_STEP = {"who": 22.0, "gap-word": 21.0}
_DATA_STEP = 18.0
_BETWEEN = 7.0
_DROP = 5.5
"""Pixels from a baseline to the foot of its line."""
_FIRST = 4.0
"""Pixels above the first label."""
_A_YEAR, _HIGHEST, _LOWEST = 9.0, 620.0, 200.0
_APART = 28.0
"""Pixels from the last year to what has no years."""
_MOST_LANES = 9
"""So many lanes leave room for words; what is more shares the last one."""


@dataclass(frozen=True, slots=True)
class _Label:
    """Words that belong to a day on a lane: `row` is the row they are told with."""

    row: int
    x: float
    y: float
    lines: tuple[Run, ...]

    @property
    def height(self) -> float:
        return sum(_step(line) for line in self.lines) + _BETWEEN


@dataclass(frozen=True, slots=True)
class _Down:
    """The line of years, running down."""

    axis: YearAxis
    height: float

    def y(self, share: float) -> float:
        return _TOP + share * self.height

    def at(self, day: date) -> float:
        return self.y(self.axis.at(day))


def upright(figure: Figure, axis: YearAxis) -> str:
    """The figure as one SVG element; no two lines of words meet in it, at any width of `NARROW` pixels and more."""
    prefix = f"{figure.prefix}-up"
    lanes = _lanes(figure.rows, axis)
    right = _LANES + _LANE * (max(lanes, default=0) + 1)
    left = right + _TO_WORDS
    needed = sum(label.height for label in _labels(figure.rows, lanes, _Down(axis, 1.0), NARROW - left))
    wanted = min((axis.last - axis.first) * _A_YEAR, _HIGHEST, _LOWEST + needed)
    down = _Down(axis, max(_LOWEST, wanted, needed * 1.05))
    labels = sorted(_labels(figure.rows, lanes, down, NARROW - left), key=lambda label: label.y)
    tops = stacked([(label.y - _step(label.lines[0]) / 2, label.height) for label in labels], _FIRST)
    texts: list[list[Text]] = [[] for _row in figure.rows]
    leaders, bottom = [], 0.0
    for label, top in zip(labels, tops, strict=True):
        if figure.rows[label.row].days:
            leaders.append(_leader(label, top + _step(label.lines[0]) / 2, right, left))
        bottom = top
        for line in label.lines:
            bottom += _step(line)
            texts[label.row].append(Text((line,), 0.0, bottom - _DROP, left))
    rows = "".join(
        group(words(told), _bars(row, lane, down, prefix), css=row.css)
        for row, lane, told in zip(figure.rows, lanes, texts, strict=True)
    )
    return drawing(
        prefix,
        figure.title,
        figure.description,
        max(down.y(1.0), bottom) + 12,
        _gradients(f"{prefix}-soft-held", "") + _gradients(f"{prefix}-soft-here", "of-here"),
        _years(down) + group(*leaders) + "".join(_tie(tie, lanes, down) for tie in figure.ties) + rows,
        "upright",
        linked=figure.linked,
    )


def _lanes(rows: tuple[Row, ...], axis: YearAxis) -> list[int]:
    """The lane of each row: rows of a track follow each other in one, unless they are certain of the same days."""
    tracks = list(dict.fromkeys(row.track for row in rows))
    given: dict[int, int] = {}
    taken = 0
    for track in tracks:
        ends: list[float] = []
        for at, row in enumerate(rows):
            if row.track != track:
                continue
            if not row.days:
                given[at] = 0
                continue
            places = [place_of(strand, axis) for strand in row.strands]
            first = min((place.from_ for place in places), default=0.0)
            last = max((place.to for place in places), default=0.0)
            lane = next((lane for lane, end in enumerate(ends) if end <= first + 2 * LEAST), len(ends))
            if lane == len(ends):
                ends.append(last)
            else:
                ends[lane] = max(last, ends[lane])
            given[at] = taken + lane
        taken += len(ends)
    return [min(given[at], _MOST_LANES - 1) for at in range(len(rows))]


def _labels(rows: tuple[Row, ...], lanes: list[int], down: _Down, room: float) -> list[_Label]:
    found = []
    for at, (row, lane) in enumerate(zip(rows, lanes, strict=True)):
        x = _middle(lane)
        if row.marks_told:
            told = [(down.at(middle((mark.first, mark.last))), mark.runs) for mark in row.marks if mark.runs]
        else:
            runs = (*((Run(row.apart, "gap-word"),) if row.apart else ()), *row.runs)
            told = [(_beginning(row, down), runs)] if row.runs else []
        for y, runs in told:
            lines = tuple(line for run in runs for line in wrapped(run, room))
            if lines:
                found.append(_Label(at, x, y, lines))
    return found


def _beginning(row: Row, down: _Down) -> float:
    """Where a row's words belong: at its beginning, or in the middle of a gap."""
    if not row.strands:
        return down.at(row.marks[0].first) if row.marks else down.y(1.0) + _APART
    place = place_of(row.strands[0], down.axis)
    is_gap = row.strands[0].css.startswith("gap")
    return down.y((place.low + place.high) / 2 if is_gap else (place.low + place.from_) / 2)


def _middle(lane: int) -> float:
    return _LANES + (lane + 0.5) * _LANE


def _step(line: Run) -> float:
    return _STEP.get(line.css, _DATA_STEP)


def _leader(label: _Label, y: float, right: float, left: float) -> str:
    """A hairline from the bar or mark to its words: level to the last lane, then aslant to where the words stand."""
    way = f"M{pixels(label.x + 5)} {pixels(label.y)}H{pixels(right + 1)}L{pixels(left - 4)} {pixels(y)}"
    return f'<path class="leader" d="{way}"/>'


def _bars(row: Row, lane: int, down: _Down, prefix: str) -> str:
    x = _middle(lane)
    bars = "".join(_part(part, x, down, prefix) for strand in row.strands for part in parts_of(strand, down.axis))
    return bars + "".join(_mark(mark, x, down) for mark in row.marks)


def _part(part: Part, x: float, down: _Down, prefix: str) -> str:
    top, bottom = down.y(part.from_), down.y(part.to)
    if part.dotted:
        place = f'x1="{pixels(x)}" x2="{pixels(x)}" y1="{pixels(top)}" y2="{pixels(bottom)}"'
        return f'<line class="{part.css}" {place}/>'
    look = f'fill="url(#{prefix}-soft-{part.css}-{part.soft})"' if part.soft else f'class="{part.css}"'
    place = f'x="{pixels(x + part.aside)}" width="{pixels(part.thick)}"'
    return f'<rect {look} {place} y="{pixels(top)}" height="{pixels(bottom - top)}"/>'


def _mark(mark: Mark, x: float, down: _Down) -> str:
    low, high = down.at(mark.first), down.at(mark.last)
    if mark.css == "swap":
        return exchange(pixels(x - 15), low)
    half = 3.5 if mark.css in ("hand small", "seen") else 6.0
    about = ""
    if high - low > 2:
        place = f'x1="{pixels(x)}" x2="{pixels(x)}" y1="{pixels(low)}" y2="{pixels(high)}"'
        about = f'<line class="about" {place}/>'
    y = pixels((low + high) / 2)
    return f'{about}<line class="{mark.css}" x1="{pixels(x - half)}" x2="{pixels(x + half)}" y1="{y}" y2="{y}"/>'


def _tie(tie: Tie, lanes: list[int], down: _Down) -> str:
    one, other = sorted((_middle(lanes[tie.older]), _middle(lanes[tie.younger])))
    y = pixels(down.at(tie.day))
    return f'<line class="tie {tie.css}" x1="{pixels(one)}" x2="{pixels(other)}" y1="{y}" y2="{y}"/>'


def _years(down: _Down) -> str:
    """The years in figures at the left, as many as have room, each with its hairline."""
    ticks = down.axis.ticks()
    every = next(n for n in range(1, len(ticks) + 1) if n * down.height * down.axis.step >= 24 * _span(down))
    lines, numbers = [], []
    for at, (year, share) in enumerate(ticks):
        if at % every == 0:
            y = down.y(share)
            lines.append(f'<line x1="44" x2="100%" y1="{pixels(y)}" y2="{pixels(y)}"/>')
            numbers.append(Text((Run(str(year)),), 0.0, y + 5))
    return f'<g class="grid">{"".join(lines)}</g>{group(words(numbers))}'


def _span(down: _Down) -> int:
    return down.axis.last - down.axis.first


def _gradients(prefix: str, css: str) -> str:
    """The two fades, downwards."""
    return "".join(
        f'<linearGradient id="{prefix}-{end}" x2="0" y2="1">'
        f'<stop class="{f"soft-{first} {css}".strip()}" offset="0"/>'
        f'<stop class="{f"soft-{last} {css}".strip()}" offset="1"/></linearGradient>'
        for end, first, last in (("start", "off", "on"), ("end", "on", "off"))
    )
