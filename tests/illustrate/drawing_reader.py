"""Reads an SVG drawing back: where each line of words stands, by its markup alone."""

from __future__ import annotations

import re
from dataclasses import dataclass
from xml.etree import ElementTree

from archive_tools.illustrate.svg_text import SIZES, SPACE, width_of

SPACE_OF_NAMES = "{http://www.w3.org/2000/svg}"


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


def classes(element: ElementTree.Element) -> set[str]:
    return set(element.get("class", "").split())


def boxes(svg: str, across: float, phone: bool) -> list[Box]:
    """The boxes of all the words that are shown in a drawing `across` pixels wide."""
    found = []
    for text in parse(svg).iter("text"):
        if phone and "minor" in classes(text):
            continue
        runs = [(span.text or "", classes(span)) for span in text.iter("tspan")] or [(text.text or "", classes(text))]
        sizes = [next((SIZES[css] for css in ("who", "gap-word") if css in known), SIZES[""]) for _, known in runs]
        width = sum(width_of(words, size) for (words, _), size in zip(runs, sizes, strict=True))
        width += SPACE * (len(runs) - 1)
        x = float(re.fullmatch(r"([\d.]+)%", text.get("x"))[1]) / 100 * across + float(text.get("dx", "0"))
        x -= {"start": 0.0, "middle": width / 2, "end": width}[text.get("text-anchor", "start")]
        y, size = float(text.get("y")), max(sizes)
        found.append(Box(" ".join(words for words, _ in runs), x, x + width, y - 0.75 * size, y + 0.25 * size))
    return found
