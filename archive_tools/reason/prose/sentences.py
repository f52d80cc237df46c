"""A text cut into sentences and clauses, each with the line on which it begins."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

_TOKEN = re.compile(r"\{\{.*?\}\}", re.S)
_REFERENCE = re.compile(r"\[\[([^\]]*)\]\]")
_PARAGRAPH = re.compile(r"\n\s*\n|\n(?=\s*(?:[-*+]|\d+\.|#+|>)\s)")
_END = re.compile(r"(?<![A-Z]\.)(?<!\bp\.)(?<!\bpp\.)(?<!\bc\.)(?<!\bca\.)(?<!\bvol\.)(?<!\bno\.)(?<!\bMr\.)(?<!\bDr\.)"
                  r"(?<=[.!?])[\"”’)]*\s+(?=[\"“‘(\[]*[A-Z0-9ÀÖØÞ])")  # fmt: skip
_CLAUSE = re.compile(
    r"[;:]\s|\s[—–-]\s|\s*—\s*|,\s+(?=(?:and|but|while|whereas|which|who|whose|though|although|when|where|because|so|yet|"
    r"it|its|the|this|he|she|they|we|nobody|now|says?|said)\b)",
    re.I,
)


_FRONTED = re.compile(r"\W*(?:since|from|for|in|by|until|at|after|on|now|today)\b(?:\s+[\w’'-]+){0,5}", re.I)
"""An adverbial before its own clause ("Since 1953, it has …") is no clause."""


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

    def clauses(self) -> Iterator[str]:
        """Its clauses, cut where another subject may begin."""
        begin = 0
        for cut in _CLAUSE.finditer(self.text):
            if _FRONTED.fullmatch(self.text[begin : cut.start()]):
                continue
            yield self.text[begin : cut.start()]
            begin = cut.end()
        yield self.text[begin:]


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
