"""What a clause speaks of: the tree, or something or somebody else whose years are not the tree's."""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import Enum

from archive_tools.reason.prose.genera import SPECIES_WORDS, words_of_genus

_TREES = frozenset(
    """tree trees bonsai penjing plant plants planting forest grove group landscape clump raft seedling seedlings cutting
    layer sapling specimen trunk seed gift bequest yamadori one broom cascade literati windswept""".split()
)
_ITS = frozenset({"training", "age", "life", "home", "stay", "residence", "care", "it", "itself", "this"})
"""What is said of these is said of the tree."""
_PERSONS = frozenset(
    "he she they we us you i who there nobody somebody someone everybody everyone none one one's his hers".split()
)
_DETERMINER = r"(?:the|a|an|this|that|these|those|its|his|her|our|their|my|your|each|every|another|no|some|both|(?:one|two|three|four|five|most|many|half|several)(?=\s+of\b)|two|three|[\w’']+['’]s)"
_STOP = (
    r"(?:is|was|are|were|be|been|has|had|have|in|of|on|at|that|which|who|with|from|behind|beside|under|over|by|for|to|and|or|"
    r"it|he|she|they|we|does|did|do|came|comes|went|goes|stood|stands|lived|lives|began|begins|will|would|can|could|may|might|must|should|"
    r"trained|kept|grown|raised|potted|collected|struck|sown|bought|given|now|not|never|itself|then|when|where|still|since|"
    r"says?|said|shows?|arrived|joined|reached|old|more|less|about|almost|nearly|turned|dates?|entered|carried|called|reads|"
    r"between|during|until|around|as|late|early|sometime|just|only|because|while|whose|ever|well|quite|even|indeed|\d+|bent|takes|took|holds|held|calls|travels|opened)"
)
_PREPOSITION = re.compile(
    r"(?:\b(?:of|behind|in|on|from|by|with|under|near|at|to|before|after|over|beside|against|into|through|for|like|until|"
    r"than|as|since|towards?)\s+)$",
    re.I,
)
_ADVERB = r"(?:\w+ly|now|still|also|first|then|already|never|always|only|really|soon|once|alone|here|itself|too)"
_VERBS = (
    r"(?:is|was|are|were|has|had|have|did|does|do|will|would|can|could|may|might|must|came|went|stood|stands|lived|lives|lost|grew|grows|"
    r"began|begins|took|takes|got|gave|left|sold|kept|put|bought|struck|made|makes|looks|shows|spent|saw|drew|wrote|knew|knows|says|said|"
    r"brought|dug|sowed|owned|held|set|caught|fell|broke|died|ran|sat|sits|belongs|dates|goes)"
)
_VERB = rf"(?:(?:{_VERBS}|\w{{2,}}ed)\b|~)"
_NOUN_PHRASE = re.compile(
    rf"\b(?:(?P<determiner>{_DETERMINER})\s+(?P<words>(?!(?!of\s+(?:its|them|the)\b){_STOP}\b)[\w’'-]+(?:\s+(?!(?:{_STOP}|{_VERBS}|(?!family|holly|lily)\w+ly)\b)[\w’'-]+){{0,4}})|"
    rf"(?P<pronoun>it|this|he|she|they|we|us|you|I|who|there|one(?=\s+(?:that|which)\b)|nobody|somebody|someone|everybody|everyone)\b)",
    re.I,
)


_PERSONAL = frozenset("his her their my your our".split())
_OBJECT = re.compile(
    r"\b(?!(?:years|decades|centuries|months|weeks|days|winters|summers|springs|autumns|times|\w+ties|this|is|was|has|as|its|trees|always|"
    r"perhaps|besides|since|need|shows|proves|says|thinks|knows|believes|hopes)\b)(?:\w+(?:s|ed|ing)|gave|kept|bought|took|made|sold|left|brought|had|saw|held|grew|put|dug)\s+$",
    re.I,
)
"""A verb just before "it": then "it" is no subject ("the keeper who waters it has been with us …")."""
_PROPER = re.compile(
    rf"(?<![\w’'.])(?!(?:\w+ly|Resident|Guest|Generations|People|Hands|Said|Thought|Believed|Perhaps|Maybe|Once|Still|Already|Also|Long|Later|Today|No|Together|With|Under|Among|Some|About|Nearly|Almost|Even|As|So|In|On|At|By|For|Since|From|Training|Trained|Collected|Potted|Planted|Sown|Struck|Kept|Grown|Raised|Assembled|First|Here|Now|"
    rf"Then|Only|And|But|Not|Never|That|There|What|Where|When|Who|Which|Half|Over|More|Life|Cultivation|Care|Nothing|January|February|March|April|"
    rf"May|June|July|August|September|October|November|December|Spring|Summer|Autumn|Winter|All|Both|Its|It|He|She|They|We|I|This|The|A|An|Us|us)\b)"
    rf"(?P<proper>[A-ZÀ-Þ][\w’-]+(?:\s+[A-ZÀ-Þ][\w’-]+){{0,3}})(?=,?\s+(?:(?:{_ADVERB})\s+)?(?:{_VERB}|who\b|like\b|are\b))"
)
"""A name, or a plural without article, before a verb: "Mawle struck …", "Rocks like this …"."""


_PLURAL = re.compile(
    r"(?<![\w’'-])(?P<plural>(?!(?:years|decades|centuries|hands|generations|days|years|theirs|ours)\b)[a-z]{3,}s)(?=\s+(?:have|had|were|are)\s)"
)
"""Many of a kind without an article: "where maples had been trained"."""
_PRESENT = re.compile(r"\s+\w{3,}s\b")
_WITHIN = re.compile(r"\s+")


_OFFSPRING = frozenset("seedling seedlings cutting cuttings layer layers sapling saplings plant plants".split())
_OF_IT = re.compile(
    r"\s+(?:(?:of|from|off)\s+(?:it|this\s+(?:tree|one)|the\s+tree)\b|(?:next\s+to|beside|behind|opposite|across|near|in\s+front\s+of|to\s+(?:its|the)|on\s+(?:its|the)\s+"
    r"(?:left|right|other|label|postcard))\b)",
    re.I,
)
"""Taken from the tree, or beside it, and so another: "a cutting of it", "the tree next to it"."""
_IS_IT = re.compile(r"\b(?:is|was|as)\s+$", re.I)
_ATTRIBUTION = re.compile(
    r"(?<!\bis\s)(?<!\bwas\s)(?<!\bare\s)\b(?:says?|said|has it|have it|claims?|claimed|holds|remembers?|recalls?|knows?|believes?|thinks?|think|believe|judge[sd]?|shows?(?=\s+(?:it|that|the)\b)|proves?|tells us|told us|doubts?)\b(?!\s+to\b)(?:\s+that\b)?",
    re.I,
)


class Subject(Enum):
    """Whom or what a clause speaks of."""

    TREE = "tree"
    OTHER = "other"
    UNSAID = "unsaid"


class SubjectFinder:
    """Knows the words by which one tree may be called besides those that are any tree's."""

    def __init__(
        self,
        names: Iterable[str] = (),
        taxa: Iterable[str] = (),
        house: Iterable[str] = (),
        calls: Iterable[str] = (),
        plural: bool = False,
    ) -> None:
        self._names = tuple(name.casefold() for name in names if name)
        self._plural = plural
        houses = sorted(map(re.escape, filter(None, house)), key=len, reverse=True)
        self._house = re.compile(rf"\b(?:the\s+)?(?:{'|'.join(houses)})\b", re.I) if houses else None
        called = [re.escape(name) for name in calls if len(name) >= len("this one") and name.isascii()]
        self._called = re.compile(rf"\b(?:{'|'.join(called)})\b(?!['’])") if called else None
        kinds = [words_of_genus(taxon) for taxon in taxa]
        # A genus that has no English name here may be called by any.
        self._kinds = frozenset().union(*kinds) if kinds and all(kinds) else SPECIES_WORDS

    def with_pronouns(self, words: str) -> str:
        """The words with the custodian's name as "us" and the tree's as "this one", each place in them unmoved."""
        if self._house:
            words = self._house.sub(lambda name: "us".ljust(len(name[0])), words)
        return self._called.sub(lambda name: "this one".ljust(len(name[0])), words) if self._called else words

    def has_form(self, after: str) -> bool:
        """Whether a tree "trained as" what follows is merely called by its own form, or by none."""
        form = re.match(r"\s+(?:as|into|in the form of)\s+an?\s+([\w-]+)", after, re.I)
        return form is None or form[1].casefold() in _TREES or any(form[1].casefold() in name for name in self._names)

    def of_words(self, words: str, begin: int, end: int, antecedent: Subject) -> Subject:
        """Of what the words from `begin` to `end` are said.

        The nearest subject before them; else, where they open the clause, the first after them; else unsaid.
        """
        before = self._subjects(words, antecedent, begin)
        if before:
            return before[-1]
        # "Since 1953 the garden has opened on Sundays": what opens a clause is said of the subject that follows at once.
        follows = _NOUN_PHRASE.match(words[end:].lstrip(" ,")) or _PROPER.match(words[end:].lstrip(" ,"))
        if follows is None or words[:begin].strip():
            return Subject.UNSAID
        rest = words[end:]
        acts = re.match(rf"\s+(?:{_ADVERB}\s+)?{_VERB}", rest.lstrip(" ,")[follows.end() :], re.I)
        if rest.lstrip().startswith(",") and not acts:
            return Subject.UNSAID
        return self._of_phrase(follows, antecedent)

    def of_sentence(self, sentence: str, antecedent: Subject) -> Subject:
        """What the sentence as a whole speaks of, for an "it" in the next."""
        found = self._subjects(sentence, antecedent)
        return found[0] if found else antecedent

    def of_object(self, words: str, antecedent: Subject) -> Subject:
        """What a verb is done to, by the words that follow it at once."""
        follows = _NOUN_PHRASE.match(words.lstrip(" "))
        return self._of_phrase(follows, antecedent) if follows else Subject.UNSAID

    def of_owner(self, before: str) -> Subject:
        """Whose a thing is by the word before it: "its training", "the elm's training", "his training"."""
        word = re.search(r"([\w’'-]+)\s*$", before)
        owner = word[1].casefold() if word else ""
        if owner in ("its", "the", "this"):
            return Subject.TREE
        if owner in ("his", "her", "their", "my", "your", "our"):
            return Subject.OTHER
        if re.search(r"['’]s$", owner):
            name = re.split(r"['’]", owner)[0]
            known = name in _TREES or name in self._kinds or any(name in called.split() for called in self._names)
            return Subject.TREE if known else Subject.OTHER
        return Subject.UNSAID

    def _subjects(self, words: str, antecedent: Subject, until: int | None = None) -> list[Subject]:
        """The subjects of words[:until]; those that a verb follows, if there are any."""
        until = len(words) if until is None else until
        folded = words[:until].casefold()
        named = [Subject.TREE for name in self._names if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", folded)]
        told = max((match.end() for match in _ATTRIBUTION.finditer(words, 0, until)), default=0)
        # A quotation has its own subjects: the catalogue that "calls it “a century in training”" is not in training.
        quote = words.rfind("“", 0, until)
        told = max(told, quote if words.find("”", quote, until) < 0 else 0)
        there = False
        found: list[tuple[int, bool, Subject]] = []
        for phrase in sorted(
            [*_NOUN_PHRASE.finditer(words), *_PROPER.finditer(words), *_PLURAL.finditer(words)], key=lambda m: m.start()
        ):
            before, after = words[: phrase.start()], words[phrase.end() :]
            if found and phrase.start() < found[-1][0]:
                continue
            if phrase.end() > until or (found and _WITHIN.fullmatch(words[found[-1][0] : phrase.start()])):
                # "the bench it stands on has been here": the bench has.
                continue
            related = re.match(rf"\s+(?:that|which|who)\s+{_VERB}", after, re.I)
            acts_as_pronoun = phrase["pronoun"] if "pronoun" in phrase.groupdict() else None
            if phrase.start() < told:
                continue
            acts = bool(
                related
                or (acts_as_pronoun and _PRESENT.match(after))
                or re.match(rf",?\s+(?:{_ADVERB}\s+)?{_VERB}", after, re.I)
            )
            if not related and (_PREPOSITION.search(before) or (found and before.endswith(", ") and not acts)):
                # "behind it" is no subject, and "its neighbour, a hornbeam," has named its subject already.
                continue
            if phrase[0].casefold() == "it" and _OBJECT.search(before):
                continue
            if found and there and not before.endswith("that "):
                # "There has been a maple here": what there is need not be this one.
                there = False
                continue
            there = acts and phrase[0].casefold() == "there"
            other = _OF_IT.match(after) or (related and found and not _IS_IT.search(before))
            whose = Subject.OTHER if other else self._of_phrase(phrase, antecedent)
            found.append((phrase.end(), acts, whose))
        acting = [subject for _, acts, subject in found if acts]
        return acting or [subject for *_, subject in found] or named[:1]

    def _of_phrase(self, phrase: re.Match[str], antecedent: Subject) -> Subject:
        groups = phrase.groupdict()
        if groups.get("pronoun"):
            pronoun = groups["pronoun"].casefold()
            if pronoun in _PERSONS:
                return Subject.OTHER
            return Subject.OTHER if antecedent is Subject.OTHER else Subject.TREE
        words = (groups.get("words") or groups.get("proper") or groups.get("plural") or "").casefold()
        determiner = (groups.get("determiner") or "").casefold()
        if determiner == "another":
            return Subject.OTHER
        if any(f" {name}".endswith(f" {words}") for name in self._names if len(words) > 3):
            return Subject.TREE
        head = re.split(r"\s+", words)[-1].strip("’'-")
        if self._plural and head.endswith("s") and head[:-1] in self._kinds | _TREES:
            return Subject.TREE
        if (
            re.search(r"\b(?:first|second|other|mother|parent|another|neighbour\w*|next|earlier|previous)\b", words)
            and head not in _ITS
        ):
            return Subject.OTHER
        if head.endswith("s") and re.search(r"['’]s$", determiner) and head in _TREES:
            return Subject.OTHER
        if determiner == "its" and head in _OFFSPRING:
            return Subject.OTHER
        if determiner in (
            "another",
            "each",
            "every",
            "no",
            "some",
            "both",
            "one",
            "two",
            "three",
            "four",
            "five",
            "most",
            "many",
            "half",
            "several",
        ):
            return Subject.OTHER
        if head in _ITS and (groups.get("determiner") or "").casefold() in _PERSONAL:
            return Subject.OTHER
        return Subject.TREE if head in _TREES or head in self._kinds or head in _ITS else Subject.OTHER
