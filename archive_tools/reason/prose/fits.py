"""Whether a time can be said of a phrase of the same clause, by their kinds and by what stands between them."""

from __future__ import annotations

import re

from archive_tools.reason.prose.predicates import Kind, Predicate
from archive_tools.reason.prose.times import Role, Time

__all__ = ["TAKES", "attests", "fits"]

_HAPPENED = frozenset({Kind.EVENT, Kind.ACT, Kind.BEGAN})
TAKES: dict[Kind, frozenset[Role]] = {
    Kind.STATE: frozenset({Role.SINCE, Role.BY, Role.AT, Role.LENGTH, Role.COUNT, Role.NTH}),
    Kind.NOUN: frozenset({Role.SINCE, Role.LENGTH, Role.NTH}),
    Kind.LASTED: frozenset({Role.SINCE, Role.LENGTH}),
    Kind.COUNTED: frozenset({Role.LENGTH, Role.NTH}),
    Kind.EVENT: frozenset({Role.AT, Role.BARE, Role.BY, Role.SINCE, Role.AGO}),
    Kind.ACT: frozenset({Role.AT, Role.BARE, Role.BY, Role.SINCE, Role.AGO}),
    Kind.BEGAN: frozenset({Role.AT, Role.BARE, Role.BY, Role.SINCE, Role.AGO}),
    Kind.AGE_AFTER: frozenset({Role.LENGTH}),
    Kind.AGE_BEFORE: frozenset({Role.LENGTH}),
    Kind.IS: frozenset(),
    Kind.DATES: frozenset({Role.LENGTH, Role.AT, Role.BARE, Role.SINCE, Role.OTHER, Role.BY, Role.AGO}),
}
_MOST_WORDS = 9
_TURNS = re.compile(
    r";|:(?=\s*\S)|\b(?:but|again|second|third|fourth|present|current|new|until|till|after|before|when|while|whereas|because|than|every|each|which|who|"
    r"whose|if|then|last(?!\s+(?:week|month|year|spring|summer|autumn|winter)\b)|finally|re\w+ed|twice|once more)\b",
    re.I,
)
"""Between a phrase and a time these turn to something else."""
_FINITE = re.compile(r"\b(?:was|were|is|are|had|has|have|did|does|that|would)\b", re.I)
_MERELY_IS = re.compile(r"\s*,?\s*(?:was|is|came|took\s+place|fell|lies|lay|happened|itself)\s*(?:only\s*)?$", re.I)
_ANOTHER_VERB = re.compile(
    r"\b(?!(?:lived|stayed|remained|resided|indeed|need|seed|said|called|named|believed|supposed|red|aged)\b)\w{2,}ed\b|\b(?:shown|seen|left|sold|kept|bought|won|took)\b",
    re.I,
)
_JOINED_VERB = re.compile(r"\band\b(?!\s+(?:his|her|the|a|its|their|[A-Z]|in\b|on\b))", re.I)
_CLEFT = re.compile(
    r"\s*[,:]?\s*(?:(?:saw|marks|marked|brought)\b|(?:is|was)\s+(?:when|the\s+(?:year|date|day)\b))", re.I
)
_FILLER = re.compile(
    r"(?:\s|['’,-]|\b(?:of|in|spent|under|now|so|far|already|long|old|it|has|been|is|as|continuous|unbroken|patient|steady|slow|constant|careful|quiet|"
    r"hard|good|solid|a|its|the|this|total|altogether|behind|stood|lived|grown|standing|living|kept|growing|or|more)\b)*",
    re.I,
)
_JOINS = re.compile(r"\b(?:and|but|then)\s*,?\s*$", re.I)
_IT_WAS = re.compile(r"\bit\s+(?:was|is)\s+(?:only\s+)?$", re.I)
_WHEN = re.compile(r"^\s*(?:when|that)\b", re.I)
_ALREADY = re.compile(r"\b(?:already|long)\b", re.I)
_STOCK = re.compile(r"\b(?:seed|seedling|cutting|layer)$", re.I)
_THE_YEAR = re.compile(r"\b(?:year|date|day)\b", re.I)
_NOT_UNTIL = ("not", "only", "until", "till")
_IS_NOW = re.compile(r"\s+(?:(?:is|was|has\s+entered|stands|are)\s+)?(?:now\s+)?")
_DONE = re.compile(r"\s*(?:(?:here|with us|of \w+|in \w+)\s+)?(?:is|was)\s+(?:over|past|done|behind)", re.I)
_PERFECT = re.compile(r"\b(?:has|have)\s+(?:\w+\s+){0,3}?\w+(?:ed|en|wn)\b(?<!been)", re.I)
_PAST = re.compile(r"\b(?:was|were|had|did|came|went|left|gave|took|broke|died|fell|grew|lost|\w{2,}ed)\b", re.I)
_OF_NOUN = re.compile(r"\s*['’]?\s*(?:of\s+)?(?:[\w-]+\s+){0,2}")


def fits(clause: str, phrase: Predicate, time: Time, phrases: list[Predicate], times: list[Time]) -> bool:
    """Whether the time can be said of the phrase, both being of this clause."""
    follows = time.begin >= phrase.end
    if time.role not in TAKES[phrase.kind] or (not follows and time.end > phrase.begin):
        return False
    first, last = (phrase.end, time.begin) if follows else (time.end, phrase.begin)
    gap = clause[first:last]
    if not follows and time.days is not None and _IT_WAS.search(clause[: time.begin]):
        gap = _WHEN.sub("", gap)
    between = any(first <= t.begin < last for t in times) or any(first <= p.begin < last for p in phrases)
    if between or len(gap.split()) > _MOST_WORDS or _TURNS.search(gap) or gap.count(",") > 1:
        return False
    if phrase.kind is Kind.AGE_AFTER:
        return not follows and not gap.strip(" -")
    if phrase.kind in (Kind.AGE_BEFORE, Kind.COUNTED) and time.role is not Role.NTH:
        return follows and not gap.strip(" ,") and time.lead in ("", "for", "of", "at")
    if phrase.kind is Kind.DATES:
        return follows and not gap.strip() and time.lead in ("to", "from", "", "since", "over")
    if time.role is Role.NTH:
        if follows:
            return phrase.kind in (Kind.NOUN, Kind.COUNTED) and bool(_IS_NOW.fullmatch(gap))
        runs = time.lead in ("", "in", "of") and not _DONE.match(clause, phrase.end)
        return runs and bool(_FILLER.fullmatch(gap))
    if time.role is Role.COUNT:
        return follows and len(gap.split()) <= 1
    if time.role is Role.LENGTH:
        return _length_behind(phrase, time, gap) if follows else _length_before(clause, phrase, time, gap)
    if phrase.kind in _HAPPENED:
        return _day_behind(clause, phrase, time, gap) if follows else _day_before(clause, time, gap, phrases)
    return _state_at(clause, phrase, time, gap, follows)


def attests(phrase: Predicate, time: Time) -> bool:
    """Whether the time only bounds what the phrase says ("already in a pot in 1953"), and does not begin it."""
    return phrase.kind is Kind.STATE and time.role is Role.AT and not time.lead.startswith(_NOT_UNTIL)


def _length_behind(phrase: Predicate, time: Time, gap: str) -> bool:
    if phrase.kind is Kind.LASTED:
        return len(gap.split()) <= 2
    if phrase.kind is Kind.NOUN:
        return time.lead in ("of", "for") and not gap.strip()
    bare = time.lead == "" and not gap.strip(" :") and phrase.kind is Kind.STATE
    with_for = bare or time.lead in ("for", "these", "over", "through")
    return with_for and not _FINITE.search(gap) and not _ANOTHER_VERB.search(gap)


def _length_before(clause: str, phrase: Predicate, time: Time, gap: str) -> bool:
    if time.lead == "for" or (time.lead == "over" and re.search(r"\b(?:last|past)\b", time.words[0])):
        nothing_else = not _ANOTHER_VERB.search(gap) and not re.search(r"\b(?:and|or|that)\b", gap)
        return nothing_else and (phrase.kind is not Kind.NOUN or bool(_FILLER.fullmatch(gap)))
    noun = phrase.kind is Kind.NOUN
    if noun and "of" not in gap.split() and not clause[: time.end].rstrip().endswith(("'", "’")):
        return False
    tight = bool(_FILLER.fullmatch(gap)) or (noun and bool(_OF_NOUN.fullmatch(gap)))
    told = time.lead in ("after", "in", "over", "within") and _PAST.search(_PERFECT.sub("", clause[phrase.end :]))
    return tight and not told


def _day_behind(clause: str, phrase: Predicate, time: Time, gap: str) -> bool:
    if (_FINITE.search(gap) and not _MERELY_IS.match(gap)) or _JOINED_VERB.search(gap):
        return False
    span = time.words.groupdict().get("span")
    if time.lead == "from" and not span and not _STOCK.search(clause[: phrase.end]):
        return False
    if time.role is Role.BARE and gap.strip(" ,:"):
        named = time.lead == "of" or _THE_YEAR.search(clause[: phrase.begin])
        return bool(named and _MERELY_IS.match(gap))
    return True


def _day_before(clause: str, time: Time, gap: str, phrases: list[Predicate]) -> bool:
    if time.role is Role.BARE:
        return bool(_CLEFT.match(gap) or _IT_WAS.search(clause[: time.begin]))
    if any(p.end <= time.begin for p in phrases) and not _JOINS.search(clause[: time.begin]):
        # "struck in 1951, potted in 1953": the first year is the first phrase's.
        return False
    return time.role is not Role.SINCE and not re.search(r"\b(?:and|or)\b", gap) and not _ANOTHER_VERB.search(gap)


def _state_at(clause: str, phrase: Predicate, time: Time, gap: str, follows: bool) -> bool:
    if time.role is Role.AT:
        before = clause[: phrase.begin][-12:] if follows else gap
        already = bool(_ALREADY.search(before)) and (not follows or len(gap.split()) <= 2)
        return already or time.lead.startswith(_NOT_UNTIL)
    if _ANOTHER_VERB.search(gap):
        return False
    if time.role is Role.BY:
        return len(gap.split()) <= (4 if follows else 6)
    if follows:
        return not _FINITE.search(gap) and not _JOINED_VERB.search(gap)
    return not re.search(r"\b(?:and|or)\b", gap)
