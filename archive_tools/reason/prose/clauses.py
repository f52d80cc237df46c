"""A sentence cut into clauses and inserts, each standing where it stood, with the rest of the sentence left blank."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

__all__ = ["Clause", "clauses"]


@dataclass(frozen=True, slots=True)
class Clause:
    """One clause. `text` is as long as its sentence and blank outside the clause, so places in it are places there.

    `host`: of an insert the words of its clause before it, whose subject it goes on with; else None. `remarks`: what is put in that hedges it ("it is thought").
    """

    text: str
    begin: int
    host: str | None = None
    remarks: str = ""


_CUT = re.compile(
    r"[;:]\s|(?<!\d)\s[—–-]\s(?!\d)|(?<=\d)\s[—-]\s|\s*—\s*|,\s+(?=(?:and|but|while|whereas|which|who|whose|though|although|when|where|because|so|yet|"
    r"it|its|the|this|he|she|they|we|nobody|now|says?|said)\b)",
    re.I,
)
_FRONTED = re.compile(
    r"\W*(?:(?:and|but)\s+)?(?:since|from|for|in|by|until|at|after|on|now|today|with|over|not|only|begun|according|some|nearly|between|before|about)\b"
    r"(?:(?!\s+(?:was|were|is|are|has|had|have)\b)\s+[\w’'-]+){0,9}",
    re.I,
)
"""An adverbial before its own clause ("Since 1953, it has …") is no clause."""
_LABEL = re.compile(r"\W*(?:\w+\s*){1,3}:\s")
_VERB = (
    r"(?:has|have|had|is|was|were|did|first|came|comes|arrived|joined|began|went|grew|got|gave|left|sold|brought|potted|struck|collected|planted|trained|stands|"
    r"stood|been|reached|entered|passed|bought|kept|lived|goes|dates|put|sowed|took|made|spent|moved|became)\b"
)
_APPOSED = re.compile(
    rf",\s+(?P<insert>(?!(?:and|but|or)\b)[^,;:“”]+),\s+(?={_VERB})|\s*\((?P<paren>[^()]*)\)|\s+[–—-]\s+(?P<dash>[^–—;:]+?)\s+[–—-]\s+(?=[a-z])"
)
_REMARK = re.compile(
    r",\s+(?P<insert>(?:as|so|says|we (?:think|believe|know)|it (?:seems|is said)|wrapped|with|like|unlike|perhaps|probably|though|said|"
    r"who|which|whose|whom|where)\b[^,;:“”]*),\s+(?!(?:and|but|or|it|its|the|he|she|they|we|this|a|an)\b)"
)
_ADVERBIAL = re.compile(
    r",\s+(?P<insert>(?!(?:and|but|or|in|since|for|from|by)\b|[^,]*(?:\d|\byears?\b|\bdecades?\b|\bcentury\b|\bit\b|\bwas\b|\bis\b|\bhas\b|\bhad\b|\bwere\b))"
    r"[^,;:“”]{3,50}|in (?:the|a|an) \w+ of [^,;:\d]{3,30}),\s+(?=(?:in|since|on|for|from|by|until)\b)"
)
_SHORT = re.compile(
    r",\s+(?P<insert>(?:it (?:is|was) (?:said|thought|believed)|it (?:seems|appears)|(?:we|she|he|they) (?:think|believe|say|says|said|know|guess)|so \w+ says?|as far as we know|"
    r"perhaps|probably|presumably|by all accounts))(?:,\s+|(?=[.!]?$))",
    re.I,
)
_JUST_A_TIME = re.compile(r"(?:in|on|by|since|from|between)\s+(?:[\w-]+\s+){0,3}\d{4}$|(?:begun|started)\b", re.I)
_DATED = re.compile(r"^\W*(?:since|in|from|on)\s[^,]*\d[^,]*,\s+(?P<insert>(?:when|the year|as)\b[^,]*),\s+", re.I)
_FINITE = re.compile(r"\b(?:is|was|are|were|has|had|have|did)\b", re.I)


def clauses(sentence: str) -> Iterator[Clause]:
    """The clauses of a sentence, cut where another subject may begin; its inserts stand apart, after their clause."""
    main = sentence
    inserts: list[Clause] = []
    remarks: list[tuple[int, str]] = []
    for pattern in (_SHORT, _APPOSED, _REMARK, _ADVERBIAL, _DATED):
        for match in pattern.finditer(main):
            group = next(name for name, words in match.groupdict().items() if words is not None)
            host = main[_last_cut(main, match.start()) : match.start()]
            if _JUST_A_TIME.match(match[group]):
                continue
            if pattern is _APPOSED and group == "insert" and (_FINITE.search(host) or len(host.split()) > 7):
                continue
            begin, end = match.span(group)
            if pattern is _SHORT:
                remarks.append((begin, match[group]))
            else:
                inserts.append(Clause(_only(sentence, begin, end), begin, host))
            blank = begin if pattern is _DATED else match.start()
            main = main[:blank] + " " * (match.end() - blank) + main[match.end() :]
    begin = 0
    found = []

    def of_clause(begin: int, end: int) -> Clause:
        said = " ".join(words for at, words in remarks if begin <= at <= end)
        return Clause(_only(main, begin, end), begin, None, said)

    for cut in _CUT.finditer(main):
        part = main[begin : cut.start()]
        if _FRONTED.fullmatch(part) or _LABEL.fullmatch(main[begin : cut.end()]):
            continue
        found.append(of_clause(begin, cut.start()))
        begin = cut.end()
    found.append(of_clause(begin, len(main)))
    yield from sorted([*found, *inserts], key=lambda clause: (clause.begin, clause.host is not None))


def _last_cut(words: str, before: int) -> int:
    return max((cut.end() for cut in _CUT.finditer(words, 0, before)), default=0)


def _only(sentence: str, begin: int, end: int) -> str:
    return " " * begin + sentence[begin:end] + " " * (len(sentence) - end)
