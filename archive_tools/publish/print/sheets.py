"""Several pieces on a sheet: where each lies, the marks to cut by, and the line outside that says what it is.

All lengths are millimetres. Pieces lie edge to edge, or two bleeds apart. Marks stand outside the block of pieces,
clear of the bleed, so that none is left on a piece that is cut a little wide.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from archive_tools.publish.print.document import Markup, mm, text

PAPERS = {"A3": (297.0, 420.0), "A4": (210.0, 297.0), "A5": (148.0, 210.0), "A6": (105.0, 148.0),
          "LETTER": (215.9, 279.4), "TABLOID": (279.4, 431.8)}  # fmt: skip
"""ISO 216; ANSI/ASME Y14.1 for the last two."""
ONE_EACH = "label"
MARK, CLEAR, UNPRINTED = 4.0, 2.0, 4.0
"""Length of a cutting mark; between it and the bleed; the edge that office printers leave white (common practice)."""
_SIZE = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?)\s*[x×]\s*([0-9]+(?:\.[0-9]+)?)\s*(?:mm)?\s*", re.IGNORECASE)


class SizeError(ValueError):
    """A size that cannot be read or used; the message says why and what can."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: its size, the size of its pieces, and the upper left corner of each piece's trim."""

    width: float
    height: float
    piece_width: float
    piece_height: float
    bleed: float
    columns: int
    rows: int
    single: bool = False
    """One piece a page and the page its trim: the boxes of the file say what the marks would."""

    @property
    def count(self) -> int:
        """Pieces on a sheet."""
        return self.columns * self.rows

    @property
    def spots(self) -> tuple[tuple[float, float], ...]:
        """The upper left corners of the pieces, row by row."""
        if self.single:
            return ((0.0, 0.0),)
        gap = 2 * self.bleed
        left = (self.width - self.columns * self.piece_width - (self.columns - 1) * gap) / 2
        top = (self.height - self.rows * self.piece_height - (self.rows - 1) * gap) / 2
        return tuple(
            (left + column * (self.piece_width + gap), top + row * (self.piece_height + gap))
            for row in range(self.rows)
            for column in range(self.columns)
        )


def read_size(written: str) -> tuple[float, float]:
    """A size "148x105" in millimetres, or a paper by its name ("A6" upright). Raises SizeError."""
    paper = PAPERS.get(written.strip().upper())
    if paper is not None:
        return paper
    found = _SIZE.fullmatch(written)
    if found is None:
        raise SizeError(f"“{written}” is no size; write width x height in millimetres, like 148x105")
    width, height = float(found[1]), float(found[2])
    if not (20 <= width <= 1200 and 20 <= height <= 1200):
        raise SizeError(f"{written} mm cannot be made; each side from 20 to 1200 mm")
    return width, height


def sheet_for(per_page: str, piece: tuple[float, float], bleed: float) -> Sheet:
    """The sheet of paper `per_page` (a paper's name, a size, or "label" for a page of each) that holds the most pieces.

    The paper is turned where more pieces fit across it. Raises SizeError where not one fits with its cutting marks.
    """
    if per_page.strip().casefold() == ONE_EACH:
        return Sheet(*piece, *piece, bleed, 1, 1, single=True)
    paper = read_size(per_page)
    best = max((_on(size, piece, bleed) for size in (paper, paper[::-1])), key=lambda sheet: sheet.count)
    if best.count == 0:
        room = min(paper) - 2 * _margin(bleed), max(paper) - 2 * _margin(bleed)
        raise SizeError(
            f"a piece of {piece[0]:g} x {piece[1]:g} mm does not fit on {per_page} with its cutting marks: "
            f"there is room for {room[0]:g} x {room[1]:g} mm. Take a larger sheet, or --per-page {ONE_EACH}"
        )
    return best


def _margin(bleed: float) -> float:
    return bleed + CLEAR + MARK + UNPRINTED


def _on(paper: tuple[float, float], piece: tuple[float, float], bleed: float) -> Sheet:
    across, down = (
        max(0, int((side - 2 * _margin(bleed) + 2 * bleed + 1e-9) // (length + 2 * bleed)))
        for side, length in zip(paper, piece, strict=True)
    )
    return Sheet(*paper, *piece, bleed, across, down)


def sheets(sheet: Sheet, pieces: Sequence[Markup], slug: Sequence[str], under: Markup = "") -> Markup:
    """All `pieces` on as many sheets as they need.

    slug: the lines outside the trim, one for each sheet (none where a page is one piece). under: what lies below every
    piece and runs out into its bleed; drawn from the upper left corner of the bleed.
    """
    body = [
        f"#set page(width: {mm(sheet.width)}, height: {mm(sheet.height)}, margin: 0pt"
        + (f", bleed: {mm(sheet.bleed)})" if sheet.single and sheet.bleed else ")")
    ]
    for number, first in enumerate(range(0, len(pieces), sheet.count)):
        laid = pieces[first : first + sheet.count]
        spots = sheet.spots[: len(laid)]
        if under:
            body += [_placed(x - sheet.bleed, y - sheet.bleed, f"#pdf.artifact[{under}]") for x, y in spots]
        size = f"width: {mm(sheet.piece_width)}, height: {mm(sheet.piece_height)}"
        body += [_placed(x, y, f"#block({size})[{piece}]") for (x, y), piece in zip(spots, laid, strict=True)]
        if not sheet.single:
            body.append(f"#pdf.artifact[{_marks(sheet, spots)}{_slug(sheet, slug[number])}]")
        body.append("#pagebreak(weak: true)")
    return "\n".join(body[:-1])


def _placed(x: float, y: float, what: Markup) -> Markup:
    return f"#place(top + left, dx: {mm(x)}, dy: {mm(y)})[{what}]"


def _marks(sheet: Sheet, spots: Iterable[tuple[float, float]]) -> Markup:
    """Hairlines in line with every edge, outside the block of pieces on this sheet."""
    placed = list(spots)
    away = sheet.bleed + CLEAR
    left, top = min(x for x, _ in placed), min(y for _, y in placed)
    right = max(x for x, _ in placed) + sheet.piece_width
    bottom = max(y for _, y in placed) + sheet.piece_height
    lines = []
    for x in sorted({round(edge, 4) for at, _ in placed for edge in (at, at + sheet.piece_width)}):
        lines += [_line(x, top - away - MARK, x, top - away), _line(x, bottom + away, x, bottom + away + MARK)]
    for y in sorted({round(edge, 4) for _, at in placed for edge in (at, at + sheet.piece_height)}):
        lines += [_line(left - away - MARK, y, left - away, y), _line(right + away, y, right + away + MARK, y)]
    return "".join(lines)


def _line(x0: float, y0: float, x1: float, y1: float) -> Markup:
    ends = f"start: ({mm(x0)}, {mm(y0)}), end: ({mm(x1)}, {mm(y1)})"
    return f"#place(top + left)[#line({ends}, stroke: 0.25pt + black)]"


def _slug(sheet: Sheet, line: str) -> Markup:
    return (
        f"#place(bottom + center, dy: -4.5mm)[#block(width: {mm(sheet.width - 20)})"
        f'[#align(center)[#set text(size: 6.5pt, number-type: "lining"); #sans[{text(line)}]]]]'
    )
