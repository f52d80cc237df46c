"""Whether words have room in a box: measured with a real typeface, and with a margin for another in its place.

Slides are shown on machines whose typefaces nobody knows. Words are measured in the site's own serif and taken to be as
much wider as the widest common substitute (DejaVu Serif: 1.34 times on a passage of English) and a little more.
"""

from __future__ import annotations

import unicodedata
from functools import cache
from pathlib import Path

from PIL import ImageFont

_FONT = Path(__file__).resolve().parents[2] / "theme" / "assets" / "fonts" / "eb-garamond-400.woff2"
WIDER = 1.36
LEADING = 1.25
POINT = 25.4 / 72
"""Millimetres."""


@cache
def _font() -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(_FONT), 1000)


def width(text: str, points: float) -> float:
    """Millimetres that a line of text may take at most; characters of full width count as square."""
    wide = sum(unicodedata.east_asian_width(c) in "WF" for c in text)
    narrow = "".join(c for c in text if unicodedata.east_asian_width(c) not in "WF")
    return (_font().getlength(narrow) / 1000 * WIDER + wide) * points * POINT


def lines_of(text: str, points: float, box: float) -> int:
    """How many lines a paragraph takes in a box so wide, broken between words (anywhere in full-width text)."""
    count, line = 1, ""
    for word in _pieces(text):
        if line and width((line + word).rstrip(), points) > box:
            count, line = count + 1, word.lstrip()
        else:
            line += word
    return count


def height(paragraphs: tuple[str, ...], points: float, box: float) -> float:
    """Millimetres that paragraphs take, one under the other."""
    return sum(lines_of(paragraph, points, box) for paragraph in paragraphs if paragraph) * points * LEADING * POINT


def largest(paragraphs: tuple[str, ...], sizes: tuple[float, ...], box: tuple[float, float]) -> float | None:
    """The largest of the sizes (points, falling) at which the paragraphs fit a box (wide, high); None where none does.

    A word that is wider than the box does not fit.
    """
    for points in sizes:
        widest = max((width(word.strip(), points) for p in paragraphs for word in _pieces(p)), default=0.0)
        if widest <= box[0] and height(paragraphs, points, box[0]) <= box[1]:
            return points
    return None


def _pieces(text: str) -> list[str]:
    pieces: list[str] = []
    for character in text:
        is_wide = unicodedata.east_asian_width(character) in "WF"
        last_wide = bool(pieces) and unicodedata.east_asian_width(pieces[-1][-1]) in "WF"
        if not pieces or is_wide or last_wide or pieces[-1].endswith(" "):
            pieces.append(character)
        else:
            pieces[-1] += character
    return pieces
