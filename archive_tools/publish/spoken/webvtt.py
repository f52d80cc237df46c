"""Chapters and captions for a recording of a tour, as WebVTT (W3C Candidate Recommendation, 4 April 2019)."""

from __future__ import annotations

import re
from dataclasses import dataclass

from archive_tools.model.speech import words_in

LINE = 37
"""Characters in a line of captions, and two lines at most. Common practice of broadcasters, no source."""
WIDE_LINE = 16
"""The same in Chinese and Japanese."""

_SENTENCE = re.compile(
    r"(?:(?<=[.!?])|(?<=[.!?][”’\"')\]»]))\s+(?![a-z])|(?:(?<=[。！？])|(?<=[。！？][」』）]))(?![」』）])\s*"
)
"""Where a sentence ends: after a point only before a space, so that S1979.2 and 3.5 stay whole."""
_WIDE = re.compile(r"[\u3040-\u30ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff]")
_BREAKS = re.compile(r"(?<=[、。，；：！？」）])|(?<=\s)")


@dataclass(frozen=True, slots=True)
class Cue:
    """Words from one millisecond of a recording to another. `id` may be ""."""

    begin: int
    end: int
    text: str
    id: str = ""


def webvtt(cues: tuple[Cue, ...], title: str = "", language: str = "") -> str:
    """The cues as a file. Their texts are plain text: `&`, `<` and `>` are escaped, blank lines in them are dropped.

    title, language: written as a comment, where they are given; the format has no field for them.
    """
    parts = ["WEBVTT"]
    note = " ".join(part for part in (title, f"({language})" if language else "") if part)
    if note:
        parts.append("NOTE " + _one_line(note).replace("-->", "→"))
    for cue in cues:
        lines = [line for line in (_one_line(line) for line in cue.text.splitlines()) if line]
        head = [_one_line(cue.id).replace("-->", "→")] if cue.id else []
        timing = f"{timestamp(cue.begin)} --> {timestamp(max(cue.end, cue.begin + 1))}"
        parts.append("\n".join([*head, timing, *(escaped(line) for line in lines)]))
    return "\n\n".join(parts) + "\n"


def timestamp(milliseconds: int) -> str:
    """Like 00:14:05.250; hours have two digits or more."""
    seconds, rest = divmod(milliseconds, 1000)
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}.{rest:03d}"


def escaped(text: str) -> str:
    """Text as cue text: the three signs that mean something there become references."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def captions(text: str, begin: int, end: int) -> tuple[Cue, ...]:
    """A text as captions of two short lines, between two milliseconds, each for as long as its words' share of it."""
    pieces = [piece for sentence in _SENTENCE.split(" ".join(text.split())) if sentence for piece in _pieces(sentence)]
    weights = [max(words_in(piece), 0.5) for piece in pieces]
    whole, cues, passed = sum(weights), [], 0.0
    for piece, weight in zip(pieces, weights, strict=True):
        start = begin + round((end - begin) * passed / whole)
        passed += weight
        cues.append(Cue(start, begin + round((end - begin) * passed / whole), piece))
    return tuple(cues)


def _pieces(sentence: str) -> list[str]:
    """A sentence in pieces of at most two lines, broken at spaces (or, in scripts without, after punctuation)."""
    most = WIDE_LINE if _WIDE.search(sentence) else LINE
    lines: list[str] = []
    for word in (piece for piece in _BREAKS.split(sentence) if piece):
        rest = word
        while rest:
            room = most - len(lines[-1]) if lines else 0
            if lines and len(rest.rstrip()) <= room:
                lines[-1] += rest
                rest = ""
            elif len(rest.rstrip()) <= most:
                lines.append(rest)
                rest = ""
            else:
                lines.append(rest[:most])
                rest = rest[most:]
    whole = [line.strip() for line in lines if line.strip()]
    return ["\n".join(whole[at : at + 2]) for at in range(0, len(whole), 2)]


def _one_line(text: str) -> str:
    return " ".join(text.split())
