"""How a text stands to what it says: vouched for, as somebody's word, as a thought; or denied, asked, hoped, supposed."""

from __future__ import annotations

import re

from archive_tools.model.grades import Grade

__all__ = ["claims_nothing", "denied", "hedge"]

_DENIAL = re.compile(
    r"\b(?:not(?! (?:less than|only|later than|until|till|after|before|earlier than|quite|yet \w+ but|more than|older than|fewer than))|no(?! (?:less than|doubt|later "
    r"than|earlier than|fewer than|more than|younger than|older than|question|one doubts|secret))|never|nobody(?! doubts)|none|nothing|cannot|can’t|isn['’]t|wasn['’]t|hasn['’]t|haven['’]t|didn['’]t|"
    r"nor|neither|without(?! (?:an? |any )?(?:break|interruption|pause|fail|gap|doubt|question))|hardly|far from|nowhere near)\b",
    re.I,
)
_NOT_UNTIL = re.compile(r"\bnot\b(?=[^,;]*\buntil\b)", re.I)
_FOLLOWS_ON = re.compile(r"(?:\b(?:and|but|yet|though|or)\b[^,;]*|,[^,;]*)$|^\s*$", re.I)
_DENIED_AS_A_WHOLE = re.compile(
    r"\b(?:no (?:paper|document|evidence|proof|record|source|letter)s? (?:\w+ ){0,2}(?:bears?|supports?|shows?|proves?|says?|for)|"
    r"(?:is|was|are|were) (?:a |plainly |simply |quite |certainly )?(?:wrong|false|mistaken|a legend|a mistake|untrue|nonsense|a guess|an? (?:error|myth|misprint|slip|invention))|"
    r"nobody can|cannot be (?:true|right|shown|proved)|not borne out|not bear(?:s)? out|bears? (?:it|that|this) out\b.{0,3}$|(?:cannot|could not|can’t) (?:be )?(?:confirm|borne|bear|prove|support|show)|"
    r"(?:is|was) not (?:true|so|right|correct|the case|borne)|"
    r"disproved|refuted|we doubt|doubtful|mistakenly|wrongly|in error|by mistake|instead of)\b",
    re.I,
)
_SUPPOSED = re.compile(
    r"\b(?:if(?! not)|unless|whether|suppose|imagine|should (?:it|the))\b|^\W*(?:had|were) (?:it|the|this)\b", re.I
)
_UNREAL = re.compile(
    r"\b(?:would|can(?! (?:be )?(?:trace|date|follow|show|prove|say|tell|vouch))|could have|might have|may have|may be|might be|could be|may well|hopes?|plans?|planned|will|shall|unless|suppose|imagine|as "
    r"though|as if|should (?:it|the)|looks (?:like|as)|seems (?:like )?an?|used to be thought|ought to|might|guess(?:es)?|takes? (?:it|this \w+) (?:for|to be)|pass(?:es)? for|looks?\b(?=[^.;]*\bold\b)|next (?:spring|summer|autumn|winter|year|month|april|may|june)|legend|myth|rumou?r|fable)\b",
    re.I,
)
_SAID = re.compile(
    r"\b(?:said to|(?:it )?is said|was said|are said|reportedly|reputed(?:ly)?|supposed(?:ly)? to|supposedly|allegedly|by (?:report|repute|tradition|all accounts)|so the story goes|"
    r"so (?:he|she|they) (?:said|told)|(?:he|she|they) (?:said|told us)|(?:is|are|were|was) told|told us|tradition (?:has it|says)|according to|(?:have|had) it from|(?:heard|learned|learnt) from|they say|by (?:his|her|their|(?:\w+ )?\w+['’]s) (?:account|word|report)|(?:claimed|alleged|reported|held|told) to|remember(?:s|ed)|recall(?:s|ed)|probably)\b",
    re.I,
)
_ATTRIBUTED = re.compile(
    r"\b(?:says?|said|writes|wrote|claims|claimed|tells|told us|has it|have it|remembers?|recalls?)(?: that\b|(?= (?:it|he|she|the|this|training|its)\b))|\b(?:he|she|they) says?\b|\b(?:story|account|tale|version) has it\b",
    re.I,
)
"""The sentence names who says so ("a zinc label says that …"), and vouches for nothing itself."""
_SOURCE = re.compile(
    r",\s+(?:or\s+)?so\s+(?:(?:the|his|her|its|their)\s+)?[\w’' ]{2,30}\s(?:said|says|told us|tells us|claimed|wrote|has it|goes)\W*$",
    re.I,
)
"""The one who said it comes last: "…, so the widow said." """
_THOUGHT = re.compile(
    r"\b(?:thought to|thought to be|believed to|presumed|presumably|estimated|it seems|seems to|appears to|likely|(?:perhaps|maybe|possibly)(?! (?:some |about |over )?[0-9a-z-]+ years)|"
    r"judged to|inferred|must (?:have|be)|judge[sd]? that|reckon(?:s|ed)? that|(?:is|was) (?:thought|believed)|we (?:think|believe|guess|judge|take it)|in our (?:view|opinion))\b",
    re.I,
)


_IT_IS_NOT = re.compile(r"[,;]\s+(?:and\s+|but\s+)?(?:it|this|that) (?:is|was|has|does) not\W*$", re.I)


def claims_nothing(sentence: str) -> bool:
    """Whether a sentence supposes, or says of all that it holds that it is not so."""
    return bool(_SUPPOSED.search(sentence) or _DENIED_AS_A_WHOLE.search(sentence) or _IT_IS_NOT.search(sentence))


def denied(clause: str, begin: int, end: int, times: list[tuple[int, int]], fronted: bool = False) -> bool:
    """Whether what clause[begin:end] says is denied, or told as unreal: hoped, planned, legend.

    What stands in front as an adverbial ("in its thirty years here it has never …") is not reached by a denial behind it.
    A denial inside a time ("not yet thirty years") belongs to the time; one joined on behind denies only what follows it.
    """
    if _UNREAL.search(clause):
        return True
    for match in _DENIAL.finditer(clause):
        within = any(first <= match.start() < last for first, last in times)
        between = clause[end : match.start()] if match.start() >= end else ""
        follows_on = bool(between.strip() and _FOLLOWS_ON.search(between)) or (
            match.start() >= end and match[0].casefold() == "without"
        )
        follows_on = follows_on or (fronted and match.start() >= end)
        if not within and not follows_on and not _NOT_UNTIL.match(clause, match.start()):
            return True
    return False


def hedge(clause: str, before: Grade, sentence: str) -> Grade:
    """The layer for which a clause of a sentence speaks. A hedge holds to the end of its sentence unless a clause begins that has a
    subject of its own.
    """
    if _SOURCE.search(sentence):
        return Grade.REPORTED
    if _ATTRIBUTED.search(clause):
        return Grade.UNSOURCED
    if _THOUGHT.search(clause):
        return Grade.INFERRED
    if _SAID.search(clause):
        return Grade.REPORTED
    goes_on = r"\s*(?:and|or)?\s*(?:to\b|\w+ing|then|in|from|since|for|struck|sown|potted)\b"
    return before if re.match(goes_on, clause) else Grade.DOCUMENTED
