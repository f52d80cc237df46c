"""A table as text (RFC 4180) taken apart with the place of every cell; commas, semicolons or tabs between the cells."""

from __future__ import annotations

from dataclasses import dataclass

_SIGNS = (",", ";", "\t")


@dataclass(frozen=True, slots=True)
class Cell:
    """What one cell holds, and where it begins; lines and columns count from 1."""

    text: str
    line: int
    column: int


class BadTableError(ValueError):
    """A table that cannot be taken apart: where, what is wrong, what to write instead."""

    def __init__(self, line: int, column: int, what: str, instead: str) -> None:
        super().__init__(what)
        self.line, self.column, self.what, self.instead = line, column, what, instead


def rows_of(text: str) -> list[list[Cell]]:
    """The rows of a table (its line ends: line feeds), without empty ones. Raises BadTableError for broken quotes."""
    sign = separator_of(text.partition("\n")[0])
    rows: list[list[Cell]] = []
    row: list[Cell] = []
    at, line, line_start = 0, 1, 0
    while True:
        begin = (line, at - line_start + 1)
        if text.startswith('"', at):
            value, end = _quoted(text, at, *begin)
            breaks = text.count("\n", at, end)
            if breaks:
                line, line_start = line + breaks, text.rindex("\n", at, end) + 1
            at = end
            if at < len(text) and text[at] not in (sign, "\n"):
                what = "something stands between the closing quotation mark and the end of the cell"
                instead = 'quotation marks round the whole cell, and two ("") for each one inside it'
                raise BadTableError(line, at - line_start + 1, what, instead)
        else:
            end = min(_next(text, sign, at), _next(text, "\n", at))
            value, at = text[at:end], end
            if '"' in value:
                what = "a quotation mark stands inside a cell that does not begin with one"
                instead = 'quotation marks round the whole cell, and two ("") for each one inside it'
                raise BadTableError(line, begin[1] + value.index('"'), what, instead)
        row.append(Cell(value, *begin))
        if at < len(text) and text[at] == sign:
            at += 1
            continue
        if any(cell.text.strip() for cell in row):
            rows.append(row)
        row = []
        if at >= len(text):
            return rows
        at, line = at + 1, line + 1
        line_start = at


def separator_of(header: str) -> str:
    """The sign that stands between the cells of a header; a comma where there is only one cell."""
    return max(_SIGNS, key=lambda sign: (header.count(sign), sign == ","))


def _quoted(text: str, at: int, line: int, column: int) -> tuple[str, int]:
    """The value of the quoted cell that begins at `at`, and where it ends."""
    pieces = []
    start = at + 1
    while True:
        end = text.find('"', start)
        if end < 0:
            what = "a quotation mark is opened here and never closed"
            raise BadTableError(line, column, what, "a quotation mark at the end of the cell")
        pieces.append(text[start:end])
        if not text.startswith('"', end + 1):
            return '"'.join(pieces), end + 1
        start = end + 2


def _next(text: str, sign: str, at: int) -> int:
    found = text.find(sign, at)
    return len(text) if found < 0 else found
