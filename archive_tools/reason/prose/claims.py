"""Claims of years about a tree, found in a sentence.

A claim says of one milestone that it lies within some days: "in training since 1953" names the year of the beginning, "for
over sixty years" only bounds it. What is denied, asked, hoped or said of something else claims nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from archive_tools.model.dates import DatePolicy
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.prose.clauses import Clause, clauses
from archive_tools.reason.prose.lengths import COUNT, days_of_length
from archive_tools.reason.prose.numbers import NUMBER, number_value
from archive_tools.reason.prose.pairing import pairs
from archive_tools.reason.prose.predicates import Kind, Pair, Predicate, predicates_in
from archive_tools.reason.prose.sentences import Sentence
from archive_tools.reason.prose.stance import claims_nothing, denied, hedge
from archive_tools.reason.prose.subjects import Subject, SubjectFinder
from archive_tools.reason.prose.tenses import day_meant
from archive_tools.reason.prose.times import Role, Time, times_in

__all__ = ["Claim", "claims_in"]


@dataclass(frozen=True, slots=True)
class Claim:
    """What a text says of one milestone: that it lies within `days`, firmly or as somebody's word (`hedge`)."""

    about: Milestone
    days: Bounds
    hedge: Grade
    words: str
    begin: int
    end: int


def claims_in(
    sentence: Sentence, day: date, policy: DatePolicy, finder: SubjectFinder, antecedent: Subject
) -> Iterator[Claim]:
    """The claims a sentence makes about its tree, as of `day` (the day of the text), in the order of its words."""
    if sentence.asks or claims_nothing(sentence.text):
        return
    found: list[Claim] = []
    grade = Grade.DOCUMENTED
    subject = antecedent
    for clause in clauses(finder.with_pronouns(sentence.text)):
        grade = hedge(f"{clause.text} {clause.remarks}", grade, sentence.text)
        phrases, times = predicates_in(clause.text), times_in(clause.text, policy)
        bare = _blanked(clause.text, phrases, times)
        if clause.host is not None:
            spoken_of = finder.of_sentence(clause.host, Subject.UNSAID)
            subject_here = spoken_of if spoken_of is not Subject.UNSAID else subject
        else:
            spoken_of, subject_here = finder.of_sentence(bare, Subject.UNSAID), subject
        spans = [(time.begin, time.end) for time in times]
        paired = pairs(clause.text, phrases, times)
        for pair in [*paired, *_lone(clause.text, [time for time in times if all(time is not p.time for p in paired)])]:
            fronted = (
                pair.time.lead in ("in", "over", "through", "during", "after") and pair.time.begin < pair.phrase.begin
            )
            nominal = pair.time.role is Role.LENGTH and pair.time.begin < pair.phrase.begin
            fronted = fronted or (nominal and _VERB_OF_ITS_OWN.match(clause.text, pair.end) is not None)
            if denied(clause.text, pair.begin, pair.end, spans, fronted):
                continue
            about = pair.phrase.about or (found[-1].about if found else _by_noun(clause.text))
            if about is None or not _of_the_tree(clause, bare, pair, about, finder, subject_here, antecedent):
                continue
            days = _days(pair, clause.text, sentence.text, day, policy)
            key = (about, pair.time.begin)
            if days is not None and days.known and key not in {(c.about, c.begin) for c in found}:
                words = sentence.text[pair.begin : pair.end].strip()
                found.append(Claim(about, days, grade, words, pair.begin, pair.end))
        if clause.host is None and spoken_of is not Subject.UNSAID:
            subject = spoken_of
    yield from sorted(found, key=lambda claim: claim.begin)


def _blanked(clause: str, phrases: list[Predicate], times: list[Time]) -> str:
    """A clause without what is no subject: its times ("half a century"), states and the days of the year."""
    words = clause
    spans = [(t.begin, t.end) for t in times]
    kept = (Kind.NOUN, Kind.BEGAN, Kind.LASTED, Kind.COUNTED, Kind.IS, Kind.AGE_BEFORE)
    phrases = [p for p in phrases if p.kind is not Kind.EVENT or not _STOCK.search(clause[p.begin : p.end])]
    spans += [(p.begin, p.end) for p in phrases if p.kind not in kept]
    spans += [match.span() for match in _ADVERBIAL.finditer(clause)]
    for begin, end in spans:
        words = words[:begin] + re.sub(r"[^,]", " ", words[begin:end]) + words[end:]
    for phrase in phrases:
        if phrase.kind in (Kind.STATE, Kind.EVENT, Kind.ACT, Kind.DATES):
            words = f"{words[: phrase.begin]}~{words[phrase.begin + 1 :]}"
    return re.sub(r"(?<= )-(?= )", " ", words)


_VERB_OF_ITS_OWN = re.compile(r"\s*(?:has|have|had|did|do|does)\s+(?:not|never)\b", re.I)
_STOCK = re.compile(r"\b(?:seed|cutting|seedling|layer)$", re.I)
_ADVERBIAL = re.compile(
    r"\b(?:this|next|last|that|the same|every|each|one|all)\s+(?:spring|summer|autumn|winter|year|month|week|day|morning|time|while|season)s?\b|"
    r"\bto the (?:day|month|week|year)\b|\ball (?:this|that|the) while\b|\bthe (?:whole|entire) time\b|\bthe day\b|\ba fact\b|\bno doubt\b|\bthat is\b",
    re.I,
)


def _lone(clause: str, times: list[Time]) -> Iterator[Pair]:
    """Times that tell an age by themselves: "in its seventies", "in its 75th year", "the maple is seventy-five"."""
    for time in times:
        if time.role is Role.AGED or (
            time.role is Role.NTH and time.lead == "in" and not _WHICH_YEAR.match(clause[time.end :])
        ):
            yield Pair(Predicate(time.begin, time.end, Milestone.ORIGIN, Kind.AGE_AFTER), time)
    if (match := _AT_SIXTY.match(clause)) is not None and (number_value(match["number"]) or 0) >= _GROWN:
        yield Pair(
            Predicate(match.start(), match.end(), Milestone.ORIGIN, Kind.AGE_AFTER),
            Time(match.start(), match.end(), Role.COUNT, "at", match),
        )


_GROWN = 20
_AT_SIXTY = re.compile(rf"\s*at\s+{COUNT},?(?=\s+(?:it|this\s+\w+|the\s+\w+)\s+(?:is|has|still)\b)", re.I)
_WHICH_YEAR = re.compile(r"\s+(?:of|in|here|with|as|on|under|at|among|since)\b")


def _by_noun(clause: str) -> Milestone | None:
    """The milestone of which "goes back to 1953" speaks, by the nouns of its clause; None of a pot, which has its own age."""
    if re.search(r"\bpots?\b", clause, re.I):
        return None
    if re.search(r"\b(?:seed|seedling|cutting|layer|sowing)\b", clause, re.I):
        return Milestone.ORIGIN
    if re.search(r"\b(?:stay|arrival|residence)\b", clause, re.I):
        return Milestone.ARRIVAL
    return Milestone.CARE


def _of_the_tree(
    clause: Clause,
    bare: str,
    pair: Pair,
    about: Milestone,
    finder: SubjectFinder,
    subject: Subject,
    antecedent: Subject,
) -> bool:
    """Whether what is said is said of the tree."""
    phrase = pair.phrase
    # Nobody trains a pot: "it" in training is the tree, whatever the sentence before spoke of.
    it = Subject.UNSAID if about in (Milestone.CARE, Milestone.CONTAINER) else antecedent
    if about is Milestone.CARE and phrase.kind is Kind.STATE and _BY_SOMEBODY.match(bare, phrase.end):
        return False
    if about is Milestone.CARE and phrase.kind is Kind.STATE and not finder.has_form(clause.text[phrase.end :]):
        return False
    if phrase.thing is not None:
        if about is Milestone.CARE and phrase.kind is Kind.STATE and _A_PERSON.search(clause.text[: phrase.begin]):
            return False
        return finder.of_object(phrase.thing, it) is not Subject.OTHER or phrase.thing.casefold() == "it"
    if phrase.kind in (Kind.ACT, Kind.BEGAN) and not _PASSIVE.search(clause.text[: phrase.begin]):
        done_to = finder.of_object(bare[phrase.end :], it)
        if done_to is not Subject.UNSAID:
            return done_to is Subject.TREE
    if phrase.kind in (Kind.NOUN, Kind.BEGAN, Kind.LASTED, Kind.COUNTED):
        owner = _owner(clause.text, phrase, finder)
        if owner is not Subject.UNSAID:
            return owner is Subject.TREE
    if phrase.kind is Kind.AGE_AFTER and _ATTRIBUTE.match(clause.text[phrase.end :]):
        return finder.of_object(f"a {clause.text[phrase.end :].lstrip()}", it) is not Subject.OTHER
    if phrase.kind is Kind.AGE_AFTER and re.search(r"\bit\s+$", clause.text[: pair.begin]):
        return antecedent is not Subject.OTHER
    if phrase.about is Milestone.ORIGIN and phrase.kind is Kind.ACT and _CUTTING.search(clause.text[: phrase.begin]):
        return True
    beside = _JUST_BEFORE.search(clause.text[: pair.begin]) if phrase.kind is Kind.AGE_AFTER else None
    if beside:
        return finder.of_object(beside[0], it) is not Subject.OTHER
    if _TO_A_PERSON.match(clause.text, pair.end):
        return False
    found = finder.of_words(bare, phrase.begin, pair.end, it)
    if phrase.kind is Kind.IS:
        return found is Subject.TREE
    if found is Subject.UNSAID:
        leans = subject is Subject.OTHER and (clause.host is not None or _LEANS.match(clause.text))
        found = Subject.OTHER if leans else Subject.TREE
    return found is Subject.TREE


def _owner(clause: str, phrase: Predicate, finder: SubjectFinder) -> Subject:
    inside = re.match(r"(?:\w+\s+)*?(its|the|his|her|their)\b", clause[phrase.begin : phrase.end], re.I)
    return finder.of_owner(inside[1] if inside else clause[: phrase.begin])


_BY_SOMEBODY = re.compile(
    r"\s+(?:here\s+)?by\s+(?!(?:somebody|someone|one\b|several|many|various|some\b|a succession|hand\b|two|three|four|five|\d|different|at least|then|now))",
    re.I,
)
_A_PERSON = re.compile(
    r"\b(?:[Hh]e|[Ss]he|[Tt]hey|[Ww]e|us|I)\b|\b(?:[Oo]ur|[Tt]he|[Hh]er|[Hh]is)\s+(?:\w+\s+){1,3}(?:has|have)\s+$|(?<!^)\b[A-Z][a-z]+\s+(?:has|have)\s+$"
)
_JUST_BEFORE = re.compile(
    r"\b(?:the|an?|this|that|these|those|its|his|her|our|their)\s+(?:(?!(?:is|was|has|had|are|were|tree|at|of|now)\b)[\w’-]+\s+){1,3}$",
    re.I,
)
"""A thing just before its age: "beside a wall three hundred years old"."""
_ATTRIBUTE = re.compile(
    r"\s+(?!(?:is|was|has|had|now|and|or|by|at|in|on|when|as|today|this|if|but|the|its|with|since|from|to|already|here)\b)\w",
    re.I,
)
"""A noun follows: "a sixty-year-old maple"."""
_CUTTING = re.compile(r"(?<!\bits\s)\b(?:cutting|seed|layer),?\s+$", re.I)
_TO_A_PERSON = re.compile(r"\s+(?:(?:has|have|had)\s+\w+|\w+ed|taught|made|gave)\s+(?:me|him|them|us|you|her)\b", re.I)
"""Years that did something to somebody are that person's: "ten years in this house have taught me …"."""
_PASSIVE = re.compile(r"\b(?:was|were|been|being|is|are)\s+(?:\w+ly\s+|first\s+|then\s+)?$", re.I)
_LEANS = re.compile(r"\s*(?:and|but|so|yet|who|which|whose)\b", re.I)


_TAIL = re.compile(
    rf"\s+(?:at\s+(?:the\s+)?(?:very\s+)?(?:least|most)|or\s+so|or\s+more|and\s+more|or\s+thereabouts)\b|,?\s+give\s+or\s+take\b|"
    rf",?\s+(?:or|perhaps|maybe|or\s+perhaps)\s+{NUMBER}\b(?=\s*(?:[.,;:]|$|years))",
    re.I,
)


def _days(pair: Pair, clause: str, sentence: str, day: date, policy: DatePolicy) -> Bounds | None:
    time = pair.time
    if time.days is not None:
        return Bounds(None, time.days.latest) if pair.attests else time.days
    if time.role in (Role.LENGTH, Role.COUNT, Role.NTH, Role.AGO, Role.AGED):
        meant = day_meant(pair, clause, sentence, day, policy)
        tail = _TAIL.match(clause, pair.end)
        return days_of_length(time.words, *meant, tail[0] if tail else "") if meant else None
    return None
