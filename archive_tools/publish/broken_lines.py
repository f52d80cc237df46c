"""Text in lines of a given width, for drawings, in which nothing breaks lines by itself.

Words in Latin letters are parted at spaces; ideographs and kana anywhere, except that no line begins with a mark that
closes (Requirements for Japanese Text Layout, W3C Working Group Note 2020, 3.1.7) or with one half of a word. A stop
that finds no room hangs in the margin, as Japanese printers let it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

EM = {"serif": 0.43, "sans": 0.47}
"""Mean width of a Latin letter in ems in the theme’s faces, a little more than measured; an ideograph takes one em."""
FEWEST = 4
"""However narrow the column, so many letters stand in a line."""

_CLOSING = "、。，．：；！？）〕］｝〉》」』】ー々…‥"
_OPENING = "（〔［｛〈《「『【"
_HANGS = "、。，．"
_WIDE = "\u2e80-\u9fff\uf900-\ufaff\uff01-\uff60"
_PIECE = re.compile(rf"[{_OPENING}]*(?:[{_WIDE}]|[^\s{_WIDE}]+)[{_CLOSING}]*|[{_OPENING}{_CLOSING}]+|\s+")


def broken(text: str, wide: float, size: float, face: str) -> tuple[str, ...]:
    """`text` in lines of at most `wide` units at `size`, in a face of `EM`."""
    room = max(wide / (size * EM[face]) + 1e-9, FEWEST)
    lines: list[str] = []
    line = ""
    for piece in _pieces(text, room, face):
        if line and letters((line + piece).rstrip().rstrip(_HANGS), face) > room:
            lines.append(line.rstrip())
            line = ""
        line += piece if line else piece.lstrip()
    return (*lines, line.rstrip()) if line.rstrip() else tuple(lines)


def letters(text: str, face: str = "serif") -> float:
    """How wide a text is, in mean Latin letters of the face."""
    return sum(1 / EM[face] if unicodedata.east_asian_width(letter) in "WF" else 1.0 for letter in text)


def _pieces(text: str, room: float, face: str) -> Iterator[str]:
    """What is not parted between lines; a word longer than a line is, there being no other way."""
    for found in _PIECE.finditer(text):
        piece = " " if found[0].isspace() else found[0]
        while len(piece) > 1 and letters(piece.rstrip(_HANGS), face) > room:
            fits = next(at for at in range(len(piece), 0, -1) if at == 1 or letters(piece[:at], face) <= room)
            yield piece[:fits]
            piece = piece[fits:]
        yield piece
