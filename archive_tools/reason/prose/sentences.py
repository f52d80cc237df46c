"""A text cut into sentences, each with the line on which it begins."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

_TOKEN = re.compile(r"\{\{.*?\}\}", re.S)
_REFERENCE = re.compile(r"\[\[([^\]]*)\]\]")
_PARAGRAPH = re.compile(r"\n\s*\n|\n(?=\s*(?:[-*+]|\d+\.|#+|>)\s)")
_END = re.compile(r"(?<![A-Z]\.)(?<!\bp\.)(?<!\bpp\.)(?<!\bc\.)(?<!\bca\.)(?<!\bvol\.)(?<!\bno\.)(?<!\bMr\.)(?<!\bDr\.)"
                  r"(?<=[.!?])[\"”’)]*\s+(?=[\"“‘(\[]*[A-Z0-9ÀÖØÞ])")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence. `line` counts from 0 within the text; `begins_paragraph` tells that nothing it could refer back to
    stands before it.
    """

    text: str
    line: int
    begins_paragraph: bool

    @property
    def asks(self) -> bool:
        """Whether it is a question."""
        return self.text.rstrip('"”’) ').endswith("?")


def sentences(text: str) -> Iterator[Sentence]:
    """The sentences of a Markdown text. Tokens that the chronology fills claim nothing; references lose their brackets."""
    plain = _TOKEN.sub(lambda m: "…" + "\n" * m[0].count("\n"), text)
    plain = _REFERENCE.sub(lambda m: f"({'x' * len(m[1])})", plain)
    begin = 0
    for gap in [*_PARAGRAPH.finditer(plain), None]:
        end = gap.start() if gap else len(plain)
        yield from _of_paragraph(plain, begin, end)
        begin = gap.end() if gap else end


def _of_paragraph(text: str, begin: int, end: int) -> Iterator[Sentence]:
    first = True
    at = begin
    for stop in [*_END.finditer(text, begin, end), None]:
        until = stop.start() if stop else end
        raw = text[at:until]
        words = raw.strip()
        if words:
            line = text.count("\n", 0, at + len(raw) - len(raw.lstrip()))
            yield Sentence(re.sub(r"\s+", " ", re.sub(r"^(?:[-*+>]|#+)\s+", "", words)), line, first)
            first = False
        at = stop.end() if stop else end
