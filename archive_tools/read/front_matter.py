"""Front matter and Markdown taken apart. What was meant as front matter never becomes text."""

from __future__ import annotations

import re
from dataclasses import dataclass

_FENCE = re.compile(r"---[ \t]*")
_LIKE_A_FENCE = re.compile(r"(?:-{2,}|[–—]+-*|\+{3,}|={3,})[ \t]*")
_LIKE_A_KEY = re.compile(
    r"(?:id|kind|date|until|by|from|to|with|trees|event|title|visibility|public_from|source|grade|edition)"
    r"[ \t]*:(?:\s|$)"
)


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """A file in two. `head` is YAML (None: there is none) that begins at `head_line`; `body` begins at `body_line`."""

    head: str | None
    body: str
    head_line: int = 2
    body_line: int = 1


@dataclass(frozen=True, slots=True)
class BrokenFrontMatter:
    """Front matter that cannot be told from text: at which line, why, and what to write."""

    line: int
    what: str
    instead: str


def split_front_matter(text: str) -> FrontMatter | BrokenFrontMatter:
    """Part the YAML between two lines of three dashes at the top of the file from the Markdown below it."""
    lines = text.split("\n")
    if not _FENCE.fullmatch(lines[0]):
        return _without(text, lines)
    for number, line in enumerate(lines[1:], start=2):
        if _FENCE.fullmatch(line):
            body_line = number + 1
            while body_line <= len(lines) and not lines[body_line - 1].strip():
                body_line += 1
            return FrontMatter("\n".join(lines[1 : number - 1]), "\n".join(lines[body_line - 1 :]), 2, body_line)
    near = next((number for number, line in enumerate(lines[1:], start=2) if _LIKE_A_FENCE.fullmatch(line)), None)
    if near is not None:
        return BrokenFrontMatter(near, "the front matter ends with something other than three dashes", "---")
    return BrokenFrontMatter(
        1, "the front matter that begins here is never closed", "--- on a line of its own below it"
    )


def _without(text: str, lines: list[str]) -> FrontMatter | BrokenFrontMatter:
    number, first = next(((n, line) for n, line in enumerate(lines, start=1) if line.strip()), (1, ""))
    if _FENCE.fullmatch(first.strip()):
        what = "front matter begins in the first column of the first line, and this stands elsewhere"
        return BrokenFrontMatter(number, what, "--- as the very first line, with nothing before it")
    if _LIKE_A_FENCE.fullmatch(first.strip()):
        return BrokenFrontMatter(number, "front matter begins with exactly three dashes", "---")
    if _LIKE_A_KEY.match(first):
        what = "this looks like front matter, and the line of three dashes above it is missing"
        return BrokenFrontMatter(number, what, "--- above it and below its last key")
    return FrontMatter(None, text, 1, 1)
