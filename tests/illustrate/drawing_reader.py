"""Reads SVG drawings back, by their markup alone: where words, bars and marks stand, and at which years."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from datetime import date
from functools import cache
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

from PIL import ImageFont

import archive_tools
from archive_tools.illustrate.svg_text import SIZES, SPACE, width_of

SPACE_OF_NAMES = "{http://www.w3.org/2000/svg}"
FONTS = Path(archive_tools.__file__).parent / "print_fonts"
FACES = {
    "who": ("EBGaramond-Regular.ttf", "CrimsonPro-Figures.ttf"),
    "gap-word": ("EBGaramond-Italic.ttf", "CrimsonPro-Figures-Italic.ttf"),
    "": ("SourceSans3-Regular.otf", "SourceSans3-Regular.otf"),
}
"""The theme's faces as fonts that can be measured: of letters, and of figures."""


@dataclass(frozen=True)
class Box:
    words: str
    left: float
    right: float
    top: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.right - 0.01
            and other.left < self.right - 0.01
            and self.top < other.bottom
            and other.top < self.bottom
        )


def parse(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def each(markup: str) -> list[str]:
    """The drawings of a page's part, one by one."""
    return re.findall(r'<svg class="drawing.*?</svg>(?=<svg class="drawing|$)', markup, re.DOTALL)


def across_of(markup: str) -> str:
    """The drawing with time from left to right."""
    return next(svg for svg in each(markup) if 'class="drawing wide"' in svg)


def upright_of(markup: str) -> str:
    """The drawing for a phone."""
    return next(svg for svg in each(markup) if 'class="drawing upright"' in svg)


def classes(element: ElementTree.Element) -> set[str]:
    return set(element.get("class", "").split())


def runs_of(text: ElementTree.Element) -> list[tuple[str, str]]:
    """The parts of a line of words: each with its class, among those that have a size of type."""
    runs = [("".join(span.itertext()), classes(span)) for span in text.iter("tspan")] or [
        (text.text or "", classes(text))
    ]
    return [(words, next((css for css in ("who", "gap-word", "by") if css in known), "")) for words, known in runs]


def boxes(svg: str, across: float, phone: bool, real: bool = False) -> list[Box]:
    """The boxes of all the words that are shown in a drawing `across` pixels wide.

    real: by the widths of the glyphs in the theme's own faces; else by the widths the drawing takes them to have at
    most, in any face.
    """
    found = []
    for text in parse(svg).iter("text"):
        if phone and "minor" in classes(text):
            continue
        runs = runs_of(text)
        width = sum(glyphs(words, css) if real else width_of(words, SIZES[css]) for words, css in runs)
        # Between two runs: a word space of the larger type, and the shift that the second has.
        width += (4 + 0.28 * max(SIZES[css] for _, css in runs) if real else SPACE) * (len(runs) - 1)
        x = float(re.fullmatch(r"([\d.]+)%", text.get("x"))[1]) / 100 * across + float(text.get("dx", "0"))
        x -= {"start": 0.0, "middle": width / 2, "end": width}[text.get("text-anchor", "start")]
        y, size = float(text.get("y")), max(SIZES[css] for _, css in runs)
        found.append(Box(" ".join(words for words, _ in runs), x, x + width, y - 0.75 * size, y + 0.25 * size))
    return found


@cache
def glyphs(words: str, css: str) -> float:
    """How wide the words are in the theme's face, by its glyphs; a letter the face lacks is taken at its widest."""
    size = SIZES[css]
    width = 0.0
    for known, part in _parts(words, css):
        width += _face(css, known).getlength(part) * size / 100 if known else width_of(part, size)
    return width


def _parts(words: str, css: str) -> list[tuple[str, str]]:
    """The words in pieces of one face: "letters", "figures", or "" for what neither has."""
    pieces: list[tuple[str, str]] = []
    for letter in words:
        plain = unicodedata.normalize("NFC", letter)
        known = "figures" if plain in "0123456789" else "letters" if has_letter(css, plain) else ""
        if pieces and pieces[-1][0] == known:
            pieces[-1] = (known, pieces[-1][1] + letter)
        else:
            pieces.append((known, letter))
    return pieces


@cache
def _face(css: str, known: str) -> ImageFont.FreeTypeFont:
    letters, figures = FACES.get(css, FACES[""])
    return ImageFont.truetype(FONTS / (figures if known == "figures" else letters), 100)


@cache
def has_letter(css: str, letter: str) -> bool:
    """Whether the face has the letter: then it is not drawn as the box that stands for what is missing."""
    if letter in " \u00a0":
        return True
    mask = _face(css, "letters").getmask
    return bytes(mask(letter)) != bytes(mask("\U0010fffd"))


def all_of(svg: str, name: str, css: str | None = None) -> list[ElementTree.Element]:
    """The elements of a drawing with this name, and of this class."""
    return [element for element in parse(svg).iter(name) if css is None or css in classes(element)]


def share(element: ElementTree.Element, attribute: str = "x") -> float:
    return float(element.get(attribute).rstrip("%")) / 100


def assert_clear(svg: str, across: float, phone: bool) -> None:
    """No two lines of words meet, and none leaves the drawing: by their widest, and by their real glyphs."""
    height = float(parse(svg).get("height"))
    for real in (False, True):
        shown = boxes(svg, across, phone, real)
        for box in shown:
            assert box.left >= -0.5, (across, real, box)
            assert box.right <= across + 0.5, (across, real, box)
            assert box.top >= 0, (across, real, box)
            assert box.bottom <= height, (across, real, box)
        for one, other in combinations(shown, 2):
            assert not one.meets(other), (across, real, one, other)


@dataclass(frozen=True)
class Years:
    """The line of years of a drawing, read off its own figures: where a day stands in it."""

    first: int
    last: int
    start: float
    end: float

    def at(self, day: date) -> float:
        """The day's place between the two outermost figures, in proportion to the days."""
        days = (day - date(self.first, 1, 1)).days / (date(self.last, 1, 1) - date(self.first, 1, 1)).days
        return self.start + days * (self.end - self.start)


def figures_of(svg: str) -> list[ElementTree.Element]:
    """The years in figures: they stand in a group of their own, which is no row."""
    return [text for group in parse(svg).iter("g") if not classes(group) for text in group.findall("text")]


def years_across(svg: str) -> Years:
    """Of a drawing with time from left to right: shares of its width."""
    numbers = figures_of(svg)
    return Years(int(numbers[0].text), int(numbers[-1].text), share(numbers[0]), share(numbers[-1]))


def years_down(svg: str) -> Years:
    """Of a drawing with time running down: pixels from its top."""
    numbers = figures_of(svg)
    first, last = numbers[0], numbers[-1]
    return Years(int(first.text), int(last.text), float(first.get("y")) - 5, float(last.get("y")) - 5)


def rows(svg: str, css: str) -> list[ElementTree.Element]:
    """The groups of one class, in the order in which they are drawn and read."""
    return [group for group in parse(svg).iter("g") if css in classes(group)]


def said(row: ElementTree.Element) -> str:
    """The words of a row."""
    return " ".join("".join(text.itertext()) for text in row.iter("text"))


def extent(row: ElementTree.Element, down: bool = False) -> tuple[float, float]:
    """From where to where a row's bars run along the line of years, what fades and what is dotted included."""
    ends: list[float] = []
    for bar in row.iter("rect"):
        first = float(bar.get("y")) if down else share(bar)
        ends += [first, first + (float(bar.get("height")) if down else share(bar, "width"))]
    for line in row.iter("line"):
        if "gap" in classes(line):
            ends += [
                float(line.get(name)) if down else share(line, name)
                for name in (("y1", "y2") if down else ("x1", "x2"))
            ]
    return min(ends), max(ends)


def marks(row: ElementTree.Element, css: str, down: bool = False) -> list[float]:
    """Where a row's marks of one class stand on the line of years."""
    return [float(line.get("y1")) if down else share(line, "x1") for line in row.iter("line") if css in classes(line)]
