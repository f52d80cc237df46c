"""What a clause speaks of: the tree, or something or somebody else whose years are not the tree's."""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import Enum

_TREES = frozenset(
    """tree trees bonsai penjing plant plants planting forest grove group landscape clump raft seedling seedlings cutting
    layer sapling specimen trunk yamadori one
    acacia alder apple apricot ash azalea bald-cypress banyan barberry beech birch boxwood box buttonwood camellia cedar cherry
    cotoneaster crabapple cryptomeria cypress elaeagnus elm fig fir firethorn ginkgo gorse hackberry hawthorn thorn hemlock
    hinoki holly hornbeam jasmine juniper larch lilac linden magnolia maple medlar mulberry myrtle oak olive pear persimmon
    pine plum podocarpus pomegranate potentilla privet pyracantha quince redwood rosemary rowan satsuki serissa sloe spruce
    stewartia tamarisk willow wisteria yew zelkova broom cascade literati windswept""".split()
)
_ITS = frozenset({"training", "age", "life", "care", "it", "itself", "this"})
"""What is said of these is said of the tree."""
_PERSONS = frozenset("he she they we you i who nobody somebody someone everybody everyone none one's his hers".split())
_DETERMINER = (
    r"(?:the|a|an|this|that|these|those|its|his|her|our|their|my|your|each|every|another|no|some|[\w’']+['’]s)"
)
_STOP = (
    r"(?:is|was|are|were|be|been|has|had|have|in|of|on|at|that|which|who|with|from|behind|beside|under|over|by|for|to|and|or|"
    r"does|did|do|came|comes|went|goes|stood|stands|lived|lives|began|begins|will|would|can|could|may|might|must|should|"
    r"trained|kept|grown|raised|potted|collected|struck|sown|bought|given|now|not|never|itself|then|when|where|still|since|"
    r"says?|said|shows?|arrived|joined|reached|old|more|less|about|almost|nearly|turned|dates?|entered|carried|called|reads|"
    r"bent|takes|took|holds|held|calls|travels|opened)"
)
_PREPOSITION = re.compile(
    r"(?:\b(?:of|behind|in|on|from|by|with|under|near|at|to|before|after|over|beside|against|into|through|for|like|until|"
    r"than|as|since|towards?)\s+)$",
    re.I,
)
_NOUN_PHRASE = re.compile(
    rf"\b(?:(?P<determiner>{_DETERMINER})\s+(?P<words>(?!{_STOP}\b)[\w’'-]+(?:\s+(?!{_STOP}\b)[\w’'-]+){{0,4}})|"
    rf"(?P<pronoun>it|this|he|she|they|we|you|I|who|nobody|somebody|someone|everybody|everyone)\b)",
    re.I,
)


class Subject(Enum):
    """Whom or what a clause speaks of."""

    TREE = "tree"
    OTHER = "other"
    UNSAID = "unsaid"


class SubjectFinder:
    """Knows the words by which one tree may be called besides those that are any tree's."""

    def __init__(self, names: Iterable[str] = ()) -> None:
        self._names = tuple(name.casefold() for name in names if name)

    def of_claim(self, clause: str, begin: int, end: int, antecedent: Subject) -> Subject:
        """Whose years the words clause[begin:end] tell.

        The nearest subject before them; else, where they open the clause, the first after them; else unsaid.
        """
        before = self._subjects(clause[:begin], antecedent)
        if before:
            return before[-1]
        # "Since 1953 the garden has opened on Sundays": what opens a clause is said of the subject that follows at once.
        follows = _NOUN_PHRASE.match(clause[end:].lstrip(" ,"))
        return self._of_phrase(follows, antecedent) if follows and not clause[:begin].strip() else Subject.UNSAID

    def of_sentence(self, sentence: str, antecedent: Subject) -> Subject:
        """What the sentence as a whole speaks of, for an "it" in the next."""
        found = self._subjects(sentence, antecedent)
        return found[0] if found else antecedent

    def _subjects(self, words: str, antecedent: Subject) -> list[Subject]:
        folded = words.casefold()
        named = [Subject.TREE for name in self._names if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", folded)]
        found: list[Subject] = []
        for phrase in _NOUN_PHRASE.finditer(words):
            before = words[: phrase.start()]
            if _PREPOSITION.search(before) or (found and before.endswith(", ")):
                # "behind it" is no subject, and "its neighbour, a hornbeam," has named its subject already.
                continue
            found.append(self._of_phrase(phrase, antecedent))
        return found or named[:1]

    def _of_phrase(self, phrase: re.Match[str], antecedent: Subject) -> Subject:
        if phrase["pronoun"]:
            pronoun = phrase["pronoun"].casefold()
            if pronoun in _PERSONS:
                return Subject.OTHER
            return Subject.OTHER if antecedent is Subject.OTHER else Subject.TREE
        words = phrase["words"].casefold()
        if any(name.endswith(words) or words in name for name in self._names if len(words) > 3):
            return Subject.TREE
        head = re.split(r"\s+", words)[-1].strip("’'-")
        return Subject.TREE if head in _TREES or head in _ITS else Subject.OTHER
