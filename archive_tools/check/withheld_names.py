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

from archive_tools.check.folding import Folded, fold, is_unspaced, letters_of
from archive_tools.check.texts import Told, all_texts
from archive_tools.model.collection import Collection
from archive_tools.model.grades import Visibility
from archive_tools.model.people import Steward
from archive_tools.model.problems import Problem, Reach, Severity

RULE = "withheld-name"

_BREAK = r"(?:-[ \t]*\r?\n[\s>]*)?"
"""A word may be broken by a hyphen at the end of a line, and go on in the next (or in the next line of a quotation)."""

_TAG = re.compile(r"<[^<>]{0,99}>|%20")
_NOTHING = Folded("", ())
_BETWEEN = rf"(?:[\s\-_*~\\>|]|{_TAG.pattern})+"
"""What may stand between two parts of a name: spaces, dashes, line breaks, and the signs of Markdown and HTML."""

_IN_UNSPACED = r"[\s\u30fb\u00b7]*"
"""Names in Chinese and Japanese are written with a space, a middle dot or nothing between their parts."""


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
        letters = letters_of(_TAG.sub("", told.text))
        near = [one for one in withheld if one.letters in letters]
        folded = fold(told.text) if near else _NOTHING
        for one in near:
            for match in one.pattern.finditer(folded.text):
                if not _part_of_longer(folded.text, *match.span(), allowed):
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
            pattern = _pattern(name)
            if pattern is not None:
                yield _Withheld(steward, pattern, letters_of(name))


def names_of(steward: Steward) -> tuple[str, ...]:
    """Everything a steward is called."""
    filed = (steward.sort_name,) if steward.sort_name else ()
    return (*steward.name.all_texts, *(name for _, name in steward.names), *steward.aliases, *filed)


def fold_name(name: str) -> str:
    """A name as it is looked for."""
    return " ".join(fold(name).text.split())


def _pattern(name: str) -> re.Pattern[str] | None:
    if sum(1 for letter in name if letter.isalnum()) < 2:
        return None
    parts: list[str] = []
    for index, letter in enumerate(name):
        previous = name[index - 1] if index else ""
        if letter in " -":
            # "C. V." is also written "C.V."
            parts.append(_BETWEEN if previous not in ".,-" else r"[\s\-_*~]*")
            continue
        if previous and previous not in " -":
            unspaced = is_unspaced(letter) and is_unspaced(previous)
            parts.append(_IN_UNSPACED if unspaced else _BREAK if letter.isalnum() and previous.isalnum() else "")
        parts.append(re.escape(letter))
    before = "" if is_unspaced(name[0]) or not name[0].isalnum() else r"(?<![^\W_])"
    after = "" if is_unspaced(name[-1]) or not name[-1].isalnum() else r"(?![^\W_])"
    if after and " " in name:
        # A genitive without an apostrophe, as several languages write it.
        after = r"s?" + after
    return re.compile(before + "".join(parts) + after)


def _part_of_longer(text: str, start: int, end: int, allowed: list[str]) -> bool:
    """Whether the words found are only a part of the longer name of somebody who may be named."""
    found = " ".join(text[start:end].split())
    for name in allowed:
        if len(name) <= len(found) or found not in name:
            continue
        pattern = _pattern(name)
        around = text[max(0, start - len(name) - 20) : end + len(name) + 20]
        offset = start - max(0, start - len(name) - 20)
        if pattern is not None and any(
            match.start() <= offset and match.end() >= offset + (end - start) for match in pattern.finditer(around)
        ):
            return True
    return False


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
