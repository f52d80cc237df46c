"""Which texts are read for claims of years, of which tree they speak, and as of which day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.dates import DatePolicy
from archive_tools.model.findings import ProseClaim, TreeChronology, Verdict
from archive_tools.model.places_in_files import Mark
from archive_tools.model.tree import Tree
from archive_tools.model.words import Words
from archive_tools.reason.prose.claims import Claim, claims_in
from archive_tools.reason.prose.sentences import sentences
from archive_tools.reason.prose.subjects import Subject, SubjectFinder
from archive_tools.reason.prose.verdicts import verdict


@dataclass(frozen=True, slots=True)
class Told:
    """One text: of which tree, where it begins, and the day as of which it speaks.

    `right_on`: the day on which a label was last known to be right; a claim that was right then has gone stale.
    `house`: the names of the custodian; who "came to" one of them "came to us".
    """

    tree: Tree
    text: str
    mark: Mark
    day: date
    right_on: date | None = None
    house: tuple[str, ...] = ()


def read_prose(
    collection: Collection, chronologies: Mapping[str, TreeChronology], as_of: date
) -> tuple[ProseClaim, ...]:
    """The claims of years in labels, talking points, notes, tours and talks that the evidence does not bear out.

    Labels and what is spoken are compared as of `as_of`, dated notes as of their own day, both by today's evidence. A tree
    whose dates are under review has no bounds to compare with, so its texts are left alone.
    """
    found = []
    house = house_names(collection)
    for told in _texts(collection, as_of):
        chronology = chronologies.get(told.tree.accession)
        if chronology is not None and not chronology.under_review:
            judged = judge(replace(told, house=house), chronology, collection.settings.dates)
            found += [claim for claim in judged if claim.verdict is not Verdict.SUPPORTED]
    return tuple(found)


def judge(told: Told, chronology: TreeChronology, policy: DatePolicy) -> list[ProseClaim]:
    """Every claim of one text with its verdict, the supported ones too."""
    judged = []
    for line, claim in _claims(told, told.day, policy):
        found = chronology.milestones[claim.about]
        outcome = verdict(claim, found)
        if outcome is not Verdict.SUPPORTED and told.right_on is not None and told.right_on < told.day:
            then = [
                c for _, c in _claims(told, told.right_on, policy) if (c.words, c.about) == (claim.words, claim.about)
            ]
            if any(verdict(c, chronology.milestones[c.about]) is Verdict.SUPPORTED for c in then):
                outcome = Verdict.STALE
        mark = Mark(told.mark.file, told.mark.line + line if told.mark.line else None)
        judged.append(ProseClaim(mark, claim.words, claim.about, outcome, found.wording))
    return judged


def _claims(told: Told, day: date, policy: DatePolicy) -> Iterator[tuple[int, Claim]]:
    finder = SubjectFinder(
        _names(told.tree), told.tree.taxon, told.house, _english(told.tree.name), told.tree.is_planting
    )
    antecedent = Subject.UNSAID
    for sentence in sentences(told.text):
        if sentence.begins_paragraph:
            antecedent = Subject.UNSAID
        for claim in claims_in(sentence, day, policy, finder, antecedent):
            yield sentence.line, claim
        antecedent = finder.of_sentence(sentence.text, antecedent)


def _names(tree: Tree) -> Iterator[str]:
    yield tree.accession
    yield from tree.form
    for words in (tree.name, tree.common_name):
        yield from words.all_texts if words else ()
    for taxon in tree.taxon:
        yield taxon
        yield taxon.split(" ", maxsplit=1)[0]


def house_names(collection: Collection) -> tuple[str, ...]:
    """What the custodian is called in English."""
    steward = collection.stewards.get(collection.settings.custodian)
    return tuple(dict.fromkeys([*_english(collection.settings.name), *_english(steward.name if steward else None)]))


def _texts(collection: Collection, as_of: date) -> Iterator[Told]:
    for tree in collection.trees.values():
        written = tree.label_written.latest if tree.label_written else None
        for key in ("label", "talking_points"):
            words: Words | None = getattr(tree, key)
            for text in _english(words):
                yield Told(tree, text, tree.where.at(key), as_of, written)
        for note in tree.notes:
            if note.when is not None and note.when.latest is not None:
                yield Told(tree, note.body, Mark(note.path, note.body_line), note.when.latest)
    for tour in collection.tours.values():
        for stop in tour.stops:
            if stop.tree is not None and stop.tree in collection.trees:
                for text in _english(stop.text):
                    yield Told(collection.trees[stop.tree], text, stop.where.at("text"), as_of)
    for talk in collection.talks.values():
        for section in talk.sections:
            if len(section.trees) == 1 and section.trees[0] in collection.trees:
                for text in _english(section.text):
                    yield Told(collection.trees[section.trees[0]], text, section.where.at("text"), as_of)


def _english(words: Words | None) -> Iterator[str]:
    for language, text in words.by_language if words else ():
        if language.split("-", maxsplit=1)[0] in ("", "en"):
            yield text
