"""Claims of years about a tree, found in a sentence.

A claim says of one milestone that it lies within some days: "in training since 1953" names the year of the beginning, "for
over sixty years" only bounds it. What is denied, asked, hoped or said of something else claims nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from archive_tools.model.calendar import add, latest_before
from archive_tools.model.dates import DatePolicy, Duration
from archive_tools.model.findings import Bounds
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.prose.numbers import number_value, ordinal_value
from archive_tools.reason.prose.patterns import FLAGS, ages, beginnings, went_back
from archive_tools.reason.prose.sentences import Sentence
from archive_tools.reason.prose.subjects import Subject, SubjectFinder
from archive_tools.reason.prose.years import WHEN, days_of

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


_CENTURIES = 200
"""What "centuries old" claims at the least."""
_DENIAL = re.compile(
    r"\b(?:not(?! (?:less than|only|later than|until|after|before|earlier than|quite|yet \w+ but))|no(?! (?:less than|doubt|later "
    r"than|earlier than|fewer than|more than))|never|nobody(?! doubts)|none|nothing|cannot|can’t|isn['’]t|wasn['’]t|hasn['’]t|"
    r"nor|neither|without|hardly)\b",
    re.I,
)
_DENIED_AS_A_WHOLE = re.compile(
    r"\b(?:no (?:paper|document|evidence|proof|record|source|letter)s? (?:\w+ ){0,2}(?:bears?|supports?|shows?|proves?|says?|for)|"
    r"(?:is|was|are|were) (?:a |plainly |simply )?(?:wrong|false|mistaken|a legend|a mistake|untrue|nonsense|a guess)|"
    r"nobody can|cannot be (?:true|right|shown|proved)|not borne out|not bear(?:s)? out|bears? (?:it|that|this) out\b.{0,3}$|"
    r"disproved|refuted|we doubt|doubtful)\b",
    re.I,
)
_SUPPOSED = re.compile(r"\b(?:if(?! not)|unless|whether|suppose|imagine|should (?:it|the))\b", re.I)
_UNREAL = re.compile(
    r"\b(?:would have|could have|might have|may have|hope|hopes|plan|plans|will|shall|unless|suppose|imagine|as "
    r"though|as if|should (?:it|the))\b",
    re.I,
)
_SAID = re.compile(
    r"\b(?:said to|is said|was said|are said|reportedly|reputed(?:ly)?|supposed(?:ly)? to|by (?:report|repute)|so the story goes|"
    r"is told|tradition (?:has it|says)|according to|remember(?:s|ed)|recall(?:s|ed)|probably)\b",
    re.I,
)
_ATTRIBUTED = re.compile(r"\b(?:says|said|writes|wrote|claims|claimed|tells|told us|has it) that\b", re.I)
"""The sentence names who says so ("a zinc label says that …"), and vouches for nothing itself."""
_THOUGHT = re.compile(
    r"\b(?:thought to|thought to be|believed to|presumed|presumably|estimated|it seems|seems to|appears to|likely|perhaps|maybe|"
    r"possibly|judged to|inferred)\b",
    re.I,
)


def claims_in(
    sentence: Sentence, day: date, policy: DatePolicy, finder: SubjectFinder, antecedent: Subject
) -> Iterator[Claim]:
    """The claims a sentence makes about its tree, as of `day` (the day of the text), in the order of its words."""
    if sentence.asks or _SUPPOSED.search(sentence.text) or _DENIED_AS_A_WHOLE.search(sentence.text):
        return
    hedge = Grade.DOCUMENTED
    last: Claim | None = None
    subject = antecedent
    for clause in sentence.clauses():
        hedge = _hedge(clause, hedge)
        spoken_of = finder.of_sentence(clause, Subject.UNSAID)
        if _DENIAL.search(clause) or _UNREAL.search(clause):
            subject = spoken_of if spoken_of is not Subject.UNSAID else subject
            continue
        for claim in _of_clause(clause, sentence.text, day, policy, last):
            # Nobody trains a pot: "it" in training is the tree, whatever the sentence before spoke of.
            it = Subject.UNSAID if claim.about in (Milestone.CARE, Milestone.CONTAINER) else antecedent
            found = finder.of_claim(clause, claim.begin, claim.end, it)
            if found is Subject.UNSAID:
                found = subject if subject is Subject.OTHER and _leans(clause) else Subject.TREE
            if found is Subject.OTHER and not (claim.about is Milestone.ARRIVAL and _we_have_it(clause)):
                continue
            last = replace(claim, hedge=hedge)
            yield last
        subject = spoken_of if spoken_of is not Subject.UNSAID else subject


def _hedge(clause: str, before: Grade) -> Grade:
    """A hedge holds to the end of its sentence unless a clause begins that has a subject of its own."""
    if _ATTRIBUTED.search(clause):
        return Grade.UNSOURCED
    if _THOUGHT.search(clause):
        return Grade.INFERRED
    if _SAID.search(clause):
        return Grade.REPORTED
    return (
        before
        if re.match(r"\s*(?:and|or)?\s*(?:\w+ing|then|in|from|since|for|struck|sown|potted)\b", clause)
        else Grade.DOCUMENTED
    )


def _leans(clause: str) -> bool:
    """Whether the clause goes on with the subject of the one before ("and was built in 1962")."""
    return bool(re.match(r"\s*(?:and|but|so|yet|who|which|whose)\b", clause, re.I))


def _we_have_it(clause: str) -> bool:
    return bool(re.search(r"\b(?:we|us|house|garden|collection)\b.*\b(?:it|the tree|this tree)\b", clause, re.I))


def _of_clause(clause: str, sentence: str, day: date, policy: DatePolicy, last: Claim | None) -> list[Claim]:
    found: list[Claim] = []

    def add_claim(about: Milestone, days: Bounds | None, match: re.Match[str]) -> None:
        taken = any(claim.begin < match.end() and match.start() < claim.end for claim in found)
        if days is not None and days.known and not taken:
            found.append(Claim(about, days, Grade.DOCUMENTED, match[0].strip(), match.start(), match.end()))

    for about, pattern in beginnings():
        for match in pattern.finditer(clause):
            add_claim(about, _time_of(match, day, policy), match)
    for about, pattern in ages():
        for match in pattern.finditer(clause):
            then = _then(clause, match, sentence, policy)
            add_claim(about, _beginning(match, then or _said_day(sentence, day, policy)), match)
    for match in went_back().finditer(clause):
        about = last.about if last else Milestone.CARE
        add_claim(about, days_of(match, policy), match)
    return sorted(found, key=lambda claim: claim.begin)


def _time_of(match: re.Match[str], day: date, policy: DatePolicy) -> Bounds | None:
    groups = match.groupdict()
    if groups.get("year") or groups.get("decade"):
        days = days_of(match, policy)
        return Bounds(None, days.latest) if days and groups.get("already") else days
    return _beginning(match, day) if groups.get("number") or groups.get("span") else None


def _beginning(match: re.Match[str], day: date) -> Bounds | None:
    """The days on which something began that is as old on `day` as the words say."""
    groups = match.groupdict()
    if groups.get("ordinal"):
        count = ordinal_value(groups["ordinal"])
        return _completed(count - 1, count - 1, day) if count else None
    if groups.get("centuries"):
        return Bounds(None, latest_before(day, _years(_CENTURIES)))
    least = number_value(groups.get("number") or groups.get("span") or "")
    if least is None or least == 0:
        return None
    most = number_value(groups["number2"]) if groups.get("number2") else least
    if most is None or most < least:
        return None
    return _bounded(
        re.sub(r"\s+", " ", (groups.get("bound") or "").casefold()), least, most, day, bool(groups.get("orso"))
    )


def _bounded(bound: str, least: int, most: int, day: date, or_so: bool) -> Bounds | None:
    if (
        re.search(r"over|more than|upwards|beyond|in excess|exceed", bound)
        and "no more" not in bound
        and "not more" not in bound
    ):
        return Bounds(None, latest_before(day - timedelta(days=1), _years(least)))
    if re.search(r"at least|less than|fewer than", bound) and re.match(r"at least|no|not", bound):
        return Bounds(None, latest_before(day, _years(least)))
    if re.search(r"almost|nearly|close|not quite|just under|getting on|going on|approaching|all but", bound):
        return _completed(least - 1, least - 1, day)
    if re.search(r"at most|no more|not more|up to", bound):
        whole = _completed(most, most, day)
        return Bounds(whole.earliest, None) if whole else None
    if re.search(r"less than|under|fewer than|below", bound):
        latest = latest_before(day, _years(least))
        return Bounds(latest + timedelta(days=1), None) if latest else None
    if or_so or re.search(r"about|around|some|roughly|approx|circa|c\.|perhaps|maybe", bound):
        return _completed(max(least - 2, 0), most + 2, day)
    return _completed(least, most, day)


def _completed(least: int, most: int, day: date) -> Bounds | None:
    """The days of a beginning of which `least` to `most` years are completed on `day`."""
    latest, too_early = latest_before(day, _years(least)), latest_before(day, _years(most + 1))
    if latest is None:
        return None
    return Bounds(add(too_early, Duration(0, 0, 1, "P1D")) if too_early else None, latest)


def _years(count: int) -> Duration:
    return Duration(count, 0, 0, f"P{count}Y")


_LAST_TIME = re.compile(WHEN, FLAGS)
_AS_OF = re.compile(rf"\bas\ (?:of|at)\s+{WHEN}", FLAGS)


def _then(clause: str, match: re.Match[str], sentence: str, policy: DatePolicy) -> date | None:
    """The day that "then" points back to: the last time named before it."""
    if not re.search(r"\bthen\W*$", clause[: match.start()], re.I) and not re.match(r"then\b", match[0], re.I):
        return None
    before = sentence[: sentence.find(match[0])]
    days = [found for time in _LAST_TIME.finditer(before) if (found := days_of(time, policy)) is not None]
    return days[-1].latest if days else None


def _said_day(sentence: str, day: date, policy: DatePolicy) -> date:
    """The day the sentence itself names by "as of", else the day of the text."""
    found = _AS_OF.search(sentence)
    days = days_of(found, policy) if found else None
    if days is None or days.latest is None or days.earliest is None or days.earliest <= day <= days.latest:
        return day
    return days.latest
