"""Public texts that name a steward whom the public edition may not name.

Looked for are the name, further names, filing name and aliases of every steward who is not public or has a
`public_name`, as whole words, across line breaks and hyphenation, with case, accents, Unicode form, and the kinds of
dash and space put aside. Chinese, Japanese and Korean names are found anywhere, since nothing marks the ends of a word
there. A name of one letter cannot be looked for. Where the words are only a part of the longer name of a steward who
may be named, nobody is given away.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from archive_tools.check.texts import Told, all_texts
from archive_tools.model.collection import Collection
from archive_tools.model.folding import Folded, fold, letters_of
from archive_tools.model.grades import Visibility
from archive_tools.model.name_search import TAG, fold_name, name_pattern, names_of, part_of_longer
from archive_tools.model.people import Steward
from archive_tools.model.problems import Problem, Reach, Severity

RULE = "withheld-name"

_NOTHING = Folded("", ())


@dataclass(frozen=True, slots=True)
class _Withheld:
    steward: Steward
    pattern: re.Pattern[str]
    letters: str
    """The letters of the name alone: a text without them in a row is not searched, because that is fast."""


def names_in_public_texts(collection: Collection) -> list[Problem]:
    """Every public text that names a steward who is not public or has a public name.

    Takes a collection whose effective visibility is set. The problems stop the public edition.
    """
    withheld = list(_withheld(collection))
    if not withheld:
        return []
    allowed = [fold_name(name) for steward in _named(collection) for name in names_of(steward)]
    problems: dict[tuple[object, str], Problem] = {}
    for told in all_texts(collection):
        # A reference by id is masked in the public edition; it is no text.
        if told.seen_by is not Visibility.PUBLIC or (not told.is_address and told.text in collection.stewards):
            continue
        letters = letters_of(TAG.sub("", told.text))
        near = [one for one in withheld if one.letters in letters]
        folded = fold(told.text) if near else _NOTHING
        for one in near:
            for match in one.pattern.finditer(folded.text):
                if not part_of_longer(folded.text, *match.span(), allowed):
                    problem = _problem(told, folded, match.start(), one.steward)
                    problems.setdefault((problem.mark, one.steward.id), problem)
    return list(problems.values())


def _is_named(steward: Steward) -> bool:
    return steward.effective is Visibility.PUBLIC and steward.public_name is None


def _named(collection: Collection) -> Iterator[Steward]:
    return (steward for steward in collection.stewards.values() if _is_named(steward))


def _withheld(collection: Collection) -> Iterator[_Withheld]:
    for steward in collection.stewards.values():
        if _is_named(steward) or steward.masked:
            continue
        for name in dict.fromkeys(fold_name(name) for name in names_of(steward)):
            pattern = name_pattern(name)
            if pattern is not None:
                yield _Withheld(steward, pattern, letters_of(name))


def _problem(told: Told, folded: Folded, start: int, steward: Steward) -> Problem:
    called = f"“{steward.public_name.say()}”, " if steward.public_name else ""
    where = "this public name" if told.is_address else "this public text"
    what = f"{where} names the steward {steward.id}, whom the public edition may not name"
    return Problem(
        mark=told.place_of(folded.came_from[start]),
        what=what,
        instead=f"{called}or `visibility: internal`, or leave the name out",
        rule=RULE,
        severity=Severity.ERROR,
        reach=Reach.RECORD,
    )
