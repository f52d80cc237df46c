"""The expressions of time in a clause, each with the part it can play: since 1953, in 1951, for sixty years, in its 61st year."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from functools import cache

from archive_tools.model.dates import DatePolicy
from archive_tools.model.findings import Bounds
from archive_tools.reason.prose.lengths import AGED, COUNT, LENGTH, NTH, VAGUE
from archive_tools.reason.prose.years import WHEN, days_of

__all__ = ["Role", "Time", "times_in"]


class Role(Enum):
    """What an expression of time can say of a beginning."""

    SINCE = "since 1953, from 1953 on"
    AT = "in 1953, on 16 April 1988, between 1961 and 1963, not until 1953"
    BARE = "1953, without a preposition"
    BY = "by 1953, before 1953"
    LENGTH = "sixty years"
    COUNT = "sixty, the years left to be understood"
    AGO = "sixty years ago, it is sixty years since"
    NTH = "its sixty-first year"
    AGED = "its sixties"
    OTHER = "a time that tells nothing of a beginning"


@dataclass(frozen=True, slots=True)
class Time:
    """One expression in clause[begin:end]. `days` of a named time; a length has `words` to be counted from a day.

    `lead` is the preposition before a length ("for", "after", "").
    """

    begin: int
    end: int
    role: Role
    lead: str
    words: re.Match[str]
    days: Bounds | None = None


_FLAGS = re.I | re.X
_LEADS = r"(?:\b(?P<lead>for|in|after|over(?=\s+(?:the|these|its|those|all)\b)|during|through|within|with|of|at|by|these)\s+)?"
_EDGE = r"(?<![\w.,’'-])"


@cache
def _point() -> re.Pattern[str]:
    return re.compile(
        rf"""(?:\b(?P<role>(?:not|only)\ (?:until|till)|only\ (?:in|from|since)|ever\ since|since|from|in|on|during|between|until|till|of|at|to|up\ to)[\s,]+|(?<![\w.,’'-]))
        (?:(?:some\ ?time|somewhere|as\ far\ back\ as|as\ long\ ago\ as|way\ back\ in|early\ on\ in|late\ in|one\ \w+\ day\ in|the\ year|
           a\ \w+day\ in|\w+day,?|the\ (?:first|last)\ (?:days?|weeks?|months?)\ of|the\ night\ of|the\ days\ of)\s+)?
        (?P<inner>(?:in|between|from)\s+)?
        (?<![\w.,’'-]){WHEN}(?![\w]|\.[0-9])
        (?P<span>\s+(?:on(?:wards?\b|\b(?!\ (?:the|an?|its|his|her|this|our|one|\w+day)\b))|to\ (?:this\ day|the\ present|today|now)\b|till\ (?:now|today)\b|until\ (?:now|today)\b))?
        """,
        _FLAGS,
    )


@cache
def _length() -> re.Pattern[str]:
    return re.compile(rf"{_LEADS}{_EDGE}{LENGTH}(?!\w)(?P<then>\s+(?:ago|back)\b)?", re.I)


@cache
def _others() -> tuple[tuple[Role, re.Pattern[str]], ...]:
    return (
        (
            Role.COUNT,
            re.compile(
                rf"\b(?P<lead>for)\s+{COUNT}(?=\s*(?:[.,;:)!—–]|$|and\b|now\b|but\b|of\s+(?:them|those|these)\b))", re.I
            ),
        ),
        (
            Role.NTH,
            re.compile(
                rf"(?:\b(?P<lead>in|since|after|until|of|for|by)\s+)?\b(?:its|the|this|a|[\w]+['’]s)\s+{NTH}\b", re.I
            ),
        ),
        (Role.LENGTH, re.compile(rf"(?P<lead>(?!))?\b{VAGUE}", re.I)),
        (Role.AGED, re.compile(rf"\b(?P<lead>in|into)\s+its\s+{AGED}\b", re.I)),
    )


_SINCE_IT = re.compile(
    r"(?:,?\s+(?:now|ago))?\s+(?:have\s+|has\s+)?(?:passed\s+|gone\s+by\s+|gone\s+)?(?:since|(?:from|after)\s+the\s+day)\s+(?=\D)",
    re.I,
)
_NOT_OF_A_BEGINNING = re.compile(
    r"\b(?:every|each|other|another|next|further|first|final|within|than|later|additional|some other|for)\s+$", re.I
)
_OF_ANOTHER_TIME = re.compile(
    r"[\s-]+(?:later|earlier|before|after|apart|younger|hence|from now|running|ahead|in a row|to come|to go|at a time|each|between|"
    r"more\b|longer|too\b|into\b|out of|without|unpruned|untouched|without)\b",
    re.I,
)


def times_in(clause: str, policy: DatePolicy) -> list[Time]:
    """The times in a clause in the order of its words; they do not overlap."""
    found: list[Time] = []

    def put(time: Time) -> None:
        if not any(time.begin < other.end and other.begin < time.end for other in found):
            found.append(time)

    for match in _length().finditer(clause):
        role, end = Role.LENGTH, match.end()
        after = clause[end:]
        begin = match.start()
        lead = (match["lead"] or "").casefold()
        waits = _SINCE_IT.match(after)
        if match["then"]:
            role = Role.AGO
        elif waits:
            role, end = Role.AGO, end + waits.end()
        elif _NOT_OF_A_BEGINNING.search(clause[:begin]) or _OF_ANOTHER_TIME.match(after):
            role = Role.OTHER
        put(Time(begin, end, role, lead, match))
    for kind, pattern in _others():
        for match in pattern.finditer(clause):
            put(Time(match.start(), match.end(), kind, (match["lead"] or "").casefold(), match))
    for match in _point().finditer(clause):
        begin, end = match.start() + len(match[0]) - len(match[0].lstrip(" ,")), match.end()
        put(Time(begin, end, _role(match, clause), (match["role"] or "").casefold(), match, days_of(match, policy)))
    return sorted(found, key=lambda time: time.begin)


def _role(match: re.Match[str], clause: str) -> Role:
    word = re.sub(r"\s+", " ", (match["role"] or "").casefold())
    bounded = bool(match["before"] or match["notafter"])
    ends = re.match(r"\s+(?:until|till|to|up to)\s", clause[match.end() :], re.I) and not match["span"]
    through = bool(match["year2"]) and word == "from" and re.search(r"\bto\b", match[0], re.I)
    if word in ("until", "till", "to", "up to"):
        return (
            Role.AT
            if re.search(r"\bnot\b[^,;]*\s$", clause[: match.start()], re.I) and word in ("until", "till")
            else Role.OTHER
        )
    if word.endswith("since") or word in ("from", "only from"):
        return Role.OTHER if ends or through else Role.SINCE
    if ends and word != "between":
        return Role.OTHER
    if match["notbefore"] or match["after"]:
        return Role.AT
    if bounded:
        return Role.BY
    if word == "of":
        return Role.BARE
    if match["inner"]:
        return Role.AT
    if not word:
        return Role.BARE if not match["about"] and not match["after"] else Role.AT
    return Role.AT
